"""What a list says of itself: said in one way, and complete only where no row is from memory."""

from collections.abc import Iterator

from witnessmark.codebook.checks.problems_reach import CompleteFromMemory, ListedTwice
from witnessmark.codebook.checks.rows import whole_line
from witnessmark.codebook.draft import Draft
from witnessmark.codebook.listed import ListIs
from witnessmark.codebook.records import CodeRow, Series
from witnessmark.documents.entries import Entry, Placed
from witnessmark.problem import Problem


def check_listed(draft: Draft) -> Iterator[Problem]:
    """Every item with its series, every field with its table."""
    for item in draft.items:
        series = (row for row in draft.series if row.record.item == item.record.id)
        yield from _check(item.entry, f"series of {item.record.id!r}", series)
    for field in (each for mark in draft.marks for each in mark.entry.entries("field")):
        table = field.text("table")
        codes = (row for row in draft.codes if row.record.table == table)
        yield from _check(field, f"table {table!r}", codes)


def _check(
    entry: Entry, thing: str, rows: Iterator[Placed[CodeRow]] | Iterator[Placed[Series]]
) -> Iterator[Problem]:
    """What one list says of itself, and its rows."""
    if not entry.is_written("listed"):
        return
    listed = entry.text("listed")
    if entry.yes("incomplete") and listed != ListIs.PARTIAL:
        yield ListedTwice(entry.source("incomplete"), listed)
    if listed != ListIs.COMPLETE:
        return
    for row in rows:
        if not row.record.citation.basis.weighs:
            yield CompleteFromMemory(entry.source("listed"), thing, whole_line(row.entry.place))
            return
