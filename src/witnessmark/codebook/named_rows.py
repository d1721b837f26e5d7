"""The rows of a book by the names that a case gives them, each with its citation."""

from collections.abc import Iterator
from dataclasses import dataclass, fields

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.records import Citation, CodeRow, Series


@dataclass(frozen=True, slots=True)
class NamedRow:
    """One row; `name` is its id, `table:code` for a code, `item:first` for a series, and
    `table:_` and `form:code` for what an empty field and a code in a date's place mean. `table`
    is the list of the book in which it stands."""

    table: str
    name: str
    citation: Citation


def named_rows(book: CodeBook) -> Iterator[NamedRow]:
    """Every row that has a citation, in the order of the book; several can have one name."""
    for each in fields(book):
        rows = getattr(book, each.name)
        for row in rows if isinstance(rows, tuple) else ():
            if hasattr(row, "citation"):
                yield NamedRow(each.name, _name(row), row.citation)
    for form in book.date_forms:
        for code in form.placeholders:
            yield NamedRow("placeholders", f"{form.id}:{code.code}", code.citation)
    for mark in book.marks:
        for field in mark.fields:
            if field.empty is not None:
                name = f"{field.table or field.id}:_"
                yield NamedRow("empty fields", name, field.empty.citation)


def _name(row: object) -> str:
    match row:
        case CodeRow():
            return f"{row.table}:{row.code}"
        case Series():
            return f"{row.item}:{row.first}"
        case _:
            return str(getattr(row, "id", ""))
