"""Rows that can never be reached: no car is meant, or none bears a mark that reads them."""

from collections.abc import Iterator

from witnessmark.codebook.checks.problems_reach import CodeUnread, ItemUnsaid, NoSuchCar
from witnessmark.codebook.draft import Draft
from witnessmark.codebook.marks import RULE_TABLES
from witnessmark.codebook.records import Applies
from witnessmark.documents.entries import Entry
from witnessmark.problem import Problem
from witnessmark.source import Source

LIMITS = ("models", "works", "first_year", "last_year")
"""The columns that say for which cars a row holds, the one most likely to be wrong first."""
HOLDING = (
    "assemblies", "marks", "pieces", "codes", "series", "rules", "lags", "sites", "features",
    "exceptions", "settlements", "remarks", "points",
)  # fmt: skip
"""The lists whose rows hold for some cars."""
NUMBERED = ("series", "points")
"""The lists of an item's numbers."""


def check_reach(draft: Draft) -> Iterator[Problem]:
    """Every row, against the cars of the book and against the marks that would read it."""
    without_car = frozenset(_without_car(draft))
    for stem in HOLDING:
        for row in getattr(draft, stem):
            if row.record.applies in without_car:
                yield NoSuchCar(_limit(row.entry))
    yield from _unread_codes(draft, without_car)
    yield from _unsaid_numbers(draft)


def _without_car(draft: Draft) -> Iterator[Applies]:
    """Years, works and models of which no car was built; years the wrong way round have a
    problem of their own."""
    for each in {row.record.applies for stem in HOLDING for row in getattr(draft, stem)}:
        if each.first_year <= each.last_year and not draft.cars.builds(each):
            yield each


def _unread_codes(draft: Draft, without_car: frozenset[Applies]) -> Iterator[Problem]:
    """Codes that no mark reads on any car for which they hold.

    A table that no mark reads at all is told with the names, and what has no car, be it a row or
    a mark, above.
    """
    readers = _readers(draft)
    is_read: dict[tuple[str, Applies], bool] = {}
    for row in draft.codes:
        table, applies = row.record.table, row.record.applies
        marks = readers.get(table, set())
        if marks <= without_car or applies in without_car:
            continue
        if (table, applies) not in is_read:
            is_read[table, applies] = any(draft.cars.builds(applies, mark) for mark in marks)
        if not is_read[table, applies] and applies.first_year <= applies.last_year:
            yield CodeUnread(_limit(row.entry), table)


def _readers(draft: Draft) -> dict[str, set[Applies]]:
    """The cars with a mark that reads a table; letters of a date are read through its form."""
    found: dict[str, set[Applies]] = {}
    for mark in draft.marks:
        tables = list(RULE_TABLES.get(mark.record.number_rules, ()))
        for field in mark.record.fields:
            tables += [field.table, *(token.table for token in field.tokens)]
        for table in tables:
            found.setdefault(table, set()).add(mark.record.applies)
    return found


def _unsaid_numbers(draft: Draft) -> Iterator[Problem]:
    """Items with ranges or known numbers that no mark says, once each. Which cars bear the mark
    is not asked: a number that is claimed is looked up as well."""
    told = {field.says for mark in draft.marks for field in mark.record.fields}
    for stem in NUMBERED:
        for row in getattr(draft, stem):
            item = row.record.item
            if item in draft.items_by_id and item not in told:
                told.add(item)
                yield ItemUnsaid(row.entry.source("item"), item)


def _limit(entry: Entry) -> Source:
    """The cell that says for which cars the row holds; the whole row where none does."""
    return next((entry.source(key) for key in LIMITS if entry.is_written(key)), entry.place)
