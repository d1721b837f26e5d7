"""All dates of a car: earlier is left, longer is longer, and the words say how they stand."""

import re
from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.figures.laid_out import SVG, assert_well_laid_out, root_of
from tests.worked.opened import (
    CARS,
    book_and_version,
    case_of,
    opinion_of,
    unweighed,
    with_reading,
)
from witnessmark.agreement import Outcome
from witnessmark.codebook import Basis
from witnessmark.dates import DateSpan
from witnessmark.figures import time_line
from witnessmark.figures.drawing import INK, width_of
from witnessmark.figures.time_axis import TICK_SIZE, TimeAxis
from witnessmark.figures.time_rows import time_rows, window_of
from witnessmark.figures.time_words import days_off, nearest, off_words, placed_words
from witnessmark.wording import Names
from witnessmark.wording.amounts import capital

BOOK = book_and_version()[0]
DAYS = st.dates(date(1890, 1, 1), date(2030, 12, 31))


@st.composite
def spans(draw):
    first = draw(DAYS)
    return DateSpan(first, first + timedelta(days=draw(st.integers(0, 800))))


def drawn(opinion, book=BOOK):
    line = time_line(opinion, book)
    assert line is not None
    return line


def tracks(opinion, book=BOOK):
    """The drawn tracks by the names of their rows."""
    return {row.name: root_of(track) for row, track in drawn(opinion, book).rows if track}


def assert_well_drawn(line):
    for figure in (line.legend, line.axis, *(track for _, track in line.rows if track)):
        assert_well_laid_out(figure)


def rows_of(opinion, book=BOOK):
    return {row.name: row for row in time_rows(opinion, book)}


def read_as(car, mark, text):
    """The demonstration car with one mark read otherwise."""
    case = case_of(car)
    at = next(n for n, reading in enumerate(case.readings) if reading.mark == mark)
    return unweighed(car, with_reading(case, at, text))


def built(opinion, text):
    """The opinion with another claimed build date."""
    claim = replace(opinion.casefile.claim, built=text)
    return replace(opinion, casefile=replace(opinion.casefile, claim=claim))


@pytest.mark.parametrize("car", CARS)
def test_every_date_of_a_demonstration_car_has_its_row_and_the_words_stay_apart(car):
    opinion = opinion_of(car)
    line = drawn(opinion)
    assert_well_drawn(line)
    rows = time_rows(opinion, BOOK)
    assert tuple(row for row, _ in line.rows) == rows
    assert [track is not None for _, track in line.rows] == [bool(row.spans) for row in rows]
    names = Names(opinion.names)
    for mark in BOOK.marks_for(opinion.context):
        if any(field.date_form for field in mark.fields) and any(
            decoding.mark == mark.id for decoding in opinion.decodings
        ):
            assert sum(row.name == capital(names.mark(mark.id)) for row in rows) == 1


@pytest.mark.parametrize("car", CARS)
def test_rows_are_in_order_of_time_and_those_without_a_date_come_last(car):
    rows = time_rows(opinion_of(car), BOOK)
    firsts = [row.spans[0].first for row in rows if row.spans]
    assert firsts == sorted(firsts)
    assert [bool(row.spans) for row in rows] == sorted((bool(r.spans) for r in rows), reverse=True)


def test_a_date_in_its_window_is_consistent_with_it():
    row = rows_of(opinion_of("clean"))["Axle stamping"]
    assert row.windows == (DateSpan(date(1954, 12, 13), date(1955, 5, 7)),)
    assert row.sentences[-1] == "consistent with the window 13 December 1954 to 7 May 1955"


def test_a_date_beyond_its_window_says_by_how_many_days():
    row = rows_of(opinion_of("panel"))["Casting date of the block"]
    assert row.windows == (DateSpan(date(1958, 1, 5), date(1958, 8, 13)),)
    assert (date(1960, 6, 8) - date(1958, 8, 13)).days == 665
    assert row.sentences[-1].startswith("665 days later than the window 5 January 1958")


def test_a_year_that_is_not_written_gives_several_readings_and_says_so():
    """146 is of 1956 or of 1966, and neither is about a car of 1955."""
    opinion = read_as("clean", "gearbox_stamp", "22064 146")
    row = rows_of(opinion)["Gearbox stamping"]
    assert [span.first for span in row.spans] == [date(1956, 4, 1), date(1966, 4, 2)]
    read = " ".join(row.sentences)
    assert "reading 1, 1 to 7 April 1956; reading 2, 2 to 8 April 1966" in read
    assert "(year not written in full)" in read
    assert "no reading lies in the window 13 December 1954 to 7 May 1955" in read


