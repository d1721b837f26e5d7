"""Sketches of sheet metal and castings: welds round a number, the reverse side, cast characters."""

from witnessmark.figures.drawing import INK, SOFT, box, disc, path
from witnessmark.figures.sketches_strokes import (
    DARK,
    FINE,
    METAL,
    PAPER,
    PEN,
    bead,
    blob,
    hatched,
    letter,
    letters_in_line,
    points,
)


def _lapped() -> list[str]:
    """Two letters on a sheet whose edge lies on another."""
    return [
        box(-2, 31, 64, 11, fill=METAL),
        box(-2, -2, 64, 33, fill=PAPER, stroke=INK, stroke_width=PEN),
        letter(0, 17, 2.5, wide=9, high=13),
        letter(1, 34, 2.5, wide=9, high=13),
    ]


def spot_welds() -> list[str]:
    """Small round dimples of one size, one as far from the next as the other."""
    dimples = [
        part
        for x in (6, 18, 30, 42, 54)
        for part in (disc(x, 25, 3.4, fill=METAL), disc(x, 25, 1.1, fill=SOFT, stroke=SOFT))
    ]
    return [*_lapped(), *dimples]


def plug_welds() -> list[str]:
    """Holes filled with weld that stands up, of several sizes."""
    plugs = [
        part
        for x, y, radius in ((8, 24, 5.2), (29, 26, 6), (48, 23.5, 4.6))
        for part in (
            blob(x, y, radius, fill=DARK, stroke=INK),
            path(f"M {x - 3} {y} Q {x} {y - 3.4} {x + 3} {y}", stroke=PAPER, width=1.1),
        )
    ]
    return [*_lapped(), *plugs]


def weld_round() -> list[str]:
    """A run of weld all round the letters."""
    corners = [(5.0, 5.0), (55.0, 5.0), (55.0, 35.0), (5.0, 35.0), (5.0, 5.0)]
    drawn = [letter(at, 13 + at * 12.5, 13, wide=9, high=14) for at in range(3)]
    return [*bead(corners), *drawn]


def sheet_unbroken() -> list[str]:
    """Letters on one smooth sheet."""
    return letters_in_line()


_STRUCK = "M 1 12 L 11 12 L 15 17 L 19 12 L 26 12 L 30 17 L 34 12 L 41 12 L 45 17 L 49 12 L 59 12"
"""The upper side of a sheet with three struck characters in it."""


def _from_below() -> str:
    """From where one looks: an arrow to the underside."""
    return path("M 30 39.5 L 30 31 M 26.5 34.5 L 30 31 L 33.5 34.5", stroke=SOFT, width=1.4)


def ripples() -> list[str]:
    """The sheet bulges below each character."""
    below = "L 59 20 L 51 20 Q 45 30 39 20 L 36 20 Q 30 30 24 20 L 21 20 Q 15 30 9 20 L 1 20 Z"
    return [path(f"{_STRUCK} {below}", fill=METAL, stroke=INK, width=PEN), _from_below()]


def flat_reverse() -> list[str]:
    """The sheet is flat below the characters."""
    sheet = path(f"{_STRUCK} L 59 20 L 1 20 Z", fill=METAL, stroke=INK, width=PEN)
    return [sheet, _from_below()]


def other_sheet() -> list[str]:
    """Below the struck sheet lies another one."""
    sheet = path(f"{_STRUCK} L 59 19 L 1 19 Z", fill=PAPER, stroke=INK, width=PEN)
    return [sheet, *hatched(1, 22, 58, 7), _from_below()]


def _skin(x1: float, x2: float) -> str:
    """Dots of a rough casting skin below its surface."""
    count = int((x2 - x1) / 4)
    return "".join(
        disc(x1 + 2 + at * 4, 34 + (at % 2) * 2.5, 0.4, fill=SOFT, stroke=SOFT)
        for at in range(count)
    )


def cast_whole() -> list[str]:
    """Two raised characters, one piece with the casting, each with a rounded foot."""
    outline = "M 0 29 Q 7 28 9 28 C 12 28 12 26 12.5 22 L 13.5 11 Q 17.5 9 21.5 11 L 22.5 22 "
    outline += "C 23 26 23 28 26 28 L 34 28 C 37 28 37 26 37.5 22 L 38.5 11 Q 42.5 9 46.5 11 "
    outline += "L 47.5 22 C 48 26 48 28 51 28 Q 54 28 60 29 L 60 41 L 0 41 Z"
    return [path(outline, fill=METAL, stroke=INK, width=PEN), _skin(0, 60)]


def cast_filed() -> list[str]:
    """Flats cut beside the foot of each character, lower than the skin."""
    flats = [(0, 28), (5, 28), (6, 32), (12.5, 32), (13.5, 11), (21.5, 11), (22.5, 32), (37.5, 32)]
    flats += [(38.5, 11), (46.5, 11), (47.5, 32), (54, 32), (55, 28), (60, 28), (60, 41), (0, 41)]
    scratches = " ".join(f"M {x} 36 L {x + 3} 33.5" for x in (6, 9, 23, 26, 29, 32, 35, 48, 51))
    return [
        path(points(*flats), fill=METAL, stroke=INK, width=PEN),
        path(scratches, stroke=INK, width=FINE),
    ]


def cast_joined() -> list[str]:
    """Characters set on the skin, with a bead at the foot of each."""
    feet = " ".join(
        f"M {x} 28 L {x - 6} 28 Q {x - 1} 26 {x} 20 Z M {x + 9} 28 L {x + 15} 28 "
        f"Q {x + 10} 26 {x + 9} 20 Z"
        for x in (13, 38)
    )
    return [
        box(-2, 28, 64, 14, fill=METAL, stroke=INK, stroke_width=PEN),
        *(box(x, 10, 9, 18, fill=PAPER, stroke=INK, stroke_width=PEN) for x in (13, 38)),
        path(feet, fill=DARK, stroke=INK, width=0.9),
        _skin(0, 60),
    ]
