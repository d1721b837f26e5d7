"""The assumed rows: each with its reason and its words, each used, none missing."""

import ast
import csv
import re
from functools import cache
from pathlib import Path

import pytest

import witnessmark.weighing
from tests.weighing.cars import saloon
from tests.weighing.changed import every_case, network_of
from witnessmark.casefile.records import Casefile
from witnessmark.reading import MOVABLE_ROWS
from witnessmark.weighing import model_rows, shipped_rows
from witnessmark.weighing.rows import FIXED_TABLE, TABLE, fixed

ROOM = Path(witnessmark.weighing.__file__).parent
COLUMNS = ["row", "value", "basis", "plain", "reason"]


@cache
def lines() -> list[dict[str, str]]:
    """The table as it stands in its file."""
    with TABLE.open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


@pytest.mark.parametrize("line", lines(), ids=lambda line: line["row"])
def test_a_row_has_a_value_a_basis_and_says_what_it_is_and_why(line):
    assert list(line) == COLUMNS
    assert 0.0 < float(line["value"]) < 1.0
    assert line["basis"] == "assumed"
    assert len(line["plain"].split()) >= 3
    assert len(line["reason"].strip()) >= 5
    assert not line["plain"].endswith(".")


def test_no_row_stands_twice():
    names = [line["row"] for line in lines()]
    assert sorted(names) == sorted(set(names))
    assert [row.id for row in shipped_rows()] == names


def test_the_rates_of_reading_may_be_moved_like_any_other_row():
    assert [row.id for row in model_rows()] == [*(r.id for r in shipped_rows()), *MOVABLE_ROWS]


@pytest.mark.parametrize(
    "states",
    [
        ("deceit.own.crude", "deceit.own.skilled"),
        ("deceit.not_own.crude", "deceit.not_own.skilled"),
        ("made.knows_open", "made.copies"),
        ("paper.other", "paper.made.skilled"),
        ("plate.refitted", "plate.other", "plate.made.own.dressed"),
        ("plate.moved.not_own.deceit", "plate.made.not_own.deceit", "plate.other.not_own"),
        ("codes.hidden", "codes.differs.model"),
    ],
)
def test_rows_of_one_distribution_leave_something_for_the_rest(states):
    values = {row.id: row.value for row in shipped_rows()}
    assert sum(values[state] for state in states) < 1.0


@pytest.mark.parametrize("carried", ["frame", "welded", "bolted", "block", "casing"])
@pytest.mark.parametrize("deceit", ["none", "crude", "skilled"])
def test_the_sources_of_a_mark_leave_something_for_the_rest(carried, deceit):
    values = {row.id: row.value for row in shipped_rows()}
    part = {
        kind: values[f"part.{kind}.{carried}"] for kind in ("refitted", "donor", "other", "blank")
    }
    assert sum(part.values()) + values[f"mark.made.own.{deceit}"] < 1.0
    not_own = part["other"] + part["blank"] + values[f"mark.graft.{deceit}"]
    assert not_own + values[f"mark.made.not_own.{deceit}"] < 1.0


def test_looking_right_is_weak_and_a_clear_sign_is_strong():
    """Section 0: the look tables lean this way by design."""
    values = {row.id: row.value for row in shipped_rows()}

    def looks(kind: str) -> tuple[float, float]:
        disturbed = values[f"look.{kind}.disturbed"]
        return 1.0 - disturbed - values[f"look.{kind}.doubtful"], disturbed

    right, disturbed = looks("factory")
    made_right, made_disturbed = looks("made.skilled")
    assert right / made_right < 3.0 < made_disturbed / disturbed
    assert looks("made.crude")[1] > made_disturbed


# What is left to the cases below, which together use every row.
FRAME_ABSENT = {"site": "frame_rail", "state": "absent"}
NO_WING = {"site": "inner_wing", "state": "read", "attachment": "the car has no such part"}
LOOSE_PLATE = {"site": "scuttle", "state": "read", "attachment": "present but detached"}


def cases_that_use_all() -> list[Casefile]:
    """The demonstration cars and the saloon, and a saloon on which parts are missing and loose."""
    missing = saloon(
        plate="600321|20|60|E|14950|C|15|L3|H",
        wing="M 600321",
        sites=[NO_WING, LOOSE_PLATE, {"site": "seat_pan", "state": "absent"}],
    )
    return [*every_case().values(), missing]


def test_every_row_is_used_by_some_network_of_the_demonstration_book():
    """A row that no table of these cars holds would be an assumption nobody makes."""
    used: set[str] = set()
    for casefile in cases_that_use_all():
        network = network_of(casefile).calculator.network
        used |= {network.values.rows[place].id for place in network.touched}
    assert {row.id for row in shipped_rows()} - used == set()


def named_in_code() -> list[re.Pattern[str]]:
    """Every text in the room that could name a row; what is filled in stands for any word."""
    first_words = {row.id.split(".")[0] for row in shipped_rows()}
    found = set()
    for module in ROOM.rglob("*.py"):
        for node in ast.walk(ast.parse(module.read_text("utf-8"))):
            text = _pattern(node)
            if text and text.split("\\.")[0] in first_words and "\\." in text:
                found.add(text)
    return [re.compile(text) for text in sorted(found)]


def _pattern(node: ast.AST) -> str:
    """A constant or filled-in text as a pattern of row names, or nothing."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return re.escape(node.value) if re.fullmatch(r"[a-z_.]+[a-z_]", node.value) else ""
    if isinstance(node, ast.JoinedStr):
        parts = [
            re.escape(str(part.value)) if isinstance(part, ast.Constant) else r"[a-z_.]+"
            for part in node.values
        ]
        text = "".join(parts)
        return text if re.fullmatch(r"[a-z_.\\\[\]\-+]+", text) else ""
    return ""


def test_no_row_that_the_code_names_is_missing():
    """Each name in the room's code stands in the table; a name with gaps fits some row."""
    rows = [row.id for row in model_rows()]
    patterns = named_in_code()
    assert len(patterns) > 30
    missing = [p.pattern for p in patterns if not any(p.fullmatch(row) for row in rows)]
    # Half a name, completed elsewhere: "made.crude" is filled into "look.….doubtful".
    halves = [p for p in missing if any(re.search(p, row) for row in rows)]
    assert set(missing) - set(halves) == set()
    assert len(halves) <= 2


def test_every_row_is_named_in_the_code():
    """No row stands in the table that nothing reads."""
    patterns = named_in_code()
    assert [r.id for r in shipped_rows() if not any(p.fullmatch(r.id) for p in patterns)] == []


def test_every_fixed_number_has_its_basis_and_reason() -> None:
    with FIXED_TABLE.open(encoding="utf-8", newline="") as stream:
        lines = list(csv.DictReader(stream))
    assert lines
    for line in lines:
        assert line["basis"] == "assumed"
        assert line["plain"]
        assert line["reason"].endswith(".")
        assert fixed(line["id"]) == float(line["value"])