def test_of_open_years_those_about_the_car_are_drawn():
    """145 is of 1955 or of 1965; the car is of 1955."""
    row = rows_of(opinion_of("clean"))["Gearbox stamping"]
    assert [span.first for span in row.spans] == [date(1955, 4, 2)]
    assert row.sentences[-1].startswith("consistent with the window 13 December 1954")


def test_readings_are_open_bars_joined_by_a_dashed_line_and_a_sure_date_is_filled():
    groups = tracks(read_as("clean", "gearbox_stamp", "22064 146"))
    gearbox = [r for r in groups["Gearbox stamping"].iter(f"{SVG}rect") if r.get("stroke") == INK]
    assert [r.get("fill") for r in gearbox] == ["#ffffff", "#ffffff"]
    dashed = [
        e
        for e in groups["Gearbox stamping"].iter(f"{SVG}line")
        if e.get("stroke-dasharray") and e.get("y1") == e.get("y2")
    ]
    assert len(dashed) == 1
    axle = [r for r in groups["Axle stamping"].iter(f"{SVG}rect") if r.get("stroke") == INK]
    assert [r.get("fill") for r in axle] == [INK]


def test_a_placeholder_is_a_row_that_says_so():
    row = rows_of(read_as("panel", "engine_casting", "00A0"))["Casting date of the block"]
    assert row.spans == ()
    assert "no date; pattern without a date" in row.sentences[0]


def test_what_cannot_be_read_or_was_not_looked_for_is_a_row_that_says_so():
    rows = rows_of(opinion_of("altered"))
    assert rows["Build card"].sentences == (
        "Day on which the build card was closed: cannot be read",
    )
    assert rows["Axle stamping"].sentences[0].endswith(": not looked for")
    assert rows["Despatch ledger entry"].sentences[0].endswith(": the paper is awaited")


def test_a_date_without_a_lag_says_that_the_book_has_no_window():
    row = rows_of(opinion_of("panel"))["Invoice of the service department"]
    assert row.windows == ()
    assert row.sentences[-1] == "no window in the book"


def test_a_lag_from_memory_gives_no_window():
    lags = tuple(
        replace(lag, citation=replace(lag.citation, basis=Basis.MEMORY)) for lag in BOOK.lags
    )
    book = replace(BOOK, lags=lags)
    row = rows_of(opinion_of("clean"), book)["Axle stamping"]
    assert row.windows == ()
    assert row.sentences[-1] == "no window is drawn: the book’s is from memory only"
    assert_well_drawn(drawn(opinion_of("clean"), book))


def test_without_a_claimed_day_windows_are_counted_from_the_model_year():
    rows = rows_of(built(opinion_of("altered"), None))
    own = rows["Cars of model year 1957"]
    assert own.is_car
    assert own.spans == (BOOK.days_built(opinion_of("altered").context, 1957, 1957),)
    window = rows["Gearbox stamping"].windows[0]
    assert window.last == own.spans[0].last - timedelta(days=5)
    assert window.first == own.spans[0].first - timedelta(days=150)


def test_a_later_claim_moves_every_window_later():
    opinion = opinion_of("altered")
    before, after = rows_of(opinion), rows_of(built(opinion, "1959-06-01"))
    for name in ("Gearbox stamping", "Casting date of the block"):
        assert after[name].windows[0].first > before[name].windows[0].first
    assert after["Gearbox stamping"].sentences[-1].startswith("open: in the window")


def test_a_book_without_dates_gives_no_figure(opinion):
    bare = built(replace(opinion, context=replace(opinion.context, model_year=None)), None)
    book = replace(BOOK, marks=(), series=(), runs=())
    assert time_line(bare, book) is None


@given(day=st.dates(date(1905, 1, 1), date(2020, 12, 31)), exact=st.sampled_from((4, 7, 10)))
def test_whatever_is_claimed_the_words_stay_apart_and_inside(day, exact):
    opinion = built(opinion_of("no-papers"), day.isoformat()[:exact])
    assert_well_drawn(drawn(opinion))


