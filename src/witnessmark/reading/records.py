"""A reading: what stands on the metal, place by place, with its doubt kept."""

from dataclasses import dataclass, field
from enum import StrEnum

from witnessmark.casefile.words import Legibility, Orientation, Seen
from witnessmark.codebook import Field
from witnessmark.problem import Problem

WORKING = {"working": True}
"""What a record holds for the rooms above and no Opinion shows."""


class CellKind(StrEnum):
    """What was seen at one place."""

    CLEAR = "clear"
    ONE_OF = "one of"
    WORN = "worn"
    OBLITERATED = "obliterated"
    NEVER_STRUCK = "never struck"
    GAP = "gap"


@dataclass(frozen=True, slots=True)
class Cell:
    """One place of a reading.

    `characters` holds the candidates: one for a clear cell, several for one of
    a set, none for the others. `column` is the place in the text as typed, from
    1; `window` counts the windows of a plate from 0. `apart` says what parts it from
    the cell before: 0 nothing, 1 a blank or dash, 2 the end of a line or a bar.
    """

    kind: CellKind
    characters: str
    column: int
    window: int = 0
    apart: int = 0

    def sign(self) -> str:
        """The cell in the notation."""
        if self.kind is CellKind.CLEAR:
            return self.characters
        return _SIGNS.get(self.kind) or f"[{self.characters}]"


_SIGNS = {
    CellKind.WORN: "?",
    CellKind.OBLITERATED: "~",
    CellKind.NEVER_STRUCK: "_",
    CellKind.GAP: "…",
}


@dataclass(frozen=True)
class PlacedCells:
    """The cells of one field, in order.

    `missing` counts places that the field should have and that were not typed.
    `lost` counts the worn cells among `cells` that stand for a typed …, from
    `lost_at` on.
    """

    field: Field
    cells: tuple[Cell, ...]
    missing: int = 0
    lost: int = 0
    lost_at: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """Every cell of a reading, laid out: in a field, in words that say nothing, or unread.

    `spelt` are cells of words that stand beside the fields (a label, text before a
    number), `around` those of words before or behind the mark that no field can hold.
    `strain` is 0 where all fits as it stands; the more had to be left over, missing or
    out of its alphabet, the greater. `is_plain`: every character is written as its field
    or word has it. `is_cut`: clear characters alone, cut in the one way there is.
    """

    placed: tuple[PlacedCells, ...]
    spelt: tuple[Cell, ...] = ()
    around: tuple[Cell, ...] = ()
    unread: tuple[Cell, ...] = ()
    strain: float = 0.0
    is_plain: bool = True
    is_cut: bool = False

    @property
    def is_complete(self) -> bool:
        """Does no field lack a place, but for those that a mark need not have?"""
        return not any(each.missing for each in self.placed if not each.field.optional)


NO_LAYOUT = Layout(placed=())


@dataclass(frozen=True, slots=True)
class Change:
    """One thing the normalised form says otherwise than the text as typed."""

    column: int
    typed: str
    normalised: str
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One person's transcript of one mark: as typed, and as cells.

    `normalised` is the text in the notation's plain form; `changes` say what it
    reads otherwise and why; `problems` are faults of the typing. `layout` says which
    cells stand in which field of the mark.
    """

    mark: str
    as_typed: str
    normalised: str
    cells: tuple[Cell, ...]
    legibility: Legibility = Legibility.CLEAR
    orientation: Orientation = Orientation.UPRIGHT
    seen: Seen = Seen.IN_PERSON
    by: str = ""
    changes: tuple[Change, ...] = ()
    problems: tuple[Problem, ...] = ()
    layout: Layout = field(default=NO_LAYOUT, metadata=WORKING)

    @property
    def is_illegible(self) -> bool:
        """Whether something stands there of which no character could be made out."""
        lost = (CellKind.WORN, CellKind.OBLITERATED, CellKind.GAP)
        return bool(self.cells) and all(cell.kind in lost for cell in self.cells)


@dataclass(frozen=True)
class ReadingRates:
    """The assumed rates of reading and striking, from reading/tables/rates.csv.

    `error` maps a legibility to the share of clear cells that are misread when
    seen in person; `seen_factor` multiplies it (photograph 1.5, copy 2, told 4);
    `misstrike` is the share of hand-struck characters struck wrongly; `shared`
    is the share of misreadings that two examiners have in common.
    """

    error: tuple[tuple[Legibility, float], ...]
    seen_factor: tuple[tuple[Seen, float], ...]
    misstrike: float
    shared: float
