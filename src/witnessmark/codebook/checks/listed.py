"""What a list says of itself: said in one way, and complete only where no row is from memory."""

from collections.abc import Iterator

from witnessmark.codebook.checks.problems_reach import CompleteFromMemory, ListedTwice
from witnessmark.codebook.draft import Draft
from witnessmark.codebook.listed import ListingRow, ListIs
from witnessmark.codebook.records import CodeRow, Series
from witnessmark.documents.entries import Placed
from witnessmark.problem import Problem
from witnessmark.source import Source


def check_listed(draft: Draft) -> Iterator[Problem]:
    """Every item with its series, every field with its table."""
    for item in draft.items:
        yield from _check(item, f"series of {item.record.id!r}", draft.series, item.record.id)
    for mark in draft.marks:
        for field in draft.fields(mark):
            table = field.record.table
            yield from _check(field, f"table {table!r}", draft.codes, table)


def _check[L: ListingRow](
    listing: Placed[L],
    thing: str,
    rows: tuple[Placed[CodeRow], ...] | tuple[Placed[Series], ...],
    name: str,
) -> Iterator[Problem]:
    """One list; `rows` are of all lists of its kind, of which it has those with the name."""
    entry = listing.entry
    if not entry.is_written("listed"):
        return
    listed = entry.text("listed")
    if entry.yes("incomplete") and listed != ListIs.PARTIAL:
        yield ListedTwice(entry.source("incomplete"), listed)
    if listed != ListIs.COMPLETE:
        return
    for row in rows:
        its = row.record.table if isinstance(row.record, CodeRow) else row.record.item
        if its == name and not row.record.citation.basis.weighs:
            place = Source(row.entry.place.name, row.entry.place.line)
            yield CompleteFromMemory(entry.source("listed"), thing, place)
            return
