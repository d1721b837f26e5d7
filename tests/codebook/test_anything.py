# ruff: noqa: E501 (words and rows stand here in lists)
"""Whatever stands in a book's files, it is read to a book or to problems, never to a crash."""

import random
import tempfile
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from tests.examples import tried_on
from witnessmark.codebook import open_book
from witnessmark.codebook.parse import parse_book
from witnessmark.documents.entries import FileText
from witnessmark.problem import render_all

WORDS = [
    "", " ", "\n", "\r\n", ",", ";", '"', "'", "[", "]", "[[", "]]", "{", "}", "=", "#", "|", "\0",
    "0", "-1", "1955", "99999999999999999999", "1e9", "1955-13-40", "true", "none", "é", "…", "\ufeff",
    "[[mark]]", "[[mark.field]]", "[mark]", 'id = "plate"', "widths = [1, 64]", "widths = []",
    "optional = true", "windows = false", 'part = "first 99"', 'part = "week_letter"', "width = 0",
    'table = "types"', "table", "solent-sprint", "ellery marrick tarvane", "factory=factory;=;",
    "basis", "assumed", "memory", "least_width = 64", "start = 1955-01-01", "x" * 300,
]  # fmt: skip


def check(parsed):
    """There is a book or a problem, and every problem can be told."""
    assert parsed.book is not None or parsed.problems
    told = render_all(parsed.problems)
    assert told.encode("utf-8", "strict").decode("utf-8") == told
    assert bool(told) == bool(parsed.problems)


@tried_on(400)
@given(st.text(max_size=300))
def test_any_text_as_book_toml(text):
    check(parse_book(FileText("book.toml", text), (), "x"))


@tried_on(400)
@given(st.sampled_from(["codes", "lags", "sites", "features", "series", "models"]), st.data())
def test_any_text_as_a_table(tiny, table, data):
    header = tiny.tables[table].splitlines()[0]
    text = data.draw(
        st.one_of(
            st.text(max_size=200),
            st.text(st.sampled_from(',"\n;aA1 -'), max_size=200).map(lambda t: f"{header}\n{t}"),
            st.lists(st.lists(st.sampled_from(WORDS), min_size=8, max_size=14), max_size=6).map(
                lambda rows: header + "\n" + "\n".join(",".join(row) for row in rows)
            ),
        )
    )
    check(tiny.table(table, text).parsed())


@tried_on(1000)
@given(st.integers(0, 2**32), st.integers(1, 6))
def test_a_book_with_passages_cut_moved_and_replaced(tiny, seed, cuts):
    """Thousands of ways to be almost a book."""
    dice = random.Random(seed)
    changed = tiny
    for _ in range(cuts):
        name = dice.choice(["book", "book", "book", *tiny.tables])
        text = changed.top if name == "book" else changed.tables[name]
        start = dice.randrange(len(text) + 1)
        end = min(len(text), start + dice.choice([0, 1, 1, 2, 5, 20, 100]))
        moved = text[(at := dice.randrange(len(text) + 1)) : at + 30]
        text = text[:start] + dice.choice([*WORDS, moved]) + text[end:]
        changed = type(tiny)(text, changed.tables) if name == "book" else changed.table(name, text)
    check(changed.parsed())


@tried_on(1000)
@given(st.integers(0, 2**32), st.integers(1, 4))
def test_a_book_that_is_still_toml_with_values_replaced(tiny, seed, changes):
    """So that the checks across the book meet every kind of value."""
    dice = random.Random(seed)
    lines = tiny.top.splitlines()
    for _ in range(changes):
        index = dice.randrange(3, len(lines))
        key, equals, _ = lines[index].partition(" = ")
        if equals and "{" not in lines[index]:
            value = dice.choice(
                ['""', '"x"', "0", "-7", "64", "1900", "2050", "[]", "[1]", '["x"]', "true", "{}",
                 "[{}]", "1955-01-01", "1.5", '"frame"', '"trims"', '"date"', '"number"', '"??"',
                 "[1, 2, 3]", '"last 9"', '"AAB"', "[[1]]"]
            )  # fmt: skip
            lines[index] = f"{key} = {value}"
        elif dice.random() < 0.5:
            lines[index] = lines[dice.randrange(len(lines))]
    check(type(tiny)("\n".join(lines), tiny.tables).parsed())


@tried_on(200)
@given(st.binary(max_size=200), st.binary(max_size=200), st.booleans())
def test_any_bytes_on_disk(top, table, keeps_top):
    with tempfile.TemporaryDirectory() as folder:
        root = Path(folder) / "book"
        (root / "tables").mkdir(parents=True)
        kept = b'format = "witnessmark-book"\nformat_version = 2\nfirst_year = 1955\nlast_year = 1956\n'
        (root / "book.toml").write_bytes(kept if keeps_top else top)
        (root / "tables/codes.csv").write_bytes(table)
        check(open_book(root))


def test_lists_nested_without_end_are_refused():
    parsed = parse_book(FileText("book.toml", "a = " + "[" * 100_000), (), "x")
    assert render_all(parsed.problems) == (
        "book.toml:1:5: keys or lists are nested too deeply\n"
        f"    a = {'[' * 156}\n"
        "        ^\n"
        "expected only as many levels as the format has"
    )


def test_keys_dotted_without_end_are_refused():
    text = "x = 1\n" + ".".join("a" * 100_000) + " = 1"
    parsed = parse_book(FileText("book.toml", text), (), "x")
    assert render_all(parsed.problems) == (
        "book.toml:2:1: keys or lists are nested too deeply\n"
        f"    {'a.' * 80}\n"
        "    ^\n"
        "expected only as many levels as the format has"
    )


def test_a_number_of_thousands_of_figures_is_refused():
    parsed = parse_book(FileText("book.toml", "a = " + "9" * 10_000), (), "x")
    assert len(parsed.problems) == 1


def test_a_line_of_nothing_but_commas_comes_to_an_end(tiny):
    rules = tiny.tables["rules"] + "x" + "," * 1_000_000 + "\n"
    told = tiny.table("rules", rules).told()
    assert told.startswith("tables/rules.csv:3:1: the row has 200 cells, the header 14")


def test_a_table_of_many_alike_rows_comes_to_an_end(tiny):
    """Each row is compared with the first that it meets."""
    row = "types,SA,solent-saloon,again,,,,,invented,demo\n"
    codes = tiny.tables["codes"] + row * 5_000
    assert len(tiny.table("codes", codes).parsed().problems) == 5_000
