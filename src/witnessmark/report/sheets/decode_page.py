"""The page of a decode sheet: the plate, and the codes under the questions they answer.

Heights are estimated in points for the smaller of both papers, so that one page holds
everything; what finds no room is counted, never what stands on the main mark.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace

from witnessmark.catalogue import counted, said
from witnessmark.figures.data_plate import data_plate
from witnessmark.figures.drawing import wrapped
from witnessmark.figures.records import Figure
from witnessmark.outline.records import (
    Block,
    Bullets,
    Columns,
    Drawing,
    Facts,
    Heading,
    Paragraph,
    Table,
    TableCell,
)
from witnessmark.report.sheets.decode_around import MOST_REMARKS, Read, closing, not_said, the_car
from witnessmark.report.sheets.decode_lines import CodeLine, Topic

NARROW, WIDE = 218.0, 482.0
"""Points across for a plate beside the codes, and for one above them."""

MOST_COLUMNS = 4
"""A plate with more windows side by side stands above the codes."""

BESIDE_PLATE = (
    ((Topic.COLOUR, Topic.OPTIONS), (Topic.CAR, Topic.RUNNING)),
    ((Topic.COLOUR,), (Topic.CAR, Topic.RUNNING, Topic.OPTIONS)),
    ((), (Topic.CAR, Topic.COLOUR, Topic.RUNNING, Topic.OPTIONS)),
)
"""How the questions can be shared out, below a plate and beside it."""

REST = (Topic.COLOUR, Topic.RUNNING, Topic.OPTIONS)

BESIDE, EVEN = (0.47, 0.53), (0.5, 0.5)
"""Shares of the two columns, with a plate in the left one and without."""

SHARES = (0.6, 1.9, 6.0)
"""Widths of number, characters and words."""

ROOM = 598.0
"""Points below the heading of the page."""

TEXT, GUTTER = 482.0, 16.0
TOPIC, ROW, LINE = 40.0, 13.5, 10.8
ABOVE_BULLETS, BULLET, BULLET_LINE, CLOSING, CLOSING_LINE = 27.0, 14.5, 12.0, 8.0, 12.0
AROUND_DRAWING = 30.0
FACT, FACT_LINE, FACT_WIDTH = 350.0, 12.0, 0.43
SIZE, SIZE_WIDTH, SERIF_SIZE, SERIF_WIDTH = 9.0, 0.445, 10.5, 0.5


def decode_page(read: Read) -> tuple[Block, ...]:
    """The whole page, from the car in a sentence to what the numbers do not say."""
    opening: tuple[Block, ...] = (
        Paragraph(
            said(
                "This sheet explains the codes that were read on the car. It does not say whether "
                "they belong to it."
            ),
            "strong",
        ),
        Facts(the_car(read)),
    )
    if read.main is None:
        silent = (Paragraph(said("No mark of the car was read.")), *_silent(read))
        return (*opening, *silent, _closing(read, 0))
    mark, decoding = read.main
    is_narrow = mark.windows and len({field.column for field in mark.fields}) <= MOST_COLUMNS
    room = NARROW if is_narrow else WIDE
    figure = data_plate(mark, decoding, read.book, read.names, room)
    page = _beside if is_narrow else _below
    return (*opening, *page(read, figure))


def _room(read: Read) -> float:
    """Points that the sentence on the car leaves."""
    lines = (len(wrapped(fact.text, FACT, SERIF_SIZE, FACT_WIDTH)) for fact in the_car(read))
    return ROOM - FACT_LINE * sum(lines)


def _beside(read: Read, figure: Figure) -> tuple[Block, ...]:
    """The plate on the left, with the codes in the first pair of columns that holds those of
    the main mark; what is not said stands below the shorter of both."""
    across, whole = TEXT - GUTTER, _room(read)
    plate = _height(figure) * across * BESIDE[0] / NARROW + AROUND_DRAWING
    pairs = [
        (_column(read, one, across * BESIDE[0]), _column(read, other, across * BESIDE[1]))
        for one, other in BESIDE_PLATE
    ]
    left, right = min(pairs, key=lambda pair: _overflow(read, pair[0], pair[1], plate))
    is_left = left.height + plate <= right.height
    shorter, taken = (left, plate) if is_left else (right, 0.0)
    room = whole - shorter.height - taken
    most = next((most for most in (3, 2) if _ending(read, shorter, most) <= room), 1)
    ending = _ending(read, shorter, most)
    left = left.cut(whole - plate - (ending if is_left else 0))
    right = right.cut(whole - (0 if is_left else ending))
    told = (*_silent(read, most), _closing(read, left.left_out + right.left_out))
    beside, others = (_drawing(figure), *left.blocks()), right.blocks()
    if is_left:
        return (Columns((*beside, *told), others, BESIDE),)
    return (Columns(beside, (*others, *told), BESIDE),)


def _overflow(read: Read, left: "_CodeColumn", right: "_CodeColumn", plate: float) -> float:
    """By how many points two columns are too high when all is cut that can be cut."""
    is_left = left.height + plate <= right.height
    ending = _ending(read, left if is_left else right, 1)
    low = left.cut(0).height + plate + (ending if is_left else 0)
    other = right.cut(0).height + (0 if is_left else ending)
    return max(0.0, low - _room(read)) + max(0.0, other - _room(read))


def _below(read: Read, figure: Figure) -> tuple[Block, ...]:
    """The plate across the page, the codes in two columns below it."""
    width = (TEXT - GUTTER) / 2
    left, right = _column(read, (Topic.CAR,), width), _column(read, REST, width)
    whole = replace(left, width=TEXT)
    above = _height(figure) + AROUND_DRAWING
    taller = max(left.height, right.height) + above
    most = next((most for most in (3, 2) if taller + _ending(read, whole, most) <= _room(read)), 1)
    room = _room(read) - above - _ending(read, whole, most)
    left, right = left.cut(room), right.cut(room)
    codes = Columns(left.blocks(), right.blocks(), EVEN)
    told = (*_silent(read, most), _closing(read, left.left_out + right.left_out))
    return (_drawing(figure), codes, *told)


def _drawing(figure: Figure) -> Drawing:
    return Drawing(figure.svg, figure.title, figure.caption)


def _height(figure: Figure) -> float:
    found = re.search(r'viewBox="0 0 [\d.]+ ([\d.]+)"', figure.svg)
    return float(found[1]) if found else 0.0


# ------------------------------------------------------------------ what fits a column


@dataclass(frozen=True, slots=True)
class _CodeColumn:
    """The codes of some questions in a column of so many points, and how many found no room."""

    topics: tuple[Topic, ...]
    lines: tuple[CodeLine, ...]
    width: float
    left_out: int = 0

    @property
    def height(self) -> float:
        """About how many points it takes."""
        across = self.width * SHARES[2] / sum(SHARES) - 12
        height = TOPIC * len({line.topic for line in self.lines})
        for line in self.lines:
            told = (line.says, *_below_says(line))
            count = sum(len(wrapped(text, across, SIZE, SIZE_WIDTH)) for text in told)
            height += ROW + LINE * (count - 1)
        return height

    def cut(self, room: float) -> "_CodeColumn":
        """Without what has no room, the least first; never without a code of the main mark."""
        column = self
        while column.height > room:
            others = [line for line in reversed(column.lines) if not line.number]
            if not others:
                break
            least = min(others, key=_worth)
            lines = tuple(line for line in column.lines if line is not least)
            column = replace(column, lines=lines, left_out=column.left_out + 1)
        return column

    def blocks(self) -> tuple[Block, ...]:
        """Its questions with their codes."""
        return tuple(block for topic in self.topics for block in _topic(self.lines, topic))


def _column(read: Read, topics: tuple[Topic, ...], width: float) -> _CodeColumn:
    return _CodeColumn(topics, tuple(line for line in read.lines if line.topic in topics), width)


def _worth(line: CodeLine) -> int:
    """What is kept longest: the car's own number, codes and dates, other numbers, papers."""
    if line.is_paper:
        return 0
    return 3 if line.is_identity else 1 if line.is_number else 2


