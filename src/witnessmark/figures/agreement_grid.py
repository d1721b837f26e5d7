"""The agreement grid: each mark a row, each item it speaks of a column.

A cell shows the value as it was read, and a shape and a word for how it stands
to what is claimed. Shape and word say the same; no colour carries meaning alone.
"""

from dataclasses import dataclass

from witnessmark.catalogue import counted, said
from witnessmark.examination import Opinion
from witnessmark.figures.drawing import (
    FIRST,
    INK,
    LINE,
    MONO_WIDTH,
    PAGE_HEIGHT,
    PALE,
    SECOND,
    SOFT,
    WIDTH,
    box,
    disc,
    figure,
    group,
    line,
    path,
    shortened,
    width_of,
    words,
    wrapped,
)
from witnessmark.figures.grid_cells import (
    CellWord,
    GridBand,
    GridCell,
    GridRow,
    NotRead,
    grid_bands,
    not_read,
)
from witnessmark.figures.records import Figure
from witnessmark.wording import spelled
from witnessmark.wording.amounts import capital

ITEMS_IN_BAND = 4
NAME_WIDTH = 122.0
LINE_HEIGHT = 12.0
VALUE_SIZE = 10.0
WORD_SIZE = 9.5
GAP = 16.0
LEGEND_HEIGHT = 26.0
ROWS_IN_PIECE = 12


def agreement_grid(opinion: Opinion) -> Figure:
    """The grid of all marks that were read, in bands of a few items, as one drawing."""
    return _sheet(_pieces(opinion), grid_bands(opinion, ITEMS_IN_BAND), not_read(opinion), 0)


def agreement_grids(opinion: Opinion, height: float = PAGE_HEIGHT) -> tuple[Figure, ...]:
    """The same grid on as many drawings as it needs to stay below a height in points."""
    sheets: list[list[_Piece]] = [[]]
    filled = LEGEND_HEIGHT
    for piece in _pieces(opinion):
        if sheets[-1] and filled + piece.height + GAP > height:
            sheets.append([])
            filled = LEGEND_HEIGHT
        sheets[-1].append(piece)
        filled += piece.height + GAP
    bands, unread = grid_bands(opinion, ITEMS_IN_BAND), not_read(opinion)
    return tuple(_sheet(pieces, bands, unread, at) for at, pieces in enumerate(sheets))


@dataclass(frozen=True, slots=True)
class _Piece:
    """A part of the grid that stays whole: a band, a run of its rows, or the marks not read."""

    height: float
    band: GridBand | None
    unread: tuple[NotRead, ...] = ()

    def parts(self, top: float) -> list[str]:
        drawn = _band(self.band, top) if self.band is not None else _unread(self.unread, top)
        return drawn[0]


def _pieces(opinion: Opinion) -> list[_Piece]:
    """The bands, long ones cut between rows, and at the end the marks that were not read."""
    pieces = []
    for band in grid_bands(opinion, ITEMS_IN_BAND):
        for at in range(0, len(band.rows), ROWS_IN_PIECE):
            part = GridBand(band.items, band.rows[at : at + ROWS_IN_PIECE])
            pieces.append(_Piece(_band(part, 0)[1], part))
    unread = not_read(opinion)
    for at in range(0, len(unread), ROWS_IN_PIECE):
        some = unread[at : at + ROWS_IN_PIECE]
        pieces.append(_Piece(_unread(some, 0)[1], None, some))
    return pieces


def _sheet(
    pieces: list[_Piece], bands: tuple[GridBand, ...], unread: tuple[NotRead, ...], number: int
) -> Figure:
    """Pieces below each other under the legend; the caption speaks of the whole grid."""
    parts = _legend(bands, bool(unread))
    y = LEGEND_HEIGHT
    for piece in pieces:
        parts.extend(piece.parts(y))
        y += piece.height + GAP
    caption = _caption(bands, unread)
    if number:
        title = said("Which marks agree (continued)")
        return figure(f"agreement-grid-{number + 1}", title, caption, y, parts)
    return figure("agreement-grid", said("Which marks agree"), caption, max(y, 40.0), parts)


def _legend(bands: tuple[GridBand, ...], any_unread: bool) -> list[str]:
    """Only the words that occur, each beside its shape."""
    used = {cell.word for band in bands for row in band.rows for cell in row.cells}
    if any_unread:
        used.add(CellWord.NOT_READ)
    parts: list[str] = []
    x = 5.0
    for word in CellWord:
        if word in used and word is not CellWord.CLAIMED:
            parts.extend([_shape(x, 8, word), words(x + 8, 11, word.said(), fill=SOFT)])
            x += 24 + width_of(word.said(), 10)
    return parts


def _band(band: GridBand, top: float) -> tuple[list[str], float]:
    """One band with its headings; gives its parts and its height."""
    column = (WIDTH - NAME_WIDTH) / max(ITEMS_IN_BAND, len(band.items))
    right = NAME_WIDTH + column * len(band.items)
    heads = [shortened(wrapped(item, column - 10, 10, 0.53), 4) for item in band.items]
    head_height = 8 + LINE_HEIGHT * max(len(head) for head in heads)
    parts = [box(0, top, right, head_height, fill=PALE)]
    for at, head in enumerate(heads):
        x = NAME_WIDTH + column * at + 5
        for row, text in enumerate(head):
            parts.append(words(x, top + 12 + LINE_HEIGHT * row, text, strong=True))
    y = top + head_height
    for each in band.rows:
        drawn, height = _row(each, y, column)
        parts.extend(drawn)
        y += height
        parts.append(line(0, y, right, y, stroke=LINE, width=0.5))
    return parts, y - top


