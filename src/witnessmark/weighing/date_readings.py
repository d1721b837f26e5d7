"""How probable what was read of a date code is, for every day it can mean.

A date is read as characters, each with its doubt: a code with one figure misread still
says the day but for that figure. Where a form cannot be read place by place (parts of no
fixed width, places missing) the dates that the decoding found stand in.
"""

from dataclasses import dataclass
from datetime import date

import numpy as np
from numpy.typing import NDArray

from witnessmark.agreement.records import CarMarks
from witnessmark.codebook.marks import DateForm, DatePart, DateToken, Field, HowMade, Mark
from witnessmark.codebook.records import CodeRow
from witnessmark.dates import DateSpan
from witnessmark.decoding.records import Decoding
from witnessmark.reading import CellKind, ReadingRates, place_likelihood
from witnessmark.weighing.evidence_codes import observations_in
from witnessmark.weighing.spread import FIGURES

Array = NDArray[np.float64]
Index = NDArray[np.intp]
Place = dict[str, float]

SAYS_NOTHING = (CellKind.WORN, CellKind.GAP, CellKind.OBLITERATED)
LEAST = 1e-12
"""Likelihood of a day that has no code of the form."""


@dataclass(frozen=True, slots=True)
class DaysRead:
    """P(what was read | day) for the days of production from `first` on, shape (days,)."""

    first: int
    likelihood: Array

    def mean_between(self, low: Index, high: Index) -> Array:
        """The mean likelihood of the days of production from low to high (ordinals)."""
        sums = np.concatenate([[0.0], np.cumsum(self.likelihood)])
        a = np.clip(low - self.first, 0, self.likelihood.size).astype(np.intp)
        b = np.clip(high - self.first + 1, 0, self.likelihood.size).astype(np.intp)
        found: Array = (sums[b] - sums[a]) / np.maximum(b - a, 1)
        return found


def days_read(car: CarMarks, mark: Mark, fld: Field, rates: ReadingRates) -> DaysRead | None:
    """What was read of a date field; None if nothing was, or a code that is no date."""
    form = car.book.date_form(fld.date_form) if fld.date_form else None
    decodings = car.of(mark.id)
    if form is None or not decodings or _is_placeholder(decodings, fld.id):
        return None
    first, last = date(form.first_year, 1, 1), date(form.last_year, 12, 31)
    observed = observations_in(car, mark, fld)
    if all(o.cell.kind in SAYS_NOTHING for place in observed for o in place):
        return None
    fixed = all(t.least_width in (0, t.width) for t in form.tokens)
    if fixed and len(observed) == sum(token.width for token in form.tokens):
        by_hand = mark.how_made is HowMade.STRUCK_BY_HAND
        places = [
            dict(zip(fld.alphabet, place_likelihood(o, fld.alphabet, by_hand, rates), strict=True))
            for o in observed
        ]
        return DaysRead(first.toordinal(), _by_characters(form, places, car.book.codes))
    spans = spans_of(car, mark.id, fld.id)
    if not spans:
        return None
    likelihood = np.zeros(last.toordinal() - first.toordinal() + 1)
    for span, share in spans:
        low = max(0, span.first.toordinal() - first.toordinal())
        likelihood[low : span.last.toordinal() - first.toordinal() + 1] += share
    return DaysRead(first.toordinal(), likelihood)


def _is_placeholder(decodings: tuple[Decoding, ...], field_id: str) -> bool:
    """Is everybody's best reading a code that stands where a date should and is none?"""
    return all(
        any(
            meaning.placeholder
            for alternative in decoding.alternatives[:1]
            for meaning in alternative.fields
            if meaning.field == field_id
        )
        for decoding in decodings
    )


def _by_characters(form: DateForm, places: list[Place], codes: tuple[CodeRow, ...]) -> Array:
    """The likelihood of every day of the form's years, part by part."""
    first = np.datetime64(date(form.first_year, 1, 1))
    days = np.arange(first, np.datetime64(date(form.last_year + 1, 1, 1)))
    months = days.astype("datetime64[M]")
    years = days.astype("datetime64[Y]")
    of_month = (days - months).astype(np.intp)
    month = months.astype(np.intp) % 12 + 1
    of_year = (days - years).astype(np.intp)
    year = years.astype(np.intp) + 1970
    start = np.datetime64(form.start) if form.start else first
    count = (days - start).astype(np.intp)
    found, place = np.ones(days.size), 0
    for token in form.tokens:
        part = places[place : place + token.width]
        place += token.width
        values = {
            DatePart.DAY: of_month + 1,
            DatePart.MONTH: month,
            DatePart.WEEK: of_year // 7 + 1,
            DatePart.WEEK_LETTER: of_month // 7 + 1,
            DatePart.MONTH_LETTER: month + 100 * (year != form.first_year),
            DatePart.DAY_COUNT: count,
        }.get(token.part, year)
        found *= _of_values(token, part, values, codes)
    return found


