"""All dates of a car on one line of time, with the windows in which the book expects them.

A filled bar is a date as read; open bars joined by a dashed line are the several
dates that one code may mean; a pair of brackets is a window of the book. The
car's own date is dashed through all rows.
"""

from dataclasses import dataclass

from witnessmark.catalogue import counted, said
from witnessmark.codebook.book import CodeBook
from witnessmark.dates import DateSpan
from witnessmark.examination import Opinion, marks_of
from witnessmark.figures.drawing import (
    INK,
    LINE,
    PAGE_HEIGHT,
    PALE,
    SOFT,
    WIDTH,
    box,
    figure,
    group,
    line,
    num,
    path,
    width_of,
    words,
)
from witnessmark.figures.records import Figure
from witnessmark.figures.text_block import LINE_HEIGHT, TextBlock, text_block
from witnessmark.figures.time_axis import TimeAxis
from witnessmark.figures.time_rows import CarDate, TimeRow, car_date, time_rows
from witnessmark.figures.time_words import READINGS_NUMBERED, span_words
from witnessmark.wording.amounts import capital, sentence

TRACK_LEFT, TRACK_RIGHT = 128.0, WIDTH - 2
NAME_WIDTH = TRACK_LEFT - 10
TRACK_HEIGHT = 17.0
BAR_HEIGHT = 7.0
LEAST_BAR = 2.6
NUMBER_SIZE = 9.5
AXIS_HEIGHT = 34.0


@dataclass(frozen=True, slots=True)
class _WrappedDate:
    """A date with its texts wrapped."""

    date: TimeRow
    name: TextBlock
    shown: TextBlock
    sentences: tuple[TextBlock, ...]

    @property
    def tracks(self) -> int:
        """A line for the date, and one more for every window beyond the first."""
        return max(1, len(self.date.windows)) if self.date.spans else 0

    @property
    def is_numbered(self) -> bool:
        return 1 < len(self.date.spans) <= READINGS_NUMBERED

    @property
    def head(self) -> float:
        """Points above the words: numbers of the readings, then the tracks."""
        if not self.tracks:
            return 0.0
        return TRACK_HEIGHT * self.tracks + (LINE_HEIGHT if self.is_numbered else 2) + 2

    @property
    def height(self) -> float:
        beside = self.head + sum(block.height for block in self.sentences)
        return max(beside, self.name.height + self.shown.height) + 9


def time_lines(opinion: Opinion, book: CodeBook, height: float = PAGE_HEIGHT) -> tuple[Figure, ...]:
    """All dates on as many drawings as it needs to stay below a height in points, on one axis; none
    where no date is known."""
    dates = time_rows(opinion, book)
    spans = tuple(span for row in dates for span in (*row.spans, *row.windows))
    if not spans:
        return ()
    axis = TimeAxis(TRACK_LEFT, TRACK_RIGHT, spans)
    own = tuple(row.spans[0] for row in dates if row.is_car)
    told = _sentence(axis, car_date(marks_of(opinion, book)))
    intro, legend = text_block(told, WIDTH, fill=SOFT), _legend(0)
    room = height - intro.height - AXIS_HEIGHT - legend[1] - 16
    sheets = _sheets([_row(each) for each in dates], room)
    caption = _caption(dates, told)
    return tuple(_sheet(rows, axis, own[-1:], intro, caption, at) for at, rows in enumerate(sheets))


def _sheets(rows: list[_WrappedDate], room: float) -> list[list[_WrappedDate]]:
    """The rows on as few drawings as there must be, none of which has a few rows alone."""
    fewest = len(_filled(rows, room))
    tallest = max((row.height for row in rows), default=0.0)
    even = sum(row.height for row in rows) / fewest + tallest / 2
    balanced = _filled(rows, min(room, even))
    return balanced if len(balanced) == fewest else _filled(rows, room)


