"""What several sketches share: their size, pens and tones, characters of no meaning, blobs.

The characters are letters made of straight strokes, never figures, so that nothing that
stands in a sketch could be taken for a number.
"""

from itertools import pairwise
from math import cos, pi, radians, sin

from witnessmark.figures.drawing import INK, SOFT, box, disc, line, num, path

SKETCH_WIDTH, SKETCH_HEIGHT = 60.0, 40.0
"""Size of every sketch in points."""

PEN, FINE = 1.3, 0.7
"""Widths of an outline and of what lies on it, in points."""
PAPER, METAL, PAINT, DARK = "#ffffff", "#dadfe3", "#b3bcc5", SOFT
"""Bare paper, cut or dull metal, paint, and what is darkest below ink."""

Stroke = tuple[float, float, float, float]

LETTERS: tuple[tuple[Stroke, ...], ...] = (
    ((0, 0, 1, 0), (0.5, 0, 0.5, 1)),
    ((0, 0, 1, 1), (1, 0, 0, 1)),
    ((0, 0, 0, 1), (1, 0, 1, 1), (0, 0.5, 1, 0.5)),
)
"""T, X and H, as strokes in a square of one by one, y downwards."""


def points(*pairs: tuple[float, float], closed: bool = True) -> str:
    """Path commands along the points."""
    first, *others = (f"{num(x)} {num(y)}" for x, y in pairs)
    return f"M {first} L {' '.join(others)}{' Z' if closed else ''}"


def placed(stroke: Stroke, x: float, y: float, wide: float, high: float, turn: float = 0) -> Stroke:
    """A stroke of a letter in points; `turn` in degrees about the middle of the letter."""
    bend = radians(turn)
    ends: list[float] = []
    for across, down in (stroke[:2], stroke[2:]):
        right, below = (across - 0.5) * wide, (down - 0.5) * high
        ends.append(x + wide / 2 + right * cos(bend) - below * sin(bend))
        ends.append(y + high / 2 + right * sin(bend) + below * cos(bend))
    return ends[0], ends[1], ends[2], ends[3]


def letter(
    which: int,
    x: float,
    y: float,
    *,
    wide: float = 11,
    high: float = 17,
    turn: float = 0,
    width: float = 2.4,
    stroke: str = INK,
) -> str:
    """One of the three letters, its upper left corner at (x, y)."""
    lines = (placed(each, x, y, wide, high, turn) for each in LETTERS[which])
    commands = " ".join(points(each[:2], each[2:], closed=False) for each in lines)
    return path(commands, stroke=stroke, width=width)


def letters_in_line(y: float = 11.5, *, width: float = 2.4, gap: float = 7) -> list[str]:
    """The three letters in one line, in the middle of the sketch."""
    left = (SKETCH_WIDTH - 33 - 2 * gap) / 2
    return [letter(at, left + at * (11 + gap), y, width=width) for at in range(3)]


def groove(*, fill: str = PAPER, width: float = PEN, stroke: str = INK) -> str:
    """One large struck letter, a T, as the groove that it is."""
    outline = ((13, 5), (47, 5), (47, 15), (35, 15), (35, 36), (25, 36), (25, 15), (13, 15))
    return path(points(*outline), fill=fill, stroke=stroke, width=width)


def blob(x: float, y: float, radius: float, *, fill: str = DARK, stroke: str = "none") -> str:
    """An uneven spot; its shape depends on its place alone."""
    around = []
    for at in range(8):
        away = radius * (1 + 0.16 * sin(2.1 * at + x + 0.7 * y))
        around.append((x + away * cos(at * pi / 4), y + away * sin(at * pi / 4)))
    return path(points(*around), fill=fill, stroke=stroke, width=0.8)


def ground(fill: str = PAPER) -> str:
    """The surface that is seen, without an edge of its own."""
    return box(0, 0, SKETCH_WIDTH, SKETCH_HEIGHT, fill=fill)


def slotted(x: float, y: float, radius: float) -> list[str]:
    """The head of a screw with one slot, from above."""
    bend = radians(-25)
    along, across = (cos(bend) * radius, sin(bend) * radius), (-sin(bend) * 1.7, cos(bend) * 1.7)
    slot = points(
        (x - along[0] + across[0], y - along[1] + across[1]),
        (x + along[0] + across[0], y + along[1] + across[1]),
        (x + along[0] - across[0], y + along[1] - across[1]),
        (x - along[0] - across[0], y - along[1] - across[1]),
    )
    return [disc(x, y, radius, fill=PAPER), path(slot, fill=INK, stroke=INK, width=0.4)]


def domed(x: float, y: float, radius: float) -> list[str]:
    """The round head of a rivet from above, with the light on its left."""
    light = f"M {num(x - 0.62 * radius)} {num(y)} A {num(0.62 * radius)} {num(0.62 * radius)} "
    light += f"0 0 1 {num(x)} {num(y - 0.62 * radius)}"
    return [disc(x, y, radius, fill=PAPER), path(light, stroke=SOFT, width=1.6)]


def bead(corners: list[tuple[float, float]], radius: float = 2.9) -> list[str]:
    """A run of weld along the corners: drop over drop."""
    drops: list[str] = []
    for (x1, y1), (x2, y2) in pairwise(corners):
        steps = max(1, round((abs(x2 - x1) + abs(y2 - y1)) / (radius * 1.15)))
        for at in range(steps):
            x, y = x1 + (x2 - x1) * at / steps, y1 + (y2 - y1) * at / steps
            drops.append(disc(x, y, radius, fill=METAL, stroke=INK))
    return drops


def hatched(x: float, y: float, wide: float, high: float, *, leaning: bool = True) -> list[str]:
    """Metal that is cut through, with slanting lines in it."""
    lines = [box(x, y, wide, high, fill=METAL, stroke=INK, stroke_width=PEN)]
    at = x + 3
    while at < x + wide - high + 1:
        low, top = (at, at + high) if leaning else (at + high, at)
        lines.append(line(low, y + high, top, y, stroke=SOFT, width=FINE))
        at += 6
    return lines
