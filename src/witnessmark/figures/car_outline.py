"""A car of no make in a few lines, from above and from its left side, front at the left: one for
each kind of body, which is known by the words of `body_words.csv`.

Points are written as a code book writes places: per cent of the length from the
front, of the width from the car's own left, of the height from the ground.
"""

import csv
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from pathlib import Path

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.records import CarContext
from witnessmark.figures.drawing import LINE, PALE, SOFT, disc, line, num, path

LENGTH, BREADTH, HEIGHT = 306.0, 112.0, 96.0
"""Size of the drawn car in points."""

FRONT_AXLE, REAR_AXLE, WHEEL = 18, 79, 21
"""Where the wheels stand along the car, and how high their middle is, in per cent."""

BODY_WORDS = Path(__file__).with_name("body_words.csv")


class BodyShape(StrEnum):
    """The kinds of body that are drawn."""

    CLOSED = "closed"
    OPEN = "open"
    COACH = "coach"


@dataclass(frozen=True, slots=True)
class _Outline:
    """A body as it is drawn: its edge and the lines within, seen from above and from the side."""

    above: str
    lines_above: tuple[str, ...]
    beside: str
    lines_beside: tuple[str, ...]


_CAR_ABOVE = (
    "M 0 50 C 0 22 2 8 9 5 L 30 3 L 90 4 C 98 6 100 24 100 50 C 100 76 98 94 90 96 "
    "L 30 97 L 9 95 C 2 92 0 78 0 50 Z"
)
_BONNET = ("M 5 22 C 16 17 26 15 35 15", "M 5 78 C 16 83 26 85 35 85")
_LID = ("M 78 16 C 84 15 90 16 95 22", "M 78 84 C 84 85 90 84 95 78")
_TAIL = "C 84 68 92 66 97 60 C 99 54 100 46 100 40 L 99 24 Z"
_OUTLINES = {
    BodyShape.CLOSED: _Outline(
        above=_CAR_ABOVE,
        lines_above=(
            *_BONNET,
            "M 36 12 C 40 34 40 66 36 88",
            "M 46 18 C 48 38 48 62 46 82",
            "M 36 12 L 46 18 L 66 18 L 76 12",
            "M 36 88 L 46 82 L 66 82 L 76 88",
            "M 66 18 C 64 38 64 62 66 82",
            "M 76 12 C 73 36 73 64 76 88",
            *_LID,
        ),
        beside="M 0 24 L 0 44 C 1 55 4 59 10 61 L 36 67 L 44 96 C 50 100 60 100 65 96 L 76 69 "
        + _TAIL,
        lines_beside=(
            "M 39 68 L 46 91 L 54 92 L 54 68 Z",
            "M 56 68 L 56 92 L 63 91 L 71 70 Z",
            "M 39 66 L 39 26 L 59 26 L 59 66",
            "M 8 59 C 20 60 30 62 37 66",
            "M 52 58 L 57 58",
        ),
    ),
    BodyShape.OPEN: _Outline(
        above=_CAR_ABOVE,
        lines_above=(
            *_BONNET,
            "M 37 11 C 42 34 42 66 37 89",
            "M 40 11 C 45 34 45 66 40 89",
            "M 40 11 L 70 12 C 75 34 75 66 70 88 L 40 89",
            "M 53 20 L 64 20 C 66 28 66 38 64 46 L 53 46 Z",
            "M 53 54 L 64 54 C 66 62 66 72 64 80 L 53 80 Z",
            "M 74 14 C 79 36 79 64 74 86",
            "M 82 17 C 87 16 91 17 95 22",
            "M 82 83 C 87 84 91 83 95 78",
        ),
        beside="M 0 24 L 0 44 C 1 55 4 59 10 61 L 36 67 L 42 90 L 43 90 L 40 66 L 68 64 "
        "C 69 75 78 76 80 68 " + _TAIL,
        lines_beside=(
            "M 41 66 L 41 26 L 60 26 L 60 65",
            "M 58 65 C 58 76 61 82 64 81 C 66 80 66 72 65 65",
            "M 8 59 C 20 60 30 62 37 66",
            "M 53 58 L 58 58",
            "M 68 64 L 80 67",
        ),
    ),
    BodyShape.COACH: _Outline(
        above="M 0 50 C 0 22 1 8 6 5 L 95 4 C 99 6 100 22 100 50 C 100 78 99 94 95 96 L 6 95 "
        "C 1 92 0 78 0 50 Z",
        lines_above=(
            "M 5 12 C 2 36 2 64 5 88",
            "M 12 15 C 9 36 9 64 12 85",
            "M 12 15 L 93 13 C 95 36 95 64 93 87 L 12 85",
            "M 5 12 L 12 15",
            "M 5 88 L 12 85",
        ),
        beside="M 0 20 L 0 44 C 1 62 4 82 10 94 C 13 98 20 98 26 98 L 92 98 C 98 98 100 92 100 84 "
        "L 100 20 Z",
        lines_beside=(
            "M 6 62 L 13 90 L 26 90 L 26 62 Z",
            "M 30 62 L 30 90 L 50 90 L 50 62 Z",
            "M 54 62 L 54 90 L 73 90 L 73 62 Z",
            "M 77 62 L 77 90 L 94 90 L 95 62 Z",
            "M 28 94 L 28 24",
            "M 52 94 L 52 24",
            "M 1 54 L 100 54",
        ),
    ),
}


