"""Names: every name leads somewhere, every id stands once."""

from collections.abc import Iterable, Iterator

from witnessmark.codebook.checks.problems_names import (
    IdNotFolder,
    NotInBook,
    RepeatedId,
    UnusedTable,
)
from witnessmark.codebook.draft import Draft
from witnessmark.codebook.marks import RULE_TABLES
from witnessmark.documents.entries import Entry
from witnessmark.documents.shapes import Key
from witnessmark.problem import Problem

_BOOK = "book"
"""What a remark is about that is about no single mark or item."""


def check_names(draft: Draft, folder_name: str) -> Iterator[Problem]:
    """Names that lead nowhere, ids given twice, tables that nobody reads."""
    book_id = draft.top.text("id")
    if book_id and book_id != folder_name:
        yield IdNotFolder(draft.top.source("id"), book_id, folder_name)
    known = _known(draft)
    for each in draft.lists:
        for key in each.shape.keys:
            if key.names and key.once:
                yield from _repeated(key, each.entries)
            if key.refers_to:
                for entry in each.entries:
                    yield from _unknown(key, entry, known[key.refers_to])
    yield from _unused_tables(draft)


def _known(draft: Draft) -> dict[str, tuple[str, ...]]:
    """The names of everything that a key can name, by what it is in words."""
    found: dict[str, list[str]] = {}
    for each in draft.lists:
        for key in each.shape.keys:
            if key.names:
                found.setdefault(key.names, []).extend(e.text(key.name) for e in each.entries)
    found["item"] = [item.id for item in draft.all_items()]
    names = {kind: tuple(dict.fromkeys(each)) for kind, each in found.items()}
    first = (each.record.id for each in draft.marks if not each.record.other_form_of)
    readable = names["mark"] + names["assembly"]
    return names | {
        "mark, itself no other form,": tuple(first),
        "mark or assembly": readable,
        "assembly or piece": names["assembly"] + names["piece"],
        "mark, item, assembly, piece or site": (
            *names["item"], *readable, *names["piece"], *names["site"], _BOOK,
        ),
    }  # fmt: skip


def _unknown(key: Key, entry: Entry, known: tuple[str, ...]) -> Iterator[Problem]:
    """The name, or each name of a list, under this key; an empty one is no name."""
    if key.name in entry.faulty:
        return
    single = entry.values[key.name]
    texts = (single,) if isinstance(single, str) else entry.texts(key.name)
    for index, name in enumerate(texts):
        if name and name not in known:
            at = None if isinstance(single, str) else index
            yield NotInBook(entry.source(key.name, at), name, known, key.refers_to)


def _repeated(key: Key, entries: Iterable[Entry]) -> Iterator[Problem]:
    """Each id after its first."""
    first: dict[str, Entry] = {}
    for entry in entries:
        name = entry.text(key.name)
        if name and name in first:
            line = first[name].source(key.name).line
            yield RepeatedId(entry.source(key.name), key.names, name, line)
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
