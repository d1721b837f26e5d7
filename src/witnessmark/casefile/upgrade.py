"""A case of format 1 as one of format 2: what differs, field by field."""

import json
from collections.abc import Iterator, Mapping
from typing import Any

from witnessmark.casefile.records import FORMAT_VERSION
from witnessmark.casefile.words import OriginSaid
from witnessmark.documents.changes import OLD_VERSION, FormatChange, changed_text
from witnessmark.documents.json_places import JsonPlaces
from witnessmark.documents.lines import KeyPath

NEW_FIELDS = {
    "sites": ("mark",),
    "readings": ("again", "claim_known"),
    "looks": ("again",),
    "statements": ("origin", "work", "work_by", "paper"),
    "papers": ("kind", "name", "says"),
    "circumstances": ("vouched",),
}
"""Fields that format 2 reads and format 1 kept without reading, if somebody had them."""

_ORIGIN_OF = {True: OriginSaid.FIRST, False: OriginSaid.REPLACED, None: OriginSaid.NOT_SAID}


def changes_from_format_1(document: Mapping[str, Any]) -> tuple[FormatChange, ...]:
    """What differs in format 2, for the values of a case of format 1.

    A field of a wrong kind is left alone: the checks of fields know it better. An `original`
    that is neither true, false nor null is told by `unknown_originals`.
    """
    listed: dict[str, object] = {"statements": _statements(document)}
    listed |= {name: document.get(name) for name in ("sites", "readings", "looks", "papers")}
    found = [FormatChange(("format_version",), "format_version", FORMAT_VERSION)]
    for name, entries in listed.items():
        path: KeyPath = ("claim", name) if name == "statements" else (name,)
        for n, entry in enumerate(entries if isinstance(entries, list) else ()):
            found += _of_entry(entry, (*path, n), NEW_FIELDS[name])
    found += _of_entry(
        document.get("circumstances"), ("circumstances",), NEW_FIELDS["circumstances"]
    )
    return tuple(found)


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


def _statements(document: Mapping[str, Any]) -> object:
    claim = document.get("claim")
    return claim.get("statements") if isinstance(claim, dict) else None


def _is_original_known(statement: Mapping[str, Any]) -> bool:
    """Does a statement of format 1 say true, false or null of `original`?"""
    value = statement.get("original", "nothing")
    return value is None or isinstance(value, bool)


def unknown_originals(document: Mapping[str, Any]) -> Iterator[KeyPath]:
    """Where a statement of format 1 says anything else of it, which cannot be converted."""
    statements = _statements(document)
    for n, each in enumerate(statements if isinstance(statements, list) else ()):
        if isinstance(each, dict) and "original" in each and not _is_original_known(each):
            yield ("claim", "statements", n, "original")


def upgraded_text(places: JsonPlaces, changes: tuple[FormatChange, ...]) -> str:
    """The text of these places with each change made, and nothing else."""
    return changed_text(places.text, places.keys, places.values, changes, json.dumps)
