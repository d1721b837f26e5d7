"""The looks not yet taken: what each would tell, in bits, against the minutes it costs.

Each look is a dot with its number; the names stand in a list below. A dashed
line from the corner marks the look that tells most for its time: no dot lies
above it.
"""

import math

from witnessmark.catalogue import counted, said
from witnessmark.examination import Opinion
from witnessmark.figures.drawing import (
    INK,
    LINE,
    PAGE_HEIGHT,
    SOFT,
    WIDTH,
    box,
    disc,
    figure,
    group,
    line,
    num,
    width_of,
    words,
)
from witnessmark.figures.look_rows import LookRow, look_rows, most_for_its_time
from witnessmark.figures.number_places import NumberPlace, number_places
from witnessmark.figures.records import Figure
from witnessmark.figures.text_block import TextBlock, text_block
from witnessmark.wording import bits_text, minutes_text
from witnessmark.wording.amounts import clause, sentence

LEFT, RIGHT, HEIGHT = 52.0, WIDTH - 16, 132.0
CHART_HEIGHT = HEIGHT + 52.0

BEYOND_ROOM = 130.0
"""Points kept for the looks out of reach."""

DRAWN_MOST = 10
IDLE_LINES = 3
NAME_LINES = 3
NUMBER_WIDTH = 26.0


def next_looks(opinion: Opinion) -> Figure | None:
    """The looks by bits against minutes; None where there is nothing left to look at."""
    within, beyond, idle = look_rows(opinion)
    if not (within or beyond or idle):
        return None
    intro = text_block(_sentence(), WIDTH, fill=SOFT)
    parts, y = intro.at(0, 0), intro.height + 8
    aside = _idle(idle)
    kept = (min(BEYOND_ROOM, _height(beyond)) if beyond else 0.0) + aside.height + 6
    if within:
        drawn = _fitting(within, PAGE_HEIGHT - kept - y - CHART_HEIGHT)
        parts.extend(_chart(drawn, y))
        y += CHART_HEIGHT
        told = said("Within reach, most for its time first")
        listing, height = _list(told, drawn, len(within) - len(drawn), y)
        parts.extend(listing)
        y += height
    parts.extend(aside.at(0, y))
    y += aside.height + 6
    if beyond:
        shown = _fitting(beyond, PAGE_HEIGHT - y)
        told = said("Out of reach on this car, so not drawn")
        listing, height = _list(told, shown, len(beyond) - len(shown), y)
        parts.extend(listing)
        y += height
    title = said("What the next looks would tell, and what they cost")
    return figure("next-looks", title, _caption(within, beyond, idle), y, parts)


def _fitting(rows: list[LookRow], room: float) -> list[LookRow]:
    """As many looks, from the first on, as fit below a heading; one at least."""
    most = 1
    while most < min(len(rows), DRAWN_MOST) and _height(rows[: most + 1]) <= room:
        most += 1
    return rows[:most]


def _height(rows: list[LookRow]) -> float:
    """Points that a list takes, with room for the line that counts the rest."""
    return _list("x", rows, 1, 0)[1]


def _idle(rows: list[LookRow]) -> TextBlock:
    """The looks that tell next to nothing, named in a sentence."""
    if not rows:
        return text_block("", WIDTH)
    told = counted(
        "{number} look within reach would tell next to nothing: {looks}",
        "{number} looks within reach would tell next to nothing: {looks}",
        len(rows),
        looks="; ".join(clause(row.prompt) for row in rows),
    )
    return text_block(sentence(told), WIDTH, most=IDLE_LINES)


def _sentence() -> str:
    return said(
        "One bit is what the answer to an even yes-or-no question tells, so a look of 0.1 bits "
        "tells on average a tenth of that about its question; minutes are those of the look "
        "with those of getting there."
    )


class _Scale:
    """A straight axis from nought to a whole number of round steps beyond the greatest amount."""

    def __init__(self, greatest: float, start: float, end: float) -> None:
        self.start, self.end = start, end
        power = 10.0 ** (math.floor(math.log10(greatest)) - 1)
        self.step = next(each * power for each in (1, 2, 5, 10, 20) if each * power * 5 >= greatest)
        self.steps = max(1, math.ceil(greatest / self.step - 1e-9))
        self.most = self.step * self.steps

    def at(self, amount: float) -> float:
        """The place of an amount, in points."""
        return self.start + (self.end - self.start) * min(1.0, amount / self.most)

    def ticks(self) -> list[float]:
        """Nought and every step."""
        return [self.step * each for each in range(self.steps + 1)]


