"""`witnessmark book list`."""

import json


def test_every_shipped_book_is_listed_with_its_years(type_in):
    """witnessmark book list"""
    ended = type_in("book", "list")
    assert (ended.code, ended.err) == (0, "")
    assert "tarvane-1952-1961   Tarvane, 1952 to 1961" in ended.out


def test_json_lists_the_marks_of_each_book(type_in):
    """witnessmark book list --json"""
    ended = type_in("book", "list", "--json")
    books = {each["id"]: each for each in json.loads(ended.out)}
    assert list(books["tarvane-1952-1961"]) == [
        "id", "title", "maker", "version", "first_year", "last_year", "marks", "summary"
    ]  # fmt: skip
    assert "plate_brass" in books["tarvane-1952-1961"]["marks"]
