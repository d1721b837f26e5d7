"""Date codes: every span of days that a code can mean under a declared form.

- *month letter*: the table's value is the month, 1 to 12; 13 to 24 is the same
  month on a second pass through the letters, in a year after the form's first;
- *week*: counted in sevens from 1 January (1 = 1 to 7 January, 53 = the last
  day or two), whatever weekday that is; or in full weeks, Sunday to Saturday,
  of which the first that begins in the year is 1;
- *week letter*: counted in sevens from the first of the month (1 = days 1 to
  7, 5 = from day 29);
- *day count*: days after the form's `start`, which is day 0;
- a year of one or two digits, or none at all: every year of the form that fits;
- *within a run*: only days of the run, or runs, in which the car can have been
  built; there letters with a second pass count the months of the run: 1 to 12
  the first time a month comes round in it, 13 to 24 the second.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta
from itertools import product

from witnessmark.codebook.date_records import Run
from witnessmark.codebook.marks import DateForm, DatePart, DateToken, WeekCount, YearIs
from witnessmark.codebook.records import CodeRow
from witnessmark.dates import DateSpan, PartialDate, year_span


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stated:
    """What the parts of one code say together; None where they say nothing.

    `year_ends` are the digits with which the year must end. `counts_passes`: the
    month's letter is of a table that goes through the months twice.
    """

    year_ends: tuple[str, ...] = ()
    month: int | None = None
    is_second_pass: bool = False
    counts_passes: bool = False
    day: int | None = None
    week: int | None = None
    full_week: int | None = None
    week_of_month: int | None = None
    day_count: int | None = None


def read_date_code(
    form: DateForm, code: str, tables: tuple[CodeRow, ...], runs: tuple[Run, ...] = ()
) -> tuple[DateSpan, ...]:
    """All readings that the code can have under the form, in order of time.

    `tables` are the code rows of the book (or those that hold for the car),
    among which the form's letters are looked up; `runs` those in which the car
    can have been built, for a form that is read within them. A code that the form cannot
    explain has no reading.
    """
    spans = {
        span
        for texts in _splits(form.tokens, code)
        for stated in _readings(form.tokens, texts, tables)
        if stated != _Stated()
        for span in _spans(form, stated, runs)
    }
    return tuple(sorted(spans))


def render_date_code(
    form: DateForm, day: date, tables: tuple[CodeRow, ...], run: Run | None = None
) -> tuple[str, ...]:
    """All codes that the form has for this day, of a car of this run; none where it has none."""
    if form.within_run and (run is None or not run.first <= day <= run.last):
        return ()
    counted = any(token.counted is WeekCount.FULL_WEEKS for token in form.tokens)
    dated = day - timedelta(days=(day.weekday() + 1) % 7) if counted else day
    if not form.within_run and not form.first_year <= dated.year <= form.last_year:
        return ()
    codes = sorted(
        {
            "".join(texts)
            for year in stated_years(form, dated)
            for texts in product(
                *(
                    _written(form, token, dated, year=year, tables=tables, run=run)
                    for token in form.tokens
                )
            )
        }
    )
    return tuple(code for code in codes if not any(p.code == code for p in form.placeholders))


def token_widths(token: DateToken) -> range:
    """The numbers of characters that this part of a code can have."""
    return range(token.least_width or token.width, token.width + 1)


def _splits(tokens: tuple[DateToken, ...], code: str) -> Iterator[tuple[str, ...]]:
    """Every way to cut the code into the texts of its parts."""
    if not tokens:
        if not code:
            yield ()
        return
    for width in token_widths(tokens[0]):
        if width <= len(code):
            for rest in _splits(tokens[1:], code[width:]):
                yield (code[:width], *rest)


def _readings(
    tokens: tuple[DateToken, ...], texts: tuple[str, ...], tables: tuple[CodeRow, ...]
) -> Iterator[_Stated]:
    """What the texts say; more than once where a letter has several rows."""
    found = [_Stated()]
    for token, text in zip(tokens, texts, strict=True):
        found = [after for before in found for after in _with(before, token, text, tables)]
    yield from found


def _with(
    stated: _Stated, token: DateToken, text: str, tables: tuple[CodeRow, ...]
) -> tuple[_Stated, ...]:
    """What is stated once this part is read as well; nothing if it cannot be read."""
    if token.part is DatePart.LITERAL:
        return (stated,) if text == token.text else ()
    if token.part in (DatePart.MONTH_LETTER, DatePart.WEEK_LETTER):
        values = _letter_values(token, text, tables)
        if token.part is DatePart.WEEK_LETTER:
            return tuple(replace(stated, week_of_month=value) for value in values)
        return tuple(
            replace(
                stated,
                month=(value - 1) % 12 + 1,
                is_second_pass=value > 12,
                counts_passes=counts_passes(token, tables),
            )
            for value in values
            if 1 <= value <= 24
        )
    if not (text.isascii() and text.isdigit()):
        return ()
    match token.part:
        case DatePart.DAY:
            return (replace(stated, day=int(text)),)
        case DatePart.MONTH:
            return (replace(stated, month=int(text)),)
        case DatePart.WEEK if token.counted is WeekCount.FULL_WEEKS:
            return (replace(stated, full_week=int(text)),)
        case DatePart.WEEK:
            return (replace(stated, week=int(text)),)
        case DatePart.DAY_COUNT:
            return (replace(stated, day_count=int(text)),)
        case _:
            return (replace(stated, year_ends=(*stated.year_ends, text)),)


def _letter_values(token: DateToken, text: str, tables: tuple[CodeRow, ...]) -> tuple[int, ...]:
    """The numbers that a letter stands for."""
    return tuple(
        int(row.value)
        for row in tables
        if row.code == text and row.table == token.table and is_number(row.value)
    )


def counts_passes(token: DateToken, tables: tuple[CodeRow, ...]) -> bool:
    """Does the token's table have letters for a second pass through the months?"""
    return any(
        row.table == token.table and is_number(row.value) and int(row.value) > 12 for row in tables
    )


