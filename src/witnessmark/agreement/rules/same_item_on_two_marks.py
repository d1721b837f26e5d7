"""Two marks that bear the same item say the same of it, and so does the claim.

Numbers are compared place by place where both can be read, "last 4" with the last four of the
whole; codes by what they mean, so that two alphabets can agree; dates by whether the days they
may mean overlap. A mark that is worn away, empty or typed a character short is compared with
nothing, and so is a code that the book does not list, except within its own table. A plate that
reads 5501?3 and a frame that reads 550123 agree at the five places that both show; so do a
plate coded 14 and a card coded MG if the book gives both codes the value moss-green. Of an item
of which a car has several codes, such as its equipment, each stands for itself.
"""

from collections.abc import Iterator
from itertools import combinations, product

from witnessmark.agreement.items import claimed, each_claimed, showings
from witnessmark.agreement.phrases import (
    NOTHING_TO_COMPARE,
    all_of,
    finding,
    item_clause,
    place_text,
    says,
    sentence,
    subject,
    why_nothing,
)
from witnessmark.agreement.records import AgreementRule, CarMarks, Finding, FindingKind, Outcome
from witnessmark.agreement.shares import Comparison, compare_two
from witnessmark.agreement.showing import Showing, weakest
from witnessmark.catalogue import as_said, counted, in_a_row, marked, said
from witnessmark.codebook import ItemKind

RULE = AgreementRule(__name__, marked("same item on two marks"), FindingKind.ITEM, rank=10)

AGAINST_CLAIM = {
    Outcome.AGREE: marked("This is consistent with the claimed {item}."),
    Outcome.DIFFER: marked("This is not consistent with the claimed {item}."),
    Outcome.UNDECIDED: marked(
        "I could not determine from these readings whether this is the claimed {item}."
    ),
    Outcome.SILENT: NOTHING_TO_COMPARE,
}
AGAINST_MARK = {
    Outcome.AGREE: marked("This is consistent with the same {item} on both."),
    Outcome.DIFFER: marked("This is not consistent with the same {item} on both."),
    Outcome.UNDECIDED: marked(
        "I could not determine from these readings whether both bear the same {item}."
    ),
    Outcome.SILENT: NOTHING_TO_COMPARE,
}


def compare(car: CarMarks) -> tuple[Finding, ...]:
    """One finding for every two marks, and every mark and the claim, that say one item."""
    findings: list[Finding] = []
    for item in car.book.items:
        on_car = showings(car, item.id)
        if item.many:
            findings.extend(_borne_out(on_car, each_claimed(car, item.id)))
            continue
        claim = claimed(car, item.id)
        pairs = [pair for pair in combinations(on_car, 2) if not _are_two_parts(car, *pair)]
        findings.extend(_pair(first, second) for first, second in pairs)
        if claim is not None:
            findings.extend(_pair(showing, claim) for showing in on_car)
    return tuple(findings)


def _borne_out(on_car: tuple[Showing, ...], claims: tuple[Showing, ...]) -> Iterator[Finding]:
    """Each claimed value of several with each field that shows it: others do not speak of it."""
    for claim, showing in product(claims, on_car):
        pair = _pair(showing, claim)
        if pair.outcome is Outcome.AGREE:
            yield pair


def _are_two_parts(car: CarMarks, first: Showing, second: Showing) -> bool:
    """Are they two forms of mark that a further book has at one place? Tires and panes stand
    there several times, each made by itself."""
    one, other = (car.book.mark(each.mark) for each in (first, second))
    if one is None or other is None or not one.book:
        return False
    return (one.book, one.site) == (other.book, other.site)


def _pair(first: Showing, second: Showing) -> Finding:
    comparison = compare_two(first, second)
    inferences = AGAINST_CLAIM if second.is_claim else AGAINST_MARK
    return finding(
        RULE,
        first.item.id,
        comparison.outcome,
        subjects=(subject(first), subject(second)),
        observation=_observation(first, second, comparison),
        inference=as_said(inferences[comparison.outcome], item=first.item.name),
        citation=weakest(*first.grounds(), *second.grounds()),
        agreement_share=comparison.share,
    )


def _observation(first: Showing, second: Showing, comparison: Comparison) -> str:
    clauses = (
        says(each) if each.is_read and not each.is_empty else why_nothing(each)
        for each in (first, second)
    )
    text = sentence(item_clause(first, in_a_row(clauses, "; ")))
    if first.item.kind is not ItemKind.NUMBER or comparison.share is None:
        return text
    return in_a_row((text, _places(first, second, comparison)))


def _places(first: Showing, second: Showing, comparison: Comparison) -> str:
    """Where the two numbers differ, or at how many places they can be compared."""
    length = max(first.places_told, second.places_told)
    if comparison.differing:
        where = _where(first, second, comparison.differing, length)
        return said("They differ at {places}.", places=where)
    text = counted(
        "Nothing differs at the one place that both show.",
        "Nothing differs at the {number} places that both show.",
        len(comparison.both),
    )
    if comparison.open_at:
        where = _where(first, second, comparison.open_at, length)
        text = in_a_row((text, said("Left open: {places}.", places=where)))
    return text


def _where(first: Showing, second: Showing, places: tuple[int, ...], length: int) -> str:
    """Places of two numbers, with what stands there on each."""
    return all_of(
        said(
            "{place} ({first} and {second})",
            place=place_text(from_end, length),
            first=_sign(first, from_end),
            second=_sign(second, from_end),
        )
        for from_end in places
    )


def _sign(showing: Showing, from_end: int) -> str:
    place = showing.place(from_end)
    return showing.as_read(place.signs, from_end) if place is not None else said("nothing")
