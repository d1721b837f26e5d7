"""What was found, assembly by assembly: each place beside its photograph, what was observed
before what it says, and who read it."""

from collections.abc import Iterator

from witnessmark.agreement.records import Outcome
from witnessmark.casefile.records import Casefile, LookSeen
from witnessmark.casefile.site_entries import UNSEEN
from witnessmark.catalogue import said
from witnessmark.codebook.marks import MarkKind
from witnessmark.decoding.records import Decoding
from witnessmark.outline.records import (
    Block,
    Columns,
    Heading,
    Paragraph,
    Pictures,
    Section,
    Table,
    TableCell,
    Together,
)
from witnessmark.report.sections.claimed import marks_beside_claim
from witnessmark.report.sections.matter import STORY, Matter
from witnessmark.report.sections.reading import meaning_cell, noted_of, who_read
from witnessmark.report.sections.seen import seen_by
from witnessmark.weighing import MisfitKind
from witnessmark.wording import misfit_sentence, misfits_beside, place_sentence, term
from witnessmark.wording.amounts import capital, clause, in_numbers, sentence
from witnessmark.wording.case_words import feature_word, look_word, signer_name
from witnessmark.wording.sites import marks_otherwise


def found_section(matter: Matter) -> Section:
    """Every place that was looked at and every paper that was read, under its assembly."""
    blocks: list[Block] = []
    title = said("What was found")
    under = ""
    for name, place in sorted(_places(matter), key=lambda each: _order(matter, each[0])):
        if name != under:
            blocks.append(Heading(capital(name)))
            under = name
        blocks.append(place)
    if not blocks:
        blocks.append(Paragraph(said("No mark was read.")))
    signs = said(
        "Characters stand as they were typed on the day: “?” is worn away, “[38]” a 3 or an 8, “~” "
        "ground, filled or struck over, “_” never struck."
    )
    return Section(title, (Paragraph(signs, "lead"), *blocks))


def _order(matter: Matter, name: str) -> int:
    names = [matter.names.assembly(each.id) for each in matter.book.assemblies]
    return names.index(name) if name in names else len(names)


def _places(matter: Matter) -> Iterator[tuple[str, Block]]:
    """Each place, and each paper, with the name of its assembly."""
    placed = set()
    for place in matter.opinion.places:
        marks = list(place.marks)
        placed.update(marks)
        looks = [each for each in matter.case.looks if each.site == place.site]
        decodings = [each for each in matter.opinion.decodings if each.mark in marks]
        if place.state in UNSEEN:
            continue
        told = said(
            "{number} {place}: {state}",
            number=place.number,
            place=capital(place.name),
            state=term(place.state),
        )
        alike = [each for each in place.outcomes if each.state is place.state]
        reasons = [place_sentence(each.attachment, each.reason) for each in alike]
        reasons += marks_otherwise(place)
        body = _told(matter, told, (place.site, *marks), decodings, looks, reasons)
        yield _assembly(matter, marks), body
    papers = dict.fromkeys(
        each.mark for each in matter.opinion.decodings if each.mark not in placed
    )
    for mark in papers:
        decodings = [each for each in matter.opinion.decodings if each.mark == mark]
        body = _told(matter, capital(matter.names.mark(mark)), (mark,), decodings, [], [])
        declared = matter.book.mark(mark)
        is_paper = declared is None or declared.kind is MarkKind.PAPER
        yield said("papers") if is_paper else _assembly(matter, [mark]), body


def _assembly(matter: Matter, marks: list[str]) -> str:
    found = (matter.book.mark(mark) for mark in marks)
    own = next((mark.assembly for mark in found if mark is not None and mark.assembly), "")
    return matter.names.assembly(own) if own else said("plates and other marks")


def _told(
    matter: Matter,
    title: str,
    about: tuple[str, ...],
    decodings: list[Decoding],
    looks: list[LookSeen],
    reasons: list[str],
) -> Block:
    """One place beside its first photograph: as read, how the metal looks, what follows."""
    shown = matter.at(*about)
    blocks: list[Block] = [Paragraph(matter.citing(title, shown).rstrip("."), "strong")]
    blocks.extend(Paragraph(each) for each in dict.fromkeys(reasons) if each)
    if decodings:
        blocks.append(_readings(matter, decodings))
    if looks:
        blocks.extend(map(Paragraph, _looks(looks, matter.case)))
    blocks.append(Paragraph(_follows(matter, about), "quiet"))
    if not shown:
        return Together(tuple(blocks))
    pictures = Pictures(tuple(matter.photograph(each) for each in shown[:1]))
    return Together((Columns((pictures,), tuple(blocks), (1.0, 2.1)),))


