"""Of a series whose last number is not known nothing is said above its first."""

from dataclasses import replace

import pytest

from tests.agreement.readings import car_read
from tests.published.books import SHIPPED, TARVANE, opened
from witnessmark.agreement import Outcome
from witnessmark.agreement.build_date import date_of_year
from witnessmark.agreement.rules.number_in_its_series import compare
from witnessmark.codebook import CarContext
from witnessmark.decoding import decode
from witnessmark.decoding.slips import example_of
from witnessmark.reading import parse_reading
from witnessmark.weighing.evidence.numbers import spreads_of

SALOON = CarContext(1955, "solent-saloon")


def with_open_series(book_id, only=lambda row: True):
    """The book with the last numbers of such series left out."""
    book = opened(book_id)
    return replace(
        book, series=tuple(replace(row, last="") if only(row) else row for row in book.series)
    )


def found(number):
    """The finding on the number of a saloon of 1955, of whose series the first is known."""
    book = with_open_series(TARVANE, lambda row: row.first == "550001")
    read = car_read(TARVANE, f"frame_number=1 {number}", context=SALOON, of_book=book)
    [finding] = compare(read)
    return finding


def test_a_number_above_the_first_is_neither_for_nor_against():
    """Beside the last that was known, and far above it."""
    for number in ("550001", "550540", "551999"):
        assert found(number).outcome is Outcome.SILENT
        assert "does not know how far the series ran" in found(number).inference


def test_a_number_below_the_first_differs():
    assert found("549999").outcome is Outcome.DIFFER


def test_a_number_in_a_closed_series_of_the_car_agrees_as_before():
    book = with_open_series(TARVANE, lambda row: row.first == "540001")
    read = car_read(TARVANE, "frame_number=1 550137", context=SALOON, of_book=book)
    assert [each.outcome for each in compare(read)] == [Outcome.AGREE]


@pytest.mark.parametrize("book_id", [each for each in SHIPPED if opened(each).series])
def test_of_a_book_of_open_series_no_number_dates_a_car_nor_argues(book_id):
    """The first number of each series, beside the codes of the book, on a mark on one line."""
    book, tried = with_open_series(book_id), 0
    for row in book.series:
        item = book.item(row.item)
        mark, text = typed_on(book, row)
        if mark is None:
            continue
        tried += 1
        car = CarContext(row.applies.first_year)
        read = car_read(book_id, f"{mark.id}={text}", context=car, of_book=book)
        outcomes = {each.outcome for each in compare(read) if each.topic == row.item}
        assert Outcome.AGREE not in outcomes, (mark.id, text)
        dated = date_of_year(read)
        assert dated is None or "of the series" not in str(dated.shown)
        said = decode(parse_reading(text, mark), book, mark, car)
        meanings = [each.meaning for each in said.alternatives[0].fields if each.says == row.item]
        assert not any(row.meaning in meaning for meaning in meanings)
        assert spreads_of(book, item, car)[1:] == (None, None)
    assert tried


def typed_on(book, row):
    """A mark that bears the whole number on one line, and its first number with codes of it."""
    for mark in book.marks:
        saying = [f for f in mark.fields if f.says == row.item and f.part == "all"]
        if (
            len(saying) == 1
            and not mark.windows
            and mark.applies.covers(CarContext(row.applies.first_year))
        ):
            example = example_of(book, mark, mark.applies)
            places = "?" * len(row.first)
            if example.count("?") == len(places) and places in example:
                return mark, example.replace(places, row.first)
    return None, ""