def _row(row: GridRow, top: float, column: float) -> tuple[list[str], float]:
    """One mark: its name, and a cell for each item."""
    name = shortened(wrapped(row.name, NAME_WIDTH - 8, 10), 4)
    values = [_value_lines(cell, column) for cell in row.cells]
    tallest = max((len(lines) for lines in values), default=0)
    word_lines = 0 if any(cell.word is CellWord.CLAIMED for cell in row.cells) else 1
    height = LINE_HEIGHT * max(len(name), tallest + word_lines) + 8
    parts = [
        words(0, top + 13 + LINE_HEIGHT * at, text, strong=row.is_claim)
        for at, text in enumerate(name)
    ]
    for at, (cell, lines) in enumerate(zip(row.cells, values, strict=True)):
        parts.append(_cell(cell, lines, NAME_WIDTH + column * at + 5, top, row.name))
    return parts, height


def _value_lines(cell: GridCell, column: float) -> list[str]:
    if not cell.value:
        return []
    return shortened(wrapped(cell.value, column - 10, VALUE_SIZE, MONO_WIDTH), 3)


def _cell(cell: GridCell, lines: list[str], x: float, top: float, name: str) -> str:
    parts = [
        words(x, top + 13 + LINE_HEIGHT * at, text, size=VALUE_SIZE, mono=True)
        for at, text in enumerate(lines)
    ]
    y = top + 13 + LINE_HEIGHT * len(lines)
    if cell.word is CellWord.SILENT and not cell.value:
        parts.append(_shape(x + 4, y - 3, cell.word))
    elif cell.word is not CellWord.CLAIMED:
        fill = INK if cell.word in (CellWord.AGREES, CellWord.DIFFERS) else SOFT
        parts.append(_shape(x + 3.6, y - 3, cell.word))
        parts.append(
            words(
                x + 11,
                y,
                cell.word.said(),
                size=WORD_SIZE,
                fill=fill,
                strong=cell.word is CellWord.DIFFERS,
            )
        )
    heard = said(
        "{mark}: {value}, {word}",
        mark=name,
        value=cell.value or said("no value"),
        word=cell.word.said(),
    )
    return group(parts, heard)


def _shape(x: float, y: float, word: CellWord) -> str:
    """Disc: agrees. Wedge: differs. Half disc: undecided. Ring: alone. Dash: silent. Dots."""
    if word is CellWord.AGREES:
        return disc(x, y, 3.4, fill=FIRST, stroke=FIRST)
    if word is CellWord.DIFFERS:
        wedge = f"M{x - 4.4:.2f} {y - 3.6:.2f}L{x + 4.4:.2f} {y - 3.6:.2f}L{x:.2f} {y + 4.2:.2f}Z"
        return path(wedge, fill=SECOND, stroke=SECOND)
    if word is CellWord.UNDECIDED:
        half = f"M{x:.2f} {y - 3.4:.2f}A3.4 3.4 0 0 0 {x:.2f} {y + 3.4:.2f}Z"
        return disc(x, y, 3.4, fill="#ffffff") + path(half, fill=INK, stroke=INK, width=0.4)
    if word is CellWord.ALONE:
        return disc(x, y, 3.4, fill="#ffffff", stroke=SOFT)
    if word is CellWord.NOT_READ:
        return line(x - 4, y, x + 4.4, y, stroke=SOFT, width=1.8, dash="1.6 1.6")
    return line(x - 4, y, x + 4, y, stroke=SOFT, width=1.2)


def _unread(unread: tuple[NotRead, ...], top: float) -> tuple[list[str], float]:
    """The marks that are not in the grid, with why."""
    parts = [words(0, top + 10, said("Not read, so not in the grid"), strong=True)]
    y = top + 10
    for each in unread:
        for at, text in enumerate(wrapped(f"{each.name}: {each.state}", WIDTH - 14, 10)):
            y += 13
            if at == 0:
                parts.append(_shape(5, y - 3, CellWord.NOT_READ))
            parts.append(words(14, y, text))
    return parts, y - top + 6


def _caption(bands: tuple[GridBand, ...], unread: tuple[NotRead, ...]) -> str:
    """What the grid shows, with the cells that differ named."""
    if not bands:
        return said("No mark was read, so there is nothing to set side by side.")
    cells = [
        (row.name, item, cell)
        for band in bands
        for row in band.rows
        for item, cell in zip(band.items, row.cells, strict=True)
    ]
    parts = [
        said(
            "Each mark that was read against what is claimed, or against the other marks where "
            "nothing is claimed. Of the values read: {agreeing}, {differing}, {undecided}.",
            agreeing=counted("{number} agree", "{number} agree", _count(cells, CellWord.AGREES)),
            differing=counted(
                "{number} differ", "{number} differ", _count(cells, CellWord.DIFFERS)
            ),
            undecided=counted(
                "{number} undecided", "{number} undecided", _count(cells, CellWord.UNDECIDED)
            ),
        )
    ]
    differing = [
        said("{item} on: {mark}", item=item, mark=name)
        for name, item, cell in cells
        if cell.word is CellWord.DIFFERS
    ]
    if differing:
        parts.append(said("Those that differ: {cells}.", cells="; ".join(differing)))
    if unread:
        parts.append(
            capital(
                spelled(
                    "{count} mark could not be set beside them.",
                    "{count} marks could not be set beside them.",
                    len(unread),
                )
            )
        )
    return " ".join(parts)


def _count(cells: list[tuple[str, str, GridCell]], word: CellWord) -> int:
    return sum(cell.word is word for _, _, cell in cells)
