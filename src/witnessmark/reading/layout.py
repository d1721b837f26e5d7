"""Which cells stand in which field, from alphabets and lengths alone.

A plate with windows is simple: each window is a field. In any other mark the
fields follow each other without a sign between them, and the cheapest way to
lay the cells out is searched. Which code is likely plays no part here.
"""

from witnessmark.codebook.marks import Field, Mark
from witnessmark.reading.alphabet import misfit
from witnessmark.reading.layout_search import Layout, Placed, Search, Spelt
from witnessmark.reading.records import Cell, CellKind


def fields_in_order(mark: Mark) -> tuple[Field, ...]:
    """The fields in reading order: by row, then by column."""
    return tuple(sorted(mark.fields, key=lambda field: (field.row, field.column)))


def lay_out(cells: tuple[Cell, ...], mark: Mark) -> Layout:
    """The cells of a reading in the fields of its mark; nothing is dropped."""
    if not mark.windows:
        return lay_out_line(cells, fields_in_order(mark))
    windows = mark.windows_in_order()
    placed: list[Placed] = []
    spelt: list[Spelt] = []
    unread = [cell for cell in cells if cell.window >= len(windows)]
    for window, fields in enumerate(windows):
        line = lay_out_line(tuple(c for c in cells if c.window == window), fields)
        placed += [_in_window(each, len(fields)) for each in line.placed]
        spelt += line.spelt
        unread += line.unread
    unread.sort(key=lambda cell: cell.column)
    return Layout(tuple(placed), tuple(spelt), tuple(unread))


def _in_window(placed: Placed, fields: int) -> Placed:
    """An optional field is left out of a line; a window stands on the plate all the same."""
    if placed.cells or (placed.field.optional and fields > 1):
        return placed
    return Placed(placed.field, (), missing=min(placed.field.widths, default=0))


def lay_out_line(cells: tuple[Cell, ...], fields: tuple[Field, ...]) -> Layout:
    """The cells in fields that follow each other without a sign between them."""
    if not fields:
        return Layout((), unread=cells)
    if cells and all(cell.kind is CellKind.NEVER_STRUCK for cell in cells):
        return _left_empty(cells, fields)
    if _fits_as_it_stands(cells, fields):
        return _cut(cells, fields)
    return Search(cells, fields).layout()


def _left_empty(cells: tuple[Cell, ...], fields: tuple[Field, ...]) -> Layout:
    """A line in which nothing was struck: no field lacks anything."""
    placed = []
    rest = cells
    for field in fields[:-1]:
        width = max(field.widths, default=0)
        placed.append(Placed(field, rest[:width]))
        rest = rest[width:]
    return Layout((*placed, Placed(fields[-1], rest)))


def _fits_as_it_stands(cells: tuple[Cell, ...], fields: tuple[Field, ...]) -> bool:
    """Fixed widths, as many cells as places, every character in its alphabet."""
    start = 0
    for field in fields:
        if len(field.widths) != 1 or field.optional:
            return False
        end = start + field.widths[0]
        if any(misfit(cell, field.alphabet) for cell in cells[start:end]):
            return False
        start = end
    return start == len(cells)


def _cut(cells: tuple[Cell, ...], fields: tuple[Field, ...]) -> Layout:
    placed = []
    start = 0
    for field in fields:
        placed.append(Placed(field, cells[start : start + field.widths[0]]))
        start += field.widths[0]
    return Layout(tuple(placed))
