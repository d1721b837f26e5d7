"""`witnessmark decode --column`."""

import io
import json
import sys

import pytest

BOOK = "tarvane-1952-1961"


def column(tmp_path, text):
    """A file of readings, one a line."""
    (tmp_path / "numbers.txt").write_text(text, "utf-8")
    return ("decode", BOOK, "frame_number", "--column", "numbers.txt")


def test_each_line_of_a_column_is_one_line_of_the_answer(type_in, tmp_path):
    """Empty lines are passed over; a slip is told in its line."""
    ended = type_in(*column(tmp_path, "4700143\n\n 4 70014\nhello world\n"))
    assert (ended.code, ended.err) == (0, "")
    first, second, third = ended.out.splitlines()
    assert first == "4700143  Solent Sprint, two litres; Sprints of 1955, of 140 in all"
    assert second.startswith("4 70014  ")
    assert "missing" in second
    assert third == "hello world  This does not look like the frame stamping."


def test_a_column_for_a_machine_is_a_json_line_for_each_reading(type_in, tmp_path):
    """With its line in front; the remarks, the same on each, are left out."""
    ended = type_in(*column(tmp_path, "4700143\n\n4700144\r\n"), "--json")
    decoded = [json.loads(line) for line in ended.out.splitlines()]
    assert [(each["line"], each["reading"]) for each in decoded] == [(1, "4700143"), (3, "4700144")]
    alone = json.loads(type_in("decode", BOOK, "frame_number", "4700143", "--json").out)
    del alone["remarks"]
    assert decoded[0] == {"line": 1} | alone


def test_what_cannot_be_read_is_named_by_line_and_column_and_stops_nothing(type_in, tmp_path):
    """The second line has a bracket that is never closed."""
    ended = type_in(*column(tmp_path, "4700143\n4700[14\n4700144\n"))
    assert ended.code == 2
    assert len(ended.out.splitlines()) == 3
    assert ended.err.startswith(
        "numbers.txt:2:5: this [ is never closed\n    4700[14\n        ^\nexpected "
    )


def test_a_problem_for_a_machine_names_its_line_too(type_in, tmp_path):
    """In the JSON of that line as in what is said of the whole column."""
    ended = type_in(*column(tmp_path, "4700143\n4700[14\n"), "--json")
    [problem] = json.loads(ended.out.splitlines()[1])["problems"]
    assert problem["place"] == "numbers.txt:2:5"


def test_a_column_can_come_from_another_command(type_in, monkeypatch):
    """grep ... | witnessmark decode tarvane-1952-1961 frame_number --column -"""
    stdin = io.TextIOWrapper(io.BytesIO(b"4700143\n"), encoding="utf-8")
    monkeypatch.setattr(sys, "stdin", stdin)
    assert "Solent Sprint" in type_in("decode", BOOK, "frame_number", "--column", "-").out


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        ((), "no reading was typed"),
        (("4700143", "--column", "-"), "a reading and a column of readings were given"),
        (("--column", "nowhere.txt"), "'nowhere.txt' cannot be read: No such file or directory"),
        (("--column", "picture.jpg"), "'picture.jpg' cannot be read: it is not UTF-8 text"),
    ],
)
def test_neither_both_or_no_file_is_a_problem(type_in, tmp_path, words, sentence):
    """Exit code 2, with what was expected."""
    (tmp_path / "picture.jpg").write_bytes(b"\xff\xd8\xff")
    ended = type_in("decode", BOOK, "frame_number", *words)
    assert (ended.code, ended.out) == (2, "")
    assert sentence in ended.err
    assert "\nexpected " in ended.err


def test_nothing_in_a_column_moves_the_cursor(type_in, tmp_path):
    """A control character is a problem, and is not printed."""
    ended = type_in(*column(tmp_path, "47\x1b[31m00143\n"))
    assert ended.code == 2
    assert "\x1b" not in ended.out + ended.err
