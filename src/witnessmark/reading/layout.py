"""Which cells stand in which field, from alphabets, lengths and the blanks alone.

A plate with windows is simple where bars part them: each window is a field. In
any other mark, and on a plate that was copied without bars, the fields follow
each other and the cheapest way to lay the cells out is searched. Which code is
likely plays no part here.
"""

from dataclasses import replace
from functools import cached_property
from itertools import accumulate
from math import inf

from witnessmark.codebook import DateToken, Field, Mark
from witnessmark.reading.date_words import may_be_helped
from witnessmark.reading.kept import kept_beside
from witnessmark.reading.layout_line import FieldRun, LinePlan
from witnessmark.reading.layout_search import cheapest_within
from witnessmark.reading.records import Cell, CellKind, Layout, PlacedCells

STRAINED = 0.45
"""From this cost on a line does not fit as it stands, and other ways are tried."""

MOVED = 0.3
"""By how much a way with a row or word moved must be cheaper than one without."""

FEWEST_PLACES = 40
"""Of a mark that bears next to nothing; a reading may have come from another."""

MARKS_KEPT = 2000
"""Marks of which the lines are kept; with one more, all are forgotten."""


def date_forms_of(fields: tuple[Field, ...]) -> tuple[tuple[DateToken, ...], ...]:
    """The forms of date in these fields that a text may be helped to."""
    return tuple(each.tokens for each in fields if may_be_helped(each.tokens))


class FixedLine:
    """A line whose every field has one width: a text of that length is cut in one way."""

    def __init__(self, fields: tuple[Field, ...]) -> None:
        ends = list(accumulate(field.widths[0] for field in fields))
        self.cuts = tuple(zip(fields, [0, *ends[:-1]], ends, strict=True))
        self.width = ends[-1]
        self.known: list[dict[str, PlacedCells]] = [{} for _ in fields]
        alphabets = [field.alphabet for field in fields for _ in range(field.widths[0])]
        self.cells = [
            {each: Cell(CellKind.CLEAR, each, at) for each in alphabet}
            for at, alphabet in enumerate(alphabets, start=1)
        ]

    @classmethod
    def of(cls, fields: tuple[Field, ...]) -> "FixedLine | None":
        """The line of these fields; None where their widths are not settled."""
        is_fixed = all(len(each.widths) == 1 and not each.optional for each in fields)
        return cls(fields) if fields and is_fixed else None

    def cut(self, text: str) -> Layout | None:
        """The layout of a text that fits as it stands; None for any other."""
        if len(text) != self.width:
            return None
        try:
            cells = [of[each] for of, each in zip(self.cells, text, strict=True)]
        except KeyError:
            return None
        placed = [
            self._placed(at, field, text[start:end], cells[start:end])
            for at, (field, start, end) in enumerate(self.cuts)
        ]
        return Layout(placed=tuple(placed), is_cut=True)

    def _placed(self, at: int, field: Field, text: str, cells: list[Cell]) -> PlacedCells:
        """The cells in a field; codes come again and are kept."""
        if not field.table:
            return PlacedCells(field, tuple(cells))
        known = self.known[at].get(text)
        if known is None:
            if len(self.known[at]) >= MARKS_KEPT:
                self.known[at].clear()
            known = self.known[at][text] = PlacedCells(field, tuple(cells))
        return known


UNREAD = (CellKind.WORN, CellKind.OBLITERATED, CellKind.GAP)


class MarkLines:
    """The lines of a mark: one for each window, and one of all its fields. `most_unread` is how
    many signs may stand for what cannot be read: more of them than the mark has places, with a gap
    at each field, could stand anywhere, and to try it takes minutes."""

    def __init__(self, mark: Mark) -> None:
        self.mark = mark
        self.windows = mark.windows_in_order() if mark.windows else ()
        places = sum(max(field.widths, default=0) for field in mark.fields)
        self.most_unread = max(FEWEST_PLACES, places) + len(mark.fields)
        self.alphabet = frozenset("".join(field.alphabet for field in mark.fields))
        self.fixed = None if mark.windows else FixedLine.of(fields_in_order(mark))
        self.date_forms = date_forms_of(mark.fields)
        self.date_forms_of_windows = tuple(date_forms_of(fields) for fields in self.windows)

    def unread_beyond(self, cells: list[Cell]) -> int:
        """How many signs stand for what cannot be read; 0 where they are not too many."""
        found = sum(cell.kind in UNREAD for cell in cells)
        return found if found > self.most_unread else 0

    @cached_property
    def by_window(self) -> tuple[FieldRun, ...]:
        """A line for each window."""
        return tuple(FieldRun(fields=fields) for fields in self.windows)

    @cached_property
    def whole(self) -> FieldRun:
        """All fields as one line."""
        return FieldRun(fields=fields_in_order(self.mark), has_windows=self.mark.windows)

    @cached_property
    def window_of(self) -> dict[str, int]:
        """The window in which each field stands, by its id."""
        return {field.id: at for at, fields in enumerate(self.windows) for field in fields}


