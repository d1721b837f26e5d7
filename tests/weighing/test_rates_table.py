"""The table of rates and the code that reads it name the same rows."""

import ast
import re
from pathlib import Path

import witnessmark.weighing as room
from witnessmark.codebook import Basis
from witnessmark.weighing import rate_rows

ROOM = Path(room.__file__).parent


def named_in_code() -> list[re.Pattern[str]]:
    """Every text in the room that could name a row; what is filled in stands for any word."""
    first_words = {*(row.id.split(".")[0] for row in rate_rows()), "[a-z_"}
    found = set()
    for module in ROOM.rglob("*.py"):
        for node in ast.walk(ast.parse(module.read_text("utf-8"))):
            text = _pattern(node)
            if re.split(r"\\?\.", text)[0] in first_words:
                found.add(text)
    return [re.compile(text) for text in sorted(found)]


def _pattern(node: ast.AST) -> str:
    """A constant or filled-in text as a pattern of row names, or nothing."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return re.escape(node.value) if re.fullmatch(r"[a-z_.0-9]+", node.value) else ""
    if isinstance(node, ast.JoinedStr):
        parts = [
            re.escape(str(part.value)) if isinstance(part, ast.Constant) else r"[a-z_.]+"
            for part in node.values
        ]
        text = "".join(parts)
        return text if re.fullmatch(r"[a-z_.\\\[\]\-+0-9]+", text) else ""
    return ""


def test_every_row_is_read_somewhere():
    """A row that nothing reads would be an assumption that nobody makes."""
    patterns = named_in_code()
    assert len(patterns) > 60
    assert [r.id for r in rate_rows() if not any(p.fullmatch(r.id) for p in patterns)] == []


def test_every_row_that_the_code_names_is_there():
    """Each full name in the room's code stands in the table."""
    rows = {row.id for row in rate_rows()}
    named = {p.pattern.replace("\\", "") for p in named_in_code() if "[" not in p.pattern}
    full = {name for name in named if "." in name and not name.endswith(".")}
    halves = {name for name in full - rows if any(row.startswith(f"{name}.") for row in rows)}
    assert full - rows - halves == set()


def test_no_row_stands_twice_and_each_is_a_rate_with_its_reason():
    """Odds may be above 1; whatever else is a share. Nothing of ours is more than assumed."""
    rows = rate_rows()
    assert len({row.id for row in rows}) == len(rows)
    for row in rows:
        assert row.value > 0.0, row.id
        assert row.value < 1.0 or "odds" in row.plain or "times" in row.plain, row.id
        assert row.sign in (-1, 0, 1)
        assert row.family
        assert row.reason.endswith("."), row.id
        assert row.basis in (Basis.ASSUMED, Basis.COMMON_PRACTICE, Basis.PUBLISHED), row.id


def test_looking_right_is_weak_and_a_clear_sign_is_strong():
    """By design the tables of looks lean this way."""
    value = {row.id: row.value for row in rate_rows()}

    def factory(kind: str) -> float:
        return 1.0 - value[f"look.{kind}.doubtful"] - value[f"look.{kind}.disturbed"]

    assert factory("made") / factory("skilled") < 3.0
    assert value["look.crude.disturbed"] / value["look.made.disturbed"] > 10.0
