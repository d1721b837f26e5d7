"""`witnessmark decode`."""

import json

import pytest
from hypothesis import HealthCheck, given
from hypothesis import strategies as st

from tests.examples import tried_on

BOOK = "tarvane-1952-1961"


def test_json_has_exactly_the_published_keys(type_in):
    """witnessmark decode tarvane-1952-1961 frame_number '3700[38]43' --json"""
    ended = type_in("decode", BOOK, "frame_number", "3700[38]43", "--json")
    assert (ended.code, ended.err) == (0, "")
    decoded = json.loads(ended.out)
    assert list(decoded) == [
        "book", "mark", "reading", "normalised", "problems", "alternatives",
        "not_listed_share", "unread", "unread_in_fields",
    ]  # fmt: skip
    assert decoded["unread"] == "3"  # a type figure that the book does not list
    assert list(decoded["unread_in_fields"][0]) == ["field", "text", "column", "reason"]
    assert list(decoded["alternatives"][0]) == ["share", "fields"]
    assert [list(field) for field in decoded["alternatives"][0]["fields"]] == [
        ["field", "code", "says", "value", "meaning", "basis", "source"]
    ] * 2
    assert (decoded["book"], decoded["mark"]) == (BOOK, "frame_number")
    assert decoded["reading"] == "3700[38]43"


def test_json_says_only_what_there_is_to_say(type_in):
    """A reading that is explained whole has the keys that every reading has."""
    decoded = json.loads(type_in("decode", BOOK, "frame_number", "4700143", "--json").out)
    assert (list(decoded)[-1], decoded["unread"]) == ("unread", "")


@pytest.mark.parametrize(
    ("option", "value", "expected"),
    [("--model", "solent-sprnt", "solent-sprint"), ("--works", "elery", "ellery")],
)
def test_an_unknown_model_or_works_is_answered_with_the_nearest(type_in, option, value, expected):
    """witnessmark decode tarvane-1952-1961 frame_number 4700143 --model solent-sprnt"""
    ended = type_in("decode", BOOK, "frame_number", "4700143", option, value)
    assert (ended.code, ended.out) == (2, "")
    assert f"nearest: {expected}" in ended.err


def test_a_code_of_other_models_is_told_with_its_models(type_in):
    """No Sprint was trimmed in green leather."""
    plate = ("decode", BOOK, "plate_brass", "SP|700143|40047|17|L4|370|_", "--model")
    told = "listed for 1952 to 1955, Solent"
    assert told in " ".join(type_in(*plate, "solent-sprint").out.split())
    assert told not in " ".join(type_in(*plate, "solent-saloon").out.split())


def test_a_page_says_what_each_field_means_and_on_what_that_rests(type_in):
    """witnessmark decode tarvane-1952-1961 frame_number 3700143"""
    ended = type_in("decode", BOOK, "frame_number", "3700143")
    assert (ended.code, ended.err) == (0, "")
    assert "What it says" in ended.out
    assert "Solent Sprint" in ended.out
    assert "700143" in ended.out
    assert "invented" in ended.out.split("Why")[1]


def test_the_place_that_decides_is_pointed_at(type_in):
    """A code that may be one of two: the sign that decides has a mark under it."""
    ended = type_in("decode", BOOK, "frame_number", "[13]700143")
    lines = ended.out.splitlines()
    at = lines.index("    [13]700143")
    assert lines[at + 1] == "    ^"


def test_a_mark_may_be_named_with_hyphens_and_capitals(type_in):
    """Frame-Number is frame_number."""
    named = type_in("decode", BOOK, "Frame-Number", "3700143")
    assert named.code == 0
    assert named.out == type_in("decode", BOOK, "frame_number", "3700143").out


def test_an_unknown_mark_is_answered_with_the_nearest(type_in):
    """witnessmark decode tarvane-1952-1961 framenumber 3700143"""
    ended = type_in("decode", BOOK, "framenumber", "3700143")
    assert (ended.code, ended.out) == (2, "")
    assert ended.err.startswith(
        "MARK: 'framenumber' is not a mark of the book tarvane-1952-1961\n"
        "    framenumber\n"
        "    ^^^^^^^^^^^\n"
        "expected a known one; nearest: frame_number"
    )


@pytest.mark.parametrize("reading", ["3700[38", "", "37\t\x00", "]"])
def test_a_reading_that_cannot_be_read_is_a_problem_with_its_place(type_in, reading):
    """Exit code 2, the problem on the error stream, no half page on the other."""
    ended = type_in("decode", BOOK, "frame_number", reading)
    assert (ended.code, ended.out) == (2, "")
    assert ended.err.startswith("reading")


def test_json_says_what_is_wrong_with_a_reading(type_in):
    """The problems stand in the JSON as well, and the exit code is 2."""
    ended = type_in("decode", BOOK, "frame_number", "3700[38", "--json")
    assert ended.code == 2
    assert json.loads(ended.out)["problems"]


def test_what_the_book_does_not_list_is_said_and_is_no_fault(type_in):
    """A type figure that no row has: exit code 0."""
    ended = type_in("decode", BOOK, "frame_number", "9700143")
    assert (ended.code, ended.err) == (0, "")
    assert "not listed" in ended.out


def test_a_mark_of_other_years_is_decoded_and_said_to_be_of_other_years(type_in):
    """The brass plate went in 1957; a car of 1958 with one is a finding, not a fault."""
    ended = type_in("decode", BOOK, "plate_brass", "SP|700143|40047|17|L2|370|_", "--year", "1958")
    assert (ended.code, ended.err) == (0, "")
    assert "The book has the brass chassis plate for 1952 to 1957, not for 1958." in ended.out


def test_a_field_that_was_left_empty_says_something(type_in):
    """The window for extras."""
    ended = type_in("decode", BOOK, "plate_brass", "SP|700143|40047|17|L2|370|_")
    assert "no extras ordered" in ended.out


def test_what_the_normalised_form_says_otherwise_is_told(type_in):
    """A letter O in a number that never has one."""
    ended = type_in("decode", BOOK, "frame_number", "37OO143")
    assert "as typed    37OO143" in ended.out
    assert "normalised  3700143" in ended.out
    assert "At place 3 of what was typed, 'O' is read as '0'" in ended.out


SIGNS = st.one_of(st.text(alphabet="0123456789MSPX[]?~_….| ", max_size=30), st.text(max_size=12))


@tried_on(60, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(mark=st.sampled_from(["plate_brass", "frame_number", "engine_casting"]), reading=SIGNS)
def test_whatever_is_typed_is_decoded_or_is_a_problem(type_in, mark, reading):
    """Exit code 0 with a page, or 2 with problems; the JSON is whole either way."""
    page = type_in("decode", "--", BOOK, mark, reading)
    machine = type_in("decode", "--json", "--", BOOK, mark, reading)
    decoded = json.loads(machine.out)
    assert page.code == machine.code == (2 if decoded["problems"] else 0)
    assert bool(page.out) == (page.code == 0)
    assert bool(page.err) == (page.code == 2)
    assert decoded["reading"] == reading
    shares = [each["share"] for each in decoded["alternatives"]]
    assert shares == sorted(shares, reverse=True)
    assert all(0 <= share <= 1 for share in [*shares, decoded["not_listed_share"]])