def body_shape(context: CarContext, book: CodeBook, body: str = "") -> BodyShape:
    """The kind of body of a car: as claimed (`body`), else by the name of its model, else by that
    of its body family; closed where none of them names one kind.

    >>> shape_named("E-type drophead coupe"), shape_named("fixed head or drophead body")
    (<BodyShape.OPEN: 'open'>, None)
    """
    model = next((each for each in book.models if each.id == context.model), None)
    families = (each for each in book.body_families if model and each.id == model.body_family)
    names = (body, model.name if model else "", *(each.name for each in families))
    return next(filter(None, map(shape_named, names)), BodyShape.CLOSED)


def shape_named(text: str) -> BodyShape | None:
    """The one kind of body that a text names; None where it names none or several."""
    found = set(_named(text))
    return found.pop() if len(found) == 1 else None


def _named(text: str) -> Iterator[BodyShape]:
    left = f" {' '.join(''.join(c if c.isalnum() else ' ' for c in text.lower()).split())} "
    for phrase, shape in _body_words():
        if f" {phrase} " in left:
            left = left.replace(f" {phrase} ", "  ")
            yield shape


@cache
def _body_words() -> tuple[tuple[str, BodyShape], ...]:
    """The words and what they mean, the longest first: a drophead coupe is no coupe."""
    with BODY_WORDS.open(encoding="utf-8", newline="") as file:
        rows = [(row["words"], BodyShape(row["shape"])) for row in csv.DictReader(file)]
    return tuple(sorted(rows, key=lambda row: -len(row[0])))


@dataclass(frozen=True, slots=True)
class Frame:
    """Where one view of the car lies in a figure, in points, and how tall it is."""

    left: float
    top: float
    height: float

    def x(self, along: float) -> float:
        """The place of a share of the length."""
        return self.left + LENGTH * along / 100

    def y(self, per_cent: float) -> float:
        """The place of a share of the height or breadth, counted from below."""
        return self.top + self.height * (100 - per_cent) / 100


def outline_from_above(frame: Frame, shape: BodyShape) -> list[str]:
    """The body, glass and lids of the car; the left side is below."""
    drawn = _OUTLINES[shape]
    wheels = [
        path(
            _placed(
                f"M {at - 7} {low} L {at + 7} {low} L {at + 7} {low + 10} L {at - 7} {low + 10} Z",
                frame,
            ),
            fill=PALE,
        )
        for at in (FRONT_AXLE, REAR_AXLE)
        for low in (8, 82)
    ]
    lines = [path(_placed(each, frame), stroke=LINE, width=0.9) for each in drawn.lines_above]
    return [path(_placed(drawn.above, frame), stroke=SOFT, width=1.4), *wheels, *lines]


def outline_from_the_left(frame: Frame, shape: BodyShape) -> list[str]:
    """The body, glass, door and wheels of the car, on its ground."""
    drawn = _OUTLINES[shape]
    radius = frame.height * WHEEL / 100
    middle = frame.y(WHEEL)
    wheels = [
        disc(frame.x(at), middle, each, fill=fill, stroke=SOFT)
        for at in (FRONT_AXLE, REAR_AXLE)
        for each, fill in ((radius, "#ffffff"), (radius * 0.55, PALE))
    ]
    lines = [path(_placed(each, frame), stroke=LINE, width=0.9) for each in drawn.lines_beside]
    ground = line(frame.x(-4), frame.y(0), frame.x(104), frame.y(0), stroke=LINE, width=1)
    return [path(_placed(drawn.beside, frame), stroke=SOFT, width=1.4), *lines, *wheels, ground]


def _placed(commands: str, frame: Frame) -> str:
    """Path commands in per cent as path commands in points."""
    placed: list[str] = []
    is_along = True
    for part in commands.split():
        if part.isalpha():
            placed.append(part)
            continue
        placed.append(num(frame.x(float(part)) if is_along else frame.y(float(part))))
        is_along = not is_along
    return " ".join(placed)
