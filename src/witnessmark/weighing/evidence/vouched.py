"""Rows from memory that an examiner answers for: they weigh as common practice."""

from collections.abc import Iterable, Set
from dataclasses import replace
from typing import Any

from witnessmark.agreement.records import CarMarks
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.named_rows import row_name
from witnessmark.codebook.records import Basis
from witnessmark.weighing.kept_alike import alike

TABLES = (
    *("series", "codes", "date_forms", "marks", "rules", "lags", "features", "exceptions"),
    *("runs", "points", "pieces"),
)
"""The tables of a book whose rows may argue."""


def with_vouched(car: CarMarks) -> CarMarks:
    """The car with its book as the examiner takes it; the same car where nothing is vouched."""
    rows = frozenset(each.row for each in car.casefile.circumstances.vouched)
    if not rows:
        return car
    book = alike(car.book, "vouched", rows, lambda: _with_rows(car.book, rows))
    return replace(car, book=book)


def _with_rows(book: CodeBook, rows: Set[str]) -> CodeBook:
    tables: dict[str, Any] = {table: tuple(_taken(getattr(book, table), rows)) for table in TABLES}
    return replace(book, **tables)


def _taken(table: Iterable[Any], rows: Set[str]) -> Iterable[Any]:
    for row in table:
        if row.citation.basis is Basis.MEMORY and row_name(row) in rows:
            citation = replace(row.citation, basis=Basis.COMMON_PRACTICE)
            yield replace(row, citation=citation)
        else:
            yield row
