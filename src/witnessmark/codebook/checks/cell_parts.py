"""Cells of several parts, each a name, a sign and what is said of it: `round red=factory`."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from witnessmark.documents.entries import Entry
from witnessmark.source import Source


@dataclass(frozen=True, slots=True)
class CellPart:
    """One part of a cell: as written, before and after its sign, and its place."""

    text: str
    name: str
    said: str
    place: Source

    @property
    def is_whole(self) -> bool:
        """Does something stand on both sides of the sign?"""
        return bool(self.name and self.said)

    def name_place(self) -> Source:
        """Where the name stands."""
        return replace(self.place, width=len(self.name))

    def said_place(self, word: str = "") -> Source:
        """Where what is said stands, or one word of it."""
        column = (self.place.column or 1) + self.place.width - len(self.said)
        at = self.said.find(word) if word else 0
        return replace(self.place, column=column + max(at, 0), width=len(word or self.said))


def cell_parts(entry: Entry, column: str) -> Iterator[CellPart]:
    """The parts of a cell, divided by semicolons, each where it stands."""
    if column not in entry.sources:
        return
    cell = entry.source(column)
    at = (cell.column or 1) - 1
    for written in filter(str.strip, entry.text(column).split(";")):
        text = written.strip()
        name, _, said = (each.strip() for each in text.partition("="))
        found = cell.text.find(text, at)
        place = cell if found < 0 else replace(cell, column=found + 1, width=len(text))
        at = at if found < 0 else found + len(text)
        yield CellPart(text, name, said, place)
