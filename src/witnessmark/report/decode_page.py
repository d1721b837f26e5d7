"""The page of a decode sheet: the plate, and the codes under the questions they answer.

Heights are estimated in points for the smaller of both papers, so that one page holds
everything; what finds no room is counted, never what stands on the main mark.
"""

import re
from collections.abc import Iterable

from witnessmark.figures.drawing import wrapped
from witnessmark.figures.plate_alone import plate_alone
from witnessmark.figures.records import Figure
from witnessmark.report.decode_around import Read, closing, not_said, the_car
from witnessmark.report.decode_lines import CodeLine, Topic
from witnessmark.report.records import (
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
from witnessmark.wording.catalogue import counted, said

NARROW, WIDE = 222.0, 482.0
"""Points across for a plate beside the codes, and for one above them."""

MOST_COLUMNS = 4
"""A plate with more windows side by side stands above the codes."""

BESIDE, EVEN = (0.47, 0.53), (0.5, 0.5)
"""Shares of the two columns, with a plate in the left one and without."""

SHARES = (0.7, 2.1, 6.0)
"""Widths of number, characters and words."""

ROOM = 530.0
"""Points below the sentence on the car."""

TEXT, GUTTER = 482.0, 16.0
TOPIC, ROW, LINE = 42.0, 13.5, 11.0
BULLET, ABOVE_BULLETS, CLOSING, AROUND_DRAWING = 14.0, 28.0, 16.0, 34.0
SIZE, SERIF_SIZE, SERIF_WIDTH = 9.0, 10.5, 0.52


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
    figure = plate_alone(mark, decoding, read.book, read.names, room)
    page = _beside if is_narrow else _below
    return (*opening, *page(read, figure))


def _beside(read: Read, figure: Figure) -> tuple[Block, ...]:
    """The plate on the left with what was chosen for the car, the car itself on the right."""
    width = (TEXT - GUTTER) * BESIDE[0]
    taken = _height(figure) + AROUND_DRAWING + _silent_height(read, width)
    left, fewer = _fitting(read, (Topic.COLOUR, Topic.OPTIONS), width, ROOM - taken)
    right, more = _fitting(read, (Topic.CAR, Topic.RUNNING), TEXT - GUTTER - width, ROOM)
    beside = (_drawing(figure), *left, *_silent(read), _closing(read, fewer + more))
    return (Columns(beside, right, BESIDE),)


def _below(read: Read, figure: Figure) -> tuple[Block, ...]:
    """The plate across the page, the codes in two columns below it."""
    width = (TEXT - GUTTER) / 2
    room = ROOM - _height(figure) - AROUND_DRAWING - _silent_height(read, TEXT)
    left, fewer = _fitting(read, (Topic.CAR,), width, room)
    right, more = _fitting(read, (Topic.COLOUR, Topic.RUNNING, Topic.OPTIONS), width, room)
    codes = Columns(left, right, EVEN)
    return (_drawing(figure), codes, *_silent(read), _closing(read, fewer + more))


def _drawing(figure: Figure) -> Drawing:
    return Drawing(figure.svg, figure.title, figure.caption)


def _height(figure: Figure) -> float:
    found = re.search(r'viewBox="0 0 [\d.]+ ([\d.]+)"', figure.svg)
    return float(found[1]) if found else 0.0


# ------------------------------------------------------------------ what fits a column


def _fitting(
    read: Read, topics: tuple[Topic, ...], width: float, room: float
) -> tuple[tuple[Block, ...], int]:
    """The questions of one column with the codes that have room, and how many have none."""
    lines = [line for line in read.lines if line.topic in topics]
    first = len(lines)
    while _lines_height(lines, width) > room:
        least = [line for line in reversed(lines) if not line.number]
        if not least:
            break
        lines.remove(min(least, key=_worth))
    blocks = tuple(block for topic in topics for block in _topic(lines, topic))
    return blocks, first - len(lines)


def _worth(line: CodeLine) -> int:
    """What goes last: codes and dates of the car, then its numbers, then papers."""
    return 0 if line.is_paper else 1 if line.is_number else 2


def _lines_height(lines: list[CodeLine], width: float) -> float:
    across = width * SHARES[2] / sum(SHARES) - 14
    height = TOPIC * len({line.topic for line in lines})
    for line in lines:
        told = (line.says, *_below_says(line))
        count = sum(len(wrapped(text, across, SIZE, 0.48)) for text in told)
        height += ROW + LINE * (count - 1)
    return height


def _silent_height(read: Read, width: float) -> float:
    texts = not_said(read)
    bullets = (len(wrapped(text, width - 16, SERIF_SIZE, SERIF_WIDTH)) for text in texts)
    ending = len(wrapped(closing(read, 1), width, SERIF_SIZE))
    above = ABOVE_BULLETS if texts else 0.0
    return above + sum(bullets) * BULLET + 4 * len(texts) + CLOSING + ending * BULLET


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


def _silent(read: Read) -> tuple[Block, ...]:
    told = not_said(read)
    if not told:
        return ()
    return Heading(said("What the numbers do not say")), Bullets(told)


def _closing(read: Read, left_out: int) -> Paragraph:
    return Paragraph(closing(read, left_out), "quiet")
