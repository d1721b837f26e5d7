"""The cells of a reading in the fields of its mark: what is missing, lost or left over.

Nothing is dropped and nothing invented. A place that the field should have and
that was not typed is filled with a worn cell, which says nothing, and the field
is named as missing.
"""

from collections.abc import Hashable
from dataclasses import dataclass, replace

from witnessmark.codebook import IN_FULL, Field, Mark
from witnessmark.decoding.records import UNTYPED_COLUMN, FieldCells
from witnessmark.reading import (
    FOREIGN,
    Cell,
    CellKind,
    Layout,
    PlacedCells,
    Reading,
    kept_beside,
    misfit,
)

WORD = 4
"""Letters that make a word of a sentence; fewer may be a code that no field explains."""


@dataclass(frozen=True, slots=True)
class AlignedField:
    """A field of the book with its cells; `key` is the same for cells that say the same."""

    field: Field
    cells: FieldCells
    key: Hashable = ""

    @property
    def is_number(self) -> bool:
        """Is it a field of free characters, neither a code nor a date?"""
        return not (self.field.table or self.field.date_form)


@dataclass(frozen=True, slots=True)
class Alignment:
    """All fields of a mark in reading order, the cells that belong to none, and the ids of
    fields of which nothing, or too little, was read."""

    fields: tuple[AlignedField, ...]
    unread: tuple[Cell, ...]
    missing: tuple[str, ...]

    @classmethod
    def of(cls, fields: tuple[AlignedField, ...], unread: tuple[Cell, ...]) -> "Alignment":
        """These fields, with those named that lack something."""
        missing = [
            aligned.field.id
            for aligned in fields
            if aligned.cells.missing or 0 < aligned.cells.lost == len(aligned.cells.cells)
        ]
        return cls(fields, unread, tuple(missing))


def align(reading: Reading, mark: Mark) -> Alignment:
    """Put the cells of a reading into the fields of its mark."""
    layout: Layout = reading.layout
    if layout.is_cut:
        return Alignment.of(
            tuple(
                [(_CODE_CUT if placed.field.table else _cut)(placed) for placed in layout.placed]
            ),
            (),
        )
    line_is_empty = bool(reading.cells) and all(
        cell.kind is CellKind.NEVER_STRUCK for cell in reading.cells
    )
    gaps = _left_gaps(reading, layout.placed)
    unsure = _unsure_fields(layout, mark)
    fields = tuple(
        [
            _cut(placed)
            if not (gaps or unsure or line_is_empty) and _is_clear(placed)
            else _aligned(
                _open_ended(placed, gaps),
                line_is_empty and not mark.windows,
                placed.field.id in unsure,
            )
            for placed in layout.placed
        ]
    )
    stray = _stray(layout)
    unread = sorted((*layout.unread, *gaps, *stray), key=lambda cell: cell.column)
    return Alignment.of(fields, tuple(unread))


_CLEAR = frozenset({CellKind.CLEAR})


def _is_clear(placed: PlacedCells) -> bool:
    """Was every place of a field typed, and one character? So it is where nothing stands."""
    lacks = placed.missing or placed.lost
    return not lacks and _CLEAR.issuperset([cell.kind for cell in placed.cells])


def _cut(placed: PlacedCells) -> AlignedField:
    """A field of a text that fits its mark as it stands."""
    field, cells = placed.field, placed.cells
    if len(cells) < field.widths[-1] and not (field.table or field.date_form):
        return _aligned(placed, line_is_empty=False, is_unsure=False)
    own = FieldCells(field=field.id, says=field.says, part=field.part, cells=cells)
    is_parted = any(cell.apart for cell in cells[1:])
    text = "" if is_parted else "".join([cell.characters for cell in cells])
    return AlignedField(field, own, text or own.key)


_CODE_CUT = kept_beside(_cut)
"""The same of a code, whose cells are kept."""


def _stray(layout: Layout) -> list[Cell]:
    """Of what stands behind or between the fields all that is not a word of a sentence: short
    codes and whatever has a figure in it are not passed over."""
    if not layout.around:
        return []
    own = [cell.column for placed in layout.placed for cell in placed.cells if cell.column]
    words: list[list[Cell]] = []
    for cell in layout.around:
        follows = words and not cell.apart and cell.column == words[-1][-1].column + 1
        if follows:
            words[-1].append(cell)
        else:
            words.append([cell])
    return [
        cell
        for word in words
        if not own or word[0].column > min(own)
        if not own or not all(c.characters.isalpha() for c in word) or len(word) < WORD
        if any(c.characters.isalnum() or not c.characters for c in word)
        for cell in word
    ]