lines_of = kept_beside(MarkLines)
"""The lines of a mark, prepared once."""


def fields_in_order(mark: Mark) -> tuple[Field, ...]:
    """The fields in reading order: by row, then by column."""
    return tuple(sorted(mark.fields, key=lambda field: (field.row, field.column)))


def lay_out(cells: tuple[Cell, ...], mark: Mark, bars: int = 0) -> Layout:
    """The cells of a reading in the fields of its mark; nothing is dropped.

    `bars` counts those that were typed, behind the last cell too. The `window` of a cell
    that was laid out is the one in which it was put.
    """
    found = lay_out_within(cells, mark, inf, bars)
    assert found is not None, "any cells can be laid out, at a price"
    return found


def lay_out_within(
    cells: tuple[Cell, ...], mark: Mark, at_most: float, bars: int = 0
) -> Layout | None:
    """The cells in the fields of a mark; None where that would strain more than this."""
    lines = lines_of(mark)
    if not mark.windows or not cells:
        return (
            _on_line(cells, lines.whole, at_most)
            if mark.fields
            else Layout(placed=(), unread=cells)
        )
    bars = max(bars, max(cell.window for cell in cells))
    has_bars = bars > 0
    if not has_bars and len(lines.windows) == 1:
        return _on_line(cells, lines.by_window[0], at_most)
    parted = cells if has_bars else _parted_by_blanks(cells, len(lines.windows))
    layout = _in_windows(parted, lines) if parted else None
    if layout is not None and (layout.strain < STRAINED or bars == len(lines.windows) - 1):
        return layout
    if all(cell.kind is CellKind.NEVER_STRUCK for cell in cells) and layout is None:
        return _in_windows(cells, lines)
    return _copied_without_bars(cells, lines, layout, at_most)


def _parted_by_blanks(cells: tuple[Cell, ...], windows: int) -> tuple[Cell, ...]:
    """The cells with blanks as bars, where they part as many groups as there are windows."""
    groups = tuple(accumulate(min(cell.apart, 1) if at else 0 for at, cell in enumerate(cells)))
    if groups[-1] != windows - 1:
        return ()
    return tuple([replace(c, window=at) for c, at in zip(cells, groups, strict=True)])


def _in_windows(cells: tuple[Cell, ...], lines: MarkLines) -> Layout:
    """Each window by itself, as the bars part them."""
    beyond = [cell for cell in cells if cell.window >= len(lines.windows)]
    found: list[Layout] = []
    for window, line in enumerate(lines.by_window):
        layout = _on_line(tuple([cell for cell in cells if cell.window == window]), line)
        assert layout is not None, "any cells can be laid out, at a price"
        found.append(layout)
    taken = {cell.window for cell in cells}
    strain = sum(each.strain for window, each in enumerate(found) if window in taken)
    return Layout(
        placed=tuple(
            [
                _in_window(placed, len(line.fields))
                for line, each in zip(lines.by_window, found, strict=True)
                for placed in each.placed
            ]
        ),
        spelt=tuple([cell for each in found for cell in each.spelt]),
        around=tuple([cell for each in found for cell in each.around]),
        unread=_in_order([*beyond, *(cell for each in found for cell in each.unread)]),
        strain=2.0 * len(beyond) + strain,
        is_plain=not beyond and all(each.is_plain for each in found),
    )


def _copied_without_bars(
    cells: tuple[Cell, ...], lines: MarkLines, with_bars: Layout | None, at_most: float
) -> Layout | None:
    """All fields as one line, whatever the bars; as typed, or with one row or word moved to
    the other end, since not everybody copies a plate in the order of its rows."""
    best: Layout | None = None
    for order in _orders(cells):
        within = at_most + MOVED if best is None else best.strain - MOVED
        found = _on_line(order, lines.whole, within)
        if found is not None and (best is None or found.strain < within):
            best = found
        if best is not None and best.strain < STRAINED:
            break
    if best is None:
        return None
    if with_bars is not None and with_bars.strain <= best.strain + 1.0:
        return with_bars
    # What went to a window is laid out in it, as if bars had been typed.
    found = _in_windows(_in_their_windows(cells, best, lines), lines)
    return replace(found, strain=max(found.strain, best.strain))


