"""`witnessmark book show`."""

import json
import re

import pytest

from witnessmark.codebook import shipped_books

TARVANE = "tarvane-1952-1961"


BOOKS = [folder.name for folder in shipped_books()]


@pytest.mark.parametrize("book", BOOKS)
def test_a_book_is_a_screenful_whose_names_are_those_of_the_json(type_in, book):
    """The first names of each kind, and how many more there are."""
    for words in ((book,), (book, "--year", str(first_year(type_in, book)))):
        page = type_in("book", "show", *words).out
        assert len(page.splitlines()) <= 24
        assert max(map(len, page.splitlines())) <= 80
        outline = json.loads(type_in("book", "show", *words, "--json").out)
        told = " ".join(page.split())
        for kind in ("models", "works"):
            assert set(outline[kind][:3]) <= set(re.split(r"[ ,]+", told))
        shown = told.partition(" Marks ")[2].partition(". ")[0].partition(" One mark")[0]
        names, _, more = shown.partition(" and ")
        named = names.split(", ")
        assert named == [each["id"] for each in outline["marks"]][: len(named)]
        assert len(named) + int((more or "0").split()[0]) == len(outline["marks"])


def first_year(type_in, book):
    return json.loads(type_in("book", "show", book, "--json").out)["first_year"]


def test_a_car_narrows_all_that_is_shown(type_in):
    """From 1957 a body bears the tail of the chassis number and no body number."""
    early = type_in("book", "show", TARVANE, "--year", "1955").out
    late = type_in("book", "show", TARVANE, "--year", "1958").out
    assert "seat_body_number" in early
    assert "seat_body_number" not in late
    assert "seat_chassis_tail" in late
    car = ("--year", "1955", "--model", "Solent Sprint", "--works", "marrick")
    outline = json.loads(type_in("book", "show", TARVANE, *car, "--json").out)
    assert (outline["models"], outline["works"]) == (["solent-sprint"], ["tarvane", "marrick"])
    told = " ".join(type_in("book", "show", TARVANE, *car, "--all").out.split())
    assert "Only what applies to 1955, Solent Sprint, Marrick & Sons is shown" in told
    assert "solent-saloon" not in told
    assert "Ellery Coachworks" not in told


def test_a_mark_is_shown_alone_and_several_of_one_name_in_a_line_each(type_in):
    """witnessmark book show tarvane-1952-1961 plate-brass"""
    ended = type_in("book", "show", TARVANE, "plate-brass")
    assert (ended.code, ended.err) == (0, "")
    told = " ".join(ended.out.split())
    assert "typed as: type | chassis number | engine number | paint" in told
    assert "fixings: What holds the plate?" in told
    assert "frame_number" not in told
    outline = json.loads(type_in("book", "show", TARVANE, "plate-brass", "--json").out)
    assert [mark["id"] for mark in outline["marks"]] == ["plate_brass"]
    assert {each["site"] for each in outline["features"]} == {"scuttle"}
    several = type_in("book", "show", "chevrolet-1964-1972", "trim-tag", "--year", "1969").out
    assert sum(line.startswith("  - body_plate") for line in several.splitlines()) == 5
    assert "such as: 15A5" in type_in("book", "show", TARVANE, "block-date", "--year", "1955").out
    for typed, nearest in (("plate-bras", "plate_brass"), ("axle", "axle_stamp")):
        unknown = type_in("book", "show", TARVANE, typed, "--year", "1955")
        assert (unknown.code, unknown.out) == (2, "")
        assert unknown.err.endswith(f"nearest: {nearest}\n")  # axle_day is of later years


def test_json_gives_fields_and_the_digest_of_the_book(type_in):
    """witnessmark book show tarvane-1952-1961 --json"""
    outline = json.loads(type_in("book", "show", "tarvane-1952-1961", "--json").out)
    assert list(outline) == [
        "id", "title", "maker", "version", "sha256", "first_year", "last_year", "year",
        "models", "works", "items", "marks", "pieces", "features",
        "remarks",
    ]  # fmt: skip
    assert len(outline["sha256"]) == 64
    frame = next(mark for mark in outline["marks"] if mark["id"] == "frame_number")
    assert [field["says"] for field in frame["fields"]] == ["model", "chassis_number"]


