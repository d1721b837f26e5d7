"""A mark as it was read, laid out as it is on the metal, every code explained by its number."""

from collections.abc import Callable
from functools import partial
from zlib import crc32

from witnessmark.catalogue import counted, said
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import Mark, MarkKind
from witnessmark.decoding.records import Decoding
from witnessmark.figures.drawing import (
    INK,
    LINE,
    MONO_WIDTH,
    PAGE_HEIGHT,
    PALE,
    SOFT,
    WIDTH,
    box,
    figure,
    group,
    line,
    words,
    wrapped,
)
from witnessmark.figures.plate_codes import PlateCode, plate_codes, unread_lines
from witnessmark.figures.plate_windows import (
    BADGE,
    PlacedWindow,
    badge,
    lay_out_plate,
)
from witnessmark.figures.records import Figure
from witnessmark.reading.records import CellKind
from witnessmark.wording import Names
from witnessmark.wording.amounts import capital

EDGE = 10.0
"""Points between the edge of a plate and its windows."""

SIZE = 10.0
SMALL = 9.5
LINE_HEIGHT = 12.5
NAME_AT, READ_AT, SAYS_AT = 22.0, 138.0, 228.0
STRONG = 0.54
READ_SIZE = 11.0

FLAT = (MarkKind.PLATE, MarkKind.LABEL, MarkKind.PAPER)
"""Kinds of mark that have an edge of their own."""

type _Piece = Callable[[float], tuple[list[str], float]]
"""Draws itself below a height, and gives its parts and where it ends."""


def data_plate(mark: Mark, decoding: Decoding, book: CodeBook, names: Names) -> Figure:
    """The mark with the characters as read, and below it what each of its codes says."""
    return data_plate_sheets(mark, decoding, book, names, float("inf"))[0]


def data_plate_sheets(
    mark: Mark,
    decoding: Decoding,
    book: CodeBook,
    names: Names,
    height: float = PAGE_HEIGHT,
) -> tuple[Figure, ...]:
    """The same on as many drawings as it needs to stay below a height in points."""
    codes = plate_codes(mark, decoding, book)
    parts, y = _plate(mark, codes)
    for text in (*_fixings(mark), *_signs(decoding)):
        for part in wrapped(text, WIDTH, SMALL):
            y += LINE_HEIGHT
            parts.append(words(0, y, part, size=SMALL, fill=SOFT))
    sheets: list[tuple[list[str], float]] = []
    head, y = _head(y + 10)
    parts += head
    for draw in _pieces(mark, codes, decoding):
        if draw(y)[1] > height:
            sheets.append((parts, y))
            parts, y = _head(0)
        drawn, y = draw(y)
        parts += drawn
    sheets.append((parts, y))
    return tuple(
        _sheet(number, mark, codes, decoding, names, each) for number, each in enumerate(sheets)
    )


def _sheet(
    number: int,
    mark: Mark,
    codes: tuple[PlateCode, ...],
    decoding: Decoding,
    names: Names,
    drawn: tuple[list[str], float],
) -> Figure:
    """One of the drawings; two readings of one mark have ids of their own."""
    title = said("{mark}, as read", mark=capital(names.mark(mark.id)))
    if number:
        title = said("{title} (continued)", title=title)
    reading = decoding.reading
    key = crc32(f"{reading.by}\n{reading.as_typed}".encode())
    parts, height = drawn
    name = f"plate-{mark.id}-{key:08x}-{number + 1}"
    return figure(name, title, _caption(mark, codes, decoding), height + 4, parts)


def _pieces(mark: Mark, codes: tuple[PlateCode, ...], decoding: Decoding) -> list[_Piece]:
    """A row for each field, and what has no meaning."""
    pieces: list[_Piece] = [partial(_row, code) for code in codes]
    unread = unread_lines(decoding, {each.id: each.name for each in mark.fields})
    return [*pieces, partial(_unread, unread)] if unread else pieces


def _plate(mark: Mark, codes: tuple[PlateCode, ...]) -> tuple[list[str], float]:
    """The plate, label or paper with its windows; a bare line for characters in the metal."""
    if not codes:
        return [], 0.0
    edge = EDGE if mark.kind in FLAT else 2.0
    placed = lay_out_plate(mark, codes, WIDTH - 2 * edge - 2)
    right = max(each.x + each.width for each in placed) + 2 * edge
    bottom = max(each.y + each.height for each in placed) + 2 * edge
    parts = []
    if mark.kind in FLAT:
        parts.append(
            box(1, 1, right, bottom, fill=PALE, stroke=INK, stroke_width=1.4, radius=_corner(mark))
        )
    parts += [_window(each, edge + 1, mark.windows) for each in placed]
    return parts, bottom + 4


def _window(placed: PlacedWindow, edge: float, is_boxed: bool) -> str:
    return placed.window.draw(
        placed.x + edge, placed.y + edge, placed.width, placed.height, is_boxed
    )


def _corner(mark: Mark) -> float:
    """Papers have sharp corners in the drawing; plates and labels round ones."""
    return 0.0 if mark.kind is MarkKind.PAPER else 6.0


