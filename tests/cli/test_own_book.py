"""docs/own-book.md is walked: its files written, its sheets typed, its commands answered."""

import csv
import json
import re
import shlex
from datetime import date
from pathlib import Path

import pytest
from openpyxl import Workbook

from witnessmark.codebook import open_book
from witnessmark.examination import examine

PAGE = Path(__file__).resolve().parents[2] / "docs/own-book.md"
PART = re.compile(
    r"<!-- file: (?P<file>\S+) -->\n```\w+\n(?P<text>.*?)```"
    r"|<!-- sheet: (?P<sheet>\S+\.xlsx)(?P<as_text>, text)? -->\n(?P<rows>(?:\|[^\n]*\n)+)"
    r"|^Delete from (?P<deleted>`tables/`[^\n]*)$"
    r"|```console\n(?P<typed>.*?)```",
    re.M | re.S,
)
ANSWER = re.compile(r"^\$ (.+)\n((?:(?!\$ ).*\n)*)", re.M)


class Day(date):
    """The day on which the page was written."""

    @classmethod
    def today(cls):
        """Always the same."""
        return cls(2026, 11, 30)


def typed_sheet(path, rows, is_text):
    """A sheet as a spreadsheet keeps it: what looks like a number is one, unless it is text."""
    made = Workbook()
    made.active.title = "Sheet1"
    for number, line in enumerate(line for line in rows.splitlines() if "---" not in line):
        cells = [cell.strip() for cell in line.strip("|").split("|")]
        code = cells[1] if is_text else None
        values = [int(c) if c.isdigit() and c != code and number else c or None for c in cells]
        made.active.append(values)
    made.save(path)


def answered(out, expected):
    """Is this what is expected, where a line of three dots stands for any lines?"""
    pieces = ("^" + re.escape(expected) + "$").replace(re.escape("...\n"), "(?:.*\n)*")
    return re.fullmatch(pieces, out) is not None


def engine(type_in):
    """The ratio of the engine's question."""
    rows = csv.DictReader(type_in("examine", "my-tourer", "--csv").out.splitlines())
    return next(float(r["lr"]) for r in rows if (r["question"], r["about"]) == ("core", "engine"))


@pytest.fixture
def drawn(type_in, monkeypatch):
    """The bands that a reader gets, and not those of the tests' few draws."""
    monkeypatch.setattr("witnessmark.cli.cases.examine", examine)


@pytest.fixture
def walked(type_in, tmp_path, monkeypatch):
    """The page walked from its first command to its last: each command with both answers."""
    monkeypatch.setattr("witnessmark.cli.book.begin.date", Day)
    answers = []
    for part in PART.finditer(PAGE.read_text("utf-8")):
        if part["file"]:
            (tmp_path / part["file"]).write_text(part["text"], "utf-8")
        elif part["sheet"]:
            typed_sheet(tmp_path / part["sheet"], part["rows"], part["as_text"])
        elif part["deleted"]:
            for name in re.findall(r"`(\w+\.csv)`", part["deleted"]):
                (tmp_path / "ashgrove-1948-1952/tables" / name).unlink()
        else:
            for command, expected in ANSWER.findall(part["typed"]):
                words = shlex.split(command)
                assert words[0] == "witnessmark"
                ended = type_in(*words[1:])
                answers.append((command, ended, expected))
    return answers


def test_every_command_of_the_page_answers_as_the_page_shows(drawn, walked):
    """Word for word; both streams, as a terminal shows them."""
    assert len(walked) == 8
    for command, ended, expected in walked:
        assert answered(ended.out + ended.err, expected), f"{command}\n{ended.out}{ended.err}"


def test_the_walk_ends_with_a_book_without_a_fault(walked, tmp_path):
    """All colours in it, each on its own basis, one disputed; and its version in its changelog."""
    opened = open_book(tmp_path / "ashgrove-1948-1952")
    assert opened.problems == ()
    colours = [
        (row.code, row.disputed, row.citation.basis.value) for row in opened.book.table("colours")
    ]
    assert colours == [
        ("03", False, "published"),
        ("07", False, "published"),
        ("11", True, "published"),
        ("11", True, "published"),
        ("14", False, "memory"),
    ]
    assert [ended.code for _, ended, _ in walked] == [0, 2, 0, 0, 0, 0, 0, 0]


def test_the_letter_ties_the_engine_as_the_page_says(walked, type_in, tmp_path):
    """Nothing on the car does: without it the engine's answer leans neither way."""
    case = tmp_path / "my-tourer/case.json"
    without = engine(type_in)
    typed = json.loads(case.read_text("utf-8"))
    typed["readings"].append({"mark": "letter", "text": "4037 | A1187", "seen": "in person"})
    typed["papers"] = [{"mark": "letter", "state": "in hand"}]
    case.write_text(json.dumps(typed), "utf-8")
    assert type_in("case", "check", "my-tourer").code == 0
    assert without < 1.5
    assert engine(type_in) > 2 * without


def test_a_line_of_dots_stands_for_any_lines_and_for_nothing_else():
    """So that the comparison above can fail."""
    assert answered("a\nb\nc\n", "a\n...\n")
    assert not answered("a\nb\n", "a\n")
    assert not answered("a\nb\n", "...\nc\n")
    assert not answered("axc\n", "a.c\n")


def test_the_list_that_is_imported_stands_on_the_commands_page():
    """tests/cli/test_main.py runs the example with it."""
    from tests.cli.test_main import PAINTS

    assert PAINTS in (PAGE.parent / "commands.md").read_text("utf-8")
