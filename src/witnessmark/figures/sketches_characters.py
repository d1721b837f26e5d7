"""Sketches of how characters stand in metal: struck, engraved, spaced, pitted, machined."""

from math import hypot

from witnessmark.figures.drawing import INK, SOFT, disc, line, path
from witnessmark.figures.sketches_strokes import (
    FINE,
    LETTERS,
    METAL,
    PAPER,
    blob,
    groove,
    ground,
    letter,
    letters_in_line,
    placed,
    points,
)

_PITS = (
    (6, 8, 2.6), (9, 20, 3.2), (5, 32, 2.4), (15, 28, 2.8), (19, 18, 2.2), (17, 36, 2.2),
    (20, 6, 2.8), (30, 10, 3), (40, 7, 2.4), (46, 13, 2.8), (28, 22, 2.6), (34, 29, 3),
    (26, 33, 2.2), (42, 22, 2.8), (45, 33, 3.2), (53, 6, 2.6), (54, 20, 2.6), (56, 33, 2.4),
    (37, 36, 2), (12, 13, 2.2),
)  # fmt: skip
"""Pits: x, y and radius; some lie in the groove, some across its edge, some apart."""
_ALONG = ((13, 9), (25, 23), (35, 30), (47, 11), (19, 15), (41, 15), (24, 35), (28, 4.5))
"""Pits that the edge of the groove cuts through."""


def _guides() -> list[str]:
    """The two lines between which characters would stand in one line."""
    return [line(1, y, 59, y, stroke=SOFT, width=FINE, dash="3 2.5") for y in (11.5, 28.5)]


def uneven_punches() -> list[str]:
    """One high, one low, each turned and struck to another depth."""
    return [
        *_guides(),
        letter(0, 6, 8, turn=-10, width=1.9),
        letter(1, 24, 15, turn=8, width=3.4),
        letter(2, 43, 9, turn=9, width=2.3),
    ]


def even_line() -> list[str]:
    """All alike, on one line."""
    return [*_guides(), *letters_in_line()]


def engraved() -> list[str]:
    """Strokes with a light and a dark side that run out thin, as a graver leaves them."""
    drawn: list[str] = []
    for at, strokes in enumerate(LETTERS):
        for stroke in strokes:
            x1, y1, x2, y2 = placed(stroke, 6.5 + at * 18, 11.5, 11, 17)
            far = hypot(x2 - x1, y2 - y1)
            off = (-(y2 - y1) / far * 2.2, (x2 - x1) / far * 2.2)
            middle = ((x1 + x2) / 2, (y1 + y2) / 2)
            over = ((x2 - x1) * 0.16, (y2 - y1) * 0.16)
            ends = (x1 - over[0], y1 - over[1]), (x2 + over[0], y2 + over[1])
            lit = points(ends[0], (middle[0] + off[0], middle[1] + off[1]), ends[1])
            dark = points(ends[0], (middle[0] - off[0], middle[1] - off[1]), ends[1])
            drawn.append(path(lit, fill=PAPER, stroke=INK, width=0.6))
            drawn.append(path(dark, fill=INK, stroke=INK, width=0.6))
    return [*_guides(), *drawn]


def _gap(left: float, right: float) -> str:
    """The room between two letters, marked below them."""
    return path(f"M {left} 31 L {left} 35 L {right} 35 L {right} 31", stroke=SOFT, width=1)


def wide_spacing() -> list[str]:
    """Much room between the letters."""
    drawn = [letter(at, 5 + at * 20, 9, wide=10) for at in range(3)]
    return [*drawn, _gap(16.5, 23.5), _gap(36.5, 43.5)]


def close_spacing() -> list[str]:
    """Hardly any room between the letters."""
    drawn = [letter(at, 11.5 + at * 13.5, 9, wide=10) for at in range(3)]
    return [*drawn, _gap(22.25, 24.25), _gap(35.75, 37.75)]


def _is_apart(x: float, y: float) -> bool:
    """Does a pit lie well away from the groove?"""
    return not (8 < x < 52 and y < 20) and not (19.5 < x < 40.5)


def pits_through() -> list[str]:
    """Pits lie in the groove and across its edge as they lie beside it."""
    return [groove(fill=METAL), *(blob(*each) for each in _PITS)]


def pits_around() -> list[str]:
    """Pits beside the groove, none in it or near it."""
    return [*(blob(*each) for each in _PITS if _is_apart(*each[:2])), groove(fill=METAL)]


def pits_cut() -> list[str]:
    """The edge of the groove cuts pits in half; its ground has none."""
    apart = (blob(*each) for each in _PITS if _is_apart(*each[:2]))
    return [*apart, *(blob(x, y, 3.4) for x, y in _ALONG), groove(fill=METAL)]


def _machined() -> list[str]:
    """Lines of a cutter, side by side."""
    return [line(0, y, 60, y - 3, stroke=SOFT, width=0.9) for y in range(3, 44, 4)]


def lines_under() -> list[str]:
    """The groove breaks the lines."""
    return [*_machined(), groove()]


def lines_polished() -> list[str]:
    """No lines; smooth metal with the light on it."""
    light = "M 4 30 L 12 22 M 5 37 L 18 24 M 44 30 L 56 18 M 50 33 L 57 26"
    return [ground(METAL), groove(), path(light, stroke=PAPER, width=2.4)]


def lines_over() -> list[str]:
    """The lines run on through the groove."""
    return [groove(), *_machined()]


def _grain() -> list[str]:
    """The even grain of a surface: dots in rows, each second row moved."""
    return [
        disc(x + (2.5 if row % 2 else 0), 3 + row * 5, 0.3, fill=SOFT, stroke=SOFT)
        for row in range(8)
        for x in range(3, 58, 5)
    ]


def ground_even() -> list[str]:
    """The same grain everywhere."""
    return [*_grain(), *letters_in_line()]


def ground_dull() -> list[str]:
    """Round the letters fine scratches have taken the place of the grain."""
    patch = "M 4 20 C 4 6 14 4 30 4 C 46 4 56 6 56 20 C 56 34 46 36 30 36 C 14 36 4 34 4 20 Z"
    scratches = [line(x, 33, x + 8, 7, stroke=SOFT, width=0.5) for x in range(8, 48, 4)]
    scratches += [line(x, 8, x + 10, 32, stroke=SOFT, width=0.5) for x in range(8, 46, 5)]
    return [
        *_grain(),
        path(patch, fill=METAL, stroke=METAL, width=0.5),
        *scratches,
        *letters_in_line(),
    ]


def ground_off() -> list[str]:
    """Coarse marks of a wheel have taken half of the letters; a run of weld beside them."""
    patch = "M 3 22 C 3 7 14 5 30 4 C 46 3 57 10 57 24 C 57 34 46 37 30 37 C 14 37 3 36 3 22 Z"
    marks = " ".join(f"M {x} 38 Q {x + 2} 28 {x + 12} 19" for x in range(3, 50, 5))
    weld = [disc(x, 5, 2.7, fill=PAPER, stroke=INK) for x in range(9, 53, 4)]
    return [
        *_grain(),
        path(patch, fill=METAL, stroke=METAL, width=1),
        *letters_in_line(),
        path(points((4, 23), (56, 20), (55, 34), (30, 36), (6, 34)), fill=METAL),
        path(marks, stroke=SOFT, width=1.5),
        *weld,
    ]
