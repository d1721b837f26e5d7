"""Sketches of what lies on the metal: paint, dabs, stripes, primer, labels."""

from math import cos, pi, sin

from witnessmark.figures.drawing import INK, SOFT, box, disc, line, path
from witnessmark.figures.sketches_strokes import (
    DARK,
    FINE,
    METAL,
    PAINT,
    PAPER,
    PEN,
    blob,
    domed,
    ground,
    letter,
    points,
)


def _plate() -> list[str]:
    """The corner of a plate with two letters on it."""
    return [
        box(20, 12, 45, 33, fill=PAPER, stroke=INK, stroke_width=PEN),
        letter(0, 28, 20, wide=9, high=14),
        letter(1, 44, 20, wide=9, high=14),
    ]


def paint_line() -> list[str]:
    """Paint up to the edge of the plate, in one line without a break."""
    edge = points((17.5, 40), (17.5, 9.5), (60, 9.5), closed=False)
    return [ground(PAINT), path(edge, stroke=DARK, width=1.2), *_plate()]


def paint_anew() -> list[str]:
    """Bare metal with a ragged rim on one side, newer paint with a straight rim above."""
    rim = ((13, 9), (10, 14), (12, 18), (7, 22), (11, 27), (6, 31), (11, 36), (8, 42))
    ragged = points((20, 42), (20, 12), *rim)
    return [
        ground(PAINT),
        path(ragged, fill=PAPER, stroke=INK, width=0.8),
        *_plate(),
        box(24, -2, 38, 17, fill=DARK, stroke=INK, stroke_width=0.8),
    ]


def second_outline() -> list[str]:
    """Beside the plate the edge of another one, a little turned."""
    other = points((10, 42), (12, 5), (64, 2), (64, 42))
    return [ground(PAINT), path(other, fill=METAL, stroke=INK, width=1.1), *_plate()]


def _dabbed(*dab: str) -> list[str]:
    """Two letters on paint, and what is beside them."""
    drawn = [letter(0, 5, 11.5), letter(1, 21, 11.5)]
    return [ground(PAINT), *drawn, *dab]


def round_dab() -> list[str]:
    """A round dab of paint."""
    return _dabbed(disc(47, 20, 9, fill=DARK))


def cornered_dab() -> list[str]:
    """A dab with three corners."""
    return _dabbed(path(points((47, 9), (57, 29), (37, 29)), fill=PAPER, stroke=INK, width=1.2))


def no_dab() -> list[str]:
    """Nothing beside the letters."""
    return _dabbed()


def _hexagon(radius: float) -> list[tuple[float, float]]:
    """The corners of a bolt's head in the middle of the sketch."""
    return [(30 + radius * cos(at * pi / 3), 20 + radius * sin(at * pi / 3)) for at in range(6)]


def _bolt(fill: str) -> list[str]:
    return [
        path(points(*_hexagon(14)), fill=fill, stroke=INK, width=PEN),
        disc(30, 20, 8.5, fill=fill, stroke=SOFT),
    ]


def bolt_painted() -> list[str]:
    """One coat over panel and head."""
    return [ground(PAINT), *_bolt(PAINT)]


def bolt_paint_broken() -> list[str]:
    """Bare corners, and a ragged bare ring about the head."""
    ring = [
        (30 + away * cos(at * pi / 9), 20 + away * sin(at * pi / 9))
        for at, away in enumerate((17.5, 16, 18, 16.5, 17.5, 15.8) * 3)
    ]
    corners = [blob(x, y, 2.6, fill=PAPER, stroke=INK) for x, y in _hexagon(12.6)[::2]]
    return [
        ground(PAINT),
        path(points(*ring), fill=PAPER, stroke=INK, width=0.7),
        *_bolt(PAINT),
        *corners,
    ]


def bolt_new() -> list[str]:
    """A bright head and washer on painted panel."""
    light = "M 24 21 L 31 14 M 27 25 L 36 16"
    washer = disc(30, 20, 17.5, fill=PAPER)
    return [ground(PAINT), washer, *_bolt(PAPER), path(light, stroke=SOFT, width=1.2)]


def _casings() -> list[str]:
    """Two casings, and the joint between them."""
    flanges = box(23, 2, 14, 36, fill=METAL, stroke=INK, stroke_width=1)
    return [
        box(-2, 6, 64, 28, fill=METAL, stroke=INK, stroke_width=PEN),
        flanges,
        line(30, 2, 30, 38, stroke=INK, width=1.6),
    ]


def _stripe(x1: float, x2: float, y: float) -> str:
    return box(x1, y, x2 - x1, 9, fill=DARK, stroke=INK, stroke_width=0.6)


def stripe_whole() -> list[str]:
    """The stripe runs on across the joint."""
    return [*_casings(), _stripe(4, 56, 15.5)]


