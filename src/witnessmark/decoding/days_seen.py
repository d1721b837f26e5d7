"""What was seen of a date code, for every day that it can mean.

    P(cells | day) = the mean, over the texts that the form has for the day and that are as
                     long as what was read, of the product over places of P(cell | character)

A letter whose row is from memory explains and never argues: here it is none. Within the
runs of model years a day has the likelihood under the run that explains it best; where a
run rests on memory, no day is ruled out for lying outside the runs.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from functools import partial
from itertools import pairwise, product
from math import prod

from witnessmark.codebook import (
    CodeBook,
    CodeRow,
    DateForm,
    DatePart,
    DateToken,
    Field,
    Mark,
    Run,
    WeekCount,
    YearIs,
)
from witnessmark.codebook.dates import counts_passes, first_sunday, months_passed, token_widths
from witnessmark.decoding.kept import kept, table_rows
from witnessmark.decoding.records import UNTYPED_COLUMN, FieldSeen
from witnessmark.decoding.seen import index_of
from witnessmark.reading import Cell

LEAST = 1e-12
"""Likelihood of a day that has no code of the form, or of a text that cannot be."""

_YEARS = (DatePart.YEAR_DIGIT, DatePart.YEAR_TWO, DatePart.YEAR_FOUR)

_BY_MONTH = frozenset({DatePart.LITERAL, DatePart.MONTH, DatePart.MONTH_LETTER, *_YEARS})
"""The parts that are the same for all days of a month."""

type Texts = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class DaysSeen:
    """P(all that was seen | day) for each day from `first` on, an ordinal."""

    first: int
    likelihood: tuple[float, ...]


def days_seen(
    book: CodeBook, mark: Mark, field: Field, seen: FieldSeen, runs: tuple[Run, ...]
) -> DaysSeen | None:
    """The likelihood of every day of the form's years; None where the field says nothing.

    `runs` are those of the cars in question, for a form that is read within them.
    """
    form = book.date_form(field.date_form) if field.date_form else None
    if form is None or seen.is_empty or seen.is_open or not seen.places:
        return None
    rows = tuple(place.likelihood for place in seen.places)
    question = (mark.id, field.id, rows, cuts_of(seen), tuple(run.id for run in runs))
    return kept(book, "days", question, lambda: _days(book, form, seen, runs))


def letters_of(form: DateForm, book: CodeBook) -> tuple[CodeRow, ...]:
    """The rows of the letters that a form uses."""
    names = dict.fromkeys(token.table for token in form.tokens if token.table)
    return tuple(row for name in names for row in table_rows(book, name))


def cuts_of(seen: FieldSeen) -> frozenset[int]:
    """The places before which everybody's typing of a field was parted."""
    each = [cuts_in(reading.cells.cells) for reading in seen.readings]
    return frozenset.intersection(*each) if each else frozenset()


def cuts_in(cells: tuple[Cell, ...]) -> frozenset[int]:
    """The places before which the typing was parted, within one field."""
    return frozenset(
        at for at, cell in enumerate(cells) if at and cell.apart and cell.column != UNTYPED_COLUMN
    )


def widths_of(form: DateForm, length: int, cuts: frozenset[int]) -> list[tuple[int, ...]]:
    """The widths that the parts of a code of this length can have, by where it was parted.

    Where no part ends at the blanks of the typing, these say nothing.
    """
    ways = [w for w in product(*map(token_widths, form.tokens)) if sum(w) == length]
    fitting = [w for w in ways if cuts <= {sum(w[:k]) for k in range(len(w) + 1)}]
    return fitting or ways