def _filled(rows: list[_WrappedDate], room: float) -> list[list[_WrappedDate]]:
    sheets: list[list[_WrappedDate]] = [[]]
    filled = 0.0
    for row in rows:
        if sheets[-1] and filled + row.height > room:
            sheets.append([])
            filled = 0.0
        sheets[-1].append(row)
        filled += row.height
    return sheets


def _sheet(
    rows: list[_WrappedDate],
    axis: TimeAxis,
    own: tuple[DateSpan, ...],
    intro: TextBlock,
    caption: str,
    number: int,
) -> Figure:
    """Rows under the axis, the legend below them."""
    parts = [*intro.at(0, 0)]
    y = intro.height + 4
    parts.extend([words(0, y + 12, said("years and months"), fill=SOFT), *axis.drawn(y)])
    y += AXIS_HEIGHT
    for row in rows:
        parts.append(line(0, y, WIDTH, y, stroke=LINE, width=0.5))
        parts.append(_drawn(row, axis, own, y + 3))
        y += row.height
    parts.append(line(0, y, WIDTH, y, stroke=LINE, width=0.5))
    legend, legend_height = _legend(y + 6)
    parts.extend(legend)
    title = said("All dates of the car on one line of time")
    if number:
        title = said("All dates of the car on one line of time (continued)")
    name = f"time-line-{number + 1}" if number else "time-line"
    return figure(name, title, caption, y + 6 + legend_height, parts)


def _row(date: TimeRow) -> _WrappedDate:
    beside = TRACK_RIGHT - TRACK_LEFT
    return _WrappedDate(
        date,
        text_block(date.name, NAME_WIDTH, strong=date.is_car, most=4),
        text_block(date.shown, NAME_WIDTH, mono=True, most=3),
        tuple(text_block(capital(each), beside) for each in date.sentences),
    )


def _drawn(row: _WrappedDate, axis: TimeAxis, own: tuple[DateSpan, ...], top: float) -> str:
    """Name and characters at the left, tracks at the right, words below them."""
    parts = [*row.name.at(0, top), *row.shown.at(0, top + row.name.height)]
    y = top + (LINE_HEIGHT if row.is_numbered else 2)
    for track in range(row.tracks):
        middle = y + TRACK_HEIGHT / 2
        window = row.date.windows[track : track + 1]
        parts.extend(_bracket_fill(axis, each, middle) for each in window)
        parts.extend(axis.base(middle))
        for each in own:
            parts.extend(_own_date(axis, each, y))
        parts.extend(_bracket(axis, each, middle) for each in window)
        parts.extend(_bars(row.date, axis, middle))
        y += TRACK_HEIGHT
    if row.is_numbered:
        parts.extend(_numbers(row.date.spans, axis, top + 10))
    y = top + row.head
    for block in row.sentences:
        parts.extend(block.at(TRACK_LEFT, y))
        y += block.height
    return group(parts, _told(row.date))


def _bars(date: TimeRow, axis: TimeAxis, y: float) -> list[str]:
    """Filled for a date that is certain, open and joined for the readings of one code."""
    parts = []
    if date.is_open:
        first, last = axis.ends(date.spans[0])[0], axis.ends(date.spans[-1])[1]
        parts.append(line(first, y, last, y, stroke=INK, width=0.9, dash="2 2"))
    for span in date.spans:
        left, right = axis.ends(span)
        width = max(LEAST_BAR, right - left)
        left = min(left, TRACK_RIGHT - width)
        fill, height = ("#ffffff", BAR_HEIGHT) if date.is_open else (INK, BAR_HEIGHT)
        parts.append(box(left, y - height / 2, width, height, fill=fill, stroke=INK))
    return parts


def _numbers(spans: tuple[DateSpan, ...], axis: TimeAxis, y: float) -> list[str]:
    """The number of each reading above it, moved apart where they would touch."""
    parts, edge = [], 0.0
    width = width_of("0", NUMBER_SIZE, 0.6)
    room = [TRACK_RIGHT - (width + 3) * (len(spans) - at) for at in range(len(spans))]
    for at, span in enumerate(spans):
        left, right = axis.ends(span)
        x = min(max(edge, (left + right - width) / 2), room[at])
        parts.append(words(x, y, str(at + 1), size=NUMBER_SIZE, strong=True))
        edge = x + width + 3
    return parts


