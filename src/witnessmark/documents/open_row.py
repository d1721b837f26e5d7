"""Rows that keep what they do not know: those of a document that other programs write too.

They are read from JSON (json_rows.py) and written as JSON; what a field may hold is declared by
its column, as in any row. A field whose column stands for null where nothing is written may be
null.
"""

from collections.abc import Mapping
from dataclasses import field
from datetime import datetime
from enum import Enum
from typing import Any

from witnessmark.documents.row import LONGEST_NAME, Column, Row, free_text, texts

LONGEST_TEXT = 20_000
"""Most characters of a text of any use."""


def noted(about: str) -> Any:
    """A text of any use, which may stay empty."""
    return free_text(about, most=LONGEST_TEXT, default="")


def named_or_not(about: str) -> Any:
    """A name, which may stay empty."""
    return free_text(about, most=LONGEST_NAME, default="")


def names(about: str) -> Any:
    """A list of names, which may stay empty."""
    return texts(about, least=1, most=LONGEST_NAME, default=())


class OpenRow(Row):
    """The base of such rows; `unknown` holds the fields that no column declares, by name."""

    unknown: Mapping[str, Any] = field(default_factory=dict, hash=False, repr=False)

    @classmethod
    def fields_declared(cls) -> Mapping[str, Column]:
        """The column of each field by name, in the declared order."""
        return {name: each for name, each in cls.columns.items() if isinstance(each, Column)}

    def values(self) -> dict[str, Any]:
        """What the record holds by field, in the declared order; unknown fields last."""
        return {name: getattr(self, name) for name in self.columns} | dict(self.unknown)


def as_json(value: Any) -> Any:
    """A record, or what one holds, as JSON knows it: objects, lists, texts, numbers.

    >>> as_json((datetime(2025, 3, 14, 10, 30), "scuttle"))
    ['2025-03-14T10:30:00', 'scuttle']
    """
    match value:
        case OpenRow():
            return {name: as_json(each) for name, each in value.values().items()}
        case Enum():
            return value.value
        case tuple() | list():
            return [as_json(each) for each in value]
        case Mapping():
            return {name: as_json(each) for name, each in value.items()}
        case datetime():
            return value.isoformat().replace("+00:00", "Z")
    return value.isoformat() if hasattr(value, "isoformat") else value
