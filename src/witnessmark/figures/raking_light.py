"""How a picture in raking light is taken: the camera straight above, the lamp low beside it."""

from witnessmark.catalogue import said
from witnessmark.figures.drawing import (
    INK,
    LINE,
    PALE,
    SOFT,
    WIDTH,
    box,
    disc,
    figure,
    line,
    path,
    words,
)
from witnessmark.figures.records import Figure

HEIGHT = 112.0
GROUND = 92.0
"""The surface of the metal."""
MIDDLE = 240.0


def raking_light() -> Figure:
    """A surface from its side with struck grooves, camera, lamp and scale."""
    grooves = [path(f"M{x} {GROUND}l4 9l4 -9z", fill=INK) for x in (222, 236, 250)]
    shadows = [path(f"M{x} {GROUND}l-7 0l7 7z", fill=SOFT) for x in (222, 236, 250)]
    camera = [
        box(MIDDLE - 24, 8, 48, 24, fill="#ffffff", stroke=INK, stroke_width=1.4, radius=3),
        box(MIDDLE - 9, 32, 18, 9, fill=PALE, stroke=INK, stroke_width=1.4),
        line(MIDDLE, 44, MIDDLE, GROUND - 3, stroke=SOFT, width=0.8, dash="4 3"),
    ]
    lamp = [
        path("M392 62l26 -9l5 14l-26 9z", fill=PALE, stroke=INK, width=1.4),
        *(line(388, 70 + 2 * at, 262, 85 + 3 * at, stroke=SOFT, width=0.9) for at in range(3)),
        disc(393, 70, 4, fill="#ffffff"),
    ]
    scale = [
        box(140, GROUND - 5, 62, 5, fill="#ffffff", stroke=INK, stroke_width=1),
        *(line(148 + 8 * at, GROUND - 5, 148 + 8 * at, GROUND - 2, stroke=INK) for at in range(6)),
    ]
    metal = [
        box(110, GROUND, 260, 14, fill=PALE),
        line(110, GROUND, 370, GROUND, stroke=INK, width=1.4),
        line(110, GROUND + 14, 370, GROUND + 14, stroke=LINE),
    ]
    told = [
        words(MIDDLE + 32, 22, said("camera straight above"), size=11),
        words(430, 66, said("torch,"), size=11),
        words(430, 79, said("held low"), size=11),
        words(134, GROUND - 2, said("ruler or coin"), size=11, anchor="end"),
    ]
    parts = [*metal, *shadows, *grooves, *camera, *lamp, *scale, *told]
    caption = said(
        "A metal surface from its side: the camera straight above the marks, a torch held low "
        "beside them so that each mark throws a shadow, a ruler or a coin flat on the surface."
    )
    return figure("raking-light", said("Raking light"), caption, HEIGHT, parts, width=WIDTH)
