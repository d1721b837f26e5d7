"""What both halves of a book are read into: entries of checked values with their places.

A table of book.toml and a row of a CSV file become the same `Entry`, so that
records are built from both in the same way. Nobody changes an entry; it is not
frozen, because a frozen one takes twice as long to make, and a book has thousands.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Protocol

from witnessmark.source import Source

Value = str | int | bool | date | None | tuple[str, ...] | tuple[int, ...] | tuple["Entry", ...]


@dataclass(frozen=True, slots=True)
class FileText:
    """A file of the book: its name as the user would write it, and its text."""

    name: str
    text: str


class Places(Protocol):
    """The places of what is written in an entry, each worked out when it is asked for: nobody
    asks for the places of a sound book."""

    def __contains__(self, name: object) -> bool: ...

    def source(self, name: str, index: int | None) -> Source:
        """Where a written value stands, or one element of a list."""

    def whole(self) -> Source:
        """Where the entry itself stands."""


@dataclass(slots=True)
class Entry:
    """One table of book.toml or one row of a CSV file.

    `values` holds every declared key, faulty or missing ones with their default;
    `sources` the place of each that was written, and of the entry itself; `faulty` names
    those that have been reported, so that nobody reports them a second time.
    """

    values: Mapping[str, Value]
    sources: Places
    faulty: frozenset[str] = frozenset()

    @property
    def place(self) -> Source:
        """Where the entry itself stands."""
        return self.sources.whole()

    def text(self, name: str) -> str:
        """The text of a key of kind text."""
        value = self.values[name]
        assert isinstance(value, str), name
        return value

    def number_or[F: int | None](self, name: str, fallback: F) -> int | F:
        """The number of a key, or the fallback where none was written."""
        value = self.values[name]
        return value if isinstance(value, int) else fallback

    def yes(self, name: str) -> bool:
        """The answer of a key of kind yes or no."""
        return self.values[name] is True

    def day(self, name: str) -> date | None:
        """The day of a key of kind date, or None."""
        value = self.values[name]
        return value if isinstance(value, date) else None

    def texts(self, name: str) -> tuple[str, ...]:
        """The texts of a list."""
        return tuple(each for each in self._listed(name) if isinstance(each, str))

    def entries(self, name: str) -> tuple["Entry", ...]:
        """The tables of a list of tables; one or none of a single table."""
        return tuple(each for each in self._listed(name) if isinstance(each, Entry))

    def _listed(self, name: str) -> tuple[object, ...]:
        value = self.values[name]
        return value if isinstance(value, tuple) else ()

    def is_written(self, name: str) -> bool:
        """Does this key or cell stand in the file with a value, and is it without fault?"""
        return name in self.sources and name not in self.faulty

    def source(self, name: str, index: int | None = None) -> Source:
        """Where the value stands, or one element of it; where the entry does, if it is missing."""
        return self.sources.source(name, index) if name in self.sources else self.place


@dataclass(slots=True, unsafe_hash=True)
class Placed[T]:
    """A record beside the entry that it was built from; not frozen, for the same reason."""

    record: T
    entry: Entry