def is_number(value: str) -> bool:
    """Is this canonical value a small whole number?"""
    return value.isascii() and value.isdigit() and len(value) <= 4


def _spans(form: DateForm, stated: _Stated, runs: tuple[Run, ...]) -> Iterator[DateSpan]:
    """The spans that fit the form; of a form within runs those that lie in one of them."""
    if not form.within_run:
        yield from _of_years(form, stated, form.first_year, form.last_year)
        return
    in_any_year = replace(stated, is_second_pass=False)
    for run in runs:
        for span in _of_years(form, in_any_year, run.first.year, run.last.year):
            first, last = max(span.first, run.first), min(span.last, run.last)
            passed = months_passed(run, span.first)
            is_second = 12 <= passed < 24
            fits = not stated.counts_passes or (passed < 24 and is_second is stated.is_second_pass)
            if first <= last and fits:
                yield DateSpan(first, last)


def months_passed(run: Run, day: date) -> int:
    """Months from the one in which the run began to the day's own."""
    return 12 * (day.year - run.first.year) + day.month - run.first.month


def stated_years(form: DateForm, day: date) -> tuple[int, ...]:
    """The years that a code of this form can state for a day."""
    later = day.year + (day.month >= form.model_year_from_month)
    match form.year_is:
        case YearIs.CALENDAR:
            return (day.year,)
        case YearIs.MODEL:
            return (later,)
        case YearIs.EITHER:
            return tuple(dict.fromkeys((day.year, later)))


def _of_years(
    form: DateForm, stated: _Stated, first_year: int, last_year: int
) -> Iterator[DateSpan]:
    """The spans, one a year that fits; a day count has one day."""
    day, years = None, range(first_year, last_year + 1)
    if stated.day_count is not None:
        day = _counted(form, stated.day_count)
        years = range(day.year, day.year + 1) if day else range(0)

    def ends(year: int) -> bool:
        return all(f"{year:04}".endswith(end) for end in stated.year_ends)

    for year in years:
        if not first_year <= year <= last_year or not (ends(year) or ends(year + 1)):
            continue
        if stated.is_second_pass and year == first_year:
            continue
        span = _narrowed(DateSpan(day, day) if day else year_span(year, year), stated)
        if span is not None and any(ends(each) for each in stated_years(form, span.first)):
            yield span


def _counted(form: DateForm, count: int) -> date | None:
    """The day that is so many days after the form's start."""
    if form.start is None:
        return None
    try:
        return form.start + timedelta(days=count)
    except OverflowError:
        return None


