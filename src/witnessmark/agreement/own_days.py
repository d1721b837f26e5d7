"""Of the years that a date code leaves open, those that its car's own date leaves.

A stamp of 15 February without a year, on the engine of a car that was planned for March
1969, is of that February. Only where the book says how long before the car such a part was
made, and only where some of the days fit: a date that does not fit keeps all its years, and
so does a worn one, which is never filled in. A lag from memory explains and decides nothing.

This is for telling what a code says, after all has been compared: a year that was chosen
because it fits is no agreement.
"""

from dataclasses import replace
from datetime import timedelta

from witnessmark.agreement.build_date import planned_date, stated_date
from witnessmark.agreement.items import BUILD_DATE
from witnessmark.agreement.records import CarMarks
from witnessmark.codebook import Lag
from witnessmark.dates import DateSpan
from witnessmark.decoding import Alternative, Decoding, FieldMeaning, joined_dates

_OPEN_SIGNS = frozenset("?~[…")


def with_own_days(car: CarMarks) -> tuple[Decoding, ...]:
    """The decodings of a car, their date codes read for the day or week that dates the car."""
    known = _days_known(car)
    return tuple(_dated(car, each, known) for each in car.decodings) if known else car.decodings


def _days_known(car: CarMarks) -> dict[str, tuple[DateSpan, ...]]:
    """The days of the car by the item that names them: of building, and planned on its plate."""
    stated, planned = stated_date(car), planned_date(car)
    known = {}
    if stated is not None:
        known[BUILD_DATE.id] = tuple(each.span for each in stated.dates)
    if planned is not None:
        known[BUILD_DATE.id] = tuple(each.span for each in planned.built.dates)
        known[planned.lag.earlier] = tuple(each.span for each in planned.shown.dates)
    return known


def _dated(car: CarMarks, decoding: Decoding, known: dict[str, tuple[DateSpan, ...]]) -> Decoding:
    alternatives = tuple(
        Alternative(each.share, tuple(_meaning(car, own, known) for own in each.fields))
        for each in decoding.alternatives
    )
    return replace(decoding, alternatives=alternatives)


def _meaning(
    car: CarMarks, meaning: FieldMeaning, known: dict[str, tuple[DateSpan, ...]]
) -> FieldMeaning:
    """The meaning with the days first that fit the car's; unchanged where all or none do."""
    if len(meaning.spans) < 2 or meaning.placeholder or _OPEN_SIGNS & set(meaning.code):
        return meaning
    lags = [
        lag
        for lag in car.book.lags
        if lag.earlier == meaning.says
        and lag.later in known
        and lag.citation.basis.weighs
        and lag.applies.covers(car.known)
    ]
    fitting = tuple(
        span
        for span in meaning.spans
        if any(_fits(span, day, lag) for lag in lags for day in known[lag.later])
    )
    if not fitting or fitting == meaning.spans:
        return meaning
    others = (*meaning.other_spans, *meaning.spans)
    rest = replace(meaning, spans=(), other_spans=others)
    return joined_dates(rest, replace(meaning, spans=fitting, other_spans=()))


def _fits(span: DateSpan, later: DateSpan, lag: Lag) -> bool:
    """Can a part of these days have gone into a car of those?"""
    first = later.first - timedelta(days=lag.most_days)
    return first <= span.last and span.first <= later.last - timedelta(days=lag.least_days)
