"""Fields of a record as a machine reads them, for the JSON of an answer."""

from enum import Enum
from typing import Any

from witnessmark.codebook import Citation


def picked(record: object, *names: str) -> dict[str, Any]:
    """These fields by their names, in this order; a set in the order of its words."""
    return {name: _plain(getattr(record, name)) for name in names}


def cited(citation: Citation) -> dict[str, Any]:
    """On what a row rests."""
    return picked(citation, "basis", "source")


def _plain(value: object) -> object:
    match value:
        case Enum():
            return value.value
        case frozenset():
            return sorted(value)
        case tuple():
            return list(value)
    return value