@given(held=st.lists(spans(), min_size=1, max_size=12))
def test_on_the_axis_earlier_is_left_and_longer_is_longer(held):
    axis = TimeAxis(128, 480, tuple(held))
    ends = [axis.ends(span) for span in held]
    for (left, right), span in zip(ends, held, strict=True):
        assert 128 - 1e-6 <= left < right <= 480 + 1e-6
        for (other, end), than in zip(ends, held, strict=True):
            assert (left < other) == (span.first < than.first) or abs(left - other) < 1e-6
            assert (right < end) == (span.last < than.last) or abs(right - end) < 1e-6
        assert right - left == pytest.approx(span.days() * axis.per_day, abs=1e-6)


@given(held=st.lists(spans(), min_size=1, max_size=12))
def test_the_words_of_the_axis_touch_neither_each_other_nor_the_edge(held):
    axis = TimeAxis(128, 480, tuple(held))
    for row in (axis.month_words(), axis.year_words()):
        placed = sorted((x, x + width_of(text, TICK_SIZE)) for x, text in row)
        assert all(one[1] < two[0] for one, two in pairwise(placed))
        assert all(left >= 128 - 1e-6 and right <= 480.02 for left, right in placed)
    assert axis.year_words()


def test_a_date_of_another_age_lies_as_far_off_as_it_is():
    near, far = date(1955, 1, 1), date(1988, 3, 1)
    axis = TimeAxis(100, 480, (DateSpan(near, near), DateSpan(far, far)))
    assert axis.x(far) - axis.x(near) == pytest.approx((far - near).days * axis.per_day)
    assert {"1955", "1985"} <= {text for _, text in axis.year_words()}


def test_a_date_that_misses_its_window_says_so_at_its_mark_and_one_within_says_nothing():
    found = tracks(opinion_of("altered"))
    assert [each.text for each in found["Casting date of the block"].iter(f"{SVG}text")] == [
        "557 days late"
    ]
    assert not list(tracks(opinion_of("clean"))["Axle stamping"].iter(f"{SVG}text"))


def test_a_date_without_a_window_is_neither_late_nor_early():
    assert not list(
        tracks(opinion_of("panel"))["Invoice of the service department"].iter(f"{SVG}text")
    )


@given(held=st.lists(spans(), min_size=1, max_size=4, unique=True), window=spans())
def test_the_words_at_a_mark_say_how_far_the_nearest_reading_is_off(held, window):
    off = days_off(nearest(tuple(held), window), window)
    said = off_words(tuple(held), window)
    assert abs(off) == min(abs(days_off(each, window)) for each in held)
    assert said.split()[:1] == ([str(abs(off))] if off else [])
    assert ("early" in said) == (off < 0)


@given(span=spans(), window=spans())
def test_days_off_counts_the_days_between(span, window):
    off = days_off(span, window)
    if off == 0:
        assert span.first <= window.last
        assert window.first <= span.last
    elif off < 0:
        assert span.last + timedelta(days=-off) == window.first
    else:
        assert window.last + timedelta(days=off) == span.first


@given(held=st.lists(spans(), min_size=1, max_size=6, unique=True), window=spans())
def test_words_agree_with_the_days(held, window):
    words = placed_words(tuple(held), window, "", None)
    inside = sum(days_off(span, window) == 0 for span in held)
    misses = any(each in words for each in ("earlier", "later"))
    assert misses == (inside == 0)
    told = re.search(r"consistent with|partly in|(\d+) of \d+ readings", words)
    assert (told is not None) == (inside > 0)
    assert told is None or told[1] is None or int(told[1]) == inside


def test_a_known_exception_is_named_where_the_comparison_let_it_count():
    span, window = (
        DateSpan(date(1955, 1, 1), date(1955, 1, 1)),
        DateSpan(date(1956, 1, 1), date(1956, 2, 1)),
    )
    words = placed_words((span,), window, "", Outcome.UNDECIDED)
    assert words.startswith("365 days earlier than")
    assert words.endswith("a known exception may explain it")


@given(end=spans(), least=st.integers(-50, 100), more=st.integers(0, 300))
def test_a_window_is_what_the_lag_allows(end, least, more):
    lag = replace(BOOK.lags[0], least_days=least, most_days=least + more)
    before = window_of(lag, end, is_before=True)
    assert before is not None
    assert (end.first - before.first).days == least + more
    assert (end.last - before.last).days == least
