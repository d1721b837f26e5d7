"""All dates of a car on one timeline, with the windows in which the book expects them.

A filled bar is a date as read; open bars joined by a dashed line are the several
dates that one code may mean; a pair of brackets is a window of the book. The
car's own date is dashed through all rows. A date that misses its window says by how many days.
"""

from dataclasses import dataclass

from witnessmark.catalogue import counted, said
from witnessmark.codebook.book import CodeBook
from witnessmark.dates import DateSpan
from witnessmark.day_words import span_words
from witnessmark.examination import Opinion, marks_of
from witnessmark.figures.drawing import (
    INK,
    PALE,
    SOFT,
    WIDTH,
    box,
    figure,
    line,
    num,
    path,
    width_of,
    words,
)
from witnessmark.figures.records import Figure
from witnessmark.figures.time_axis import TimeAxis
from witnessmark.figures.time_rows import CarDate, TimeRow, car_date, time_rows
from witnessmark.figures.time_words import READINGS_NUMBERED, nearest, off_words

TRACK_WIDTH = 344.0
"""Points across, as wide as the column in which the tracks stand."""
TRACK_HEIGHT = 17.0
BAR_HEIGHT = 7.0
LEAST_BAR = 2.6
NUMBER_SIZE = 9.5
NUMBER_HEIGHT = 12.5
AXIS_HEIGHT = 32.0


@dataclass(frozen=True, slots=True)
class TimeLine:
    """All dates on one axis: the signs in words with what is told of them all, the axis, and
    the rows, each with its track, None where it has no date."""

    legend: Figure
    axis: Figure
    rows: tuple[tuple[TimeRow, Figure | None], ...]


def time_line(opinion: Opinion, book: CodeBook) -> TimeLine | None:
    """All dates in order of time; None where no date is known."""
    dates = time_rows(opinion, book)
    spans = tuple(span for row in dates for span in (*row.spans, *row.windows))
    if not spans:
        return None
    axis = TimeAxis(2, TRACK_WIDTH - 2, spans)
    own = tuple(row.spans[0] for row in dates if row.is_car)[-1:]
    told = _sentence(car_date(marks_of(opinion, book)))
    placed = sum(bool(row.spans) for row in dates)
    count = counted(
        "{number} date in chronological order.", "{number} dates in chronological order.", placed
    )
    title = said("All dates of the car on one timeline")
    years = said("years and months")
    return TimeLine(
        figure("time-line", title, f"{told} {count}", LEGEND_HEIGHT, _legend()),
        figure("time-axis", years, axis.told(), AXIS_HEIGHT, axis.drawn(0), width=TRACK_WIDTH),
        tuple((row, _track(row, axis, own) if row.spans else None) for row in dates),
    )


def _track(row: TimeRow, axis: TimeAxis, own: tuple[DateSpan, ...]) -> Figure:
    """A line for the date, and one more for every window beyond the first; the numbers of the
    readings above, and below a line by how many days its window is missed."""
    is_numbered = 1 < len(row.spans) <= READINGS_NUMBERED
    parts = _numbers(row.spans, axis, 10) if is_numbered else []
    y = NUMBER_HEIGHT if is_numbered else 1.0
    for track in range(max(1, len(row.windows))):
        middle = y + TRACK_HEIGHT / 2
        window = row.windows[track : track + 1]
        parts.extend(_bracket_fill(axis, each, middle) for each in window)
        parts.append(axis.base(middle))
        for each in own:
            parts.extend(_own_date(axis, each, y))
        parts.extend(_bracket(axis, each, middle) for each in window)
        parts.extend(_bars(row, axis, middle))
        y += TRACK_HEIGHT
        for each in row.dues[track : track + 1]:
            if missed := off_words(row.spans, each):
                parts.append(_missed(missed, axis, nearest(row.spans, each), y + 8))
                y += NUMBER_HEIGHT
    return figure("track", row.name, "; ".join(row.sentences), y + 1, parts, width=TRACK_WIDTH)


def _bars(date: TimeRow, axis: TimeAxis, y: float) -> list[str]:
    """Filled for a date that is certain, open and joined for the readings of one code."""
    parts = []
    if date.is_open:
        first, last = axis.ends(date.spans[0])[0], axis.ends(date.spans[-1])[1]
        parts.append(line(first, y, last, y, stroke=INK, width=0.9, dash="2 2"))
    for span in date.spans:
        left, right = axis.ends(span)
        width = max(LEAST_BAR, right - left)
        left = min(left, axis.right - width)
        fill, height = ("#ffffff", BAR_HEIGHT) if date.is_open else (INK, BAR_HEIGHT)
        parts.append(box(left, y - height / 2, width, height, fill=fill, stroke=INK))
    return parts


def _missed(text: str, axis: TimeAxis, span: DateSpan, y: float) -> str:
    """By how many days the window is missed, below the reading that misses it least."""
    left, right = axis.ends(span)
    half = width_of(text, NUMBER_SIZE) / 2
    x = max(half, min(TRACK_WIDTH - half, (left + right) / 2))
    return words(x, y, text, size=NUMBER_SIZE, anchor="middle", strong=True)


def _numbers(spans: tuple[DateSpan, ...], axis: TimeAxis, y: float) -> list[str]:
    """The number of each reading above it, moved apart where they would touch."""
    parts, edge = [], 0.0
    width = width_of("0", NUMBER_SIZE, 0.6)
    room = [axis.right - (width + 3) * (len(spans) - at) for at in range(len(spans))]
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


LEGEND_HEIGHT = 34.0


def _legend() -> list[str]:
    """The signs in words."""
    y = 8.0
    bracket = (
        f"M8 {num(y + 9)}L4 {num(y + 9)}L4 {num(y + 21)}L8 {num(y + 21)}"
        f"M24 {num(y + 9)}L28 {num(y + 9)}L28 {num(y + 21)}L24 {num(y + 21)}"
    )
    second = WIDTH / 2 + 4
    return [
        box(4, y - 3.5, 24, BAR_HEIGHT, fill=INK, stroke=INK),
        words(36, y + 3.5, said("the days that are meant"), fill=SOFT),
        line(second + 4, y, second + 28, y, stroke=INK, width=0.9, dash="2 2"),
        box(second + 2, y - 3.5, 6, BAR_HEIGHT, fill="#ffffff", stroke=INK),
        box(second + 24, y - 3.5, 6, BAR_HEIGHT, fill="#ffffff", stroke=INK),
        words(second + 36, y + 3.5, said("readings of one code; one is meant"), fill=SOFT),
        path(bracket, stroke=INK, width=1.3),
        words(36, y + 18.5, said("where the book expects the date"), fill=SOFT),
        line(second + 16, y + 8, second + 16, y + 22, stroke=SOFT, width=0.9, dash="2 2"),
        words(second + 36, y + 18.5, said("the car’s own date"), fill=SOFT),
    ]


def _sentence(own: CarDate | None) -> str:
    """What the figure shows, and what the windows are counted from."""
    told = [said("Each date as read, and the window in which the book expects it.")]
    if own is not None:
        told.append(
            said(
                "Windows are counted from {end}, {dates}, unless another date is named.",
                end=own.counted_from,
                dates=span_words(own.span),
            )
        )
    return " ".join(told)
