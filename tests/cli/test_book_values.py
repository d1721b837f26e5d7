"""`witnessmark book values`."""

import json

import pytest

TARVANE, CHEVROLET = "tarvane-1952-1961", "chevrolet-1964-1972"


def test_each_value_stands_with_its_words_years_and_basis(type_in):
    """witnessmark book values tarvane-1952-1961 paint --year 1955"""
    ended = type_in("book", "values", TARVANE, "paint", "--year", "1955")
    assert (ended.code, ended.err) == (0, "")
    assert "  harbour-grey  Harbour Grey           1952 to 1957  invented" in ended.out.splitlines()


@pytest.mark.parametrize(
    ("book", "item", "car"),
    [
        (TARVANE, "model", ("--model", "solent-sprint")),
        (TARVANE, "body_works", ("--works", "marrick")),
        (CHEVROLET, "axle", ("--year", "1969", "--model", "camaro")),
        ("ford-1964-1973", "paint", ("--year", "1966")),
        ("jaguar-1948-1974", "model", ("--year", "1955")),
        ("volkswagen-1950-1979", "works", ("--year", "1955")),
    ],
)
def test_a_car_narrows_the_values_and_the_page_has_those_of_the_json(type_in, book, item, car):
    """No more than are claimed of all cars."""
    every = json.loads(type_in("book", "values", book, item, "--json").out)["values"]
    narrowed = json.loads(type_in("book", "values", book, item, *car, "--json").out)["values"]
    values = [each["value"] for each in narrowed]
    assert 0 < len(values) < len(every)
    assert set(values) <= {each["value"] for each in every}
    page = type_in("book", "values", book, item, *car).out
    assert [value for value in values if value not in page.split()] == []
    assert max(map(len, page.splitlines())) <= 80


@pytest.mark.parametrize(
    ("item", "told"),
    [
        ("model year", "A year of the book: 1952 to 1961."),
        ("chassis-number", "6 places of 0123456789"),
        ("build_date", "1955-06-06, 1955-06 or 1955"),
    ],
)
def test_of_what_the_book_does_not_list_the_form_is_told(type_in, item, told):
    assert told in type_in("book", "values", TARVANE, item).out


def test_an_unknown_item_is_answered_with_the_nearest(type_in):
    """witnessmark book values tarvane-1952-1961 pant"""
    ended = type_in("book", "values", TARVANE, "pant")
    assert (ended.code, ended.out) == (2, "")
    assert ended.err.startswith("ITEM: 'pant' is not an item of the book tarvane-1952-1961\n")
    assert "nearest: paint" in ended.err
