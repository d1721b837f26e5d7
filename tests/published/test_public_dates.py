"""Dates that a public rule asks for on parts: read as published, over the book of dated parts."""

from datetime import date, timedelta

import pytest

from tests.published.books import opened
from witnessmark.codebook import CodeBook, read_date_code, render_date_code
from witnessmark.codebook.dates import full_week
from witnessmark.dates import DateSpan
from witnessmark.decoding import Decoding, decode
from witnessmark.reading import parse_reading


def book() -> CodeBook:
    return opened("dated-parts")


def decoded(mark_id: str, text: str) -> Decoding:
    mark = book().mark(mark_id)
    assert mark is not None
    return decode(parse_reading(text, mark), book(), mark)


def spans(mark_id: str, text: str) -> tuple[DateSpan, ...]:
    """The days of the date field in the one alternative of a clear reading."""
    decoding = decoded(mark_id, text)
    assert decoding.unread == ""
    assert decoding.missing == ()
    return decoding.alternatives[0].fields[-1].spans


def span(first: tuple[int, int, int], last: tuple[int, int, int]) -> DateSpan:
    return DateSpan(date(*first), date(*last))


FOUR_DIGITS = {
    "3197": span((1997, 8, 3), (1997, 8, 9)),
    "0198": span((1998, 1, 4), (1998, 1, 10)),
    "0101": span((2001, 1, 7), (2001, 1, 13)),
}
"""Week and year: 3197 and 0101 as published in pages for owners, the days by full weeks; 0198
computed."""


def test_31_of_1997():
    """Week 31 of 1997: 3 to 9 August 1997."""
    assert spans("tire_week_4", "3197") == (FOUR_DIGITS["3197"],)


def test_01_of_1998():
    """Week 1 of 1998: 4 to 10 January 1998."""
    assert spans("tire_week_4", "0198") == (FOUR_DIGITS["0198"],)


def test_01_of_2001():
    """Week 1 of 2001: 7 to 13 January 2001."""
    assert spans("tire_week_4", "0101") == (FOUR_DIGITS["0101"],)


@pytest.mark.parametrize("typed", ["DOT XXXX XXX 3197", "DOTXXXXXXX3197", "XXXX XXX 3197"])
def test_the_whole_number_is_read_as_typed_with_its_date_last(typed):
    decoding = decoded("tire_number_4", typed)
    (alternative,) = decoding.alternatives
    assert [m.code for m in alternative.fields] == ["XX", "XXXXX", "3197"]
    assert alternative.fields[-1].spans == (FOUR_DIGITS["3197"],)


def test_a_number_without_a_type_code_is_read_as_well():
    (alternative,) = decoded("tire_number_4", "DOT XXXX 3197").alternatives
    assert [m.code for m in alternative.fields] == ["XX", "XX", "3197"]


def test_numbers_of_13_and_of_7_symbols():
    """80 FR 19553: plant of three, date of four; a retread has plant and date alone."""
    (new,) = decoded("tire_number_13", "DOT XXX XXXXXX 1516").alternatives
    assert [m.code for m in new.fields] == ["XXX", "XXXXXX", "1516"]
    assert sum(len(m.code) for m in new.fields) == 13
    (retread,) = decoded("retread_number_7", "DOT XXX 1516").alternatives
    assert sum(len(m.code) for m in retread.fields) == 7
    assert new.fields[-1].spans == retread.fields[-1].spans == (span((2016, 4, 10), (2016, 4, 16)),)


def test_three_digits_leave_the_decade_open():
    """1970s, 1980s and 1990s; the year 2000 for a last digit 0."""
    for digit in "123456789":
        years = [found.first.year for found in spans("tire_week_3", f"31{digit}")]
        assert years == [1970 + int(digit), 1980 + int(digit), 1990 + int(digit)]
    assert [found.first.year for found in spans("tire_week_3", "310")] == [1980, 1990, 2000]


def test_three_digits_in_a_whole_number():
    decoding = decoded("tire_number_3", "DOT XXXX XXX 317")
    assert decoding.alternatives[0].fields[-1].spans == (
        span((1977, 7, 31), (1977, 8, 6)),
        span((1987, 8, 2), (1987, 8, 8)),
        span((1997, 8, 3), (1997, 8, 9)),
    )


def test_week_53_of_2000():
    """The year 2000 has 53 Sundays; the last of its full weeks ends in 2001."""
    assert spans("tire_week_4", "5300") == (span((2000, 12, 31), (2001, 1, 6)),)