def _ending(read: Read, column: _CodeColumn, most: int) -> float:
    """Points that take what is not said, with so many remarks, and the closing sentences."""
    height = CLOSING
    height += CLOSING_LINE * len(wrapped(closing(read, 1), column.width, 10, SIZE_WIDTH))
    texts = not_said(read, most)
    for text in texts:
        lines = len(wrapped(text, column.width - 16, SERIF_SIZE, SERIF_WIDTH))
        height += BULLET + BULLET_LINE * (lines - 1)
    return height + (ABOVE_BULLETS if texts else 0.0)


# ------------------------------------------------------------------------- the blocks


def _topic(lines: Iterable[CodeLine], topic: Topic) -> tuple[Block, ...]:
    """One question with its codes; nothing where no code answers it."""
    rows = tuple(_row(line) for line in lines if line.topic is topic)
    if not rows:
        return ()
    head = (said("no."), said("as read"), said("what it says"))
    return Heading(_heading(topic)), Table(head, rows, SHARES, is_dense=True)


def _heading(topic: Topic) -> str:
    return {
        Topic.CAR: said("The car"),
        Topic.COLOUR: said("Colour and trim"),
        Topic.RUNNING: said("Engine, gearbox, axle"),
        Topic.OPTIONS: said("Options and extras"),
    }[topic]


def _row(line: CodeLine) -> tuple[TableCell, ...]:
    return (
        TableCell(str(line.number) if line.number else ""),
        TableCell(line.read, mono=True),
        TableCell(line.says, _below_says(line)),
    )


def _below_says(line: CodeLine) -> tuple[str, ...]:
    """From which mark it is, where that is not the drawn one, and who else says it."""
    below = () if line.number else (_where(line.marks),)
    also = (said("also {read} on: {mark}", read=read, mark=mark) for read, mark in line.also)
    return (*below, *also)


def _where(marks: tuple[str, ...]) -> str:
    """The marks that say it: the first, and how many more."""
    if len(marks) == 1:
        return said("on: {mark}", mark=marks[0])
    return counted(
        "on: {mark}, and {number} more mark",
        "on: {mark}, and {number} more marks",
        len(marks) - 1,
        mark=marks[0],
    )


def _silent(read: Read, most: int = MOST_REMARKS) -> tuple[Block, ...]:
    told = not_said(read, most)
    if not told:
        return ()
    return Heading(said("What the numbers do not say")), Bullets(told)


def _closing(read: Read, left_out: int) -> Paragraph:
    return Paragraph(closing(read, left_out), "quiet")