def _narrowed(span: DateSpan, stated: _Stated) -> DateSpan | None:
    """The days of a span inside one year that fit all that is stated; None if there are none."""
    year = span.first.year
    first, last = span.first, span.last
    if stated.month is not None:
        if not 1 <= stated.month <= 12:
            return None
        month = PartialDate(year, stated.month).span()
        first, last = max(first, month.first), min(last, month.last)
    if stated.full_week is not None:
        return full_week(year, stated.full_week)
    if stated.week is not None:
        first, last = _week(first, last, date(year, 1, 1), stated.week)
    # Without a month neither a day nor a week of the month can be placed, unless by a day count.
    needs_month = stated.day is not None or stated.week_of_month is not None
    if needs_month and stated.month is None and stated.day_count is None:
        return None
    if stated.week_of_month is not None:
        first, last = _week(first, last, first.replace(day=1), stated.week_of_month)
    if stated.day is not None:
        day = _day_of(first, last, stated.day)
        return DateSpan(day, day) if day is not None else None
    return DateSpan(first, last) if first <= last else None


def _week(first: date, last: date, start: date, week: int) -> tuple[date, date]:
    """The part of first to last that lies in this week, counted in sevens from `start`."""
    if not 1 <= week <= 53:
        return last, first - timedelta(days=1) if first > date.min else first
    begin = start + timedelta(days=7 * (week - 1))
    return max(first, begin), min(last, begin + timedelta(days=6))


def full_week(year: int, week: int) -> DateSpan | None:
    """The full week, Sunday to Saturday, of this number; it may end in the next year.

    >>> str(full_week(1997, 31)), full_week(1997, 53)
    ('1997-08-03 to 1997-08-09', None)
    """
    begin = first_sunday(year) + timedelta(days=7 * (week - 1))
    if week < 1 or begin.year != year or year == date.max.year:
        return None
    return DateSpan(begin, begin + timedelta(days=6))


def first_sunday(year: int) -> date:
    """The first Sunday of a year, on which its first full week begins."""
    start = date(year, 1, 1)
    return start + timedelta(days=(6 - start.weekday()) % 7)


def _day_of(first: date, last: date, day: int) -> date | None:
    """The first day of that number in its month, from first to last, within one year."""
    for month in range(first.month, last.month + 1):
        try:
            found = date(first.year, month, day)
        except ValueError:
            continue
        if first <= found <= last:
            return found
    return None


def _written(
    form: DateForm,
    token: DateToken,
    day: date,
    year: int,
    tables: tuple[CodeRow, ...],
    run: Run | None,
) -> tuple[str, ...]:
    """The ways in which one part of the code is written for a day."""
    match token.part:
        case DatePart.LITERAL:
            return (token.text,)
        case DatePart.MONTH_LETTER:
            passes = _passes(form, token, day, tables, run)
            return _letters(token, tables, tuple(day.month + extra for extra in passes))
        case DatePart.WEEK_LETTER:
            return _letters(token, tables, ((day.day - 1) // 7 + 1,))
        case DatePart.DAY:
            return _digits(token, day.day)
        case DatePart.MONTH:
            return _digits(token, day.month)
        case DatePart.WEEK if token.counted is WeekCount.FULL_WEEKS:
            return _digits(token, (day - first_sunday(day.year)).days // 7 + 1)
        case DatePart.WEEK:
            return _digits(token, (day - date(day.year, 1, 1)).days // 7 + 1)
        case DatePart.DAY_COUNT:
            count = (day - form.start).days if form.start else -1
            return _digits(token, count) if count >= 0 else ()
        case _:
            return (f"{year:04}"[-token.width :],)


def _passes(
    form: DateForm, token: DateToken, day: date, tables: tuple[CodeRow, ...], run: Run | None
) -> tuple[int, ...]:
    """What the passes through the months that a day can lie in add to its month."""
    if run is None or not counts_passes(token, tables):
        return (0,) if day.year == form.first_year else (0, 12)
    passed = months_passed(run, day) // 12
    return (12 * passed,) if passed < 2 else ()


def _letters(
    token: DateToken, tables: tuple[CodeRow, ...], values: tuple[int, ...]
) -> tuple[str, ...]:
    """The letters that stand for one of these numbers."""
    wanted = {str(value) for value in values}
    return tuple(row.code for row in tables if row.table == token.table and row.value in wanted)


def _digits(token: DateToken, number: int) -> tuple[str, ...]:
    """A number in each width that the part can have."""
    texts = {str(number).zfill(width) for width in token_widths(token)}
    return tuple(sorted(text for text in texts if len(text) in token_widths(token)))
