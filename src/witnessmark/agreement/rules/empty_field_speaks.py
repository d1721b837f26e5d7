"""A field that was never struck says what the book says of it, and no more.

It is set against the claim and against other marks. An empty field is never taken for a worn
one. An empty window for extras may mean that none were ordered: where the claim or another
mark names extras, it differs from them. Where the book does not say what an empty field means,
the rule is silent.
"""

from witnessmark.agreement.items import claimed, showings, shown_on
from witnessmark.agreement.phrases import all_of, finding, says, sentence, subject, the_named
from witnessmark.agreement.records import AgreementRule, CarMarks, Finding, FindingKind, Outcome
from witnessmark.agreement.shares import code_share, outcome_of
from witnessmark.agreement.showing import Showing, weakest
from witnessmark.catalogue import in_a_row, marked, said

RULE = AgreementRule(__name__, marked("empty field speaks"), FindingKind.ITEM, rank=90)


def compare(car: CarMarks) -> tuple[Finding, ...]:
    """One finding for every field that was visibly left empty."""
    return tuple(
        _empty(car, showing)
        for mark in car.book.marks
        for showing in shown_on(car, mark)
        if showing.is_empty
    )


def _empty(car: CarMarks, showing: Showing) -> Finding:
    others = _others(car, showing) if showing.values else ()
    shares = {other: code_share(showing, other) for other in others}
    compared = {other: share for other, share in shares.items() if share is not None}
    lowest = min(compared.values(), default=None)
    outcome = Outcome.SILENT if lowest is None else outcome_of(lowest)
    named = [other for other, share in compared.items() if outcome_of(share) is outcome]
    return finding(
        RULE,
        showing.item.id,
        outcome,
        subjects=(subject(showing), *(subject(other) for other in named)),
        observation=_observation(showing, named),
        inference=_inference(showing, named, outcome),
        citation=weakest(*showing.grounds(), *(c for other in named for c in other.grounds())),
        agreement_share=lowest,
    )


def _others(car: CarMarks, showing: Showing) -> tuple[Showing, ...]:
    """Whatever else says this item: other marks, and the claim."""
    claim = claimed(car, showing.item.id)
    on_car = [s for s in showings(car, showing.item.id) if s.mark != showing.mark and s.values]
    return (*on_car, *(() if claim is None or not claim.values else (claim,)))


def _observation(showing: Showing, named: list[Showing]) -> str:
    parts = [sentence(says(showing))]
    if showing.values:
        meaning = sentence(showing.values[0].meaning)
        parts.append(said("By the book an empty field says: {meaning}", meaning=meaning))
    if named:
        parts.append(sentence(in_a_row((says(other) for other in named), "; ")))
    return in_a_row(parts)


def _inference(showing: Showing, named: list[Showing], outcome: Outcome) -> str:
    others = all_of(the_named(other) for other in named)
    match outcome:
        case Outcome.AGREE:
            return said("The empty field is consistent with {others}.", others=others)
        case Outcome.DIFFER:
            return said("The empty field is not consistent with {others}.", others=others)
        case Outcome.UNDECIDED:
            return said(
                "I could not determine whether the empty field and {others} say the same.",
                others=others,
            )
        case Outcome.SILENT if showing.values:
            return said("Nothing else speaks of the {item}.", item=showing.item.name)
        case Outcome.SILENT:
            return said("The book does not say what an empty field means here, so it says nothing.")
