"""A reading is spelt again until it rests."""

from witnessmark.codebook import find_book, open_book
from witnessmark.reading import parse_reading


def test_a_letter_spelt_plainly_that_fits_another_field_is_settled_in_one_reading():
    folder = find_book("tarvane-1952-1961")
    assert folder is not None
    book = open_book(folder).book
    assert book is not None
    mark = book.mark("engine_number")
    assert mark is not None
    reading = parse_reading("000000:\N{MATHEMATICAL DOUBLE-STRUCK SMALL O}0", mark)
    assert parse_reading(reading.normalised, mark).normalised == reading.normalised
