"""One number of seventeen places, as it was read."""

from dataclasses import dataclass

from witnessmark.catalogue import counted, said
from witnessmark.codebook.records import Citation
from witnessmark.decoding.align import Alignment
from witnessmark.decoding.options import Asked
from witnessmark.decoding.records import Note
from witnessmark.decoding.seventeen.rules import LENGTH, SEVENTH, NumberRules
from witnessmark.reading.records import Cell, CellKind, Reading

CARS = "vehicle_number"
"""The mark of passenger cars and light vehicles, to which alone some of the rules apply."""

NORTH_AMERICA = "north-america"
LETTER, DIGIT = "letter", "digit"


@dataclass(frozen=True, slots=True)
class Number:
    """The cells of positions 1 to 17 with all that is needed to judge them."""

    asked: Asked
    rules: NumberRules
    cells: tuple[Cell, ...]

    def cell(self, position: int) -> Cell:
        """The cell of a position, counted from 1."""
        return self.cells[position - 1]

    def read(self, position: int) -> str:
        """The character that was clearly read there, or an empty text."""
        cell = self.cell(position)
        return cell.characters if cell.kind is CellKind.CLEAR else ""

    def unsure(self) -> tuple[int, ...]:
        """The positions that are not clearly read."""
        return tuple(p for p in range(1, LENGTH + 1) if not self.read(p))

    def kind(self, position: int) -> str:
        """letter or digit, where all that may stand there is the one; else an empty text."""
        kinds = {self.rules.kinds.get(each, "") for each in self.cell(position).characters}
        return kinds.pop() if len(kinds) == 1 else ""

    @property
    def is_north_american(self) -> bool:
        """Does position 1, as read, name North America and nothing else?"""
        regions = [self.rules.regions.get(each) for each in self.cell(1).characters]
        return bool(regions) and all(row and row.value == NORTH_AMERICA for row in regions)

    @property
    def follows_the_rule_for_cars(self) -> bool:
        """Is it of a car or light vehicle whose maker code is North American?"""
        return self.asked.mark.id == CARS and self.is_north_american

    @property
    def seventh(self) -> str:
        """letter or digit in position 7 where the rule about it applies; else an empty text."""
        return self.kind(SEVENTH) if self.follows_the_rule_for_cars else ""

    def note(self, kind: str, sentence: str, remark: str) -> Note:
        """A note that rests on a remark of the book."""
        return noted(kind, sentence, self.rules.said(remark, self.asked.mark.citation))


def noted(kind: str, sentence: str, citation: Citation) -> Note:
    """A note that rests on this citation."""
    return Note(kind, sentence, citation.basis, citation.source)


def number_of(asked: Asked, alignment: Alignment, rules: NumberRules) -> Number | None:
    """The number, or None where it is not sure which character stands in which position."""
    cells = tuple(cell for aligned in alignment.fields for cell in aligned.cells.cells)
    is_whole = (
        len(cells) == LENGTH
        and not alignment.unread
        and not any(aligned.cells.missing for aligned in alignment.fields)
        and not any(cell.kind is CellKind.NEVER_STRUCK for cell in cells)
        and _gaps(asked.reading) <= 1
    )
    return Number(asked, rules, cells) if is_whole else None


def why_not_whole(reading: Reading) -> str:
    """Why a reading is no number of 17 places."""
    if any(cell.kind is CellKind.NEVER_STRUCK for cell in reading.cells):
        reason = said("a place was never struck")
    elif _gaps(reading) > 1:
        reason = said("places are lost in more than one stretch, and nobody knows how many in each")
    else:
        count = sum(cell.kind is not CellKind.GAP for cell in reading.cells)
        reason = counted("{number} place was read", "{number} places were read", count)
    return said(
        "Not tested: the rule is for numbers of {length} characters, and {reason}. An older "
        "number, or one for another market, may have another length.",
        length=LENGTH,
        reason=reason,
    )


def _gaps(reading: Reading) -> int:
    return sum(cell.kind is CellKind.GAP for cell in reading.cells)