def test_weeks_go_from_01_to_52_and_53_is_rare():
    """Of the years from 1997 to 2039 those with 53 Sundays have a week 53."""
    sundays = {
        year: sum(
            (date(year, 1, 1) + timedelta(days=n)).weekday() == 6
            for n in range((date(year, 12, 31) - date(year, 1, 1)).days + 1)
        )
        for year in range(1997, 2040)
    }
    form = book().date_form("tire_week_four")
    assert form is not None
    for year, count in sundays.items():
        read = {
            week for week in range(100) if read_date_code(form, f"{week:02}{year % 100:02}", ())
        }
        assert read == set(range(1, count + 1))
    assert [year for year, count in sundays.items() if count == 53] == [
        *(2000, 2006, 2012, 2017, 2023, 2028, 2034),
    ]


def test_every_week_is_that_of_its_first_and_its_last_day():
    """A week runs from Sunday to Saturday; days before the first belong to the year before."""
    form = book().date_form("tire_week_four")
    assert form is not None
    sunday = date(1997, 1, 5)
    while sunday < date(2039, 12, 25):
        week = DateSpan(sunday, sunday + timedelta(days=6))
        (code,) = render_date_code(form, week.first, ())
        assert render_date_code(form, week.last, ()) == (code,)
        assert read_date_code(form, code, ()) == (week,)
        sunday += timedelta(days=7)


@pytest.mark.parametrize("code", ["0097", "5400", "5301", "9999", "0196"])
def test_what_is_no_week_of_the_form_is_not_listed(code):
    (alternative,) = decoded("tire_week_4", code).alternatives
    assert alternative.fields[0].listed is False
    assert full_week(1997, 0) is None


@pytest.mark.parametrize("typed", ["6/70", "06/70"])
def test_a_certification_label_in_numerals(typed):
    """49 CFR 567.5(a)(5) (2002): 6/70 is June 1970."""
    assert spans("certification_numerals", typed) == (span((1970, 6, 1), (1970, 6, 30)),)


def test_a_certification_label_in_words():
    """49 CFR 567.5(a)(5) (2002): JUNE 1970."""
    (alternative,) = decoded("certification_words", "JUNE 1970").alternatives
    assert alternative.fields[0].spans == (span((1970, 6, 1), (1970, 6, 30)),)


MONTHS = [
    "JANUARY",
    "FEBRUARY",
    "MARCH",
    "APRIL",
    "MAY",
    "JUNE",
    "JULY",
    "AUGUST",
    "SEPTEMBER",
    "OCTOBER",
    "NOVEMBER",
    "DECEMBER",
]


@pytest.mark.parametrize("month", MONTHS)
def test_every_month_in_words(month):
    decoding = decoded("certification_words", f"{month} 1972")
    number = MONTHS.index(month) + 1
    assert [each.first for each in decoding.alternatives[0].fields[0].spans] == [
        date(1972, number, 1)
    ]
    assert decoding.not_listed_share < 0.01


def test_a_brake_hose():
    """NHTSA letters nht75-1.46 and aiam1455: 10/1/74 is 1 October 1974."""
    assert spans("brake_hose_day", "10/1/74") == (span((1974, 10, 1), (1974, 10, 1)),)
    assert spans("brake_hose_month", "10/74") == (span((1974, 10, 1), (1974, 10, 31)),)


def test_a_belt_gives_its_year():
    """49 CFR 571.209 S4.1(j)."""
    assert spans("seat_belt_label", "1972") == (span((1972, 1, 1), (1972, 12, 31)),)


def test_a_rim_gives_its_month():
    """49 CFR 571.120 S5.2(e)."""
    assert spans("rim_month", "5/94") == (span((1994, 5, 1), (1994, 5, 31)),)


@pytest.mark.parametrize("typed", ["AS{}", "AS-{}", "as {}"])
@pytest.mark.parametrize("item", ["1", "2", "3", "10", "11"])
def test_a_type_of_glazing(typed, item):
    """ANSI Z26.1, section 6."""
    found = decoded("glazing_item", typed.format(item)).alternatives[0].fields[0]
    assert found.value == f"as-{item}"


def test_a_type_of_glazing_that_rests_on_memory_says_so():
    for item, weighs in (("1", True), ("2", True), ("3", True), ("10", False), ("11", False)):
        found = decoded("glazing_item", f"AS{item}").alternatives[0].fields[0]
        assert found.basis.weighs is weighs


@pytest.mark.parametrize("typed", ["R", "R DOT", "DOT R"])
def test_a_replacement_part(typed):
    """49 CFR 541.6: the letter R, and DOT."""
    found = decoded("replacement_part", typed).alternatives[0].fields[0]
    assert found.value == "replacement-part"
