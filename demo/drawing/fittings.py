"""What stands beside a mark: plates, rivets, bolts, welds, ground places, paint dabs."""

import numpy as np
from PIL import Image, ImageDraw

from drawing.characters import SANS, print_line
from drawing.surface import Colour, Field, Surface, blur, cloud, grid, machine, noise, step


def disc(surface: Surface, x: float, y: float, radius: float) -> Field:
    """Distance from a middle in parts of the radius: below 1 inside."""
    u, v = grid(surface)
    away: Field = np.hypot(u - x, v - y) / np.float32(radius)
    return away


def polygon(surface: Surface, points: list[tuple[float, float]], soft: float = 1.0) -> Field:
    """Coverage of a polygon, 0 to 1, with a soft edge."""
    rows, columns = surface.shape()
    picture = Image.new("L", (columns, rows), 0)
    ImageDraw.Draw(picture).polygon(points, fill=255)
    return blur(np.asarray(picture, dtype=np.float32) / 255, soft)


def box(
    surface: Surface, left: float, top: float, right: float, bottom: float, soft: float = 1.0
) -> Field:
    """Coverage of an upright rectangle."""
    return polygon(surface, [(left, top), (right, top), (right, bottom), (left, bottom)], soft)


def round_rivet(surface: Surface, x: float, y: float, radius: float, colour: Colour) -> None:
    """A round-headed rivet: a dome with a fine shadow at its foot."""
    away = disc(surface, x, y, radius)
    inside = step(-away, -1.06, -0.96)
    surface.height += np.sqrt(np.clip(1 - away**2, 0, 1)) * radius * 0.62
    surface.tint((40, 34, 26), step(-away, -1.25, -0.98) * (1 - inside) * 0.6)
    surface.tint(colour, inside)
    surface.gloss = surface.gloss * (1 - inside) + 0.42 * inside


def flat_rivet(surface: Surface, x: float, y: float, radius: float, colour: Colour) -> None:
    """A flat-headed rivet with tool marks, as sold today."""
    away = disc(surface, x, y, radius)
    inside = step(-away, -1.03, -0.93)
    surface.height += inside * 9 + step(-away, -0.32, -0.2) * -4
    surface.tint(colour, inside)
    surface.gloss = surface.gloss * (1 - inside) + 0.5 * inside


def hollow_rivet(surface: Surface, x: float, y: float, radius: float, colour: Colour) -> None:
    """A hollow rivet: a rolled ring round a dark hole."""
    away = disc(surface, x, y, radius)
    ring = np.exp(-(((away - 0.7) / 0.22) ** 2))
    surface.height += ring * radius * 0.42
    inside = step(-away, -1.0, -0.9)
    surface.tint(colour, inside)
    hole = step(-away, -0.48, -0.4)
    surface.tint((22, 20, 18), hole)
    surface.height -= hole * 10


def hole(
    surface: Surface, x: float, y: float, radius: float, *, filled: Colour | None = None
) -> None:
    """A drilled hole, open or filled with something of another colour."""
    away = disc(surface, x, y, radius)
    inside = step(-away, -1.02, -0.9)
    if filled is None:
        surface.tint((16, 15, 14), inside)
        surface.height -= inside * 8
    else:
        surface.height -= inside * 2.2
        surface.tint(filled, inside * 0.9)
    surface.gloss *= 1 - 0.8 * inside


def bolt(
    surface: Surface, x: float, y: float, radius: float, colour: Colour, turn: float = 0.3
) -> None:
    """A hexagon bolt on its washer."""
    washer = step(-disc(surface, x, y, radius * 1.42), -1.03, -0.96)
    surface.height += washer * 4
    surface.tint(colour, washer * 0.96)
    corners = [
        (x + radius * np.cos(turn + k * np.pi / 3), y + radius * np.sin(turn + k * np.pi / 3))
        for k in range(6)
    ]
    head = polygon(surface, corners, 1.6)
    surface.height += head * 15 + step(-disc(surface, x, y, radius * 0.74), -1.0, -0.8) * 2
    surface.tint(colour, head)


