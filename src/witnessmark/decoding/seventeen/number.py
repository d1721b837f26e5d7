"""One number of seventeen places, as it was read."""

from dataclasses import dataclass

from witnessmark.codebook import Citation
from witnessmark.decoding.align import Alignment
from witnessmark.decoding.options import DecodingRequest
from witnessmark.decoding.records import Note, NoteKind
from witnessmark.decoding.seventeen.rules import LENGTH, SEVENTH, NumberRules
from witnessmark.decoding.seventeen.sums import check_sum
from witnessmark.reading import Cell, CellKind, Reading

CARS = "vehicle_number"
"""The mark of passenger cars and light vehicles, to which alone some of the rules apply."""

NORTH_AMERICA = "north-america"
CHINA = "china"
"""A region whose numbers carry the same check digit by a rule of its own."""

LETTER, DIGIT = "letter", "digit"


@dataclass(frozen=True, slots=True)
class Vin:
    """The cells of positions 1 to 17 with all that is needed to judge them."""

    asked: DecodingRequest
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
        return self._regions() == {NORTH_AMERICA}

    @property
    def is_chinese(self) -> bool:
        """Does position 1, as read, name China and nothing else?"""
        return self._regions() == {CHINA}

    @property
    def is_of_a_car(self) -> bool:
        """Is it of a passenger car or light vehicle, by its mark?"""
        return self.asked.mark.id == CARS

    @property
    def follows_the_rule_for_cars(self) -> bool:
        """Is it of a car or light vehicle whose maker code is North American?"""
        return self.is_of_a_car and self.is_north_american

    @property
    def seventh(self) -> str:
        """letter or digit in position 7 where the rule about it applies; else an empty text."""
        return self.kind(SEVENTH) if self.follows_the_rule_for_cars else ""

    @property
    def agrees(self) -> bool:
        """Was every place clearly read, as the rule permits it there, and does the check digit
        agree?"""
        read = [self.read(position) for position in range(1, LENGTH + 1)]
        is_permitted = all(
            each and each in self.rules.permitted(position)
            for position, each in enumerate(read, start=1)
        )
        return is_permitted and check_sum(self.rules, "".join(read)).agrees

    def _regions(self) -> set[str]:
        """What each character that position 1 can be stands for; empty for one without a row."""
        rows = [self.rules.regions.get(each) for each in self.cell(1).characters]
        return {row.value if row else "" for row in rows}

    def note(self, kind: NoteKind, sentence: str, remark: str) -> Note:
        """A note that rests on a remark of the book."""
        return noted(kind, sentence, self.rules.said(remark, self.asked.mark.citation))

    def by_table(self, kind: NoteKind, sentence: str, table: str) -> Note:
        """A note that rests on a table of the book."""
        return noted(kind, sentence, self.rules.cited(table, self.asked.mark.citation))


def noted(kind: NoteKind, sentence: str, citation: Citation) -> Note:
    """A note that rests on this citation."""
    return Note(kind, sentence, citation.basis, citation.source)


def number_of(asked: DecodingRequest, alignment: Alignment, rules: NumberRules) -> Vin | None:
    """The number, or None where it is not sure which character stands in which position."""
    cells = tuple(cell for aligned in alignment.fields for cell in aligned.cells.cells)
    is_whole = (
        len(cells) == LENGTH
        and not alignment.unread
        and not any(aligned.cells.missing for aligned in alignment.fields)
        and not any(cell.kind is CellKind.NEVER_STRUCK for cell in cells)
        and gaps_in(asked.reading) <= 1
    )
    return Vin(asked, rules, cells) if is_whole else None


def gaps_in(reading: Reading) -> int:
    """How many stretches of lost places were typed."""
    return sum(cell.kind is CellKind.GAP for cell in reading.cells)
