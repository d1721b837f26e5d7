"""Rows that can never be reached: no car is meant, or none bears a mark that reads them."""

from collections.abc import Iterator

from witnessmark.codebook.checks.problems_rows import NeverRead, NoSuchCar
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
READ = (("codes", "table"), ("series", "item"), ("points", "item"))
"""The lists whose rows a mark's field reads, and the column that names what it reads."""


def check_reach(draft: Draft) -> Iterator[Problem]:
    """Every row, against the cars of the book and against the marks that would read it."""
    without_car = frozenset(_without_car(draft))
    for stem in HOLDING:
        for row in getattr(draft, stem):
            if row.record.applies in without_car:
                yield NoSuchCar(_limit(row.entry))
    readers = _readers(draft)
    for form in draft.date_forms:
        name = ("form of date", form.record.id)
        if form.record.id and name not in readers:
            yield NeverRead(form.entry.source("id"), *name)
    yield from _unread(draft, readers, without_car)


def _without_car(draft: Draft) -> Iterator[Applies]:
    """Years, works and models of which no car was built; years the wrong way round have a
    problem of their own."""
    for each in {row.record.applies for stem in HOLDING for row in getattr(draft, stem)}:
        if each.first_year <= each.last_year and not draft.cars.builds(each):
            yield each


type _Readers = dict[tuple[str, str], dict[Applies, None]]
"""The cars with a mark that reads it, by what is read: a table, an item or a form of date."""


def _unread(draft: Draft, readers: _Readers, without_car: frozenset[Applies]) -> Iterator[Problem]:
    """Rows that no mark reads on any car for which they hold."""
    told: set[str] = set()
    is_read: dict[tuple[str, str, Applies], bool] = {}
    for stem, key in READ:
        for row in getattr(draft, stem):
            name, applies = row.entry.text(key), row.record.applies
            marks = readers.get((key, name), {})
            if not marks and key == "item" and name and name not in told:
                told.add(name)
                yield NeverRead(row.entry.source(key), key, name)
            # Of what has no car at all, be it row or mark, that has been told already.
            if marks.keys() <= without_car or applies in without_car:
                continue
            asked = (key, name, applies)
            if asked not in is_read:
                is_read[asked] = any(draft.cars.builds(applies, mark) for mark in marks)
            if not is_read[asked] and applies.first_year <= applies.last_year:
                yield NeverRead(_limit(row.entry), key, name)


def _limit(entry: Entry) -> Source:
    """The cell that says for which cars the row holds; the whole row where none does."""
    return next((entry.source(key) for key in LIMITS if entry.is_written(key)), entry.place)


def _readers(draft: Draft) -> _Readers:
    """What is read, by which marks: a letter of a date is read through its form."""
    found: _Readers = {}
    for mark in draft.marks:
        names = [("table", table) for table in RULE_TABLES.get(mark.record.number_rules, ())]
        for field in mark.record.fields:
            names += [("item", field.says), ("table", field.table)]
            names += [("form of date", field.date_form)]
            names += [("table", token.table) for token in field.tokens]
        for name in names:
            found.setdefault(name, {})[mark.record.applies] = None
    return found
