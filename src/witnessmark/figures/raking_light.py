"""How a picture in raking light is taken: the camera straight above, the lamp low beside it."""

from witnessmark.catalogue import said
from witnessmark.figures.drawing import (
    INK,
    LINE,
    PALE,
    SOFT,
    box,
    figure,
    line,
    path,
    words,
)
from witnessmark.figures.records import Figure

WIDTH, HEIGHT = 300.0, 112.0
GROUND = 92.0
"""The surface of the metal."""
MIDDLE = 140.0
GROOVES = (122, 136, 150)


def raking_light() -> Figure:
    """A surface from its side with struck grooves, camera, lamp and scale."""
    metal = [
        box(20, GROUND, 260, 14, fill=PALE),
        line(20, GROUND, 280, GROUND, stroke=INK, width=1.4),
        line(20, GROUND + 14, 280, GROUND + 14, stroke=LINE),
        *(path(f"M{x} {GROUND}l-7 0l7 7z", fill=SOFT) for x in GROOVES),
        *(path(f"M{x} {GROUND}l4 9l4 -9z", fill=INK) for x in GROOVES),
    ]
    camera = [
        box(MIDDLE - 24, 8, 48, 24, fill="#ffffff", stroke=INK, stroke_width=1.4, radius=3),
        box(MIDDLE - 9, 32, 18, 9, fill=PALE, stroke=INK, stroke_width=1.4),
        line(MIDDLE, 44, MIDDLE, GROUND - 3, stroke=SOFT, width=0.8, dash="4 3"),
    ]
    lamp = [
        path("M252 68l28 -9l5 14l-28 9z", fill=PALE, stroke=INK, width=1.4),
        *(line(248, 75 + 3 * at, 164, 84 + 4 * at, stroke=SOFT, width=0.9) for at in range(3)),
    ]
    scale = [
        box(34, GROUND - 5, 62, 5, fill="#ffffff", stroke=INK, stroke_width=1),
        *(line(42 + 8 * at, GROUND - 5, 42 + 8 * at, GROUND - 2, stroke=INK) for at in range(6)),
    ]
    told = [
        words(MIDDLE + 30, 25, said("camera straight above"), size=14),
        words(284, 55, said("torch held low"), size=14, anchor="end"),
        words(20, GROUND - 12, said("ruler or coin"), size=14),
    ]
    caption = said(
        "A metal surface from its side: the camera straight above the marks, a torch held low "
        "beside them so that each mark throws a shadow, a ruler or a coin flat on the surface."
    )
    parts = [*metal, *camera, *lamp, *scale, *told]
    return figure("raking-light", said("Raking light"), caption, HEIGHT, parts, width=WIDTH)