def dimple(surface: Surface, x: float, y: float, radius: float = 15) -> None:
    """The shallow print of a factory spot weld."""
    away = disc(surface, x, y, radius)
    surface.height -= np.exp(-((away * 1.15) ** 4)) * 4.5
    surface.height += np.exp(-(((away - 1.1) / 0.2) ** 2)) * 1.2


def ground_oval(
    surface: Surface, x: float, y: float, wide: float, high: float, metal: Colour = (172, 172, 170)
) -> None:
    """A place that was ground bare: lower, bright, full of short curved scratches."""
    u, v = grid(surface)
    away = np.hypot((u - x) / wide, (v - y) / high) + cloud(surface, 60) * 0.07
    inside = step(-away, -1.05, -0.9)
    smooth = blur(surface.height, 7)
    surface.height = surface.height * (1 - inside) + smooth * inside - step(-away, -1.05, -0.6) * 5
    for turn in (12.0, 58.0, -31.0):
        machine(surface, turn, 0.5, inside * step(cloud(surface, 150), -0.25, 0.35))
    surface.tint((120, 82, 60), step(-away, -1.16, -1.02) * (1 - inside) * 0.8)
    surface.tint(metal, inside)
    surface.gloss = surface.gloss * (1 - inside) + 0.36 * inside


def round_dab(surface: Surface, x: float, y: float, radius: float, colour: Colour) -> None:
    """An inspector's dab of the brush, round."""
    away = disc(surface, x, y, radius) + cloud(surface, 30) * 0.1
    _dab(surface, step(-away, -1.02, -0.94), colour)


def cornered_dab(surface: Surface, x: float, y: float, radius: float, colour: Colour) -> None:
    """An inspector's dab with three corners."""
    corners = [
        (x, y - radius),
        (x + radius * 0.95, y + radius * 0.72),
        (x - radius * 0.9, y + radius * 0.8),
    ]
    shape = polygon(surface, corners, 5) + cloud(surface, 24) * 0.13
    _dab(surface, step(shape, 0.42, 0.56), colour)


def _dab(surface: Surface, where: Field, colour: Colour) -> None:
    surface.tint(colour, where * (0.94 - 0.2 * step(noise(surface, 5, 44), 0.2, 1.2)))
    surface.height += where * 1.6 + blur(where, 4) * noise(surface, 4, 60) * 0.8
    surface.gloss = surface.gloss * (1 - where) + 0.2 * where


def plate(
    surface: Surface,
    left: float,
    top: float,
    right: float,
    bottom: float,
    metal: Colour,
    *,
    thick: float = 6,
) -> Field:
    """A plate laid on the surface, its sheet smooth and a little dull; gives its coverage."""
    where = box(surface, left, top, right, bottom, 1.4)
    surface.height = surface.height * (1 - where) + where * (thick + noise(surface, 260) * 1.4)
    surface.tint((24, 22, 20), blur(where, 8) * (1 - where) * 0.55)
    surface.tint(metal, where)
    surface.height += where * noise(surface, 120, 3) * 0.16
    surface.colour *= 1 + (cloud(surface, 130) * 0.1 * where)[..., None]
    surface.gloss = surface.gloss * (1 - where) + 0.3 * where
    return where


def window(
    surface: Surface,
    left: float,
    top: float,
    right: float,
    bottom: float,
    heading: str,
    dark: Colour,
) -> None:
    """A window of a plate: a rolled frame round bare metal, its heading above."""
    outer, inner = (
        box(surface, left, top, right, bottom, 1.2),
        box(surface, left + 5, top + 5, right - 5, bottom - 5, 1.2),
    )
    edge = np.clip(outer - inner, 0, 1)
    surface.height += edge * 3
    surface.tint(dark, edge * 0.55)
    print_line(surface, heading, left + 4, top - 15, 21, dark, SANS)