class Written:
    """How a form writes the days of one run, or of all its years."""

    def __init__(self, form: DateForm, letters: tuple[CodeRow, ...], run: Run | None) -> None:
        self.form, self.letters, self.run = form, letters, run
        self.passes = [counts_passes(token, letters) for token in form.tokens]
        self.in_full_weeks = any(t.counted is WeekCount.FULL_WEEKS for t in form.tokens)
        self.by_model = {
            YearIs.CALENDAR: (False,),
            YearIs.MODEL: (True,),
            YearIs.EITHER: (False, True),
        }[form.year_is]
        self.known: dict[tuple[int, object], Texts] = {}

    def by_month(self, k: int) -> bool:
        """Is this part the same for all days of a month?"""
        return self.form.tokens[k].part in _BY_MONTH and not (
            self.in_full_weeks and self.form.tokens[k].part is not DatePart.LITERAL
        )

    def alike(self, start: date, end: date) -> Iterator[tuple[date, date]]:
        """The days of one month in stretches that every part of the code writes alike."""
        length = (end - start).days + 1
        begins = [0, *self._begins(start, length), length]
        for first, after in pairwise(begins):
            yield start + timedelta(days=first), start + timedelta(days=after - 1)

    def _begins(self, start: date, length: int) -> list[int]:
        """How many days after the first some part may be written otherwise."""
        parts = {token.part for token in self.form.tokens}
        if self.in_full_weeks:
            return _sevenths(start.weekday() + 1, length)
        if parts & {DatePart.DAY, DatePart.DAY_COUNT}:
            return list(range(1, length))
        weeks = {DatePart.WEEK: start.timetuple().tm_yday, DatePart.WEEK_LETTER: start.day}
        found = [_sevenths(day - 1, length) for part, day in weeks.items() if part in parts]
        return sorted({at for each in found for at in each})

    def years(self) -> list[int]:
        """The parts that write the year."""
        return [k for k, token in enumerate(self.form.tokens) if token.part in _YEARS]

    def texts(self, k: int, day: date, by_model: bool) -> Texts:
        """The texts in which one part of the code writes a day; none where it cannot."""
        value = self._value(self.form.tokens[k], k, day, by_model)
        found = self.known.get((k, value))
        if found is None:
            found = self.known[k, value] = _texts(self.form.tokens[k], value, self.letters)
        return found

    def _value(self, token: DateToken, k: int, day: date, by_model: bool) -> object:
        if self.in_full_weeks:
            day = date.fromordinal(max(1, day.toordinal() - (day.weekday() + 1) % 7))
        match token.part:
            case DatePart.LITERAL:
                return token.text
            case DatePart.DAY:
                return day.day
            case DatePart.MONTH:
                return day.month
            case DatePart.MONTH_LETTER:
                return self._months(k, day)
            case DatePart.WEEK_LETTER:
                return (day.day - 1) // 7 + 1
            case DatePart.WEEK if token.counted is WeekCount.FULL_WEEKS:
                return (day - first_sunday(day.year)).days // 7 + 1
            case DatePart.WEEK:
                return (day.timetuple().tm_yday - 1) // 7 + 1
            case DatePart.DAY_COUNT:
                return (day - self.form.start).days if self.form.start else -1
            case _:
                return day.year + (by_model and day.month >= self.form.model_year_from_month)

    def _months(self, k: int, day: date) -> tuple[int, ...]:
        """The numbers under which a day's month may stand among the letters."""
        if self.run is None or not self.passes[k]:
            is_first = day.year == self.form.first_year
            return (day.month,) if is_first else (day.month, day.month + 12)
        return (day.month + 12 * (months_passed(self.run, day) >= 12),)


def _sevenths(passed: int, length: int) -> list[int]:
    """Of so many days those after the first on which a week begins; some had passed before."""
    return list(range(7 - passed % 7, length, 7))


def _texts(token: DateToken, value: object, letters: tuple[CodeRow, ...]) -> Texts:
    """The texts in which a part writes its value."""
    if token.part is DatePart.LITERAL:
        return (token.text,)
    if token.part in (DatePart.MONTH_LETTER, DatePart.WEEK_LETTER):
        numbers = value if isinstance(value, tuple) else (value,)
        wanted = {str(each) for each in numbers}
        return tuple(r.code for r in letters if r.table == token.table and r.value in wanted)
    assert isinstance(value, int)
    if token.part in _YEARS:
        return (f"{value:04}"[-token.width :],)
    if value < 0:
        return ()
    widths = token_widths(token)
    texts = {str(value).zfill(width) for width in widths}
    return tuple(sorted(text for text in texts if len(text) in widths))


