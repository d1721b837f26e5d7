"""The places on a car where marks stand, each as a surface ready to be photographed."""

from collections.abc import Mapping, Sequence

import numpy as np

from drawing.characters import SANS, SERIF, Row, cast, coverage, ink, line_of, print_line, strike
from drawing.fittings import (
    bolt,
    box,
    cornered_dab,
    dimple,
    disc,
    flat_rivet,
    hole,
    hollow_rivet,
    plate,
    round_rivet,
    window,
)
from drawing.surface import (
    Colour,
    Surface,
    bare_steel,
    blank,
    blur,
    cast_skin,
    cloud,
    grid,
    machine,
    noise,
    painted,
    rust,
    step,
)

BRASS = (196, 160, 88)
BRASS_DARK = (84, 60, 26)
ALLOY = (196, 198, 200)
WHITE_DAB = (226, 222, 208)
RED_DAB = (176, 38, 30)
GREY_PAINT = (108, 116, 112)

Worn = Mapping[int, float]
NONE_WORN: Worn = {}


def brass_plate(
    surface: Surface,
    windows: Sequence[str],
    *,
    punched: bool = True,
    worn: Mapping[int, Worn] | None = None,
) -> None:
    """The plate of 1952 to 1957; `windows` in reading order, empty for one never struck.

    `punched`: single punches by hand, each its own way; else an even modern row.
    """
    where = plate(surface, 120, 70, 1080, 730, BRASS)
    surface.tint((120, 96, 48), step(cloud(surface, 150), 0.1, 1.2) * where * 0.5)
    print_line(surface, "TARVANE", 470, 118, 62, BRASS_DARK, SERIF)
    heads = ("TYPE", "CHASSIS NO.", "ENGINE NO.", "PAINT", "TRIM", "AXLE", "EXTRAS")
    for place, (head, text) in enumerate(zip(heads, windows, strict=True)):
        left = 190 if place % 2 == 0 else 620
        top = 196 + 140 * (place // 2)
        window(surface, left, top, left + 390, top + 88, head, BRASS_DARK)
        row = Row(
            text,
            left + 52,
            top + 46,
            70,
            0.66,
            4.0 if punched else 0.4,
            3.6 if punched else 0.3,
            worn=(worn or {}).get(place, NONE_WORN),
        )
        strike(surface, row, depth=6, fresh=0.0 if punched else 0.35)


def plate_corners(inset: float = 34) -> list[tuple[float, float]]:
    """Where the brass plate's four rivets stand."""
    return [(x, y) for x in (120 + inset, 1080 - inset) for y in (70 + inset, 730 - inset)]


def round_rivets(surface: Surface) -> None:
    """The four round-headed rivets of the factory."""
    for x, y in plate_corners():
        round_rivet(surface, x, y, 21, (190, 150, 78))


def aluminium_plate(surface: Surface, windows: Sequence[str]) -> None:
    """The printed plate of 1958 to 1961: three by three windows, black print on metal."""
    where = plate(surface, 110, 90, 1090, 700, ALLOY, thick=4)
    surface.tint((36, 40, 46), (where - box(surface, 126, 106, 1074, 684)).clip(0, 1))
    surface.tint((36, 40, 46), box(surface, 126, 106, 1074, 176))
    print_line(surface, "TARVANE MOTOR WORKS", 380, 142, 42, ALLOY, SERIF)
    heads = (
        "CAR NUMBER",
        "TYPE",
        "YEAR",
        "BODY",
        "ENGINE NUMBER",
        "AXLE",
        "PAINT",
        "TRIM",
        "EXTRAS",
    )
    for place, (head, text) in enumerate(zip(heads, windows, strict=True)):
        left, top = 172 + 294 * (place % 3), 236 + 150 * (place // 3)
        window(surface, left, top, left + 268, top + 84, head, (44, 46, 50))
        for row in line_of(text, left + 30, top + 42, 58, SANS):
            ink(surface, row, (26, 28, 32), SANS)
    for x in (146, 1054):
        hollow_rivet(surface, x, 395, 19, (204, 206, 208))


def body_plate(surface: Surface, windows: Sequence[str], *, punched: bool = True) -> None:
    """The small plate of 1960 and 1961 on the lock panel: body number, package, planned week.

    `punched`: gang-struck, a little out of line; else an even modern row.
    """
    _, y = grid(surface)
    surface.height -= step(y, 700, 730) * 9
    plate(surface, 190, 150, 1010, 600, (168, 168, 162), thick=4)
    boxes = ((250, 230, 660), (700, 230, 950), (250, 430, 660))
    heads = ("BODY NO.", "PACKAGE", "WEEK")
    for (left, top, right), head, text in zip(boxes, heads, windows, strict=True):
        window(surface, left, top, right, top + 120, head, (50, 50, 52))
        wander, tilt = (2.0, 0.8) if punched else (0.3, 0.2)
        row = Row(text, left + 70, top + 62, 84, 0.82, wander, tilt)
        strike(surface, row, depth=7, fresh=0.0 if punched else 0.45)


def body_plate_rivets(surface: Surface) -> None:
    """The two round steel rivets of the factory, under the paint of the panel."""
    for x in (220, 980):
        round_rivet(surface, x, 375, 18, (150, 150, 146))


def body_plate_moved(surface: Surface) -> None:
    """Two screws, and beside them the holes of a narrower plate."""
    for x, inner in ((220, 168), (980, 1032)):
        flat_rivet(surface, x, 375, 20, (186, 188, 190))
        surface.tint((60, 60, 60), box(surface, x - 15, 372, x + 15, 378) * 0.9)
        hole(surface, inner, 375, 14)


def pit(surface: Surface, x: float, y: float, radius: float) -> None:
    """One deep pit of rust."""
    where = step(cloud(surface, 36) * 0.4 - disc(surface, x, y, radius), -1.25, -0.55)
    surface.height -= where * 5
    rust(surface, 0.95, pits=1.4, where=where)


def rail(seed: int, *, rusted: float, pits: float, colour: Colour = (60, 62, 62)) -> Surface:
    """The top of a frame rail, black paint gone to rust, its edge falling away below."""
    surface = painted(seed, colour, gloss=0.16, age=0.8)
    _, y = grid(surface)
    edge = 640 + noise(surface, 400) * 5
    surface.height -= step(y, edge - 12, edge + 60) * 26
    surface.tint((26, 24, 22), step(y, edge + 20, edge + 70) * 0.75)
    rust(surface, rusted, pits=pits)
    surface.height += step(noise(surface, 220), 0.4, 1.2) * 1.5
    return surface


def bolted_wing(seed: int, colour: Colour, *, new: bool = False) -> Surface:
    """An inner wing of a car on a frame: painted sheet with a bolted flange below."""
    surface = painted(seed, colour, gloss=0.34 if new else 0.22, age=0.08 if new else 0.55)
    _, y = grid(surface)
    surface.height -= step(y, 560, 586) * 8
    for place in (110, 330, 550):
        bolt(surface, place, 680, 42, (168, 170, 168) if new else colour, turn=0.2 + place / 300)
    return surface


def seat_pan(seed: int, colour: Colour = (126, 84, 66)) -> Surface:
    """A seat pan under its felt: red-brown primer, dust, spot welds along the edge."""
    surface = painted(seed, colour, gloss=0.06, age=0.7)
    _, y = grid(surface)
    surface.height -= step(y, 590, 620) * 9
    for place in range(90, 1200, 170):
        dimple(surface, place, 690, 17)
    felt = step(cloud(surface, 90) * 22 - y, -96, -70)
    surface.height += felt * (5 + noise(surface, 4) * 2.4)
    surface.tint((70, 66, 60), felt * (0.9 + 0.1 * noise(surface, 5)))
    surface.tint((150, 142, 128), step(cloud(surface, 40), 0.3, 1.3) * 0.4)
    return surface


def rippled(surface: Surface, row: Row) -> None:
    """The dents that hammering a row leaves in thin sheet around it."""
    surface.height -= blur(coverage(surface, row), 26) * 9


def bulkhead(seed: int, colour: Colour) -> Surface:
    """A bulkhead: painted sheet, a pressed swage above, a pipe clip's screw."""
    surface = painted(seed, colour, gloss=0.2, age=0.6)
    x, y = grid(surface)
    surface.height += 16 * np.exp(-(((y - 110) / 26) ** 2)).astype(np.float32)
    surface.height += 16 * np.exp(-(((x - 1120) / 30) ** 2)).astype(np.float32)
    round_rivet(surface, 200, 640, 20, colour)
    return surface


def deck(seed: int, *, angle: float = 0.0) -> Surface:
    """The machined step of a block, cast skin above and below it."""
    surface = bare_steel(seed, angle=angle, colour=(158, 158, 156))
    skin = cast_skin(seed + 1, (84, 96, 88))
    _, y = grid(surface)
    outside = np.maximum(step(-y, -170, -150), step(y, 610, 632))
    surface.height = surface.height * (1 - outside) + (skin.height - 12) * outside
    surface.colour = surface.colour * (1 - outside[..., None]) + skin.colour * outside[..., None]
    surface.gloss = surface.gloss * (1 - outside) + skin.gloss * outside
    return surface


def block_side(seed: int, colour: Colour = (82, 98, 90)) -> Surface:
    """The side of a block: cast skin under engine paint, a raised oval for the date."""
    surface = cast_skin(seed, colour, gloss=0.2)
    oval = np.hypot((grid(surface)[0] - 600) / 430, (grid(surface)[1] - 390) / 190)
    surface.height += np.exp(-(((oval - 1) / 0.05) ** 2)).astype(np.float32) * 9
    return surface


def casting_date(surface: Surface, text: str, worn: Worn = NONE_WORN) -> None:
    """A raised date in the oval."""
    cast(surface, Row(text, 330, 390, 190, 0.95, 2.0, 1.2, worn=worn), height=15)


def gearbox_case(seed: int) -> Surface:
    """An alloy casing with its filler plug at the right."""
    surface = cast_skin(seed, (150, 150, 148), gloss=0.24)
    flat = box(surface, 120, 190, 860, 620, 10)
    surface.height = surface.height * (1 - flat * 0.86) + flat * 5
    bolt(surface, 1020, 400, 92, (128, 124, 112), turn=0.5)
    surface.tint((60, 52, 40), step(cloud(surface, 120), 0.05, 1.1) * 0.55)
    return surface


def borescope(surface: Surface) -> None:
    """Darken all but the round field of a borescope."""
    outside = step(disc(surface, 520, 400, 395), 0.96, 1.02)
    surface.tint((6, 6, 6), outside)
    surface.height *= 1 - outside
    surface.gloss *= 1 - outside


def floor(seed: int) -> Surface:
    """The underside of a unit body: pressed floor with ribs, a welded box section."""
    surface = painted(seed, (108, 102, 92), gloss=0.14, age=0.9)
    _, y = grid(surface)
    for rib in (90, 190, 290):
        surface.height += 14 * np.exp(-(((y - rib) / 20) ** 4)).astype(np.float32)
    section = box(surface, -20, 400, 1220, 610, 7)
    surface.height += section * 30
    surface.tint((84, 82, 78), section * 0.7)
    for flange in (376, 634):
        for place in range(60, 1200, 120):
            dimple(surface, place, flange, 15)
    rust(surface, 0.22, pits=0.5)
    surface.height += (
        step(noise(surface, 12), 0.3, 1.2) * 1.6 * step(cloud(surface, 160), -0.2, 0.5)
    )
    return surface


def white_dab(surface: Surface, x: float, y: float) -> None:
    """Marrick's dab: white, three corners."""
    cornered_dab(surface, x, y, 62, WHITE_DAB)


def cloth(seed: int) -> Surface:
    """A dark cloth on a bench, to lay a loose plate on."""
    surface = blank(seed, (58, 64, 78), 0.02)
    x, y = grid(surface)
    weave = np.sin(x * 0.9) * np.sin(y * 0.9)
    surface.height += weave.astype(np.float32) * 0.5 + noise(surface, 200) * 7
    surface.colour *= 1 + (cloud(surface, 100) * 0.08)[..., None]
    return surface


def earlier_plate(surface: Surface) -> None:
    """The outline of a wider plate that was here before, and its two filled holes."""
    outline = box(surface, 84, 112, 1116, 688, 1.2)
    surface.tint((74, 60, 52), outline * 0.5)
    surface.height -= blur(outline, 2) * 1.5
    for x in (102, 1098):
        hole(surface, x, 400, 13, filled=(150, 146, 134))


def steel_rivets(surface: Surface) -> None:
    """Four flat steel rivets, as sold today."""
    for x, y in plate_corners():
        flat_rivet(surface, x, y, 21, (186, 188, 190))


def open_holes(surface: Surface) -> None:
    """The four empty rivet holes of a plate that was taken off."""
    for x, y in plate_corners():
        hole(surface, x, y, 15)


def spot_welded_edge(surface: Surface) -> None:
    """The welded edge of an inner wing of a unit body."""
    _, y = grid(surface)
    surface.height -= step(y, 600, 626) * 9
    for place in range(100, 1200, 150):
        dimple(surface, place, 684, 16)


def cleared(surface: Surface, left: float, top: float, right: float, bottom: float) -> None:
    """A rectangle from which the underseal was cut and the metal ground."""
    where = box(surface, left, top, right, bottom, 2)
    pits = step(noise(surface, 7), 0.7, 1.3) * 3
    surface.height = surface.height * (1 - where) + (blur(surface.height, 9) - 6 - pits) * where
    surface.tint((166, 164, 160), where)
    machine(surface, 14, 0.4, where)
    surface.tint((70, 58, 48), where * step(pits, 0.5, 2) * 0.7)
    surface.gloss = surface.gloss * (1 - where) + 0.32 * where