def _in_their_windows(
    cells: tuple[Cell, ...], layout: Layout, lines: MarkLines
) -> tuple[Cell, ...]:
    """Every cell with the window in which it was put; a word beside the fields with that of
    the cell behind it, what was put nowhere with that of the cell before it."""
    put = {
        cell.column: lines.window_of[placed.field.id]
        for placed in layout.placed
        for cell in placed.cells
    }
    labels = {cell.column for cell in layout.spelt}
    found: list[Cell] = []
    before = 0
    for at, cell in enumerate(cells):
        behind = (put[c.column] for c in cells[at:] if c.column in put)
        window = put.get(cell.column, before)
        if cell.column in labels:
            window = next(behind, before)
        before = window
        apart = min(cell.apart, 1)
        is_same = (cell.window, cell.apart) == (window, apart)
        found.append(cell if is_same else replace(cell, window=window, apart=apart))
    return tuple(found)


def _orders(cells: tuple[Cell, ...]) -> list[tuple[Cell, ...]]:
    """The cells as typed, then with the last or first row, or word, at the other end."""
    orders = [cells]
    for apart in (2, 1):
        cuts = [at for at, cell in enumerate(cells) if at and cell.apart >= apart]
        # The last row or word, the one before it with it (a label and its code), the first.
        for cut in dict.fromkeys((*cuts[-1:], *cuts[-2:-1], *cuts[:1])):
            head, tail = cells[:cut], cells[cut:]
            orders.append((*tail, *_parted(head)))
    return orders


def _parted(cells: tuple[Cell, ...]) -> tuple[Cell, ...]:
    return (replace(cells[0], apart=2), *cells[1:]) if cells else ()


def _in_window(placed: PlacedCells, fields: int) -> PlacedCells:
    """An optional field is left out of a line; a window stands on the plate all the same."""
    if placed.cells or (placed.field.optional and fields > 1):
        return placed
    return PlacedCells(placed.field, (), missing=min(placed.field.widths, default=0))


def _on_line(cells: tuple[Cell, ...], line: FieldRun, at_most: float = inf) -> Layout | None:
    """The cells in fields that follow each other without a sign between them; None where that
    would strain more than this."""
    if not line.fields:
        return Layout(placed=(), unread=cells)
    if cells and all(cell.kind is CellKind.NEVER_STRUCK for cell in cells):
        return _left_empty(cells, line.fields)
    plan = cheapest_within(line, cells, at_most)
    return _filled(plan, cells, line) if plan is not None else None


def _filled(plan: LinePlan, cells: tuple[Cell, ...], line: FieldRun) -> Layout:
    """The way of a plan with the cells themselves."""
    placed = []
    for each in plan.fields:
        own = tuple(
            [
                cells[at] if at >= 0 else Cell(CellKind.WORN, "", gap.column, gap.window)
                for at in each.cells
                for gap in (cells[each.lost_in],)
            ]
            if each.lost
            else [cells[at] for at in each.cells]
        )
        field = line.fields[each.field]
        placed.append(PlacedCells(field, own, each.missing, each.lost, each.lost_at))
    spelt = tuple(
        [
            replace(cells[at], characters=letter)
            if letter and cells[at].kind is CellKind.CLEAR and cells[at].characters != letter
            else cells[at]
            for at, letter in plan.spelt
        ]
    )
    around = tuple([cells[at] for at in plan.around])
    unread = _in_order([cells[at] for at in plan.unread])
    is_plain = plan.is_plain and all(
        cells[at].characters == cell.characters
        for (at, _), cell in zip(plan.spelt, spelt, strict=True)
    )
    return Layout(
        placed=tuple(placed),
        spelt=spelt,
        around=around,
        unread=unread,
        strain=max(plan.strain, 0.0),
        is_plain=is_plain,
    )


def _in_order(cells: list[Cell]) -> tuple[Cell, ...]:
    return tuple(sorted(cells, key=lambda cell: cell.column))


def _left_empty(cells: tuple[Cell, ...], fields: tuple[Field, ...]) -> Layout:
    """A line in which nothing was struck: no field lacks anything."""
    placed = []
    rest = cells
    for field in fields[:-1]:
        width = max(field.widths, default=0)
        placed.append(PlacedCells(field, rest[:width]))
        rest = rest[width:]
    return Layout(placed=(*placed, PlacedCells(fields[-1], rest)))
