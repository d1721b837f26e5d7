"""A date code has every reading that its form allows, and no other."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.codebook import (
    Applies,
    Basis,
    Citation,
    CodeRow,
    DateForm,
    DatePart,
    DateToken,
    Placeholder,
    read_date_code,
    render_date_code,
)

CITED = Citation(Basis.INVENTED, "demo")
LETTERS = "ABCDEFGHJKLM"
SECOND_LETTERS = "NPQRSTUVWXYZ"


def row(table: str, code: str, value: int) -> CodeRow:
    """One letter of a table."""
    return CodeRow(
        table=table,
        code=code,
        value=str(value),
        meaning=code,
        applies=Applies(1952, 1961),
        citation=CITED,
    )


TABLES = (
    *(row("months", letter, n + 1) for n, letter in enumerate(LETTERS)),
    *(row("two_passes", letter, n + 1) for n, letter in enumerate(LETTERS + SECOND_LETTERS)),
    *(row("weeks", letter, n + 1) for n, letter in enumerate("ABCDE")),
    *(row("month_words", word, n) for n, word in ((1, "JAN"), (2, "FEB"), (3, "MAR"))),
)


def form(
    *tokens: DateToken, years: tuple[int, int] = (1952, 1961), start: date | None = None
) -> DateForm:
    """A form of these parts."""
    placeholder = Placeholder(code="00A0", meaning="date wheels lost", citation=CITED)
    first, last = years
    return DateForm(
        id="form",
        tokens=tokens,
        first_year=first,
        last_year=last,
        start=start,
        placeholders=(placeholder,),
        citation=CITED,
    )


def part(name: str, width: int, least_width: int = 0) -> DateToken:
    """A part that is read without a table."""
    return DateToken(part=DatePart(name), width=width, least_width=least_width)


def letter(name: str, table: str, width: int = 1) -> DateToken:
    """A part that is read by a table."""
    return DateToken(part=DatePart(name), width=width, table=table)


def literal(text: str) -> DateToken:
    """A part that says nothing."""
    return DateToken(part=DatePart.LITERAL, width=len(text), text=text)


MONTHS = letter("month_letter", "months")
PASSES = letter("month_letter", "two_passes")
WEEKS = letter("week_letter", "weeks")
WORDS = letter("month_letter", "month_words", 3)


@pytest.mark.parametrize(
    ("code", "tokens", "years", "spans"),
    [
        # day, month letter, year digit: the digit leaves two decades open
        ("17C5", (part("day", 2), MONTHS, part("year_digit", 1)), (1951, 1966),
         ["1955-03-17", "1965-03-17"]),
        # month letter, day of one or two figures, year digit
        ("J108", (MONTHS, part("day", 2, 1), part("year_digit", 1)), (1952, 1961), ["1958-09-10"]),
        ("A58", (MONTHS, part("day", 2, 1), part("year_digit", 1)), (1952, 1961), ["1958-01-05"]),
        # a year digit, month letter and day
        ("6B10", (part("year_digit", 1), MONTHS, part("day", 2)), (1952, 1961), ["1956-02-10"]),
        # two-digit month and week letter, no year
        ("03B", (part("month", 2), WEEKS), (1957, 1958),
         ["1957-03-08 to 1957-03-14", "1958-03-08 to 1958-03-14"]),
        # the fifth week of a month is what is left of it; February may have none
        ("02E", (part("month", 2), WEEKS), (1956, 1958), ["1956-02-29"]),
        ("01E", (part("month", 2), WEEKS), (1957, 1957), ["1957-01-29 to 1957-01-31"]),
        # month and day, no year
        ("0714", (part("month", 2), part("day", 2)), (1957, 1958), ["1957-07-14", "1958-07-14"]),
        ("0229", (part("month", 2), part("day", 2)), (1957, 1960), ["1960-02-29"]),
        # month and day as they come, no year: where the cut is unsure, all of them
        ("111", (part("month", 2, 1), part("day", 2, 1)), (1957, 1957),
         ["1957-01-11", "1957-11-01"]),
        ("7 15", (part("month", 2, 1), literal(" "), part("day", 2, 1)), (1957, 1957),
         ["1957-07-15"]),
        # letters of a first and a second pass through the alphabet
        ("11H", (part("day", 2), PASSES), (1956, 1957), ["1956-08-11", "1957-08-11"]),
        ("11V", (part("day", 2), PASSES), (1956, 1957), ["1957-08-11"]),
        # weeks of the year, in sevens from 1 January
        ("015", (part("week", 2), part("year_digit", 1)), (1952, 1961),
         ["1955-01-01 to 1955-01-07"]),
        ("535", (part("week", 2), part("year_digit", 1)), (1952, 1961), ["1955-12-31"]),
        ("545", (part("week", 2), part("year_digit", 1)), (1952, 1961), []),
        ("005", (part("week", 2), part("year_digit", 1)), (1952, 1961), []),
        # printed month and year
        ("05/57", (part("month", 2), literal("/"), part("year_two", 2)), (1952, 1961),
         ["1957-05-01 to 1957-05-31"]),
        ("MAR 1957", (WORDS, literal(" "), part("year_four", 4)), (1952, 1961),
         ["1957-03-01 to 1957-03-31"]),
        # a year alone
        ("7", (part("year_digit", 1),), (1952, 1961), ["1957-01-01 to 1957-12-31"]),
        # a prefix that says nothing
        ("P0714", (literal("P"), part("month", 2), part("day", 2)), (1957, 1957), ["1957-07-14"]),
        # what cannot be a date has no reading
        ("32C5", (part("day", 2), MONTHS, part("year_digit", 1)), (1952, 1961), []),
        ("17I5", (part("day", 2), MONTHS, part("year_digit", 1)), (1952, 1961), []),
        ("17C", (part("day", 2), MONTHS, part("year_digit", 1)), (1952, 1961), []),
        ("1399", (part("month", 2), part("day", 2)), (1952, 1961), []),
        ("٠٧14", (part("month", 2), part("day", 2)), (1952, 1961), []),
        ("00A0", (part("day", 2), MONTHS, part("year_digit", 1)), (1950, 1961), []),
        ("", (part("day", 2), MONTHS), (1952, 1961), []),
        # a day or week of no month could be in any
        ("14", (part("day", 2),), (1952, 1961), []),
        ("B5", (WEEKS, part("year_digit", 1)), (1952, 1961), []),
        # a form that says nothing about time has no reading, not every year
        ("P", (literal("P"),), (1952, 1961), []),
    ],
)  # fmt: skip
def test_a_code_has_these_readings(code, tokens, years, spans):
    found = read_date_code(form(*tokens, years=years), code, TABLES)
    assert [str(span) for span in found] == spans


def test_a_day_count_is_counted_from_the_start_which_is_day_nought():
    """In a leap year day 366 is 31 December, 367 the first day of the next year."""
    counted = form(part("day_count", 3), years=(1956, 1957), start=date(1955, 12, 31))
    found = [read_date_code(counted, code, ()) for code in ("001", "366", "367", "000")]
    assert [[str(span) for span in spans] for spans in found] == [
        ["1956-01-01"],
        ["1956-12-31"],
        ["1957-01-01"],
        [],  # day zero lies before the form's first year
    ]


def test_a_day_count_without_a_start_has_no_reading():
    assert read_date_code(form(part("day_count", 3)), "001", ()) == ()


def test_a_day_count_beyond_the_calendar_has_no_reading():
    endless = form(part("day_count", 12), start=date(1952, 1, 1))
    assert read_date_code(endless, "9" * 12, ()) == ()


def test_a_letter_with_two_rows_has_both_readings():
    """The book could not decide whether I or J was September."""
    rows = (row("months", "I", 9), row("months", "I", 10))
    found = read_date_code(form(MONTHS, part("year_digit", 1)), "I5", rows)
    assert [str(span) for span in found] == [
        "1955-09-01 to 1955-09-30",
        "1955-10-01 to 1955-10-31",
    ]


def test_a_letter_whose_row_is_no_month_has_no_reading():
    rows = (row("months", "A", 25), row("months", "A", 0))
    assert read_date_code(form(MONTHS), "A", rows) == ()


days = st.dates(date(1950, 1, 1), date(1965, 12, 31))
tokens = st.sampled_from(
    [
        MONTHS,
        PASSES,
        WEEKS,
        literal("P"),
        literal(" "),
        part("day", 2),
        part("day", 2, 1),
        part("month", 2),
        part("month", 2, 1),
        part("week", 2),
        part("week", 2, 1),
        part("year_digit", 1),
        part("year_two", 2),
        part("year_four", 4),
        part("day_count", 4),
    ]
)


@given(st.lists(tokens, min_size=1, max_size=5), days, st.integers(1950, 1957))
def test_a_date_written_under_a_form_is_among_the_readings_of_the_code(parts, day, first_year):
    """Whatever parts the form has, as long as they say when."""
    written = form(*parts, years=(first_year, 1961), start=date(1952, 1, 1))
    says = {token.part for token in parts}
    has_month = says & {DatePart.MONTH, DatePart.MONTH_LETTER}
    needs_month = says & {DatePart.DAY, DatePart.WEEK_LETTER}
    if says <= {DatePart.LITERAL} or (
        needs_month and not has_month | (says & {DatePart.DAY_COUNT})
    ):
        return
    for code in render_date_code(written, day, TABLES):
        assert any(span.covers(day) for span in read_date_code(written, code, TABLES)), code


@given(st.lists(tokens, min_size=1, max_size=5), st.text("0123456789ABCX P", max_size=12))
def test_every_reading_lies_in_the_years_of_the_form(parts, code):
    """And is a span of days in one year, in order of time."""
    read = form(*parts, start=date(1952, 1, 1))
    found = read_date_code(read, code, TABLES)
    assert list(found) == sorted(set(found))
    for span in found:
        assert 1952 <= span.first.year == span.last.year <= 1961
        assert span.first <= span.last


@given(days)
def test_the_weeks_of_a_year_share_its_days_out_once(day):
    """The day is in the reading of its own week and in no other."""
    weekly = form(part("week", 2), part("year_four", 4), years=(1950, 1965))
    codes = [f"{week:02}{day.year}" for week in range(54)]
    holding = [
        code for code in codes if any(span.covers(day) for span in read_date_code(weekly, code, ()))
    ]
    number = (day - date(day.year, 1, 1)) // timedelta(days=7) + 1
    assert holding == [f"{number:02}{day.year}"]