def _of_values(
    token: DateToken, places: list[Place], values: Index, codes: tuple[CodeRow, ...]
) -> Array:
    """The likelihood of one part of the code for the value it has on every day."""
    if token.part is DatePart.DAY_COUNT:
        return _of_counts(places, values)
    # A row from memory explains and never argues.
    codes = tuple(r for r in codes if r.table == token.table and r.citation.basis.weighs)
    distinct, inverse = np.unique(values, return_inverse=True)
    table = np.array([_of_texts(_texts(token, int(v), codes), places) for v in distinct])
    spread: Array = table[inverse.reshape(-1)]
    return spread


def _of_counts(places: list[Place], values: Index) -> Array:
    """The likelihood of a count of days, figure by figure; none before the count begins."""
    found = np.where((values >= 0) & (values < 10 ** len(places)), 1.0, LEAST)
    for k, place in enumerate(places):
        of_figure = np.array([place.get(figure, LEAST) for figure in FIGURES])
        found = found * of_figure[values // 10 ** (len(places) - 1 - k) % 10]
    return found


def _texts(token: DateToken, value: int, codes: tuple[CodeRow, ...]) -> list[str]:
    """The ways in which a part writes a value."""
    if token.part is DatePart.LITERAL:
        return [token.text]
    if token.part is DatePart.MONTH_LETTER:
        wanted = {str(value % 100), str(value % 100 + 12)} if value > 100 else {str(value)}
        return [r.code for r in codes if r.value in wanted]
    if token.part is DatePart.WEEK_LETTER:
        return [r.code for r in codes if r.value == str(value)]
    if token.part in (DatePart.DAY, DatePart.MONTH, DatePart.WEEK):
        return [f"{value:0{token.width}d}"]
    return [f"{value:04d}"[-token.width :]]


def _of_texts(texts: list[str], places: list[Place]) -> float:
    """The mean likelihood of the ways to write it; next to none where there is none."""
    found = []
    for text in texts:
        product = 1.0
        if len(text) != len(places):
            continue
        for character, place in zip(text, places, strict=True):
            product *= place.get(character, LEAST)
        found.append(product)
    return max(LEAST, float(np.mean(found))) if found else LEAST


def spans_of(car: CarMarks, mark_id: str, field_id: str) -> tuple[tuple[DateSpan, float], ...]:
    """The dates that a code may mean, with their shares; empty for none or a placeholder.

    The readings of several examiners are taken as independent. Where they have no
    day in common one of them is wrong, and each may be right.
    """
    readings = [found for each in car.of(mark_id) if (found := _dates_in(each, field_id))]
    if not readings:
        return ()
    pooled = readings[0]
    for reading in readings[1:]:
        pooled = [both for one in pooled for other in reading if (both := _common(one, other))]
    found = pooled or [each for reading in readings for each in reading]
    total = sum(share for _, share in found)
    return tuple((span, share / total) for span, share in found)


def _dates_in(decoding: Decoding, field_id: str) -> list[tuple[DateSpan, float]]:
    """The dates of one reading of a date code, their shares adding up to 1."""
    found = [
        (span, alternative.share / len(meaning.spans))
        for alternative in decoding.alternatives
        for meaning in alternative.fields
        if meaning.field == field_id and not meaning.placeholder
        for span in meaning.spans
    ]
    total = sum(share for _, share in found)
    return [(span, share / total) for span, share in found]


def _common(
    one: tuple[DateSpan, float], other: tuple[DateSpan, float]
) -> tuple[DateSpan, float] | None:
    """The days that two spans share, with the product of the shares that fall on them."""
    first, last = max(one[0].first, other[0].first), min(one[0].last, other[0].last)
    if first > last:
        return None
    both = DateSpan(first, last)
    return both, one[1] * other[1] * both.days() / (one[0].days() * other[0].days())
