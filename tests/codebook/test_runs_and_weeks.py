"""Dates read within a model year's run, by full weeks, and by a year that may be the model's."""

from dataclasses import replace
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
    Run,
    WeekCount,
    YearIs,
    read_date_code,
    render_date_code,
)
from witnessmark.codebook.dates import full_week

CITED = Citation(Basis.INVENTED, "demo")
FIRST, SECOND = "ABCDEFGHJKLM", "NPQRSTUVWXYZ"
MONTHS = tuple(
    CodeRow(
        table="passes",
        code=letter,
        value=str(n),
        meaning=letter,
        applies=Applies(1952, 1961),
        citation=CITED,
    )
    for n, letter in enumerate(FIRST + SECOND, 1)
)
WEEKS = tuple(
    CodeRow(
        table="weeks",
        code=letter,
        value=str(n),
        meaning=letter,
        applies=Applies(1952, 1961),
        citation=CITED,
    )
    for n, letter in enumerate("ABCDE", 1)
)


def run(first: date, last: date, model_year: int = 1955) -> Run:
    """The cars of one model year."""
    return Run(
        id=f"run-{first}",
        first=first,
        last=last,
        meaning="a run",
        applies=Applies(model_year, model_year),
        citation=CITED,
    )


def form(*tokens: DateToken, **other) -> DateForm:
    """A form of these parts, read within a run unless it is said otherwise."""
    made = DateForm(
        id="form",
        tokens=tokens,
        first_year=1952,
        last_year=1961,
        start=None,
        placeholders=(),
        citation=CITED,
        within_run=True,
    )
    return replace(made, **other)


DAY_AND_LETTER = form(
    DateToken(part=DatePart.DAY, width=2),
    DateToken(part=DatePart.MONTH_LETTER, width=1, table="passes"),
)
MONTH_AND_WEEK = form(
    DateToken(part=DatePart.MONTH, width=2),
    DateToken(part=DatePart.WEEK_LETTER, width=1, table="weeks"),
)
LONG = run(date(1954, 8, 1), date(1955, 11, 30))
EARLY = run(date(1954, 3, 1), date(1955, 8, 31))
SEVENS_DIGIT = (
    DateToken(part=DatePart.WEEK, width=2, counted=WeekCount.FULL_WEEKS),
    DateToken(part=DatePart.YEAR_DIGIT, width=1),
)


def spans(read: DateForm, code: str, *runs: Run) -> list[str]:
    """The readings of a code in words."""
    return [str(span) for span in read_date_code(read, code, MONTHS + WEEKS, runs)]


@pytest.mark.parametrize(
    ("code", "expected"),
    [
        # a month that comes round twice in a run of sixteen months: both
        ("09B", ["1954-09-08 to 1954-09-14", "1955-09-08 to 1955-09-14"]),
        # one that comes round once
        ("02A", ["1955-02-01 to 1955-02-07"]),
        ("12C", ["1954-12-15 to 1954-12-21"]),
    ],
)
def test_a_month_in_figures_is_read_every_time_it_comes_round_in_the_run(code, expected):
    assert spans(MONTH_AND_WEEK, code, LONG) == expected


@pytest.mark.parametrize(
    ("code", "expected"),
    [
        ("05C", ["1954-03-05"]),  # the first March of the run
        ("05Q", ["1955-03-05"]),  # the second
        ("23A", ["1955-01-23"]),  # January comes round once, late
        ("23N", []),  # and has no second
        ("11V", ["1955-08-11"]),
        ("11H", ["1954-08-11"]),
    ],
)
def test_letters_count_the_months_of_the_run(code, expected):
    assert spans(DAY_AND_LETTER, code, EARLY) == expected


def test_two_runs_of_one_model_year_give_the_readings_of_both():
    """Counted from March 1954 it is one day, counted from August another: none is chosen."""
    assert spans(DAY_AND_LETTER, "05C", EARLY, LONG) == ["1954-03-05", "1955-03-05"]


