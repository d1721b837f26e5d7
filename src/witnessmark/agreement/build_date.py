"""The car's own date: claimed, else on a paper, else planned on its plate, else by its number.

A plate gives the week or the day for which a body was planned; the book's lag from there to
the car says between which days the car was built. Where no plate gives one, the series in
which the car's number lies, or its model year, leaves a whole year.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import timedelta

from witnessmark.agreement.items import BUILD_DATE, build_date_item, claimed, showings
from witnessmark.agreement.numbering import NumberRange, inside_share
from witnessmark.agreement.phrases import range_text
from witnessmark.agreement.records import CarMarks
from witnessmark.agreement.showing import DateValue, Showing, weakest
from witnessmark.catalogue import either, said
from witnessmark.codebook import MODEL_YEAR, CodeBook, ItemKind, Lag, MarkKind, Series
from witnessmark.dates import DateSpan
from witnessmark.decoding import span_meant

MOSTLY = 0.5
"""A series counts where the number lies in it with at least this share."""

PLANS = frozenset({MarkKind.PLATE, MarkKind.LABEL})
"""What bears the day for which a car was planned; a part's own date is none."""


@dataclass(frozen=True, slots=True)
class Planned:
    """The car's date by the day or week that its plate was planned for: `shown` as read there,
    `built` the days that the lag makes of it."""

    lag: Lag
    shown: Showing
    built: Showing


def build_date(car: CarMarks) -> Showing | None:
    """The date of the car itself, or None where nothing gives one.

    Where a paper dates the car to a day within the month or year that is
    claimed, the paper only makes the claim more exact, and is taken.
    """
    stated = stated_date(car)
    if stated is not None:
        return stated
    planned = planned_date(car)
    return planned.built if planned is not None else date_of_year(car)


def stated_date(car: CarMarks) -> Showing | None:
    """The day of building that is claimed, or that a mark or paper names."""
    claim = claimed(car, BUILD_DATE.id)
    dated = [showing for showing in showings(car, BUILD_DATE.id) if showing.dates]
    dated.sort(key=lambda showing: showing.kind is not MarkKind.PAPER)
    if claim is not None and claim.dates:
        return next((showing for showing in dated if _is_within(showing, claim)), claim)
    return dated[0] if dated else None


def _is_within(showing: Showing, claim: Showing) -> bool:
    span = claim.dates[0].span
    return all(span.covers(d.span.first) and span.covers(d.span.last) for d in showing.dates)


def planned_date(car: CarMarks) -> Planned | None:
    """The car's date by its plate, through the lag that leaves the fewest days; None where a
    day of building is stated, or no plate was read."""
    if stated_date(car) is not None:
        return None
    found = sorted(_planned(car), key=lambda each: each.lag.most_days - each.lag.least_days)
    return found[0] if found else None


def _planned(car: CarMarks) -> Iterator[Planned]:
    for lag in car.book.lags:
        item = car.book.item(lag.earlier)
        is_plan = lag.later == BUILD_DATE.id and lag.citation.basis.weighs
        if not is_plan or item is None or item.home or not lag.applies.covers(car.known):
            continue
        for showing in showings(car, lag.earlier):
            if showing.kind in PLANS and showing.dates and not showing.placeholder:
                yield Planned(lag, showing, _built_by(showing, lag))


def _built_by(showing: Showing, lag: Lag) -> Showing:
    """The showing with the days on which a car of this plan was built as its date."""
    least, most = timedelta(days=lag.least_days), timedelta(days=lag.most_days)
    days = tuple(
        replace(
            each,
            span=DateSpan(each.span.first + least, each.span.last + most),
            citation=weakest(each.citation, lag.citation),
        )
        for each in showing.dates
    )
    return replace(showing, item=build_date_item(), dates=days, places=())


def date_of_year(car: CarMarks) -> Showing | None:
    """The years of the series that an identification number lies in, claimed before read, else
    the model year: as far as its model year is known, the days of that year alone."""
    for item in car.book.items:
        if not item.identification or item.kind is not ItemKind.NUMBER:
            continue
        claim = claimed(car, item.id)
        shown: list[Showing] = [] if claim is None else [claim]
        for showing in [*shown, *showings(car, item.id)]:
            rows = [
                row
                for row in car.book.series
                if not row.also and row.applies.covers(car.known) and _lies_in(showing, row)
            ]
            dated = _dated(car, showing, rows) if rows else None
            if dated is not None:
                return dated
    return _of_model_year(car)


def _lies_in(showing: Showing, row: Series) -> bool:
    if row.item != showing.item.id or row.is_beyond:
        return False
    share = inside_share(showing, (NumberRange(row.first, row.last),))
    return share is not None and share >= MOSTLY


def _dated(car: CarMarks, showing: Showing, rows: list[Series]) -> Showing | None:
    """The showing with the years of these series, or the known one of them, as its date; None
    where they are all the years of the book, which date no car."""
    years = [_years_of(car.book, row) for row in rows]
    first, last = min(first for first, _ in years), max(last for _, last in years)
    year = car.known.model_year
    if year is not None and first <= year <= last:
        first = last = year
    elif (first, last) == (car.book.first_year, car.book.last_year):
        return None
    days = car.book.days_built(car.known, first, last)
    text = said(
        "{item} {number}, of the series {series}",
        item=showing.item.name,
        number=showing.shown,
        series=either(range_text(row.first, row.last) for row in rows[:2]),
    )
    text = said("{text} ({days})", text=text, days=span_meant(days)) if showing.is_claim else text
    day = DateValue("", days, 1.0, weakest(*(row.citation for row in rows)))
    return replace(showing, item=build_date_item(), shown=text, dates=(day,), places=())


def _years_of(book: CodeBook, row: Series) -> tuple[int, int]:
    """The years of a series, no more than those in which its models were built."""
    of = row.applies
    built = [model.applies for model in book.models if model.id in of.models] or [of]
    first = max(of.first_year, min(each.first_year for each in built))
    last = min(of.last_year, max(each.last_year for each in built))
    return (first, last) if first <= last else (of.first_year, of.last_year)


def _of_model_year(car: CarMarks) -> Showing | None:
    """The days of the car's model year, by whoever names it."""
    year = car.known.model_year
    tellers = car.of_car.marks_that_tell(MODEL_YEAR)
    claim = claimed(car, MODEL_YEAR)
    named = [each for each in showings(car, MODEL_YEAR) if each.mark in tellers]
    shown = next(iter(named), claim)
    if year is None or shown is None:
        return None
    days = car.book.days_built(car.known, year, year)
    text = said("model year {year}", year=year)
    text = said("{text} ({days})", text=text, days=span_meant(days)) if shown.is_claim else text
    day = DateValue("", days, 1.0, shown.citation)
    empty: tuple[()] = ()
    return replace(
        shown, item=build_date_item(), shown=text, dates=(day,), places=empty, values=empty
    )
