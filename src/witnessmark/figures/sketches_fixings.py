"""Sketches of what holds a plate, a tag or a lever."""

from math import cos, pi, sin

from witnessmark.figures.drawing import INK, SOFT, box, disc, line, path
from witnessmark.figures.sketches_strokes import (
    DARK,
    FINE,
    METAL,
    PAPER,
    PEN,
    blob,
    domed,
    hatched,
    points,
    slotted,
)

_X, _Y, _RADIUS = 18.0, 20.0, 12.0
"""Where the head from above stands, beside the same rivet cut through."""


def _cut(head: str, fill: str = PAPER) -> list[str]:
    """A rivet through plate and sheet from the side, its head given as path commands."""
    shank = points((45, 20), (51, 20), (51, 30), (45, 30))
    tail = points((43, 30), (53, 30), (51.5, 34), (44.5, 34))
    return [
        box(36, 20, 24, 4, fill=PAPER, stroke=INK, stroke_width=1),
        box(36, 24, 24, 6, fill=METAL, stroke=INK, stroke_width=1),
        path(shank, fill=fill, stroke=INK, width=1),
        path(tail, fill=fill, stroke=INK, width=1),
        path(head, fill=fill, stroke=INK, width=PEN),
    ]


def rivet() -> list[str]:
    """Any rivet: a head and a tail, through plate and sheet."""
    return [
        box(2, 14, 56, 6, fill=PAPER, stroke=INK, stroke_width=PEN),
        box(2, 20, 56, 8, fill=METAL, stroke=INK, stroke_width=PEN),
        path(points((25, 14), (35, 14), (35, 28), (25, 28)), fill=PAPER, stroke=INK, width=PEN),
        path("M 18 14 A 12 10 0 0 1 42 14 Z", fill=PAPER, stroke=INK, width=PEN),
        path(points((21, 28), (39, 28), (36, 34), (24, 34)), fill=PAPER, stroke=INK, width=PEN),
    ]


def round_rivet() -> list[str]:
    """A full, round head."""
    return [*domed(_X, _Y, _RADIUS), *_cut("M 40 20 A 8 9 0 0 1 56 20 Z")]


def hollow_rivet() -> list[str]:
    """A rim about an open bore."""
    bore = points((46.5, 17.6), (49.5, 17.6), (49.5, 34), (46.5, 34))
    return [
        disc(_X, _Y, _RADIUS, fill=PAPER),
        disc(_X, _Y, 6.5, fill=INK),
        *_cut("M 41 20 Q 41 17 45 17 L 51 17 Q 55 17 55 20 Z"),
        path(bore, fill=INK, stroke=INK, width=0.4),
    ]


def rosette_rivet() -> list[str]:
    """A head pressed like a flower."""
    petals = [
        disc(_X + 8.2 * cos(at * pi / 3), _Y + 8.2 * sin(at * pi / 3), 4.6, fill=PAPER)
        for at in range(6)
    ]
    cover = disc(_X, _Y, 6.6, fill=PAPER, stroke=PAPER)
    head = "M 39 20 C 39 14 44 13 44.5 17 C 45 12 51 12 51.5 17 C 52 13 57 14 57 20 Z"
    return [*petals, cover, disc(_X, _Y, 3.4, fill=PAPER), *_cut(head)]


def other_rivets() -> list[str]:
    """Two other heads, from above and cut through: flat on the plate, and sunk into it."""
    flat = [disc(15, 11, 9.5, fill=PAPER), box(5, 24, 20, 3.5, fill=PAPER, stroke=INK)]
    sunk = [
        disc(45, 11, 8, fill=PAPER),
        path(points((37, 27.5), (53, 27.5), (48, 33), (42, 33)), fill=PAPER, stroke=INK, width=PEN),
    ]
    shanks = [box(x, 27.5, 6, 9, fill=PAPER, stroke=INK, stroke_width=1) for x in (12, 42)]
    sheet = box(1, 27.5, 58, 5.5, fill=METAL, stroke=INK, stroke_width=PEN)
    return [sheet, *shanks, *flat, *sunk]


def screws() -> list[str]:
    """A head with a slot and one with a cross."""
    return [*slotted(15, 20, 12.5), *_crossed(45, 20, 12.5)]