def test_without_a_run_there_is_no_reading():
    assert spans(DAY_AND_LETTER, "05C") == []


def test_a_span_ends_with_the_run():
    ended = run(date(1954, 8, 1), date(1955, 7, 3))
    assert spans(MONTH_AND_WEEK, "07A", ended) == ["1955-07-01 to 1955-07-03"]


@given(
    st.dates(date(1954, 1, 1), date(1956, 6, 30)),
    st.integers(30, 720),
    st.integers(0, 720),
    st.sampled_from([DAY_AND_LETTER, MONTH_AND_WEEK]),
)
def test_a_day_of_a_run_is_among_the_readings_of_its_code(begin, length, after, read):
    """Unless it lies beyond the second pass through the letters."""
    own = run(begin, begin + timedelta(days=length))
    day = begin + timedelta(days=after % (length + 1))
    codes = render_date_code(read, day, MONTHS + WEEKS, own)
    passed = 12 * (day.year - begin.year) + day.month - begin.month
    assert bool(codes) == (read is MONTH_AND_WEEK or passed < 24)
    for code in codes:
        found = read_date_code(read, code, MONTHS + WEEKS, (own,))
        assert any(span.covers(day) for span in found)
        assert all(own.first <= span.first <= span.last <= own.last for span in found)


def test_a_first_full_week_begins_on_the_first_sunday():
    """1 January 1956 was a Sunday; in 1955 the first Sunday was the second."""
    assert str(full_week(1956, 1)) == "1956-01-01 to 1956-01-07"
    assert str(full_week(1955, 1)) == "1955-01-02 to 1955-01-08"
    assert full_week(1955, 0) is None
    assert full_week(1955, 53) is None
    assert str(full_week(1956, 53)) == "1956-12-30 to 1957-01-05"


@given(st.dates(date(1952, 1, 8), date(1961, 12, 31)))
def test_full_weeks_share_the_days_out_once(day):
    weekly = form(
        SEVENS_DIGIT[0],
        DateToken(part=DatePart.YEAR_FOUR, width=4),
        within_run=False,
        first_year=1951,
    )
    (code,) = render_date_code(weekly, day, ())
    (span,) = read_date_code(weekly, code, ())
    assert span.covers(day)
    assert (span.days(), span.first.weekday()) == (7, 6)


def test_a_week_with_a_year_digit_has_a_reading_in_every_decade():
    tire = form(*SEVENS_DIGIT, within_run=False, first_year=1950, last_year=1979)
    found = read_date_code(tire, "235", ())
    assert [span.first.year for span in found] == [1955, 1965, 1975]


LETTER_DAY_DIGIT = (
    DateToken(part=DatePart.YEAR_DIGIT, width=1),
    DateToken(part=DatePart.MONTH, width=2),
    DateToken(part=DatePart.DAY, width=2),
)


@pytest.mark.parametrize(
    ("year_is", "expected"),
    [
        (YearIs.CALENDAR, ["1955-10-12"]),
        (YearIs.MODEL, ["1954-10-12"]),
        (YearIs.EITHER, ["1954-10-12", "1955-10-12"]),
    ],
)
def test_a_year_may_be_the_model_years(year_is, expected):
    """From August on the cars of a model year were built in the calendar year before."""
    read = form(*LETTER_DAY_DIGIT, within_run=False, year_is=year_is)
    assert spans(read, "51012") == expected
    assert spans(read, "50212") == ["1955-02-12"]


@given(st.dates(date(1952, 1, 1), date(1961, 12, 31)), st.sampled_from(YearIs), st.integers(1, 12))
def test_a_day_is_among_the_readings_whatever_year_is_written(day, year_is, month):
    read = form(*LETTER_DAY_DIGIT, within_run=False, year_is=year_is, model_year_from_month=month)
    for code in render_date_code(read, day, ()):
        assert any(span.covers(day) for span in read_date_code(read, code, ()))