def _bracket_fill(axis: TimeAxis, window: DateSpan, y: float) -> str:
    left, right = axis.ends(window)
    return box(left, y - 6, right - left, 12, fill=PALE)


def _bracket(axis: TimeAxis, window: DateSpan, y: float) -> str:
    """Two brackets that open toward each other."""
    left, right = axis.ends(window)
    foot = min(4.0, (right - left) / 3)
    d = "".join(
        f"M{num(x + side * foot)} {num(y - 7)}L{num(x)} {num(y - 7)}"
        f"L{num(x)} {num(y + 7)}L{num(x + side * foot)} {num(y + 7)}"
        for x, side in ((left, 1), (right, -1))
    )
    return path(d, stroke=INK, width=1.3)


def _own_date(axis: TimeAxis, own: DateSpan, top: float) -> list[str]:
    """The first and the last day of the car's own date, dashed."""
    ends = axis.ends(own)
    return [
        line(x, top, x, top + TRACK_HEIGHT, stroke=SOFT, width=0.9, dash="2 2")
        for x in (ends if ends[1] - ends[0] > 3 else ends[:1])
    ]


def _legend(top: float) -> tuple[list[str], float]:
    """The signs in words, one below the other; gives their height too."""
    y = top + 8
    bracket = (
        f"M8 {num(y + 9)}L4 {num(y + 9)}L4 {num(y + 21)}L8 {num(y + 21)}"
        f"M24 {num(y + 9)}L28 {num(y + 9)}L28 {num(y + 21)}L24 {num(y + 21)}"
    )
    second = WIDTH / 2 + 4
    parts = [
        box(4, y - 3.5, 24, BAR_HEIGHT, fill=INK, stroke=INK),
        words(36, y + 3.5, said("the days that are meant"), fill=SOFT),
        line(second + 4, y, second + 28, y, stroke=INK, width=0.9, dash="2 2"),
        box(second + 2, y - 3.5, 6, BAR_HEIGHT, fill="#ffffff", stroke=INK),
        box(second + 24, y - 3.5, 6, BAR_HEIGHT, fill="#ffffff", stroke=INK),
        words(second + 36, y + 3.5, said("readings of one code, one of them meant"), fill=SOFT),
        path(bracket, stroke=INK, width=1.3),
        words(36, y + 18.5, said("where the book expects the date"), fill=SOFT),
        line(second + 16, y + 8, second + 16, y + 22, stroke=SOFT, width=0.9, dash="2 2"),
        words(second + 36, y + 18.5, said("the car’s own date"), fill=SOFT),
    ]
    return parts, 34.0


def _sentence(axis: TimeAxis, own: CarDate | None) -> str:
    """What the figure shows, what the windows are counted from and where the line is cut."""
    told = [said("Each date as read, and the window in which the book expects it.")]
    if own is not None:
        told.append(
            said(
                "Windows are counted from {end}, {dates}, unless another is named.",
                end=own.counted_from,
                dates=span_words(own.span),
            )
        )
    if len(axis.stretches) > 1:
        told.append(said("Where two strokes cut the line, years without a date are left out."))
    return " ".join(told)


def _told(date: TimeRow) -> str:
    """One row in sentences, for those who hear the figure."""
    name = f"{date.name} ({date.shown})" if date.shown else date.name
    return sentence(f"{name}: {'; '.join(date.sentences)}")


def _caption(dates: tuple[TimeRow, ...], told: str) -> str:
    placed = sum(bool(row.spans) for row in dates)
    count = counted("{number} date in order of time.", "{number} dates in order of time.", placed)
    return " ".join((told, count, *map(_told, dates)))
