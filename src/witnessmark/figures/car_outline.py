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
OUTLINES = Path(__file__).with_name("car_outlines.csv")
"""The edge of each body first, then the lines within."""


class BodyShape(StrEnum):
    """The kinds of body that are drawn."""

    CLOSED = "closed"
    OPEN = "open"
    COACH = "coach"


@dataclass(frozen=True, slots=True)
class _View:
    """A body as it is drawn from one side: its edge and the lines within."""

    edge: str
    lines: tuple[str, ...]


@cache
def _views() -> dict[tuple[BodyShape, str], _View]:
    """How each body is drawn from `above` and `beside`."""
    found: dict[tuple[BodyShape, str], list[str]] = {}
    for row in _rows(OUTLINES):
        found.setdefault((BodyShape(row["shape"]), row["view"]), []).append(row["path"])
    return {key: _View(edge, tuple(lines)) for key, (edge, *lines) in found.items()}


def _rows(table: Path) -> list[dict[str, str]]:
    with table.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


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
    rows = ((row["words"], BodyShape(row["shape"])) for row in _rows(BODY_WORDS))
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
    drawn = _views()[shape, "above"]
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
    lines = [path(_placed(each, frame), stroke=LINE, width=0.9) for each in drawn.lines]
    return [path(_placed(drawn.edge, frame), stroke=SOFT, width=1.4), *wheels, *lines]


def outline_from_the_left(frame: Frame, shape: BodyShape) -> list[str]:
    """The body, glass, door and wheels of the car, on its ground."""
    drawn = _views()[shape, "beside"]
    radius = frame.height * WHEEL / 100
    middle = frame.y(WHEEL)
    wheels = [
        disc(frame.x(at), middle, each, fill=fill, stroke=SOFT)
        for at in (FRONT_AXLE, REAR_AXLE)
        for each, fill in ((radius, "#ffffff"), (radius * 0.55, PALE))
    ]
    lines = [path(_placed(each, frame), stroke=LINE, width=0.9) for each in drawn.lines]
    ground = line(frame.x(-4), frame.y(0), frame.x(104), frame.y(0), stroke=LINE, width=1)
    return [path(_placed(drawn.edge, frame), stroke=SOFT, width=1.4), *lines, *wheels, ground]


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