def _unsure_fields(layout: Layout, mark: Mark) -> frozenset[str]:
    """The ids of the fields that may lack a place, since one lacks somewhere about them.

    Where places were not typed and no … says where they are, any of the characters beside
    may stand one place further on, up to the next that could stand in no field beside it.
    """
    if not any(placed.missing and placed.cells for placed in layout.placed) and (
        mark.windows or not any(placed.missing for placed in layout.placed)
    ):
        return frozenset()
    unsure: set[str] = set()
    for group in _groups(layout.placed, mark):
        if any(placed.missing for placed in group):
            unsure |= {placed.field.id for placed in group}
    return frozenset(unsure)


def _groups(placed: tuple[PlacedCells, ...], mark: Mark) -> list[list[PlacedCells]]:
    """Fields that follow each other and whose characters might be each other's."""
    groups: list[list[PlacedCells]] = []
    for each in placed:
        before = groups[-1][-1] if groups else None
        same_line = before is not None and (
            not mark.windows
            or (before.field.row, before.field.column) == (each.field.row, each.field.column)
        )
        if before is not None and same_line and not _is_parted(before, each):
            groups[-1].append(each)
        else:
            groups.append([each])
    return groups


def _is_parted(before: PlacedCells, after: PlacedCells) -> bool:
    """Could neither the last character of the one nor the first of the other stand in the other?"""
    if not before.cells or not after.cells:
        return False
    last, first = before.cells[-1], after.cells[0]
    return (
        misfit(last, after.field.alphabet) >= FOREIGN
        and misfit(first, before.field.alphabet) >= FOREIGN
    )


def _left_gaps(reading: Reading, placed: tuple[PlacedCells, ...]) -> tuple[Cell, ...]:
    """The … that no field took for places of its own."""
    gaps = [cell for cell in reading.cells if cell.kind is CellKind.GAP]
    if not gaps:
        return ()
    took = [each for each in placed if each.lost]
    return tuple(gap for gap in gaps if not any(_stands_by(gap, each) for each in took))


def _stands_by(gap: Cell, placed: PlacedCells) -> bool:
    """Does the … stand in this field or right beside it?"""
    columns = [cell.column for cell in placed.cells if cell.column != UNTYPED_COLUMN]
    if not columns:
        return True
    return (
        gap.window == placed.cells[0].window and min(columns) - 2 <= gap.column <= max(columns) + 2
    )


def _open_ended(placed: PlacedCells, gaps: tuple[Cell, ...]) -> PlacedCells:
    """A number that may be shorter, with a … in it: all its places are open."""
    field = placed.field
    is_number = not (field.table or field.date_form) and len(field.widths) > 1
    if not is_number or placed.missing or not any(_stands_by(gap, placed) for gap in gaps):
        return placed
    return replace(placed, missing=max(field.widths) - len(placed.cells))


def _aligned(placed: PlacedCells, line_is_empty: bool, is_unsure: bool) -> AlignedField:
    field, cells = placed.field, placed.cells
    is_empty = line_is_empty or (
        bool(cells) and all(cell.kind is CellKind.NEVER_STRUCK for cell in cells)
    )
    window = cells[-1].window if cells else 0
    noughts = _noughts(placed, is_empty)
    padding = (Cell(CellKind.WORN, "", UNTYPED_COLUMN, window),) * placed.missing
    own = FieldCells(
        field=field.id,
        says=field.says,
        part=field.part,
        cells=noughts + cells + padding,
        missing=placed.missing,
        is_empty=is_empty,
        is_unsure=is_unsure and not placed.missing and not is_empty,
        lost=placed.lost,
        lost_at=placed.lost_at,
    )
    return AlignedField(field, own, own.key)


def _noughts(placed: PlacedCells, is_empty: bool) -> tuple[Cell, ...]:
    """The leading zeros of a number that is written without them."""
    field = placed.field
    is_number = not (field.table or field.date_form) and field.part == IN_FULL
    if not is_number or is_empty or placed.missing or placed.lost or not placed.cells:
        return ()
    fewer, window = max(field.widths) - len(placed.cells), placed.cells[0].window
    if all(cell.kind is CellKind.OBLITERATED for cell in placed.cells):
        # Of a number that is ground off as a whole nobody knows how long it was.
        return (Cell(CellKind.OBLITERATED, "", UNTYPED_COLUMN, window),) * fewer
    return (Cell(CellKind.CLEAR, "0", UNTYPED_COLUMN, window),) * fewer
