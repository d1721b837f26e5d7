"""A new book is the example under another name, and the example is a book without a fault."""

import re
import tempfile
import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.examples import tried_on
from witnessmark.bookmaking.new_book import (
    EXAMPLE,
    EXAMPLE_MAKER,
    FIRST_YEAR,
    LAST_YEAR,
    VERSION,
    NewBook,
    may_be_id,
    may_be_text,
    may_be_years,
    render_new_book,
    title_of,
)
from witnessmark.codebook import MarkKind, changelog_problems, open_book
from witnessmark.codebook.book_format import BOOK, TABLES
from witnessmark.documents.csv_cells import parse_cells
from witnessmark.documents.entries import FileText
from witnessmark.problem import render_all


def example():
    """The example as a book."""
    opened = open_book(EXAMPLE)
    assert render_all(opened.problems) == ""
    assert opened.book is not None
    return opened.book


def opened(book):
    """A new book, written and opened."""
    with tempfile.TemporaryDirectory() as folder:
        root = Path(folder) / book.id
        (root / "tables").mkdir(parents=True)
        for name, text in render_new_book(book).items():
            (root / name).write_text(text, "utf-8")
        found = open_book(root)
        assert render_all(found.problems) == ""
        assert found.book is not None
        assert changelog_problems(root, found.book.version) == ()
        return found.book


def test_the_example_is_what_the_texts_are_made_from():
    """What is replaced in it stands in it."""
    book = example()
    assert (book.id, book.maker, book.version) == ("example", EXAMPLE_MAKER, VERSION)
    assert (book.first_year, book.last_year) == (FIRST_YEAR, LAST_YEAR)
    assert book.title == title_of(EXAMPLE_MAKER, FIRST_YEAR, LAST_YEAR)


def test_the_example_has_a_mark_of_each_sort():
    assert sorted(mark.kind for mark in example().marks) == sorted(MarkKind)


def test_the_example_explains_every_key_of_a_book():
    """Each stands in book.toml, in use or in a comment."""
    text = (EXAMPLE / "book.toml").read_text("utf-8")
    keys, waiting = set(), [BOOK]
    while waiting:
        for key in waiting.pop().keys:
            keys.add(key.name)
            waiting += [key.shape] if key.shape else []
    assert {key for key in keys if key not in text} == set()


def test_each_key_is_explained_where_it_stands_first():
    """By a comment on its line; a few are plain words, or are explained above the first item."""
    plain = {"name", "title", "maker", "summary", "basis", "source", "invented", "example", "empty"}
    told = set()
    for line in (EXAMPLE / "book.toml").read_text("utf-8").splitlines():
        key = re.match(r"[# ]*(\w+) = ", line)
        if key and key[1] not in plain | told:
            assert re.search(r" # +\w", line), line
            told.add(key[1])
    assert len(told) > 30


def test_the_example_has_every_table_with_all_columns_and_a_row():
    for name, shape in TABLES.items():
        text = (EXAMPLE / f"tables/{name}.csv").read_text("utf-8")
        header, *rows = parse_cells(FileText(name, text)).rows
        assert {cell.text for cell in header} == set(shape.names()), name
        assert 1 <= len(rows) <= 9, name


def test_every_row_of_the_example_is_invented_and_says_so():
    """So that a real maker's book shows each row that is still the example's."""
    with tempfile.TemporaryDirectory() as folder:
        root = Path(folder) / "example"
        (root / "tables").mkdir(parents=True)
        for path in EXAMPLE.rglob("*.*"):
            text = path.read_text("utf-8").replace("invented = true", "invented = false")
            (root / path.relative_to(EXAMPLE)).write_text(text, "utf-8")
        problems = open_book(root).problems
    kinds = {type(problem).__name__ for problem in problems}
    rows = sum(
        len(parse_cells(FileText(p.name, p.read_text("utf-8"))).rows) - 1
        for p in EXAMPLE.glob("tables/*.csv")
    )
    assert kinds == {"InventedBasis"}
    assert len([p for p in problems if p.source.name.endswith(".csv")]) == rows


def test_a_new_book_bears_its_name_its_maker_and_its_years():
    book = opened(
        NewBook(
            id="ashgrove-1948-1950",
            maker="Ashgrove",
            title="Ashgrove Cars",
            first_year=1948,
            last_year=1950,
            version="2026-11-25",
        )
    )
    assert (book.id, book.maker) == ("ashgrove-1948-1950", "Ashgrove")
    assert book.title == "Ashgrove Cars"
    assert (book.first_year, book.last_year, book.version) == (1948, 1950, "2026-11-25")
    tourer = next(model for model in book.models if model.id == "tourer")
    assert tourer.applies.first_year == tourer.applies.last_year == 1950
    assert book.runs[0].applies.first_year == 1948 == book.runs[0].first.year


printable = st.characters(exclude_categories=("C", "Z"), include_characters=" ")
texts = st.text(printable, min_size=1, max_size=30).filter(may_be_text)
names = st.lists(st.from_regex(r"[a-z0-9]{1,8}", fullmatch=True), min_size=1, max_size=3)


@tried_on(60)
@given(
    names.map("-".join),
    texts, texts,
    st.tuples(st.integers(1886, 2100), st.integers(1886, 2100)).map(sorted),
)  # fmt: skip
def test_every_new_book_is_without_a_fault(name, maker, title, years):
    """Whatever its maker is called, quotes and all, and whichever years it covers."""
    assert may_be_id(name)
    assert may_be_years(*years)
    book = opened(
        NewBook(
            id=name,
            maker=maker,
            title=title,
            first_year=years[0],
            last_year=years[1],
            version="2026-11-25",
        )
    )
    assert (book.id, book.maker, book.title) == (name, maker, title)
    assert [book.first_year, book.last_year] == years


@pytest.mark.parametrize(
    "name", ["", "Ashgrove", "ash grove", "-a", "a-", "a/b", "..", "ä", "a" * 81, "a\n"]
)
def test_a_name_that_is_no_id_is_known(name):
    assert not may_be_id(name)


@pytest.mark.parametrize("text", ["", " ", "a\nb", "a\x7f", "\ud800", "x" * 201])
def test_a_text_that_cannot_stand_in_a_book_is_known(text):
    assert not may_be_text(text)


@pytest.mark.parametrize("years", [(1885, 1890), (1951, 1950), (2000, 2101)])
def test_years_that_no_book_can_cover_are_known(years):
    assert not may_be_years(*years)


def test_one_year_is_said_once():
    assert title_of("Ashgrove", 1950, 1950) == "Ashgrove, 1950"


def test_the_example_is_toml_that_any_reader_takes():
    assert tomllib.loads((EXAMPLE / "book.toml").read_text("utf-8"))["id"] == "example"
