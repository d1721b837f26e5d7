"""Codes and numbers that a spreadsheet has changed: leading noughts, powers of ten, dates.

What a cell should be is known from the book: the fields that read a table say how
wide its codes are, an item how long its numbers.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from witnessmark.bookmaking.list_entries import TypedRow
from witnessmark.bookmaking.problems import LostNoughts, MadeDate, MadeNumber
from witnessmark.bookmaking.sheet import ListCell, Made
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.records import ItemKind
from witnessmark.problem import Problem

WRITTEN = {
    "codes": ("table", ("code",)),
    "series": ("item", ("first", "last")),
    "exceptions": ("item", ("first", "last")),
    "points": ("item", ("first", "last")),
}
"""Tables whose rows hold what a car bears: the column that says of what, and those that hold it."""

_POWER = re.compile(r"[0-9]+(?:[.,][0-9]+)?E\+[0-9]+", re.IGNORECASE)
_POINT = re.compile(r"[0-9]+[.,]0+")
_MONTHS = "jan|feb|mar|mrz|mär|apr|may|mai|jun|jul|aug|sep|oct|okt|nov|dec|dez"
_DATE = re.compile(
    rf"[0-9]{{1,4}}[-. /]+(?:{_MONTHS})[a-z]*\.?|(?:{_MONTHS})[a-z]*\.?[-. /]+[0-9]{{2,4}}"
    r"|[0-9]{1,4}[-./][0-9]{1,2}[-./][0-9]{1,4}",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Reader:
    """What reads a code or number: its name in a sentence, its widths and characters."""

    name: str
    widths: frozenset[int]
    alphabet: str

    def fits(self, text: str) -> bool:
        """Can this text stand there?"""
        return len(text) in self.widths and set(text) <= set(self.alphabet)


def check_figures(book: CodeBook, table: str, rows: tuple[TypedRow, ...]) -> tuple[Problem, ...]:
    """The cells of codes and numbers that are no longer what was typed."""
    if table not in WRITTEN:
        return ()
    says, columns = WRITTEN[table]
    read = _code_readers(book) if table == "codes" else _number_readers(book)
    return tuple(
        problem
        for row in rows
        for column in columns
        if column in row.cells
        for problem in _check(row.cells[column], column, read.get(row.text(says), ()))
    )


def _code_readers(book: CodeBook) -> dict[str, tuple[Reader, ...]]:
    """The fields and parts of dates that read each table of codes."""
    readers: dict[str, tuple[Reader, ...]] = {}
    for mark in book.marks:
        for field in mark.fields:
            name = f"the field {field.name!r} of the {mark.name}"
            reader = Reader(name, frozenset(field.widths), field.alphabet)
            readers[field.table] = (*readers.get(field.table, ()), reader)
    for form in book.date_forms:
        for token in form.tokens:
            least = token.least_width or token.width
            widths = frozenset(range(least, token.width + 1))
            reader = Reader(f"the date {form.id!r}", widths, "")
            readers[token.table] = (*readers.get(token.table, ()), reader)
    return readers


def _number_readers(book: CodeBook) -> dict[str, tuple[Reader, ...]]:
    """Each item of kind number as its own reader."""
    return {
        item.id: (Reader(f"the {item.name}", frozenset((item.length,)), item.alphabet),)
        for item in book.items
        if item.kind is ItemKind.NUMBER and item.length
    }


def _check(cell: ListCell, column: str, readers: tuple[Reader, ...]) -> Iterator[Problem]:
    text = cell.text
    if text.isascii() and text.isdigit():
        yield from _check_width(cell, readers)
    elif readers and all(reader.fits(text) for reader in readers):
        return
    elif _POWER.fullmatch(text):
        yield MadeNumber(cell.source, column, "it is now a power of ten")
    elif _POINT.fullmatch(text):
        yield MadeNumber(cell.source, column, "it now ends in a zero after a point")
    elif _DATE.fullmatch(text):
        yield MadeDate(cell.source, column)


def _check_width(cell: ListCell, readers: tuple[Reader, ...]) -> Iterator[Problem]:
    """Figures that would fit if noughts stood before them."""
    shared = frozenset.intersection(*(reader.widths for reader in readers)) if readers else ()
    wider = sorted(width for width in shared if width > len(cell.text))
    is_sure = len(cell.text) not in shared
    if wider and (is_sure or cell.made is Made.NUMBER):
        yield LostNoughts(cell.source, cell.text, wider[0], readers[0].name, is_sure)
