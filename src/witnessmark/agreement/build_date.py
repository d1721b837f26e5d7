"""The car's own date: claimed, else on a paper, else the years of its number's series."""

from dataclasses import replace

from witnessmark.agreement.items import BUILD_DATE, build_date_item, claimed, showings
from witnessmark.agreement.numbering import NumberRange, inside_share
from witnessmark.agreement.phrases import any_of, range_text, span_text
from witnessmark.agreement.records import CarMarks
from witnessmark.agreement.showing import DateValue, Showing, weakest
from witnessmark.catalogue import said
from witnessmark.codebook.marks import MarkKind
from witnessmark.codebook.records import ItemKind, Series

MOSTLY = 0.5
"""A series counts where the number lies in it with at least this share."""


def build_date(car: CarMarks) -> Showing | None:
    """The date of the car itself, or None where nothing gives one.

    Where a paper dates the car to a day within the month or year that is
    claimed, the paper only makes the claim more exact, and is taken.
    """
    claim = claimed(car, BUILD_DATE.id)
    dated = [showing for showing in showings(car, BUILD_DATE.id) if showing.dates]
    dated.sort(key=lambda showing: showing.kind is not MarkKind.PAPER)
    if claim is not None and claim.dates:
        return next((showing for showing in dated if _is_within(showing, claim)), claim)
    return dated[0] if dated else _of_series(car)


def _is_within(showing: Showing, claim: Showing) -> bool:
    span = claim.dates[0].span
    return all(span.covers(d.span.first) and span.covers(d.span.last) for d in showing.dates)


def _of_series(car: CarMarks) -> Showing | None:
    """The years of the series that an identification number lies in, claimed before read."""
    for item in car.book.items:
        if not item.identification or item.kind is not ItemKind.NUMBER:
            continue
        claim = claimed(car, item.id)
        shown: list[Showing] = [] if claim is None else [claim]
        for showing in [*shown, *showings(car, item.id)]:
            rows = [row for row in car.book.series if _lies_in(showing, row)]
            of_this_car = [row for row in rows if row.applies.covers(car.context)]
            if rows:
                return _dated(car, showing, of_this_car or rows)
    return None


def _lies_in(showing: Showing, row: Series) -> bool:
    if row.item != showing.item.id:
        return False
    share = inside_share(showing, (NumberRange(row.first, row.last),))
    return share is not None and share >= MOSTLY


def _dated(car: CarMarks, showing: Showing, rows: list[Series]) -> Showing:
    """The showing with the years of these series as its date."""
    first = min(row.applies.first_year for row in rows)
    last = max(row.applies.last_year for row in rows)
    days = car.book.days_built(car.context, first, last)
    text = said(
        "{item} {number}, of the series {series}",
        item=showing.item.name,
        number=showing.shown,
        series=any_of([range_text(row.first, row.last) for row in rows[:2]]),
    )
    text = f"{text} ({span_text(days)})" if showing.is_claim else text
    day = DateValue("", days, 1.0, weakest(*(row.citation for row in rows)))
    return replace(showing, item=build_date_item(), shown=text, dates=(day,), places=())
