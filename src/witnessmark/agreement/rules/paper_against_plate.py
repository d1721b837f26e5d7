"""The codes and numbers of a paper are those of the plates.

One finding for each paper lists what agrees, what differs and what is open. A paper copied from
another mark is said to repeat it and is not a second witness. So a card that follows its car
except in the engine number is seen as just that, and not as a heap of single findings; a copy
can repeat a fault.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from witnessmark.agreement.items import all_showings, shown_on
from witnessmark.agreement.phrases import (
    NOTHING_TO_COMPARE,
    all_of,
    finding,
    item_clause,
    says,
    sentence,
    subject,
    the_named,
)
from witnessmark.agreement.records import AgreementRule, CarMarks, Finding, FindingKind, Outcome
from witnessmark.agreement.shares import Comparison, compare_two
from witnessmark.agreement.showing import Showing, weakest
from witnessmark.catalogue import as_said, in_a_row, marked, said
from witnessmark.codebook import Mark, MarkKind

RULE = AgreementRule(__name__, marked("paper against plate"), FindingKind.PAPER, rank=20)

INFERENCES = {
    Outcome.AGREE: marked("The {paper} is consistent with {plates} in what both show."),
    Outcome.DIFFER: marked("The {paper} is not consistent with {plates} where they differ."),
    Outcome.UNDECIDED: marked("I could not determine whether the {paper} agrees with {plates}."),
    Outcome.SILENT: NOTHING_TO_COMPARE,
}
ECHO = marked("It repeats what it was copied from and is not a second witness.")


@dataclass(frozen=True, slots=True)
class _PaperAndPlate:
    """One item on the paper and on a plate."""

    paper: Showing
    plate: Showing
    comparison: Comparison


def compare(car: CarMarks) -> tuple[Finding, ...]:
    """One finding for each paper that was read and shares an item with a plate that was read."""
    plates = [showing for showing in all_showings(car) if showing.kind is MarkKind.PLATE]
    findings = []
    for mark in car.book.marks:
        if mark.kind is not MarkKind.PAPER:
            continue
        pairs = tuple(
            _PaperAndPlate(paper, plate, compare_two(paper, plate))
            for paper in shown_on(car, mark.id)
            for plate in plates
            if plate.item.id == paper.item.id and not plate.item.many
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
    echo, plates = _echo(car, mark), _plates(pairs, outcome)
    inference = as_said(INFERENCES[outcome], paper=mark.name, plates=plates)
    return finding(
        RULE,
        mark.id,
        outcome,
        subjects=tuple(shown),
        observation=in_a_row(filter(None, (*_observation(mark, pairs), echo))),
        inference=in_a_row((inference, as_said(ECHO))) if echo else inference,
        citation=weakest(*(grounds or [mark.citation])),
        agreement_share=min(shares, default=None),
    )


def _outcome(pairs: tuple[_PaperAndPlate, ...]) -> Outcome:
    """One difference makes the paper differ; nothing comparable leaves it silent."""
    found = {pair.comparison.outcome for pair in pairs}
    worst_first = (Outcome.DIFFER, Outcome.UNDECIDED, Outcome.AGREE)
    return next((each for each in worst_first if each in found), Outcome.SILENT)


def _observation(mark: Mark, pairs: tuple[_PaperAndPlate, ...]) -> Iterator[str]:
    yield said("On the {paper}:", paper=mark.name)
    if agreeing := _names(pairs, Outcome.AGREE):
        plates = _plates(pairs, Outcome.AGREE)
        yield said("{items} as on {plates}.", items=agreeing, plates=plates)
    for pair in pairs:
        if pair.comparison.outcome is Outcome.DIFFER:
            clauses = in_a_row((says(pair.paper), says(pair.plate)), "; ")
            yield sentence(item_clause(pair.paper, clauses))
    if left_open := _names(pairs, Outcome.UNDECIDED):
        yield said("Left open by the readings: {items}.", items=left_open)
    if silent := _names(pairs, Outcome.SILENT):
        yield said("Nothing to compare: {items}.", items=silent)


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
