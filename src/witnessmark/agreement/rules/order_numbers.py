"""Where numbers were given with the order, a higher number does not mean a later car.

It speaks only where two such numbers are dated the other way round, and its outcome is always
silent: it explains before somebody reads time into them. Number 4120 of March on one panel and
4087 of June on another look like a contradiction; where the book says that these were order
numbers they are none.
"""

from itertools import combinations, product

from witnessmark.agreement.items import showings, shown_on
from witnessmark.agreement.phrases import days_meant, finding, says, sentence, subject
from witnessmark.agreement.records import AgreementRule, CarMarks, Finding, FindingKind, Outcome
from witnessmark.agreement.shares import compare_two
from witnessmark.agreement.showing import Showing, weakest
from witnessmark.catalogue import in_a_row, marked, said
from witnessmark.codebook import ItemKind, NumbersFollow

RULE = AgreementRule(__name__, marked("order numbers"), FindingKind.SERIES, rank=60)


def compare(car: CarMarks) -> tuple[Finding, ...]:
    """One silent finding for every two different order numbers dated the other way round."""
    return tuple(
        _inverse(first, second, dates)
        for item in car.book.items
        if item.kind is ItemKind.NUMBER and item.numbers_follow is NumbersFollow.ORDERS
        for first, second in combinations(showings(car, item.id), 2)
        if compare_two(first, second).outcome is Outcome.DIFFER
        and (dates := _dated(car, first, second)) is not None
    )


def _dated(car: CarMarks, first: Showing, second: Showing) -> tuple[Showing, Showing] | None:
    """The dates on the two marks, where they run against the numbers."""
    pairs = product(_dates(car, first.mark), _dates(car, second.mark))
    later, earlier = _rank(first) > _rank(second), _rank(first) < _rank(second)
    against = (
        (a, b)
        for a, b in pairs
        if (later and _end(a) < _start(b)) or (earlier and _end(b) < _start(a))
    )
    return next(against, None)


def _dates(car: CarMarks, mark_id: str) -> list[Showing]:
    return [showing for showing in shown_on(car, mark_id) if showing.dates]


def _start(showing: Showing) -> int:
    return min(day.span.first for day in showing.dates).toordinal()


def _end(showing: Showing) -> int:
    return max(day.span.last for day in showing.dates).toordinal()


def _rank(showing: Showing) -> tuple[int, ...]:
    """How high the number is, read as it most plausibly stands."""
    places = [max(range(len(p.likelihood)), key=p.likelihood.__getitem__) for p in showing.places]
    while places and places[0] == 0:
        places.pop(0)
    return (len(places), *places)


def _inverse(first: Showing, second: Showing, dates: tuple[Showing, Showing]) -> Finding:
    clauses = (
        said("{clause}, dated {days}", clause=says(number), days=days_meant(date.dates))
        for number, date in zip((first, second), dates, strict=True)
    )
    name = first.item.name
    return finding(
        RULE,
        first.item.id,
        Outcome.SILENT,
        subjects=(subject(first), subject(second)),
        observation=sentence(
            said(
                "{item}: {clauses}; the higher number has the earlier date",
                item=name,
                clauses=in_a_row(clauses, "; "),
            )
        ),
        inference=said(
            "By the book the {item} was given with the order and did not follow the line: "
            "which number is higher says nothing about which came first.",
            item=name,
        ),
        citation=weakest(*first.grounds(), *second.grounds()),
    )
