"""A column of readings is decoded as each of them is by itself."""

import pytest

from benchmarks.drawn import well_formed
from witnessmark.codebook import CarContext, find_book, joined, open_book
from witnessmark.decoding import decode, decode_many
from witnessmark.reading import parse_reading

BOOKS = {name: open_book(find_book(name)).book for name in ("tarvane-1952-1961", "dated-parts")}
MAKERS, PARTS = BOOKS.values()


@pytest.mark.parametrize("mark", [mark.id for mark in MAKERS.marks])
@pytest.mark.parametrize("year", [None, MAKERS.first_year + 3])
def test_many_readings_are_decoded_as_one_by_one(mark, year):
    """Well-formed ones, doubtful ones and one with a slip, among each other and twice."""
    own, context = MAKERS.mark(mark), CarContext(model_year=year)
    drawn = well_formed(MAKERS, own, 6, seed=11)
    texts = [text for each in drawn for text in (each.text, each.doubtful, each.text[1:])]
    readings = [parse_reading(text, own) for text in [*texts, *texts[:3]]]
    many = list(decode_many(readings, MAKERS, own, context))
    assert many == [decode(reading, MAKERS, own, context) for reading in readings]
    assert [each.reading for each in many] == readings


def test_a_mark_of_a_book_beside_is_decoded_by_that_book():
    """Its own book is looked up for all of them at once."""
    book = joined(MAKERS, (PARTS,))
    own = next(mark for mark in book.marks if mark.book)
    alone = next(mark for mark in PARTS.marks if own.id.endswith(mark.id))
    readings = [parse_reading(each.text, own) for each in well_formed(PARTS, alone, 5, seed=3)]
    one_by_one = [decode(reading, book, own) for reading in readings]
    assert list(decode_many(iter(readings), book, own)) == one_by_one
    assert {each.mark for each in one_by_one} == {own.id}


def test_no_reading_has_no_decoding():
    assert list(decode_many((), MAKERS, MAKERS.marks[0])) == []