def months_between(first: date, last: date) -> Iterator[tuple[date, date]]:
    """The first and the last day of each month, the ends cut to the span."""
    while first <= last:
        after = date(first.year + first.month // 12, first.month % 12 + 1, 1)
        end = date.fromordinal(after.toordinal() - 1)
        yield first, min(end, last)
        first = after


def _days(
    book: CodeBook, form: DateForm, seen: FieldSeen, runs: tuple[Run, ...]
) -> DaysSeen | None:
    first, last = date(form.first_year, 1, 1), date(form.last_year, 12, 31)
    origin = first.toordinal()
    found = [LEAST] * (last.toordinal() - origin + 1)
    ways = tuple(widths_of(form, len(seen.places), cuts_of(seen)))
    firm = bool(runs) and all(run.citation.basis.weighs for run in runs)
    of_text = _text_likelihood(seen)
    for run in (runs or (None,)) if form.within_run else (None,):
        low, high = (max(first, run.first), min(last, run.last)) if run and firm else (first, last)
        asked = (form.id, run.id if run else "", low, high, ways)
        calendar = kept(
            book, "calendar", asked, partial(_calendar, book, form, run, ways, low, high)
        )
        for days, likely in calendar.likelihoods(of_text):
            for day in days:
                found[day - origin] = max(found[day - origin], likely)
    return DaysSeen(origin, tuple(found)) if max(found) > LEAST else None


def _text_likelihood(seen: FieldSeen) -> Callable[[str, int], float]:
    """P(what was seen at the places from here on | a text)."""
    index = index_of(seen.alphabet)
    rows = [place.likelihood for place in seen.places]

    def of(text: str, at: int) -> float:
        return prod(
            rows[at + k][index[each]] if each in index else LEAST for k, each in enumerate(text)
        )

    return of


@dataclass(frozen=True, slots=True)
class _WrittenDays:
    """Days that a form writes alike: in each way one of the texts of every part, the parts by
    their numbers in the calendar; `texts` says how many ways that makes in all."""

    ways: tuple[tuple[int, ...], ...]
    texts: int
    days: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class _Calendar:
    """How a form writes every day of a span, whatever was read: `parts` are texts that can stand
    at a place, one of which does."""

    parts: tuple[tuple[Texts, int], ...]
    written: tuple[_WrittenDays, ...]

    def likelihoods(
        self, of_text: Callable[[str, int], float]
    ) -> Iterator[tuple[tuple[int, ...], float]]:
        """Days as ordinals, with the mean over the ways to write them."""
        values = [sum(of_text(text, place) for text in texts) for texts, place in self.parts]
        for each in self.written:
            total = sum(prod([values[part] for part in way]) for way in each.ways)
            yield each.days, max(LEAST, total / each.texts)


def _calendar(
    book: CodeBook,
    form: DateForm,
    run: Run | None,
    ways: tuple[tuple[int, ...], ...],
    low: date,
    high: date,
) -> _Calendar:
    letters = tuple(row for row in letters_of(form, book) if row.citation.basis.weighs)
    written = Written(form, letters, run)
    parts: dict[tuple[Texts, int], int] = {}
    alike: dict[tuple[tuple[tuple[int, ...], ...], int], list[int]] = {}
    for start, end in months_between(low, high):
        for first, last in written.alike(start, end):
            in_all, texts = [], 0
            for by_model, widths in product(written.by_model, ways):
                way = _parts_of(written, first, by_model, widths)
                if way:
                    in_all.append(tuple(parts.setdefault(part, len(parts)) for part in way))
                    texts += prod(len(each) for each, _ in way)
            if texts:
                days = range(first.toordinal(), last.toordinal() + 1)
                alike.setdefault((tuple(in_all), texts), []).extend(days)
    found = (_WrittenDays(*kind, tuple(days)) for kind, days in alike.items())
    return _Calendar(tuple(parts), tuple(found))


def _parts_of(
    written: Written, day: date, by_model: bool, widths: tuple[int, ...]
) -> list[tuple[Texts, int]]:
    """The texts of each part of this width with the place where it begins; none where one part
    has no such text."""
    found, place = [], 0
    for k, width in enumerate(widths):
        texts = tuple(t for t in written.texts(k, day, by_model) if len(t) == width)
        if not texts:
            return []
        found.append((texts, place))
        place += width
    return found
