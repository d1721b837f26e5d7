"""Names: every name leads somewhere, every id stands once."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from witnessmark.codebook.checks.problems_names import (
    IdNotFolder,
    NotInBook,
    RepeatedId,
    UnusedTable,
)
from witnessmark.codebook.draft import Draft
from witnessmark.codebook.marks import RULE_TABLES, Mark
from witnessmark.documents.entries import Entry, Placed
from witnessmark.problem import Problem

BOOK = "book"
"""What a remark is about that is about no single mark or item."""


@dataclass(frozen=True, slots=True)
class _KnownNames:
    """The names of one kind: `thing` is the kind in words."""

    thing: str
    names: tuple[str, ...]

    def check(self, entry: Entry, key: str) -> Iterator[Problem]:
        """The name, or each name of a list, under this key; an empty one is no name."""
        if key in entry.faulty or key not in entry.values:
            return
        single = entry.values[key]
        if isinstance(single, str):
            if single and single not in self.names:
                yield NotInBook(entry.source(key), self.thing, single, self.names)
            return
        for index, name in enumerate(entry.texts(key)):
            if name not in self.names:
                yield NotInBook(entry.source(key, index), self.thing, name, self.names)


def check_names(draft: Draft, folder_name: str) -> tuple[Problem, ...]:
    """Names that lead nowhere, ids given twice, tables that nobody reads."""
    problems: list[Problem] = []
    book_id = draft.top.text("id")
    if book_id and book_id != folder_name:
        problems.append(IdNotFolder(draft.top.source("id"), book_id, folder_name))
    problems += _repeated_ids(draft)
    problems += _unknown_names(draft)
    for mark in draft.marks:
        problems += _first_forms(draft, mark).check(mark.entry, "other_form_of")
    problems += _unused_tables(draft)
    return tuple(problems)


def _known(thing: str, placed: Iterable[Placed[object]]) -> _KnownNames:
    """The ids of some records, in their order."""
    return _KnownNames(thing, tuple(dict.fromkeys(each.entry.text("id") for each in placed)))


def _unknown_names(draft: Draft) -> Iterator[Problem]:
    """Each key that names something else, against what there is."""
    items = _KnownNames("item", tuple(dict.fromkeys(item.id for item in draft.all_items())))
    tables = _KnownNames("table", tuple(dict.fromkeys(row.record.table for row in draft.codes)))
    assemblies = _known("assembly", draft.assemblies)
    sites = _known("site", draft.sites)
    works, models = _known("works", draft.works), _known("model", draft.models)
    forms = _known("form of date", draft.date_forms)
    families = _known("body family", draft.body_families)
    pieces = _known("piece", draft.pieces)
    marks = _known("mark", draft.marks)
    for entry in _applying(draft):
        yield from works.check(entry, "works")
        yield from models.check(entry, "models")
    for item in draft.items:
        yield from assemblies.check(item.entry, "home")
    for token in (t for form in draft.date_forms for t in form.entry.entries("tokens")):
        yield from tables.check(token, "table")
    for entry in _entries(draft.marks, draft.pieces):
        yield from assemblies.check(entry, "assembly")
    for entry in _entries(draft.marks, draft.features):
        yield from sites.check(entry, "site")
    for mark in draft.marks:
        yield from pieces.check(mark.entry, "piece")
        for field in mark.entry.entries("field"):
            yield from items.check(field, "says")
            yield from tables.check(field, "table")
            yield from forms.check(field, "date_form")
    for model in draft.models:
        yield from families.check(model.entry, "body_family")
    for entry in _entries(draft.series, draft.exceptions, draft.points):
        yield from items.check(entry, "item")
    for rule in draft.rules:
        yield from items.check(rule.entry, "if_item")
        yield from items.check(rule.entry, "then_item")
    for lag in draft.lags:
        yield from items.check(lag.entry, "earlier")
        yield from items.check(lag.entry, "later")
    readable = _KnownNames("mark or assembly", marks.names + assemblies.names)
    for settlement in draft.settlements:
        yield from readable.check(settlement.entry, "speaks_of")
    yield from _remarks(draft, (*items.names, *readable.names, *pieces.names, *sites.names, BOOK))


def _remarks(draft: Draft, known: tuple[str, ...]) -> Iterator[Problem]:
    """What a remark is about."""
    for remark in draft.remarks:
        yield from _KnownNames("mark, item, assembly, piece or site", known).check(
            remark.entry, "about"
        )


def _first_forms(draft: Draft, mark: Placed[Mark]) -> _KnownNames:
    """The marks of which this one can be another form: not itself, nor another's form."""
    first = [each for each in draft.marks if not each.record.other_form_of and each is not mark]
    return _KnownNames("mark, itself no other form,", tuple(each.record.id for each in first))


def _entries(*lists: tuple[Placed[object], ...]) -> Iterator[Entry]:
    """The entries of several lists."""
    return (each.entry for placed in lists for each in placed)


def _applying(draft: Draft) -> Iterator[Entry]:
    """All entries that may be limited to works and models."""
    for mark in draft.marks:
        yield from mark.entry.entries("alias")
    yield from _entries(
        draft.assemblies,
        draft.marks,
        draft.models,
        draft.codes,
        draft.series,
        draft.rules,
        draft.lags,
        draft.sites,
        draft.features,
        draft.exceptions,
        draft.settlements,
        draft.runs,
        draft.remarks,
        draft.points,
        draft.pieces,
    )


def _repeated_ids(draft: Draft) -> Iterator[Problem]:
    """Ids of things that stand once in a book, and of fields within one mark."""
    yield from _repeated("item", _entries(draft.items))
    yield from _repeated("assembly", _entries(draft.assemblies))
    yield from _repeated("piece", _entries(draft.pieces))
    yield from _repeated("form of date", _entries(draft.date_forms))
    yield from _repeated("mark", _entries(draft.marks))
    yield from _repeated("works", _entries(draft.works))
    yield from _repeated("body family", _entries(draft.body_families))
    yield from _repeated("model", _entries(draft.models))
    yield from _repeated("run", _entries(draft.runs))
    for mark in draft.marks:
        yield from _repeated("field", mark.entry.entries("field"))


def _repeated(thing: str, entries: Iterable[Entry]) -> Iterator[Problem]:
    """Each id after its first."""
    first: dict[str, Entry] = {}
    for entry in entries:
        name = entry.text("id")
        if name and name in first:
            yield RepeatedId(entry.source("id"), thing, name, first[name].source("id").line)
        first.setdefault(name, entry)


def _unused_tables(draft: Draft) -> Iterator[Problem]:
    """Tables of codes that no field and no form of date reads, once each."""
    used = {
        entry.text("table")
        for owner, key in (
            *((form.entry, "tokens") for form in draft.date_forms),
            *((mark.entry, "field") for mark in draft.marks),
        )
        for entry in owner.entries(key)
    }
    for mark in draft.marks:
        used.update(RULE_TABLES.get(mark.record.number_rules, ()))
    names = tuple(sorted(used - {""}))
    told: set[str] = set()
    for row in draft.codes:
        table = row.record.table
        if table and table not in used and table not in told:
            told.add(table)
            yield UnusedTable(row.entry.source("table"), table, names)