def stripe_broken() -> list[str]:
    """The stripe ends at the joint, and beyond it stands lower."""
    return [*_casings(), _stripe(4, 29, 11), _stripe(31, 56, 20)]


def stripe_covered() -> list[str]:
    """Paint over the joint, and over the stripe there."""
    patch = "M 17 1 C 24 -1 38 -1 43 1 C 46 10 42 20 44 28 C 45 38 38 41 30 40 C 20 41 15 38 16 30 "
    patch += "C 18 20 14 10 17 1 Z"
    strokes = "M 22 7 L 38 7 M 21 14 L 38 14 M 22 21 L 39 21 M 21 28 L 38 28 M 23 35 L 37 35"
    return [
        *_casings(),
        _stripe(4, 56, 15.5),
        path(patch, fill=PAINT, stroke=INK, width=1),
        path(strokes, stroke=PAPER, width=1.2),
    ]


_NOTCHED = "M 0 14 L 13 14 L 20 28 L 27 14 L 34 14 L 41 28 L 48 14 L 60 14"
"""The surface of metal with two struck characters in it, cut through."""


def _metal() -> list[str]:
    body = path(f"{_NOTCHED} L 60 38 L 0 38 Z", fill=METAL, stroke="none")
    lines = [line(x, 38, x + 6, 32, stroke=SOFT, width=FINE) for x in range(2, 56, 7)]
    return [body, *lines, path(_NOTCHED, stroke=INK, width=PEN)]


def primer_in() -> list[str]:
    """A coat that follows the surface down into the characters."""
    coat = "M 0 11.5 L 14.5 11.5 L 20 22.5 L 25.5 11.5 L 35.5 11.5 L 41 22.5 L 46.5 11.5 L 60 11.5 "
    coat += "L 60 14 L 48 14 L 41 28 L 34 14 L 27 14 L 20 28 L 13 14 L 0 14 Z"
    return [*_metal(), path(coat, fill=DARK, stroke=INK, width=0.8)]


def primer_gone() -> list[str]:
    """One character bare, the other filled and covered with later paint."""
    later = "M 31 14 C 31 9 36 8 41 9 C 50 8 56 9 60 8 L 60 14 L 48 14 L 41 28 L 34 14 Z"
    return [*_metal(), path(later, fill=PAINT, stroke=INK, width=1)]


def primer_cut() -> list[str]:
    """A coat on the surface, and characters cut down through it."""
    coats = [
        path(points(*corners), fill=DARK, stroke=INK, width=0.8)
        for corners in (
            ((0, 10.5), (11.2, 10.5), (13, 14), (0, 14)),
            ((28.8, 10.5), (32.2, 10.5), (34, 14), (27, 14)),
            ((49.8, 10.5), (60, 10.5), (60, 14), (48, 14)),
        )
    ]
    return [*_metal(), *coats]


def label() -> list[str]:
    """A printed sticker with a corner that has come up."""
    sheet = points((7, 4), (53, 4), (53, 27), (44, 36), (7, 36))
    corner = points((53, 27), (44, 36), (44.5, 27.5))
    lines = [line(12, y, x, y, stroke=SOFT, width=1.6) for y, x in ((10, 48), (16, 42), (22, 46))]
    return [
        path(sheet, fill=PAPER, stroke=INK, width=PEN),
        path(corner, fill=PAINT, stroke=INK, width=1),
        *lines,
        line(12, 29, 36, 29, stroke=SOFT, width=1.6),
    ]


def riveted_plate() -> list[str]:
    """A plate with a rivet at each end and letters pressed into it."""
    return [
        box(2, 7, 56, 26, fill=METAL, stroke=INK, stroke_width=PEN, radius=1.5),
        *domed(9, 20, 4.2),
        *domed(51, 20, 4.2),
        *(letter(at, 18 + at * 9, 14, wide=6, high=11, width=1.7) for at in range(3)),
    ]


def label_trace() -> list[str]:
    """An empty outline with scraps of the sticker in it."""
    outline = [
        line(*ends, stroke=INK, width=1, dash="3.5 2.5")
        for ends in ((7, 4, 53, 4), (53, 4, 53, 36), (53, 36, 7, 36), (7, 36, 7, 4))
    ]
    torn = points((8, 5), (23, 5), (19, 9), (20, 12), (13, 13), (11, 18), (8, 17))
    scraps = [blob(44, 29, 4.2, fill=PAPER, stroke=INK), blob(30, 22, 2.4, fill=PAPER, stroke=INK)]
    return [
        ground(PAINT),
        *outline,
        path(torn, fill=PAPER, stroke=INK, width=0.8),
        *scraps,
        blob(18, 30, 1.6),
        blob(47, 12, 1.4),
    ]