def _readings(matter: Matter, decodings: list[Decoding]) -> Table:
    """As read and what it says; readings that are the same stand once, with all who read it."""
    alike: dict[tuple[str, str], list[Decoding]] = {}
    for each in decodings:
        alike.setdefault((each.mark, each.reading.normalised), []).append(each)
    has_several = len({mark for mark, _ in alike}) > 1
    rows = []
    for (mark, _), same in alike.items():
        who = tuple(dict.fromkeys(who_read(matter.case, each) for each in same))
        name = (capital(matter.names.mark(mark)),) if has_several else ()
        notes = (noted_of(matter.case, each) for each in same)
        below = (*name, *who, *(sentence(n.note) for n in notes if n and n.note))
        typed = same[0].reading.as_typed
        rows.append((TableCell(typed, below, mono=True), meaning_cell(same[0], matter.names)))
    return Table((), tuple(rows), (1.0, 1.25), is_dense=True)


def _looks(looks: list[LookSeen], case: Casefile) -> Iterator[str]:
    """How the metal looks, in a sentence for each who saw it and how."""
    by_whom: dict[str, list[str]] = {}
    for each in looks:
        who = seen_by(each.seen, signer_name(each.by, case), None)
        who = who or said("somebody not named")
        again = said("looked at again") if each.again else ""
        told = said(
            "{feature}: {outcome}",
            feature=feature_word(each.feature),
            outcome=". ".join(filter(None, (look_word(each.outcome), clause(each.note), again))),
        )
        by_whom.setdefault(who, []).append(told)
    for who, parts in by_whom.items():
        yield said("How the metal looks ({who}): {told}.", who=who, told="; ".join(parts))


def _follows(matter: Matter, about: tuple[str, ...]) -> str:
    """What the observation says: what of it is a matter for the authority or does not fit, else
    how it stands to the claim, and to the other marks where nothing is claimed."""
    answer, marks = matter.opinion.answer, set(about)
    if stops := [sentence(each.sentence) for each in answer.stops if each.about in marks]:
        return " ".join(stops)
    misfits = [each for each in misfits_beside(answer) if marks.intersection(each.about)]
    if len(misfits) > 1:
        points = in_numbers(misfits_beside(answer).index(each) + 1 for each in misfits)
        if all(each.kind is MisfitKind.DECLARED for each in misfits):
            return said(
                "As declared beforehand: section {section}, points {points}.",
                section=STORY,
                points=points,
            )
        return said(
            "It does not fit: section {section}, points {points}.", section=STORY, points=points
        )
    if misfits:
        return misfit_sentence(misfits[0])
    return _compared(matter, marks)


def _compared(matter: Matter, marks: set[str]) -> str:
    """How it stands to the claim, and to the other marks where nothing is claimed; a part that
    was declared and found so as declared."""
    beside = [
        (each, {subject.mark for subject in each.subjects})
        for each in matter.opinion.findings
        if len(each.subjects) > 1
    ]
    found = [(each, others) for each, others in beside if marks & others]
    own = [(e.outcome, others) for e, others in found if not matter.opinion.is_as_declared(e)]
    if len(own) < len(found) and marks.intersection(matter.opinion.declared):
        return said("It differs, as was declared beforehand of this part.")
    if found and not own:
        return said("It differs only from a part of which that was declared beforehand.")
    if told := marks_beside_claim(matter, marks):
        return told
    outcomes = {outcome for outcome, _ in own}
    if Outcome.DIFFER in outcomes:
        apart = {m for outcome, others in own if outcome is Outcome.DIFFER for m in others - marks}
        return said(
            "It differs from: {marks}.", marks="; ".join(sorted(map(matter.names.mark, apart)))
        )
    if Outcome.AGREE in outcomes:
        return said("It agrees with other marks; nothing is claimed of it.")
    return said("Nothing else speaks of what stands here.")