def _chart(rows: list[LookRow], top: float) -> list[str]:
    """Axes, the line of the most for its time, dots and numbers."""
    bottom = top + 16 + HEIGHT
    across = _Scale(max(max(row.minutes for row in rows) * 1.05, 4), LEFT, RIGHT)
    upward = _Scale(max(row.bits for row in rows) * 1.1, bottom, top + 16)
    best = most_for_its_time(rows)
    points = [(across.at(row.minutes), upward.at(row.bits)) for row in rows]
    end = _end_of_best(best, across, upward)
    frame = (LEFT, top + 16, RIGHT, bottom)
    dashed = said("dashed: most for its time, look {number}", number=best.number)
    return [
        words(0, top + 8, said("bits it would tell"), fill=SOFT),
        *_grid(across, upward, top + 16, bottom),
        line(LEFT, bottom, *end, stroke=INK, width=1.0, dash="5 3"),
        *(_numbered(place) for place in number_places(points, frame, ((LEFT, bottom), end))),
        words(RIGHT, bottom + 28, said("minutes, access included"), fill=SOFT, anchor="end"),
        words(LEFT, bottom + 28, dashed),
    ]


def _grid(across: _Scale, upward: _Scale, top: float, bottom: float) -> list[str]:
    parts = [box(LEFT, top, RIGHT - LEFT, bottom - top, stroke=LINE)]
    for amount in across.ticks():
        x = across.at(amount)
        parts.append(line(x, bottom, x, bottom + 3, stroke=SOFT))
        parts.append(words(x, bottom + 14, _plain(amount), size=9.5, fill=SOFT, anchor="middle"))
    for amount in upward.ticks():
        y = upward.at(amount)
        parts.append(line(LEFT, y, RIGHT, y, stroke=LINE, width=0.5))
        parts.append(words(LEFT - 6, y + 3, _plain(amount), size=9.5, fill=SOFT, anchor="end"))
    return parts


def _plain(amount: float) -> str:
    """A tick without needless figures.

    >>> _plain(0.0075), _plain(30.0), _plain(0.0)
    ('0.0075', '30', '0')
    """
    return f"{amount:.6f}".rstrip("0").rstrip(".")


def _end_of_best(best: LookRow, across: _Scale, upward: _Scale) -> tuple[float, float]:
    """Where the line from nought through the best look meets the edge of the frame."""
    steps = min(across.most / best.minutes if best.minutes else 1.0, upward.most / best.bits)
    return across.at(best.minutes * steps), upward.at(best.bits * steps)


def _numbered(place: NumberPlace) -> str:
    """A dot with its number, joined to it by a hair where it stands apart."""
    parts = [disc(place.x, place.y, 3.2, fill=INK)]
    if place.is_apart:
        middle = place.label_x + width_of(place.label, 10) / 2
        parts.insert(0, line(place.x, place.y, middle, place.label_y - 3.5, stroke=SOFT))
    parts.append(words(place.label_x, place.label_y, place.label, strong=True))
    return group(parts, said("look {number}", number=place.label))


def _list(title: str, rows: list[LookRow], more: int, top: float) -> tuple[list[str], float]:
    """A heading and the looks below it; gives them and their height."""
    head = text_block(title, WIDTH, strong=True)
    parts, y = head.at(0, top), top + head.height + 3
    for row in rows:
        name = text_block(sentence(row.prompt), WIDTH - NUMBER_WIDTH, most=NAME_LINES)
        cost = text_block(_cost(row), WIDTH - NUMBER_WIDTH, fill=SOFT)
        if row.number:
            parts.append(
                words(NUMBER_WIDTH - 9, y + 9.5, num(row.number), anchor="end", strong=True)
            )
        parts.extend([*name.at(NUMBER_WIDTH, y), *cost.at(NUMBER_WIDTH, y + name.height)])
        y += name.height + cost.height + 4
    if more > 0:
        told = counted(
            "{number} further look is not named.", "{number} further looks are not named.", more
        )
        block = text_block(told, WIDTH - NUMBER_WIDTH, fill=SOFT)
        parts.extend(block.at(NUMBER_WIDTH, y))
        y += block.height + 4
    return parts, y - top + 6


def _cost(row: LookRow) -> str:
    """Bits, minutes and the question it tells most about."""
    amounts = {
        "bits": bits_text(row.bits),
        "minutes": minutes_text(row.minutes),
        "question": row.question,
    }
    if row.access_minutes:
        return said(
            "{bits} in {minutes}, {access} of them for access. {question}",
            access=row.access_minutes,
            **amounts,
        )
    return said("{bits} in {minutes}. {question}", **amounts)


def _caption(within: list[LookRow], beyond: list[LookRow], idle: list[LookRow]) -> str:
    told = [sentence(f"{row.number}: {row.prompt}") + " " + sentence(_cost(row)) for row in within]
    parts = [_sentence(), *told]
    if within:
        best = most_for_its_time(within)
        parts.append(said("Look {number} tells most for its time.", number=best.number))
    if idle:
        parts.append(
            counted(
                "{number} look within reach would tell next to nothing.",
                "{number} looks within reach would tell next to nothing.",
                len(idle),
            )
        )
    if beyond:
        parts.append(
            counted(
                "{number} look is out of reach on this car.",
                "{number} looks are out of reach on this car.",
                len(beyond),
            )
        )
    return " ".join(parts)
