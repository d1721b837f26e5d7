"""What was read clear stays what it is, whatever the real books list beside it."""

import pytest

from tests.published.books import Marks, opened
from witnessmark.codebook import CarContext
from witnessmark.decoding import decode
from witnessmark.decoding.render import unread_text
from witnessmark.reading import parse_reading


def decoded(book_id, mark_id, text, **given):
    """The decoding of one mark by a shipped book."""
    return Marks(book_id).decoded(mark_id, text, CarContext(**given))


@pytest.mark.parametrize(
    ("book_id", "mark_id", "text", "field", "code"),
    [
        ("chevrolet-1964-1972", "block_number", "3970810", "number", "3970810"),
        ("ford-1964-1973", "four_speed_tag", "RVG-E3", "code", "RVG-E3"),
        ("ford-1964-1973", "apron_stamp", "6F01K100500", "body_serial", "01"),
    ],
)
def test_a_clear_code_is_never_taken_for_one_that_looks_like_it(
    book_id, mark_id, text, field, code
):
    first = decoded(book_id, mark_id, text).alternatives[0]
    assert next(each.code for each in first.fields if each.field == field) == code


def test_a_character_that_the_field_cannot_have_is_not_listed():
    decoding = decoded("chevrolet-1964-1972", "number_plate", "223379N608879")
    [division] = [f for f in decoding.alternatives[0].fields if f.field == "division"]
    assert not division.listed
    assert "2" in unread_text(decoding)


def test_the_series_of_another_car_is_not_stated():
    """A Chevelle of Kansas City, 1970: no series of the Camaro is its own."""
    decoding = decoded("chevrolet-1964-1972", "number_plate", "138170K123456")
    [number] = [f for f in decoding.alternatives[0].fields if f.field == "sequence"]
    assert "Camaro" not in number.meaning


def test_a_plant_that_follows_from_the_year_is_used_for_the_number():
    """L is Long Beach from 1965, Los Angeles no longer."""
    decoding = decoded("ford-1964-1973", "apron_stamp", "5L07C100500")
    said = {each.field: each.meaning for each in decoding.alternatives[0].fields}
    assert "Dearborn" not in said["unit"]


def test_the_year_that_is_given_narrows_an_unsure_digit():
    decoding = decoded("chevrolet-1964-1972", "number_plate", "12437[98]N512345", model_year=1969)
    first = decoding.alternatives[0]
    assert first.share > 0.9
    assert next(each.value for each in first.fields if each.field == "year") == "1969"


def test_lost_characters_are_never_dropped():
    reading = "ST69-12437NOR7…0BDY | TR711 | PNT 50 50 | 03B | X33"
    decoding = decoded("chevrolet-1964-1972", "body_plate_norwood_1969", reading)
    assert "…" in decoding.unread
    assert "body_number" in decoding.missing


def test_a_mark_says_its_own_year_whatever_is_claimed():
    book = opened("chevrolet-1964-1972")
    mark = book.mark("body_plate_norwood_1969")
    assert mark is not None
    text = "69 12437 NOR 123456 BDY | 711 | 52 52 | 05B | X33"
    assert decode(parse_reading(text, mark), book, mark).of_car.model_year == 1969
