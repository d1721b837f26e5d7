"""How what a mark reads stands to what is claimed: one outcome, in one word on every page."""

from witnessmark.agreement.records import Outcome
from witnessmark.agreement.showing import CLAIM
from witnessmark.catalogue import as_said, marked, said
from witnessmark.reading.records import CellKind, Reading
from witnessmark.report.sections.matter import Matter

_FIRMEST = (Outcome.DIFFER, Outcome.UNDECIDED, Outcome.AGREE, Outcome.SILENT)
_AGAINST_CLAIM = {
    Outcome.DIFFER: marked("It differs from what is claimed."),
    Outcome.UNDECIDED: marked("What can be read leaves open whether it fits the claim."),
    Outcome.AGREE: marked("What can be read fits the claim."),
    Outcome.SILENT: marked("It could not be set against the claim."),
}
_READS = {
    Outcome.UNDECIDED: marked(
        "The {mark} reads {typed}; what can be read leaves open whether it fits the claim."
    ),
    Outcome.AGREE: marked("The {mark} reads {typed}; what can be read fits the claim."),
}

_SURE = (CellKind.CLEAR, CellKind.NEVER_STRUCK)


def beside_claim(matter: Matter, mark: str) -> Outcome | None:
    """The outcome that says most of this mark against the claim; None where nothing is claimed of
    it, or what differs was declared and found so."""
    found = {
        each.outcome
        for each in matter.opinion.findings
        if {mark, CLAIM} <= {subject.mark for subject in each.subjects}
        if not matter.opinion.is_as_declared(each)
    }
    return next((outcome for outcome in _FIRMEST if outcome in found), None)


def marks_beside_claim(matter: Matter, marks: set[str]) -> str:
    """How these marks stand to the claim, those apart by name; empty where nothing is claimed of
    any."""
    found: dict[Outcome, list[str]] = {}
    for mark in sorted(marks, key=matter.names.mark):
        if (outcome := beside_claim(matter, mark)) is not None:
            found.setdefault(outcome, []).append(matter.names.mark(mark))
    speaking = [outcome for outcome in _FIRMEST[:-1] if outcome in found]
    if len(speaking) < 2:
        return "".join(as_said(_AGAINST_CLAIM[each]) for each in speaking or found)
    return " ".join(
        said(
            "{marks}: {told}",
            marks="; ".join(found[outcome]),
            told=as_said(_AGAINST_CLAIM[outcome]),
        )
        for outcome in speaking
    )


def reads_beside_claim(matter: Matter, reading: Reading) -> str:
    """What a mark reads, and whether that is as claimed; empty where it is not, or unclaimed."""
    outcome, mark = beside_claim(matter, reading.mark), matter.names.mark(reading.mark)
    if outcome not in _READS:
        return ""
    if outcome is Outcome.AGREE and all(each.kind in _SURE for each in reading.cells):
        return said("The {mark} reads {typed}, as claimed.", mark=mark, typed=reading.as_typed)
    return as_said(_READS[outcome], mark=mark, typed=reading.as_typed)
