"""Two marks that say the same item say the same of it, and so does the claim.

A plate that reads 5501?3 and a frame that reads 550123 agree at the five places
that both show. A plate coded 14 and a card coded MG agree when the book gives
both codes the value moss-green. Two date codes agree where the days they may
mean overlap. A mark that is worn away or empty is compared with nothing.
"""

from itertools import combinations

from witnessmark.agreement.items import claimed, showings
from witnessmark.agreement.phrases import (
    finding,
    listed,
    place_text,
    says,
    sentence,
    subject,
    why_nothing,
)
from witnessmark.agreement.records import CarMarks, Finding, Outcome
from witnessmark.agreement.shares import Comparison, compare_two
from witnessmark.agreement.showing import Showing, weakest
from witnessmark.codebook.records import ItemKind

RULE = "same_item_on_two_marks"


def compare(car: CarMarks) -> tuple[Finding, ...]:
    """One finding for every two marks, and every mark and the claim, that say one item."""
    findings: list[Finding] = []
    for item in car.book.items:
        on_car = showings(car, item.id)
        claim = claimed(car, item.id)
        findings.extend(_pair(first, second) for first, second in combinations(on_car, 2))
        if claim is not None:
            findings.extend(_pair(showing, claim) for showing in on_car)
    return tuple(findings)


def _pair(first: Showing, second: Showing) -> Finding:
    comparison = compare_two(first, second)
    return finding(
        RULE,
        first.item.id,
        comparison.outcome,
        (subject(first), subject(second)),
        _observation(first, second, comparison),
        _inference(first, second, comparison.outcome),
        weakest(*first.grounds(), *second.grounds()),
        agreement_share=comparison.share,
    )


def _observation(first: Showing, second: Showing, comparison: Comparison) -> str:
    clauses = (
        says(each) if each.is_read and not each.is_empty else why_nothing(each)
        for each in (first, second)
    )
    text = sentence(f"{first.item.name}: {'; '.join(clauses)}")
    if first.item.kind is not ItemKind.NUMBER or comparison.share is None:
        return text
    return f"{text} {_places(first, second, comparison)}"


def _places(first: Showing, second: Showing, comparison: Comparison) -> str:
    """Where the two numbers differ, or at how many places they can be compared."""
    shown = [place.from_end for place in first.places + second.places]
    length = first.item.length or max(shown) + 1
    if comparison.differing:
        where = (
            f"{place_text(from_end, length)} ({_sign(first, from_end)} and "
            f"{_sign(second, from_end)})"
            for from_end in comparison.differing
        )
        return f"They differ at {listed(where)}."
    count = len(comparison.both)
    places = "one place" if count == 1 else f"{count} places"
    text = f"Nothing differs at the {places} that both show."
    if comparison.open_at:
        where = (
            f"{place_text(at, length)} ({_sign(first, at)} and {_sign(second, at)})"
            for at in comparison.open_at
        )
        text = f"{text} Left open: {listed(where)}."
    return text


def _sign(showing: Showing, from_end: int) -> str:
    place = showing.place(from_end)
    return place.signs if place is not None else "nothing"


def _inference(first: Showing, second: Showing, outcome: Outcome) -> str:
    name = first.item.name
    one = f"the {name} that is claimed" if second.is_claim else f"one {name} on both"
    match outcome:
        case Outcome.AGREE:
            return f"This is consistent with {one}."
        case Outcome.DIFFER:
            return f"This is not consistent with {one}."
        case Outcome.UNDECIDED:
            return f"I could not determine from these readings whether this is {one}."
        case Outcome.SILENT:
            return "There is nothing here that can be compared."