def _fixings(mark: Mark) -> list[str]:
    if not mark.fixings:
        return []
    return [said("How it is fixed, by the code book: {fixings}.", fixings=mark.fixings)]


def _signs(decoding: Decoding) -> list[str]:
    """The signs of doubt that occur in the reading, each with what it says."""
    kinds = {cell.kind for cell in decoding.reading.cells}
    told = []
    if CellKind.ONE_OF in kinds:
        told.append(said("[38] is a 3 or an 8."))
    if CellKind.WORN in kinds:
        told.append(said("? is worn away."))
    if CellKind.OBLITERATED in kinds:
        told.append(said("~ is ground, filled or struck over."))
    if CellKind.NEVER_STRUCK in kinds:
        told.append(said("_ was left empty."))
    if CellKind.GAP in kinds:
        told.append(said("… stands for places lost, unknown how many."))
    return [" ".join(told)] if told else []


def _head(top: float) -> tuple[list[str], float]:
    """The heads of the explanation; gives where its rows begin."""
    heads = (
        (NAME_AT, said("field")),
        (READ_AT, said("as read")),
        (SAYS_AT, said("what it says")),
    )
    parts = [words(x, top + 10, text, size=SMALL, fill=SOFT) for x, text in heads]
    return [*parts, line(0, top + 15, WIDTH, top + 15, stroke=SOFT)], top + 15


def _row(code: PlateCode, top: float) -> tuple[list[str], float]:
    """One field: its number, name, characters as read and what they say; gives where it ends."""
    name = wrapped(code.name, READ_AT - NAME_AT - 8, SIZE, STRONG)
    read = wrapped(code.read, SAYS_AT - READ_AT - 8, READ_SIZE, MONO_WIDTH) if code.read else []
    says = [part for text in code.says for part in wrapped(text, WIDTH - SAYS_AT, SIZE)]
    y = top + 14
    parts = badge(BADGE + 1, top + 10.5, code.number)
    parts += [
        words(NAME_AT, y + LINE_HEIGHT * at, text, size=SIZE, strong=True)
        for at, text in enumerate(name)
    ]
    parts += [
        words(READ_AT, y + LINE_HEIGHT * at, text, size=READ_SIZE, mono=True)
        for at, text in enumerate(read)
    ]
    parts += [words(SAYS_AT, y + LINE_HEIGHT * at, text, size=SIZE) for at, text in enumerate(says)]
    bottom = top + max(len(name), len(read), len(says)) * LINE_HEIGHT + 8
    drawn = group(parts, f"{code.number} {code.name}")
    return [drawn, line(0, bottom, WIDTH, bottom, stroke=LINE, width=0.5)], bottom


def _unread(lines: tuple[tuple[str, str], ...], top: float) -> tuple[list[str], float]:
    """What has no meaning, drawn apart from the rest with the reason; gives where it ends."""
    y = top + 22
    parts = [words(8, y, said("Read, and not explained by the book"), size=SIZE, strong=True)]
    for text, why in lines:
        read = wrapped(text, SAYS_AT - 24, READ_SIZE, MONO_WIDTH)
        told = wrapped(why, WIDTH - SAYS_AT - 8, SIZE)
        parts += [
            words(8, y + 16 + LINE_HEIGHT * at, part, size=READ_SIZE, mono=True)
            for at, part in enumerate(read)
        ]
        parts += [
            words(SAYS_AT, y + 16 + LINE_HEIGHT * at, part, size=SIZE)
            for at, part in enumerate(told)
        ]
        y += LINE_HEIGHT * max(len(read), len(told)) + 4
    frame = box(1, top + 8, WIDTH - 2, y + 2 - top, stroke=SOFT, stroke_width=1)
    return [frame, *parts], y + 12


def _caption(mark: Mark, codes: tuple[PlateCode, ...], decoding: Decoding) -> str:
    """What is drawn, how much of it is empty or not listed, and who read it."""
    told = [_laid_out(mark, codes)]
    empty = sum(code.is_empty for code in codes)
    if empty:
        told.append(
            counted("{number} field was left empty.", "{number} fields were left empty.", empty)
        )
    unlisted = sum(not code.is_listed for code in codes)
    if unlisted:
        told.append(
            counted(
                "{number} code is not listed by the book.",
                "{number} codes are not listed by the book.",
                unlisted,
            )
        )
    if decoding.reading.by.strip():
        told.append(said("Read by {name}.", name=decoding.reading.by.strip()))
    return " ".join(told)


def _laid_out(mark: Mark, codes: tuple[PlateCode, ...]) -> str:
    if not mark.windows:
        return counted(
            "{number} field with the characters as read and what they say.",
            "{number} fields in one line, with the characters as read and what each code says.",
            len(codes),
        )
    return counted(
        "{number} window as the code book lays it out, with the characters as read and what "
        "each code says.",
        "{number} windows as the code book lays them out, with the characters as read and what "
        "each code says.",
        len(mark.windows_in_order()),
    )
