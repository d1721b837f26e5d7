"""Where books speak of a text: a code, a colour, a name, a number in a range, a form of date.

Every row of every table is asked alike: whatever text stands in it is searched, and a
range of numbers for a number that lies in it.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, fields
from enum import IntEnum

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.date_records import Point
from witnessmark.codebook.marks import DateForm, Mark
from witnessmark.codebook.names import plain_name
from witnessmark.codebook.records import (
    Applies,
    Citation,
    CodeRow,
    Item,
    KnownException,
    Series,
)
from witnessmark.documents.row import Row

TABLES = (
    "marks", "codes", "series", "points", "exceptions", "date_forms", "items", "models", "works",
    "body_families", "assemblies", "pieces", "sites", "features", "rules", "remarks", "runs",
    "settlements",
)  # fmt: skip
"""The tables of a book that are searched, in the order in which hits of a kind are told."""

LABELS = ("code", "name", "id")
TOLD = ("meaning", "sentence", "prompt", "where", "how")


type _Readers = Mapping[tuple[str, str], tuple[tuple[str, ...], tuple[str, ...]]]


class Closeness(IntEnum):
    """How a row has the text, the nearest first."""

    ITSELF = 0
    IN_RANGE = 1
    WORDS = 2
    BEGINS = 3
    HOLDS = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Hit:
    """A row that speaks of the text.

    `label` is its code, range or name, `text` what it says; `fields` and `marks` are where it
    is read: the names of the fields that have its table, form of date or item, and of
    the marks that have these. `citation` is None for rows that need none (items).
    """

    book: str
    table: str
    label: str
    text: str
    fields: tuple[str, ...]
    marks: tuple[str, ...]
    applies: Applies | None
    citation: Citation | None
    closeness: Closeness


def search_books(books: Iterable[CodeBook], text: str) -> tuple[Hit, ...]:
    """All rows of these books that speak of the text, the closest first, then book by book.

    Case, hyphens and blanks do not matter. A text without a letter or figure finds nothing.
    """
    wanted = plain_name(text)
    if not any(character.isalnum() for character in wanted):
        return ()
    found = [hit for book in books for hit in _hits(book, wanted, text.casefold().split())]
    return tuple(sorted(found, key=lambda hit: hit.closeness))


def _hits(book: CodeBook, wanted: str, words: list[str]) -> Iterator[Hit]:
    readers = _readers(book)
    for table in TABLES:
        for row in getattr(book, table):
            closeness = _closeness(row, wanted, words)
            if closeness is not None:
                yield _hit(book, table, row, closeness, readers)


def _readers(book: CodeBook) -> _Readers:
    """Where each table, form of date and item is read: names of fields, and of marks."""
    found: dict[tuple[str, str], tuple[dict[str, None], dict[str, None]]] = {}
    for mark in book.marks:
        for field in mark.fields:
            read = ("codes", field.table), ("date_forms", field.date_form), ("items", field.says)
            for key in read:
                names, marks = found.setdefault(key, ({}, {}))
                names[field.name] = marks[mark.name] = None
    return {key: (tuple(names), tuple(marks)) for key, (names, marks) in found.items()}


def _closeness(row: Row, wanted: str, words: list[str]) -> Closeness | None:
    """How near a row is to the text; None where it says nothing of it."""
    named = [plain_name(each) for each in _names(row)]
    if wanted in named:
        return Closeness.ITSELF
    if isinstance(row, Series | Point | KnownException) and _holds(row, wanted):
        return Closeness.IN_RANGE
    told = " ".join(_texts(row)).casefold()
    if all(re.search(rf"\b{re.escape(word)}\b", told) for word in words):
        return Closeness.WORDS
    if any(name.startswith(wanted) for name in named):
        return Closeness.BEGINS
    return Closeness.HOLDS if len(wanted) > 2 and wanted in plain_name(told) else None


def _names(row: Row) -> Iterator[str]:
    """All by which a row is called."""
    for name in (*LABELS, "local_name"):
        if text := getattr(row, name, ""):
            yield text
    if isinstance(row, Mark):
        yield from (alias.name for alias in row.aliases)


def _holds(row: Series | Point | KnownException, wanted: str) -> bool:
    """Does the number lie in the row's range? Numbers of one length are ordered as texts."""
    first, last = plain_name(row.first), plain_name(row.last or row.first)
    return len(first) == len(wanted) == len(last) and first <= wanted <= last


def _texts(row: Row) -> Iterator[str]:
    """All that a row says in words; of a form of date also what its parts are."""
    for column in fields(row):  # type: ignore[arg-type]
        value = getattr(row, column.name)
        if isinstance(value, str):
            yield value.replace("_", " ")
    if isinstance(row, DateForm):
        yield date_parts(row)


def date_parts(form: DateForm) -> str:
    """The parts of a form of date in words: month letter, day, year digit."""
    return ", ".join(token.text or token.part.value.replace("_", " ") for token in form.tokens)


def _hit(
    book: CodeBook,
    table: str,
    row: Row,
    closeness: Closeness,
    readers: _Readers,
) -> Hit:
    label = next((getattr(row, name) for name in LABELS if getattr(row, name, "")), "")
    text = next((getattr(row, name) for name in TOLD if getattr(row, name, "")), "")
    key = (table, "")
    match row:
        case CodeRow():
            key = ("codes", row.table)
        case Series() | KnownException() | Point():
            label = row.first if row.last in ("", row.first) else f"{row.first} to {row.last}"
            key = ("items", row.item)
        case DateForm():
            text, key = date_parts(row), ("date_forms", row.id)
        case Item():
            key = ("items", row.id)
        case Mark():
            text = ", ".join(field.name for field in row.fields)
    names, marks = readers.get(key, ((), ())) if key[1] else ((), ())
    return Hit(
        book=book.id,
        table=table,
        label=label,
        text=text,
        fields=names,
        marks=marks,
        applies=getattr(row, "applies", None),
        citation=None if isinstance(row, Item) else getattr(row, "citation", None),
        closeness=closeness,
    )
