"""Fields that a case holds and this version does not know: kept, but not read.

They are no fault: another version or another program may know them. They are
worth a line all the same, because a misspelt field looks just like one.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from witnessmark.casefile.records import Casefile
from witnessmark.documents.json_places import JsonPlaces
from witnessmark.documents.lines import KeyPath
from witnessmark.documents.open_row import OpenRow
from witnessmark.source import Source


@dataclass(frozen=True, slots=True)
class UnreadField:
    """One such field: its name and where it stands."""

    source: Source
    field: str


def unread_fields(casefile: Casefile, places: JsonPlaces) -> tuple[UnreadField, ...]:
    """All fields that are kept and not read, in the order of the records."""
    return tuple(_unread(casefile, (), places))


def _unread(value: object, path: KeyPath, places: JsonPlaces) -> Iterator[UnreadField]:
    if isinstance(value, tuple):
        for n, entry in enumerate(value):
            yield from _unread(entry, (*path, n), places)
    elif isinstance(value, OpenRow):
        for name in value.unknown:
            yield UnreadField(places.key_source((*path, name)), name)
        for name in value.columns:
            yield from _unread(getattr(value, name), (*path, name), places)
