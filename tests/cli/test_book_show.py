"""`witnessmark book show`."""

import json


def test_a_year_shows_only_the_marks_of_that_year(type_in):
    """From 1957 a body bears the tail of the chassis number and no body number."""
    early = type_in("book", "show", "tarvane-1952-1961", "--year", "1955").out
    late = type_in("book", "show", "tarvane-1952-1961", "--year", "1958").out
    assert "seat_body_number" in early
    assert "seat_body_number" not in late
    assert "seat_chassis_tail" in late


def test_a_plate_shows_how_its_windows_are_typed(type_in):
    """In reading order, with the sign between them."""
    ended = type_in("book", "show", "tarvane-1952-1961", "--year", "1955")
    assert "typed as: type | chassis number | engine number | paint" in ended.out


def test_json_gives_fields_and_the_digest_of_the_book(type_in):
    """witnessmark book show tarvane-1952-1961 --json"""
    outline = json.loads(type_in("book", "show", "tarvane-1952-1961", "--json").out)
    assert list(outline) == [
        "id", "title", "maker", "version", "sha256", "first_year", "last_year", "year",
        "models", "works", "marks",
    ]  # fmt: skip
    assert len(outline["sha256"]) == 64
    frame = next(mark for mark in outline["marks"] if mark["id"] == "frame_number")
    assert [field["says"] for field in frame["fields"]] == ["model", "chassis_number"]


def test_an_unknown_book_is_answered_with_the_nearest(type_in):
    """witnessmark book show tarvan"""
    ended = type_in("book", "show", "tarvan")
    assert (ended.code, ended.out) == (2, "")
    assert ended.err == (
        "BOOK: 'tarvan' is not a code book\n"
        "    tarvan\n"
        "    ^^^^^^\n"
        "expected a known one; nearest: tarvane-1952-1961\n"
    )


def test_a_year_outside_the_book_is_a_problem(type_in):
    """witnessmark book show tarvane-1952-1961 --year 1975"""
    ended = type_in("book", "show", "tarvane-1952-1961", "--year", "1975")
    assert (ended.code, ended.out) == (2, "")
    assert ended.err == (
        "--year: '1975' is not a year of the book tarvane-1952-1961\n"
        "    1975\n"
        "    ^^^^\n"
        "expected a year from 1952 to 1961\n"
    )


def test_a_book_of_ones_own_is_named_by_its_folder(type_in, own_book):
    """witnessmark book show ./tarvane-1952-1961"""
    ended = type_in("book", "show", f"./{own_book.name}")
    assert ended.code == 0
