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
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.dates import counts_passes
from witnessmark.codebook.marks import (
    DateForm,
    DatePart,
    DateToken,
    Field,
    HowMade,
    Mark,
    WeekCount,
    YearIs,
)
from witnessmark.codebook.records import CodeRow, Run
from witnessmark.dates import DateSpan
from witnessmark.decoding import said_of_the_car
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
    fixed = all(
        t.least_width in (0, t.width) and t.counted is WeekCount.SEVENS for t in form.tokens
    )
    if fixed and len(observed) == sum(token.width for token in form.tokens):
        by_hand = mark.how_made is HowMade.STRUCK_BY_HAND
        places = [
            dict(zip(fld.alphabet, place_likelihood(o, fld.alphabet, by_hand, rates), strict=True))
            for o in observed
        ]
        runs = _runs_of(car, mark)
        return DaysRead(first.toordinal(), _by_characters(form, places, runs, car.book))
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


def _runs_of(car: CarMarks, mark: Mark) -> tuple[Run, ...]:
    """The runs that this mark may speak of: those of the car that it names itself, if it does."""
    named = {said_of_the_car(each.reading, car.book, mark) for each in car.of(mark.id)}
    return car.book.runs_for(named.pop()) if len(named) == 1 else car.book.runs


def _by_characters(
    form: DateForm, places: list[Place], runs: tuple[Run, ...], book: CodeBook
) -> Array:
    """The likelihood of every day of the form's years, part by part.

    Within runs a day has the likelihood under the run that explains it best. Where a
    run rests on memory, no day is ruled out for lying outside the runs.
    """
    first = np.datetime64(date(form.first_year, 1, 1))
    days = np.arange(first, np.datetime64(date(form.last_year + 1, 1, 1)))
    stated = (False, True) if form.year_is is YearIs.EITHER else (form.year_is is YearIs.MODEL,)
    found = np.full(days.size, LEAST)
    for run in runs if form.within_run else (None,):
        ways = [_by_parts(form, places, book.codes, _Days(days, form, run, m)) for m in stated]
        within = np.mean(ways, axis=0)
        if run is not None and all(each.citation.basis.weighs for each in runs):
            low, high = np.datetime64(run.first), np.datetime64(run.last)
            within = np.where((days >= low) & (days <= high), within, LEAST)
        found = np.maximum(found, within)
    return found


@dataclass(frozen=True, slots=True)
class _Days:
    """The days of a form's years, and how their dates count: in a run, by the model year."""

    days: NDArray[np.datetime64]
    form: DateForm
    run: Run | None
    by_model_year: bool

    def calendar_year(self) -> Index:
        """The calendar year of every day."""
        years: Index = self.days.astype("datetime64[Y]").astype(np.intp) + 1970
        return years

    def month(self) -> Index:
        """The month of every day, 1 to 12."""
        months: Index = self.days.astype("datetime64[M]").astype(np.intp) % 12 + 1
        return months

    def stated_year(self) -> Index:
        """The year that a code states for every day."""
        is_next = self.by_model_year & (self.month() >= self.form.model_year_from_month)
        years: Index = self.calendar_year() + is_next
        return years

    def letter_month(self, codes: tuple[CodeRow, ...], token: DateToken) -> Index:
        """The month; 100 more where it can be of a second pass through the letters, 200 more
        where it is."""
        months: Index = self.month()
        if self.run is None or not counts_passes(token, codes):
            months = months + 100 * (self.calendar_year() != self.form.first_year)
        else:
            begun = np.datetime64(self.run.first, "M")
            passed = (self.days.astype("datetime64[M]") - begun).astype(np.intp)
            months = months + 200 * (passed >= 12)
        return months

    def values(self, token: DateToken, codes: tuple[CodeRow, ...]) -> Index:
        """What this part of the code is for every day."""
        match token.part:
            case DatePart.MONTH:
                return self.month()
            case DatePart.MONTH_LETTER:
                return self.letter_month(codes, token)
            case DatePart.DAY | DatePart.WEEK_LETTER:
                since = self.days.astype("datetime64[M]").astype("datetime64[D]")
            case DatePart.WEEK:
                since = self.days.astype("datetime64[Y]").astype("datetime64[D]")
            case DatePart.DAY_COUNT:
                start = np.datetime64(self.form.start) if self.form.start else self.days[0]
                since = np.full(self.days.size, start)
            case _:
                return self.stated_year()
        counted: Index = (self.days - since).astype(np.intp)
        if token.part in (DatePart.WEEK, DatePart.WEEK_LETTER):
            counted = counted // 7
        return counted + (token.part is not DatePart.DAY_COUNT)


def _by_parts(
    form: DateForm, places: list[Place], codes: tuple[CodeRow, ...], days: _Days
) -> Array:
    """The likelihood of every day under one way to count, the parts multiplied."""
    found, place = np.ones(days.days.size), 0
    for token in form.tokens:
        part = places[place : place + token.width]
        place += token.width
        found *= _of_values(token, part, days.values(token, codes), codes)
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
        month = value % 100
        wanted = {0: {month}, 1: {month, month + 12}, 2: {month + 12}}[value // 100]
        return [r.code for r in codes if r.value in {str(w) for w in wanted}]
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
