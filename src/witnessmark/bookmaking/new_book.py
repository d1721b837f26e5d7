"""A new code book: the texts of the example, under another name, maker and years."""

import json
import re
from dataclasses import dataclass
from pathlib import Path

from witnessmark.documents.shapes import FIRST_CAR_YEAR, IDENTIFIER, LAST_CAR_YEAR

EXAMPLE = Path(__file__).parent / "example"
EXAMPLE_MAKER = "Example Motors"
FIRST_YEAR, LAST_YEAR = 1950, 1952
VERSION = "2026-01-01"
LONGEST_ID = 80
LONGEST_TEXT = 200

_NAMED = re.compile(r'^(id|title|maker) = "[^"\n]*"', re.M)


@dataclass(frozen=True, slots=True, kw_only=True)
class NewBook:
    """What a new book is called and which model years it covers; `version` is a day."""

    id: str
    maker: str
    title: str
    first_year: int
    last_year: int
    version: str


def may_be_id(name: str) -> bool:
    """Can a book have this id, and its folder this name?"""
    return bool(re.fullmatch(IDENTIFIER, name)) and len(name) <= LONGEST_ID


def may_be_text(text: str) -> bool:
    """Can this be a maker's name or a title: one line of characters that are seen?"""
    return bool(text.strip()) and text.isprintable() and len(text) <= LONGEST_TEXT


def may_be_years(first_year: int, last_year: int) -> bool:
    """Can a book cover these years?"""
    return FIRST_CAR_YEAR <= first_year <= last_year <= LAST_CAR_YEAR


def title_of(maker: str, first_year: int, last_year: int) -> str:
    """The title that a book has where none is given."""
    years = str(first_year) if first_year == last_year else f"{first_year} to {last_year}"
    return f"{maker}, {years}"


def render_new_book(book: NewBook) -> dict[str, str]:
    """The texts of all files of a new book, by their places in its folder."""
    stands_for = {
        str(FIRST_YEAR): str(book.first_year),
        str(LAST_YEAR): str(book.last_year),
        VERSION: book.version,
    }
    places = re.compile("|".join(rf"\b{each}\b" for each in stands_for))
    texts: dict[str, str] = {}
    for path in sorted(path for path in EXAMPLE.rglob("*") if path.suffix in _KINDS):
        text = places.sub(lambda found: stands_for[found[0]], path.read_text("utf-8"))
        name = path.relative_to(EXAMPLE).as_posix()
        texts[name] = _named(text, book) if path.name == "book.toml" else text
    return texts


_KINDS = (".toml", ".csv", ".md")


def _named(top: str, book: NewBook) -> str:
    """The head of book.toml with the new names; they stand before the first table."""
    head, table, rest = top.partition("\n[")
    names = {"id": book.id, "title": book.title, "maker": book.maker}
    head = _NAMED.sub(lambda found: f"{found[1]} = {_quoted(names[found[1]])}", head)
    return head + table + rest


def _quoted(text: str) -> str:
    """A text in quotes; what JSON escapes, TOML escapes alike."""
    return json.dumps(text, ensure_ascii=False)
