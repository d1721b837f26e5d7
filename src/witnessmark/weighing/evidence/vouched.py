"""Rows from memory that an examiner answers for: they weigh as common practice."""

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from witnessmark.agreement.records import CarMarks
from witnessmark.codebook.named_rows import row_name
from witnessmark.codebook.records import Basis

TABLES = (
    *("series", "codes", "date_forms", "marks", "rules", "lags", "features", "exceptions"),
    *("runs", "points", "pieces"),
)
"""The tables of a book whose rows may argue."""


def with_vouched(car: CarMarks) -> CarMarks:
    """The car with its book as the examiner takes it; the same car where nothing is vouched."""
    rows = {each.row for each in car.casefile.circumstances.vouched}
    if not rows:
        return car
    tables: dict[str, Any] = {
        table: tuple(_taken(getattr(car.book, table), rows)) for table in TABLES
    }
    return replace(car, book=replace(car.book, **tables))


def _taken(table: Iterable[Any], rows: set[str]) -> Iterable[Any]:
    for row in table:
        if row.citation.basis is Basis.MEMORY and row_name(row) in rows:
            citation = replace(row.citation, basis=Basis.COMMON_PRACTICE)
            yield replace(row, citation=citation)
        else:
            yield row
