"""The plain fields of a case entered one by one, and what is claimed of the car."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

from witnessmark.casefile import Casefile
from witnessmark.catalogue import said
from witnessmark.codebook import CodeBook, ItemKind
from witnessmark.decoding import as_written
from witnessmark.documents.open_row import OpenRow
from witnessmark.documents.row import Column
from witnessmark.documents.shapes import Kind
from witnessmark.entry.draft import CaseDraft, Entered
from witnessmark.entry.problems import UnknownName
from witnessmark.examination import book_names, car_marks, in_book_words
from witnessmark.wording import Names, claim_sentences
from witnessmark.wording.case_words import field_word

KEPT = ("format", "format_version", "id", "book", "beside")
PLAIN = (Kind.TEXT, Kind.NUMBER, Kind.AMOUNT, Kind.DAY, Kind.MOMENT, Kind.PARTIAL_DATE)


def plain_fields() -> dict[str, tuple[str, str, Column]]:
    """The fields that can be set, by name where only one has it, and by part and name: the part
    (empty for the case itself), the field and its column."""
    found: dict[str, tuple[str, str, Column]] = {}
    counts: dict[str, int] = {}
    for part_name, row in _parts():
        for name, column in row.fields_declared().items():
            if column.key.kind in PLAIN and not (not part_name and name in KEPT):
                found[f"{part_name}.{name}" if part_name else name] = (part_name, name, column)
                counts[name] = counts.get(name, 0) + 1
    alone = {each[1]: each for each in found.values() if counts[each[1]] == 1}
    return alone | found


def _parts() -> Iterator[tuple[str, type[OpenRow]]]:
    """The case and the parts that it has once."""
    yield "", Casefile
    for name, column in Casefile.fields_declared().items():
        if column.key.kind is Kind.TABLE and isinstance(default := column.default(), OpenRow):
            yield name, type(default)


def set_field(draft: CaseDraft, name: Entered, given: Entered) -> str:
    """Let a plain field say this, nothing where it is empty; tells what it says, empty where
    there is no such field."""
    fields = plain_fields()
    if name.value not in fields:
        known = tuple(fields)
        draft.problems.append(UnknownName(name.source, "field", name.value, "of a case", known))
        return ""
    part_name, own, column = fields[name.value]
    _put(draft, part_name, own, replace(given, value=valued(column, str(given.value))))
    return said("{field}: {value}", field=field_word(own), value=given.value or said("nothing"))


def valued(column: Column, text: str) -> Any:
    """The value that a text means for a field: a number where it is one, nothing where it is
    empty; anything else is told by the check of the field."""
    if not text:
        return None if column.default() is None else ""
    try:
        match column.key.kind:
            case Kind.NUMBER:
                return int(text)
            case Kind.YES_NO:
                return {"yes": True, "no": False}.get(text, text)
            case Kind.AMOUNT:
                found = float(text)
                return found if math.isfinite(found) else text
    except ValueError:
        return text
    return text


def _put(draft: CaseDraft, part_name: str, name: str, given: Entered) -> None:
    """Another value for a field of the case or of a part of it."""
    owner = getattr(draft.casefile, part_name) if part_name else draft.casefile
    made = draft.put_in(owner, {name: given}, (part_name,) if part_name else ())
    if isinstance(made, Casefile):
        draft.casefile = made
    elif made is not None:
        changed: dict[str, Any] = {part_name: made}
        draft.casefile = replace(draft.casefile, **changed)


def set_claims(draft: CaseDraft, claimed: Mapping[str, Entered]) -> tuple[str, ...]:
    """Let these items be claimed; one without a value is claimed no longer. Tells each."""
    items, told = dict(draft.casefile.claim.items), []
    for item, each in claimed.items():
        draft.given[("claim", "items", item)] = each.source
        items |= {item: each.value}
        value = each.value or said("not claimed")
        told.append(said("{item}: {value}", item=draft.names.item(item), value=value))
    if claimed:
        items = {item: value for item, value in items.items() if value}
        claim = replace(draft.casefile.claim, items=items)
        draft.casefile = replace(draft.casefile, claim=claim)
    return tuple(told)


def claim_read(casefile: Casefile, book: CodeBook) -> tuple[str, ...]:
    """How the claim is read, where its numbers were typed as they stand on the car."""
    read = in_book_words(casefile, book)
    car = car_marks(replace(read, readings=()), book)
    numbers = (each for each in book.items if each.kind is ItemKind.NUMBER)
    written = {
        each.id: as_written(book, each, read.claim.items[each.id], car.context)
        for each in numbers
        if each.id in read.claim.items
    }
    claim = replace(read.claim, items={**read.claim.items, **written})
    return claim_sentences(casefile.claim, claim, Names(book_names(car)))