def _crossed(x: float, y: float, radius: float) -> list[str]:
    arm, half = radius * 0.62, 1.9
    cross = points(
        (x - half, y - arm),
        (x + half, y - arm),
        (x + half, y - half),
        (x + arm, y - half),
        (x + arm, y + half),
        (x + half, y + half),
        (x + half, y + arm),
        (x - half, y + arm),
        (x - half, y + half),
        (x - arm, y + half),
        (x - arm, y - half),
        (x - half, y - half),
    )
    return [disc(x, y, radius, fill=PAPER), path(cross, fill=INK, stroke=INK, width=0.4)]


def _tag(x: float, wide: float) -> list[str]:
    """A small plate with lines of writing that say nothing."""
    left, right = x + 18, x + wide - 4
    lines = [line(left, y, right, y, stroke=SOFT, width=2.2) for y in (13, 20, 27) if right > left]
    return [box(x, 5, wide, 30, fill=PAPER, stroke=INK, stroke_width=PEN, radius=2.5), *lines]


def one_screw() -> list[str]:
    """A tag under the head of one screw."""
    return [*_tag(3, 54), *slotted(13, 20, 7)]


def other_fastening() -> list[str]:
    """Two tags, one under a rivet, one on a twist of wire."""
    wire = "M 42 20 C 38 24 36 30 33 31 M 42 20 C 36 20 33 26 33 31 L 31 37 M 33 31 L 36 37"
    return [
        box(2, 5, 25, 30, fill=PAPER, stroke=INK, stroke_width=PEN, radius=2.5),
        *domed(14.5, 15, 7),
        *(line(6, y, 23, y, stroke=SOFT, width=2.2) for y in (26, 31)),
        box(37, 5, 21, 30, fill=PAPER, stroke=INK, stroke_width=PEN, radius=2.5),
        disc(44, 19, 3.2, fill=INK),
        path(wire, stroke=INK, width=1.5),
        *(line(50, y, 54.5, y, stroke=SOFT, width=2.2) for y in (12, 19, 26)),
    ]


def _glued(x: float, wide: float) -> list[str]:
    """A plate on a layer that swells out at both edges."""
    end = x + wide
    layer = f"M {x - 3} 25 C {x - 5} 20 {x - 2} 18 {x} 19 L {end} 19 "
    layer += f"C {end + 2} 18 {end + 5} 20 {end + 3} 25 Z"
    return [
        box(x - 7, 25, wide + 14, 7, fill=METAL, stroke=INK, stroke_width=PEN),
        path(layer, fill=DARK, stroke=INK, width=0.8),
        box(x, 13, wide, 6, fill=PAPER, stroke=INK, stroke_width=PEN),
    ]


def glue() -> list[str]:
    """A plate stuck on, from the side."""
    return _glued(9, 42)


def screws_or_glue() -> list[str]:
    """A slotted head, and a plate stuck on."""
    return [*slotted(13, 20, 11), *_glued(35, 16)]


def fresh_holes() -> list[str]:
    """A rivet, and beside it open holes with a bright rim."""
    holes = [
        part
        for x, y in ((41, 12), (47, 30))
        for part in (disc(x, y, 7, fill=PAPER, stroke=SOFT), disc(x, y, 4.6, fill=INK))
    ]
    swarf = "M 33 22 C 36 19 38 23 35 24 M 53 20 C 57 18 57 23 54 23"
    return [
        *domed(16, 20, 10.5),
        *holes,
        path(swarf, stroke=INK, width=FINE),
        blob(30, 31, 1.2),
        blob(56, 38, 1),
    ]


def _lever() -> list[str]:
    """A lever on the end of its shaft, from the side."""
    return [
        *hatched(20, 27, 20, 12),
        box(4, 20, 52, 7, fill=PAPER, stroke=INK, stroke_width=PEN),
        box(16, 17.5, 28, 2.5, fill=PAPER, stroke=INK, stroke_width=1),
        box(18, 8.5, 24, 9, fill=PAPER, stroke=INK, stroke_width=PEN, radius=1.5),
        *(line(x, 8.5, x, 17.5, stroke=INK, width=1) for x in (24, 36)),
    ]


def stud_and_nut() -> list[str]:
    """A nut with the thread of the stud standing out of it."""
    threads = [line(25.5, y + 1, 34.5, y, stroke=INK, width=FINE) for y in (2.5, 4.5, 6.5)]
    return [*_lever(), box(25.5, 1, 9, 7.5, fill=PAPER, stroke=INK, stroke_width=1), *threads]


def bolt() -> list[str]:
    """The whole head of a bolt; its thread is inside."""
    head = "M 19 8.5 Q 30 4.5 41 8.5"
    return [*_lever(), path(head, fill=PAPER, stroke=INK, width=PEN)]
