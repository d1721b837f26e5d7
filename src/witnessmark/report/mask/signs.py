"""What stands in a masked copy where a serial stood: one sign a place, the same everywhere.

Nothing of a serial is left. What is kept is which places agree: at each place
of a number the first character met has the sign •, another one ≠, a third one
another sign again. So `700236` is `••••••` wherever it stands, a tail `0236`
is `••••`, and one that ends otherwise, `0238`, is `•••≠`. Length, signs of doubt
and the letters of codes stay.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.records import ItemKind
from witnessmark.decoding.records import Decoding, FieldCells
from witnessmark.examination import Opinion
from witnessmark.reading.records import Cell

SAME_PLACE = "•≠◆■†‡§¶¤"
"""Signs for the first, second, third … character met at one place of a number."""
HIDDEN = "#"
"""A character that is hidden and was compared with nothing."""

_UNIT = re.compile(r"\[[^\]]*\]|\.\.\.|.", re.DOTALL)
_DOUBT = "?~_…"


@dataclass(frozen=True, slots=True)
class Number:
    """A serial of the case as it stands somewhere: its item, which part of it, its units.

    A unit is a clear character, a set in brackets, or a sign of doubt.
    """

    item: str
    part: str
    units: tuple[str, ...]

    @property
    def is_whole(self) -> bool:
        """Is it all of the number, with every character clear?"""
        return self.part == "all" and all(map(_is_clear, self.units))


@dataclass(slots=True)
class Signs:
    """The signs of one case: which character had which sign at which place of which number.

    `alphabet` are the signs for the characters met at one place; `hidden` stands for any other.
    """

    items: frozenset[str]
    lengths: dict[str, int]
    families: dict[str, str]
    numbers: list[Number] = field(default_factory=list)
    met: dict[tuple[str, int], list[str]] = field(default_factory=dict)
    alphabet: str = SAME_PLACE
    hidden: str = HIDDEN

    def sign(self, item: str, from_end: int | None, character: str) -> str:
        """The sign of a character at its place, counted from the last, which is 0."""
        if from_end is None or item not in self.items:
            return self.hidden
        place = self.met.setdefault((self.families.get(item, item), from_end), [])
        character = character.upper()
        if character not in place:
            place.append(character)
        at = place.index(character)
        return self.alphabet[at] if at < len(self.alphabet) else self.hidden

    def blank(self, text: str) -> str:
        """A text of which nothing is shown but its length and signs."""
        return "".join(self.hidden if each.isalnum() else each for each in text)

    def masked(self, text: str, item: str, part: str = "all") -> str:
        """A number as typed or read, several joined by " / ", with a sign for each character."""
        return " / ".join(
            "".join(self.masked_units(units_of(each), item, part)) for each in text.split(" / ")
        )

    def masked_units(self, units: tuple[str, ...], item: str, part: str) -> Iterator[str]:
        """The units of one number masked, in order."""
        standing = [unit for unit in units if not _is_between(unit)]
        places = self.places(standing, item, part)
        at = 0
        for unit in units:
            if _is_between(unit):
                yield unit if unit in " -|" else ""
                continue
            yield self._unit(unit, item, places[at])
            at += 1

    def places(self, units: list[str], item: str, part: str) -> list[int | None]:
        """The place of each unit from the end of the whole number; None where it is not sure."""
        if any(unit in ("…", "...") for unit in units):
            return [None] * len(units)
        lacking = 0
        if part.startswith("first"):
            lacking = max(0, self.lengths.get(item, 0) - len(units))
        return [len(units) - 1 - at + lacking for at in range(len(units))]

    def _unit(self, unit: str, item: str, place: int | None) -> str:
        if unit == "..." or unit in _DOUBT:
            return unit
        if unit.startswith("["):
            return f"[{''.join(self.sign(item, place, each) for each in unit[1:-1])}]"
        return self.sign(item, place, unit)


def units_of(text: str) -> tuple[str, ...]:
    """Clear characters, sets and signs of doubt, in order.

    >>> units_of("10[38]?")
    ('1', '0', '[38]', '?')
    """
    return tuple(_UNIT.findall(text))


def _is_between(unit: str) -> bool:
    return len(unit) == 1 and not unit.isalnum() and unit not in _DOUBT


def _is_clear(unit: str) -> bool:
    return len(unit) == 1 and unit.isalnum()


def signs_of(opinion: Opinion, book: CodeBook, one_sign: str = "") -> Signs:
    """The signs of a case: the claim is met first, then the title, then the marks as read.

    With `one_sign`, that one stands for every character, and nothing tells which places agree.
    """
    items = {item.id: item.length for item in book.items if item.kind is ItemKind.NUMBER}
    numbers = list(_numbers(opinion, frozenset(items)))
    signs = Signs(frozenset(items), items, _families(numbers), numbers)
    if one_sign:
        signs.alphabet = signs.hidden = one_sign
    for number in numbers:
        signs.masked("".join(number.units), number.item, number.part)
    return signs


def main_item(opinion: Opinion, items: Iterable[str]) -> str:
    """The item that the number on the title is set against: the first one claimed, or read."""
    wanted = frozenset(items)
    spoken = [cells.says for each in opinion.decodings for cells in each.field_cells]
    found = [each for each in (*opinion.casefile.claim.items, *spoken) if each in wanted]
    return found[0] if found else ""


def _numbers(opinion: Opinion, items: frozenset[str]) -> Iterator[Number]:
    case = opinion.casefile
    for item, text in case.claim.items.items():
        if item in items and text.strip():
            yield Number(item, "all", _standing(text))
    for decoding in opinion.decodings:
        for cells in decoding.field_cells:
            if cells.says in items and any(cell.characters for cell in cells.cells):
                yield _read(cells)
                spilt = spilt_before(decoding, cells)
                if spilt:
                    units = tuple(cell.sign() for cell in (*spilt, *cells.cells))
                    yield Number(cells.says, "all", units)
    if case.title_paper.number.strip():
        yield Number(main_item(opinion, items), "all", _standing(case.title_paper.number))


def spilt_before(decoding: Decoding, number: FieldCells) -> tuple[Cell, ...]:
    """Cells of no field that stand right before a number: more of it than the field holds."""
    placed = {cell.column for each in decoding.field_cells for cell in each.cells}
    columns = [cell.column for cell in number.cells if cell.column]
    found: list[Cell] = []
    for cell in decoding.reading.cells:
        if columns and cell.column == columns[0]:
            return tuple(found)
        found = [] if cell.column in placed else [*found, cell]
    return ()


def _read(cells: FieldCells) -> Number:
    units = tuple(cell.sign() for cell in cells.cells)
    return Number(cells.says, cells.part, units if not cells.missing else (*units, "…"))


def _standing(text: str) -> tuple[str, ...]:
    return tuple(unit for unit in units_of(text) if not _is_between(unit))


def _families(numbers: list[Number]) -> dict[str, str]:
    """Items that bear one and the same number are compared as one, under the first of them."""
    family: dict[str, str] = {}
    home: dict[tuple[str, ...], str] = {}
    for number in numbers:
        own = family.setdefault(number.item, number.item)
        if number.is_whole:
            other = home.setdefault(number.units, own)
            if other != own:
                family = {item: other if at == own else at for item, at in family.items()}
                home = {units: other if at == own else at for units, at in home.items()}
    return family
