"""The codes and numbers of a paper are those of the plates.

One finding a paper, listing what agrees, what differs and what is open. A paper copied from
another mark is named as its echo and no second witness. So a card that follows its car except
in the engine number is seen as that, and not as a heap of single findings; an echo can repeat
a fault.
"""

from dataclasses import dataclass

from witnessmark.agreement.items import shown_on
from witnessmark.agreement.phrases import (
    all_of,
    finding,
    item_clause,
    nothing_to_compare,
    says,
    sentence,
    subject,
    the_named,
)
from witnessmark.agreement.records import AgreementRule, CarMarks, Finding, FindingKind, Outcome
from witnessmark.agreement.shares import Comparison, compare_two
from witnessmark.agreement.showing import Showing, weakest
from witnessmark.catalogue import in_a_row, marked, said
from witnessmark.codebook.marks import Mark, MarkKind

RULE = AgreementRule(__name__, marked("paper against plate"), FindingKind.PAPER, rank=20)


@dataclass(frozen=True, slots=True)
class _PaperAndPlate:
    """One item on the paper and on a plate."""

    paper: Showing
    plate: Showing
    comparison: Comparison


def compare(car: CarMarks) -> tuple[Finding, ...]:
    """One finding for each paper that was read and shares an item with a plate that was read."""
    plates = [
        showing
        for mark in car.book.marks
        if mark.kind is MarkKind.PLATE
        for showing in shown_on(car, mark)
    ]
    findings = []
    for mark in car.book.marks:
        if mark.kind is not MarkKind.PAPER:
            continue
        pairs = tuple(
            _PaperAndPlate(paper, plate, compare_two(paper, plate))
            for paper in shown_on(car, mark)
            for plate in plates
            if plate.item.id == paper.item.id
        )
        if pairs:
            findings.append(_paper(car, mark, pairs))
    return tuple(findings)


def _paper(car: CarMarks, mark: Mark, pairs: tuple[_PaperAndPlate, ...]) -> Finding:
    outcome = _outcome(pairs)
    telling = [pair for pair in pairs if pair.comparison.share is not None]
    shares = [pair.comparison.share for pair in telling if pair.comparison.share is not None]
    grounds = [c for pair in telling for c in (*pair.paper.grounds(), *pair.plate.grounds())]
    shown = dict.fromkeys(
        subject(showing) for pair in pairs for showing in (pair.paper, pair.plate)
    )
    echo = _echo(car, mark)
    return finding(
        RULE,
        mark.id,
        outcome,
        subjects=tuple(shown),
        observation=in_a_row(filter(None, (_observation(mark, pairs), echo))),
        inference=_inference(mark, pairs, outcome, bool(echo)),
        citation=weakest(*(grounds or [mark.citation])),
        agreement_share=min(shares, default=None),
    )


def _outcome(pairs: tuple[_PaperAndPlate, ...]) -> Outcome:
    """One difference makes the paper differ; nothing comparable leaves it silent."""
    found = {pair.comparison.outcome for pair in pairs}
    for outcome in (Outcome.DIFFER, Outcome.UNDECIDED, Outcome.AGREE):
        if outcome in found:
            return outcome
    return Outcome.SILENT


def _observation(mark: Mark, pairs: tuple[_PaperAndPlate, ...]) -> str:
    parts = [said("Of the {paper}:", paper=mark.name)]
    agreeing = _names(pairs, Outcome.AGREE)
    if agreeing:
        plates = _plates(pairs, Outcome.AGREE)
        parts.append(said("{items} as on {plates}.", items=agreeing, plates=plates))
    for pair in pairs:
        if pair.comparison.outcome is Outcome.DIFFER:
            clauses = in_a_row((says(pair.paper), says(pair.plate)), "; ")
            parts.append(sentence(item_clause(pair.paper, clauses)))
    left_open = _names(pairs, Outcome.UNDECIDED)
    if left_open:
        parts.append(said("Left open by the readings: {items}.", items=left_open))
    silent = _names(pairs, Outcome.SILENT)
    if silent:
        parts.append(said("Nothing to compare: {items}.", items=silent))
    return in_a_row(parts)


def _names(pairs: tuple[_PaperAndPlate, ...], outcome: Outcome) -> str:
    """The items that came out so, in a row; empty where none did."""
    found = (pair.paper.item.name for pair in pairs if pair.comparison.outcome is outcome)
    return in_a_row(dict.fromkeys(found), ", ")


def _echo(car: CarMarks, mark: Mark) -> str:
    """What the paper was copied from, in a sentence, or an empty text."""
    origins = sorted(
        {
            paper.copied_from
            for paper in car.casefile.papers
            if paper.mark == mark.id and paper.copied_from
        }
    )
    if not origins:
        return ""
    names = [origin.name if (origin := car.book.mark(o)) else o for o in origins]
    sources = all_of(said("the {mark}", mark=name) for name in names)
    return said("The {mark} was copied from {sources}.", mark=mark.name, sources=sources)


def _plates(pairs: tuple[_PaperAndPlate, ...], outcome: Outcome) -> str:
    """The plates on which something came out so."""
    found = (pair.plate for pair in pairs if pair.comparison.outcome is outcome)
    return all_of(dict.fromkeys(map(the_named, found)))


def _inference(
    mark: Mark, pairs: tuple[_PaperAndPlate, ...], outcome: Outcome, is_echo: bool
) -> str:
    parts = [_told(mark.name, _plates(pairs, outcome), outcome)]
    if is_echo:
        parts.append(said("It is an echo of what it was copied from and no second witness."))
    return in_a_row(parts)


def _told(paper: str, plates: str, outcome: Outcome) -> str:
    match outcome:
        case Outcome.AGREE:
            return said(
                "The {paper} is consistent with {plates} in what both show.",
                paper=paper,
                plates=plates,
            )
        case Outcome.DIFFER:
            return said(
                "The {paper} is not consistent with {plates} in what differs.",
                paper=paper,
                plates=plates,
            )
        case Outcome.UNDECIDED:
            return said(
                "I could not determine whether the {paper} says what {plates} says.",
                paper=paper,
                plates=plates,
            )
        case Outcome.SILENT:
            return nothing_to_compare()
