"""A case of format 1 as one of format 2: what differs, field by field."""

import json
from collections.abc import Iterator, Mapping
from typing import Any

from witnessmark.casefile.records import FORMAT_VERSION
from witnessmark.casefile.words import OriginSaid
from witnessmark.documents.changes import OLD_VERSION, FormatChange, changed_text
from witnessmark.documents.json_places import JsonPlaces
from witnessmark.documents.lines import KeyPath

STATEMENTS: KeyPath = ("claim", "statements")
NEW_FIELDS: Mapping[KeyPath, tuple[str, ...]] = {
    STATEMENTS: ("origin", "work", "work_by", "paper"),
    ("sites",): ("mark",),
    ("readings",): ("again", "claim_known"),
    ("looks",): ("again",),
    ("papers",): ("kind", "name", "says"),
    ("circumstances",): ("vouched",),
    ("assignment", "examiners"): (
        *("answers_for", "earlier_dealings", "firm", "address", "telephone"),
        *("compensation", "fee_depends"),
    ),
    ("assignment",): ("assistance",),
    (): ("report", "custody", "sums"),
}
"""Fields that format 2 reads and format 1 kept without reading, if somebody had them, by the
path of the object, or of the list of objects, that has them."""

_ORIGIN_OF = {True: OriginSaid.FIRST, False: OriginSaid.REPLACED, None: OriginSaid.NOT_SAID}


def changes_from_format_1(document: Mapping[str, Any]) -> tuple[FormatChange, ...]:
    """What differs in format 2, for the values of a case of format 1.

    A field of a wrong kind is left alone: the checks of fields know it better. An `original`
    that is neither true, false nor null is told by `unknown_originals`.
    """
    found = [FormatChange(("format_version",), "format_version", FORMAT_VERSION)]
    for path, new in NEW_FIELDS.items():
        at = _at(document, path)
        if isinstance(at, list):
            for n, entry in enumerate(at):
                found += _of_entry(entry, (*path, n), new)
        else:
            found += _of_entry(at, path, new)
    return tuple(found)


def _at(document: object, path: KeyPath) -> object:
    """What stands at a path of names; None where nothing does."""
    for name in path:
        document = document.get(str(name)) if isinstance(document, dict) else None
    return document


def _of_entry(entry: object, path: KeyPath, new: tuple[str, ...]) -> Iterator[FormatChange]:
    """The changes of one object; a field that nobody read makes way for the one now read."""
    if not isinstance(entry, dict):
        return
    if "origin" in new and _is_original_known(entry):
        said = _ORIGIN_OF[entry["original"]]
        yield FormatChange((*path, "original"), "origin", said.value)
    for name in new:
        if name in entry:
            free = f"{name}_of_format_{OLD_VERSION}"
            while free in entry:
                free += "_"
            yield FormatChange((*path, name), free)


def _is_original_known(statement: Mapping[str, Any]) -> bool:
    """Does a statement of format 1 say true, false or null of `original`?"""
    value = statement.get("original", "nothing")
    return value is None or isinstance(value, bool)


def unknown_originals(document: Mapping[str, Any]) -> Iterator[KeyPath]:
    """Where a statement of format 1 says anything else of it, which cannot be converted."""
    statements = _at(document, STATEMENTS)
    for n, each in enumerate(statements if isinstance(statements, list) else ()):
        if isinstance(each, dict) and "original" in each and not _is_original_known(each):
            yield (*STATEMENTS, n, "original")


def upgraded_text(places: JsonPlaces, changes: tuple[FormatChange, ...]) -> str:
    """The text of these places with each change made, and nothing else."""
    return changed_text(places.text, places.keys, places.values, changes, json.dumps)
