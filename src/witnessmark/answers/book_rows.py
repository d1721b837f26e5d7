"""The rows of one table of a code book as a person reads them: what each is called, what it says,
for which cars, and on what it rests."""

from collections.abc import Iterator
from dataclasses import dataclass, fields
from datetime import date
from enum import Enum

from witnessmark.catalogue import as_said, from_to, in_a_row, said
from witnessmark.codebook import Citation, CodeBook, FeatureOutcome, Sketch
from witnessmark.codebook.conditions import Condition
from witnessmark.documents.row import Row

LABELS = ("code", "name", "id")
TOLD = ("meaning", "sentence", "prompt", "where", "how", "name")
FIRST, LAST = "first", "last"
LIST = "table"
"""The column that says to which list of codes a row belongs."""
LEFT_OUT = ("citation", "applies", LIST)
"""What is told apart from the other columns."""


@dataclass(frozen=True, slots=True)
class RowPart:
    """One of the further columns of a row, with what stands in it."""

    name: str
    value: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BookRow:
    """A row of a table.

    `is_code`: its label stands so on a car. `in_list` is the list of codes that it belongs to,
    `weighs` whether it may argue; a row without a basis declares something, and needs none.
    """

    label: str
    told: str
    parts: tuple[RowPart, ...]
    cars: str
    basis: str
    source: str
    weighs: bool
    is_code: bool = False
    in_list: str = ""

    def holds(self, words: list[str]) -> bool:
        """Do all of these words, in small letters, stand somewhere in it?"""
        parts = (part for each in self.parts for part in (each.name, each.value))
        texts = (self.label, self.told, *parts, self.cars, self.basis, self.source, self.in_list)
        whole = " ".join(texts).casefold()
        return all(word in whole for word in words)


@dataclass(frozen=True, slots=True)
class TableNamed:
    """A table of a book, by its name in the book, and how many rows it has."""

    name: str
    rows: int

    @property
    def words(self) -> str:
        """Its name for a person."""
        return self.name.replace("_", " ")


def tables_of(book: CodeBook) -> tuple[TableNamed, ...]:
    """The tables that hold something, those that are declared in book.toml among them."""
    lists = ((each.name, getattr(book, each.name)) for each in fields(book))
    return tuple(
        TableNamed(name, len(rows))
        for name, rows in lists
        if isinstance(rows, tuple) and rows and isinstance(rows[0], Row)
    )


def lists_of(book: CodeBook) -> tuple[TableNamed, ...]:
    """The lists into which the codes of a book are parted."""
    names = dict.fromkeys(row.table for row in book.codes)
    return tuple(TableNamed(name, len(book.table(name))) for name in names)


def rows_of(book: CodeBook, table: str) -> tuple[BookRow, ...]:
    """The rows of one of these tables, in the book's order."""
    names = {each.id: each.name for each in book.models}
    names |= {each.id: each.name for each in book.works}
    return tuple(_row(book, row, names) for row in getattr(book, table))


def _row(book: CodeBook, row: Row, names: dict[str, str]) -> BookRow:
    label, told = _label(row), next((getattr(row, n) for n in TOLD if getattr(row, n, "")), "")
    citation: Citation | None = getattr(row, "citation", None)
    return BookRow(
        label=label,
        told="" if told == label else told,
        parts=tuple(_parts(row, label, told)),
        cars=_cars(book, row, names),
        basis=as_said(citation.basis.value) if citation else "",
        source=citation.source if citation else "",
        weighs=citation is None or citation.basis.weighs,
        is_code=any(_is_text(row, name) for name in (FIRST, "code")),
        in_list=getattr(row, LIST, ""),
    )


def _label(row: Row) -> str:
    """By what it is called: its code, its numbers, its name."""
    if _is_text(row, FIRST):
        first, last = getattr(row, FIRST), getattr(row, LAST)
        return from_to(first, last or first)
    return next((getattr(row, name) for name in LABELS if getattr(row, name, "")), "")


def _is_text(row: Row, name: str) -> bool:
    found = getattr(row, name, "")
    return isinstance(found, str) and bool(found)


def _parts(row: Row, label: str, told: str) -> Iterator[RowPart]:
    """Whatever else it says."""
    for each in fields(row):  # type: ignore[arg-type]
        value = getattr(row, each.name)
        if each.name in LEFT_OUT or (each.name in (FIRST, LAST) and isinstance(value, str)):
            continue
        key = row.shape.by_name.get(each.name)
        is_written = key is None or key.required or value != key.stands_in
        text = _text(value) if is_written else ""
        if text and text not in (label, told):
            yield RowPart(each.name.replace("_", " "), text)


def _text(value: object) -> str:
    """What stands in a column, for a person; empty where that is nothing to tell."""
    match value:
        case None | False:
            return ""
        case True:
            return said("yes")
        case Enum():
            return as_said(str(value.value))
        case Condition():
            return f"{value.item}: {in_a_row(sorted(value.values), ', ')}"
        case FeatureOutcome():
            look = value.look.value
            return value.id if value.id == look else f"{value.id} = {look}"
        case date():
            return value.isoformat()
        case Sketch():
            return ""
        case frozenset():
            return in_a_row(sorted(map(str, value)), ", ")
        case tuple():
            return in_a_row(filter(None, map(_text, value)), "; ")
        case Row():
            return _of_row(value)
    return str(value)


def _of_row(row: Row) -> str:
    """A row within a row, by its name."""
    return next((getattr(row, name) for name in ("name", "code", "text") if getattr(row, name, "")),
                getattr(getattr(row, "part", None), "value", "").replace("_", " "))  # fmt: skip


def _cars(book: CodeBook, row: Row, names: dict[str, str]) -> str:
    """The years, works and models for which it holds; all where it holds for all."""
    applies = getattr(row, "applies", None)
    if applies is None:
        return ""
    years = (applies.first_year, applies.last_year)
    told = [] if years == (book.first_year, book.last_year) else [from_to(*years)]
    told += [names.get(each, each) for each in sorted(applies.works | applies.models)]
    return in_a_row(told, ", ") if told else said("all")