def test_the_whole_book_has_every_value_of_every_item(type_in):
    """witnessmark book show tarvane-1952-1961 --all"""
    page = " ".join(type_in("book", "show", TARVANE, "--all").out.split())
    outline = json.loads(type_in("book", "show", TARVANE, "--json").out)
    values = [value for item in outline["items"] for value in item["values"]]
    assert [value for value in values if value not in page] == []
    assert "chassis_number chassis number: 6 places" in page


def test_what_to_look_at_stands_with_its_site_and_its_answers(type_in):
    """witnessmark book show tarvane-1952-1961 --year 1955 --all"""
    page = " ".join(type_in("book", "show", TARVANE, "--year", "1955", "--all").out.split())
    assert "scuttle scuttle, plate" in page
    assert (
        "fixings: What holds the plate? round brass rivets = factory; other rivets = doubtful"
        in page
    )
    assert "hollow alloy rivets" not in page  # of the plates from 1958 on
    outline = json.loads(type_in("book", "show", "tarvane-1952-1961", "--json").out)
    assert {"outcome": "hollow alloy rivets", "look": "factory"} in [
        each for feature in outline["features"] for each in feature["outcomes"]
    ]


def test_what_is_told_twice_of_a_name_says_of_which_cars(type_in):
    """witnessmark book show tarvane-1952-1961 --all"""
    page = " ".join(type_in("book", "show", "tarvane-1952-1961", "--all").out.split())
    assert page.count("- fixings: What holds the plate?") == 2
    for years in ("(1952 to 1957)", "(1958 to 1961)"):
        assert f"fresh holes beside the rivets = disturbed {years}" in page
    assert "only ellery)" in page


def test_a_mark_shows_what_people_call_it_and_where_it_was_in_that_year(type_in):
    """witnessmark book show chevrolet-1964-1972 --year 1969 --all"""
    words = ("book", "show", "chevrolet-1964-1972", "--year", "1969", "--all")
    page = " ".join(type_in(*words).out.split())
    assert "also called: trim tag, cowl tag, body tag" in page
    assert "where: flat on the cowl top, under the hood" in page
    assert "where: upright on the firewall" not in page


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


def test_pieces_stand_with_their_marks_and_what_is_known_of_them(type_in):
    """witnessmark book show chevrolet-1964-1972 --year 1969 --all"""
    words = ("book", "show", "chevrolet-1964-1972", "--year", "1969", "--all")
    page = " ".join(type_in(*words).out.split())
    assert "engine block (core): engine_pad, partial_number_engine" in page
    assert "engine block: sold in service, numbered there by the dealer [published]" in page
    assert "frame: sold in service [memory; it explains but carries no weight]" in page
    early = " ".join(type_in("book", "show", "chevrolet-1964-1972", "--year", "1966").out.split())
    assert "numbered there" not in early


def test_json_tells_a_declared_piece_from_memory_once(type_in):
    """Beside the piece on which its marks stand, which is derived."""
    outline = json.loads(type_in("book", "show", "ford-1964-1973", "--json").out)
    pieces = {piece["id"]: piece for piece in outline["pieces"]}
    assert len(pieces) == len(outline["pieces"])
    assert pieces["engine"]["sold_in_service"] == "yes"
    assert {"mark": "head_date", "surface": "head"} in pieces["cylinder_head"]["marks"]
    assert (pieces["left_apron"]["basis"], pieces["left_apron"]["marks"]) == ("memory", [])
    assert pieces["shell:panels"]["sold_in_service"] == "unknown"


GERMAN = """msgid ""
msgstr ""
"Language: de\\n"
"Content-Type: text/plain; charset=UTF-8\\n"

msgid "typed as: {windows}"
msgstr "zu tippen als: {windows}"
"""


def test_a_book_is_shown_in_the_language_of_a_file(type_in, tmp_path):
    """witnessmark book show ... --all --language de.po; its own names stay as they are,
    and a machine is told the same in every language."""
    (tmp_path / "de.po").write_text(GERMAN, "utf-8")
    words = ("book", "show", TARVANE, "--year", "1955", "--all")
    ended = type_in(*words, "--language", "de.po")
    assert (ended.code, ended.err) == (0, "")
    assert "zu tippen als: type | chassis number | engine number | paint" in ended.out
    assert "typed as" not in ended.out
    assert type_in(*words, "--language", "de.po", "--json").out == type_in(*words, "--json").out
