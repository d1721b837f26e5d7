"""All that the case says of a car before any rate: its pieces with what was seen of each, the
cores with what is fitted to them, the plates and papers, the numbers, items and weeks."""

from dataclasses import dataclass

from witnessmark.agreement.records import CarMarks
from witnessmark.codebook.marks import MarkKind
from witnessmark.codebook.pieces import PieceKind, Pieces
from witnessmark.codebook.records import Assembly
from witnessmark.weighing.arrays import Array
from witnessmark.weighing.evidence.days import DatedLink, Grid
from witnessmark.weighing.evidence.noted import DateSeen, PieceSeen
from witnessmark.weighing.evidence.numbers import NumberItem
from witnessmark.weighing.pieces.axes import Traits
from witnessmark.weighing.pieces.core_days import CoreDays
from witnessmark.weighing.pieces.items import CodeItem


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Core:
    """A core with what is fitted to it, its assembly and its days. `is_named`: some paper names
    the day of its stamp."""

    piece: PieceSeen
    assembly: Assembly
    fitted: tuple[PieceSeen, ...]
    panels: tuple[PieceSeen, ...]
    days: CoreDays
    is_named: bool

    @property
    def is_silent(self) -> bool:
        """Was nothing noted of any of it?"""
        return all(each.is_silent for each in self._parts)

    @property
    def bears_marks(self) -> bool:
        """Does any mark that the book knows stand on any of it?"""
        return any(surface.marks for each in self._parts for surface in each.surfaces)

    @property
    def _parts(self) -> tuple[PieceSeen, ...]:
        return (self.piece, *self.fitted, *self.panels)


@dataclass(frozen=True, slots=True, eq=False)
class PlateOrPaper:
    """A plate or paper with its events of the car, and the dates it names of cores.
    `is_data_plate`: it is not the plate of the number alone, but one of codes, on a panel that
    is painted or replaced."""

    piece: PieceSeen
    events: tuple[DatedLink, ...]
    named: tuple[DateSeen, ...]
    is_data_plate: bool

    @property
    def is_number_plate(self) -> bool:
        """Does it bear the identification number?"""
        return self.piece.main.bears_identity

    @property
    def is_label(self) -> bool:
        """Is it stuck on, so that it cannot come off and be put back?"""
        return all(mark.kind is MarkKind.LABEL for mark in self.piece.main.marks)

    @property
    def is_paper(self) -> bool:
        """Is it a paper, which nobody rivets to a car?"""
        return self.piece.piece.kind is PieceKind.PAPER


@dataclass(frozen=True, slots=True, eq=False)
class Tie:
    """One rule between items: these, which of their states together break it, and its row."""

    items: tuple[str, ...]
    broken: Array
    row: str


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Noted:
    """All that the case says, before any rate. `sheets` are the plates and papers of which
    something was noted, by piece; `bearer` the first assembly that bears the identity."""

    car: CarMarks
    pieces: Pieces
    seen: tuple[PieceSeen, ...]
    numbers: dict[str, NumberItem]
    items: dict[str, CodeItem]
    ties: tuple[Tie, ...]
    grid: Grid
    bearer: str
    cores: tuple[Core, ...]
    sheets: dict[str, PlateOrPaper]
    traits: Traits

    @property
    def can_be_joined(self) -> bool:
        """Was a number noted on more than one surface of the structure that bears it?"""
        surfaces = (
            s for each in self.seen if is_structure(each, self.bearer) for s in each.surfaces
        )
        return sum(bool(s.numbers) and s.bears_identity for s in surfaces) > 1

    def is_panel_noted(self, seen: PieceSeen) -> bool:
        """Is it a panel of the bearer of which something was noted?"""
        is_panel = seen.piece.kind is PieceKind.PANEL and seen.piece.assembly == self.bearer
        return is_panel and not seen.is_silent


def is_structure(seen: PieceSeen, bearer: str) -> bool:
    """Is it the structure of the first bearer of the identity?"""
    return seen.piece.kind is PieceKind.STRUCTURE and seen.piece.assembly == bearer
