"""The whole car, open or closed: a body of no real model, lit from above and seen from anywhere.

Lengths are metres: x from the nose back, y from the middle to the right, z up from the ground.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from itertools import pairwise

import numpy as np
from PIL import Image, ImageDraw

from drawing.light import developed
from drawing.surface import HEIGHT, WIDTH, Colour, Field, blank, blur, cloud, noise

LENGTH = 4.1
AXLES = (0.82, 3.22)
WHEEL, ARCH, TRACK = 0.31, 0.36, 0.69
LAMP = np.asarray((-0.37, -0.42, 0.83))
FINE = 2
"""Drawn this many times larger, then made smaller."""
GLASS: Colour = (46, 56, 62)
CHROME: Colour = (190, 192, 192)
BLACK: Colour = (24, 24, 25)
RUBBER: Colour = (38, 37, 36)
LEATHER: Colour = (98, 66, 48)

BELT = ((0, 0.62), (0.1, 0.74), (0.5, 0.86), (1.5, 0.93), (2.9, 0.92), (3.7, 0.82), (4.1, 0.6))
FLANK = ((0, 0.5), (0.15, 0.66), (0.6, 0.77), (1.5, 0.8), (2.9, 0.79), (3.7, 0.7), (4.1, 0.5))
SILL = ((0, 0.36), (0.4, 0.24), (3.6, 0.24), (4.1, 0.4))


@dataclass(frozen=True)
class Eye:
    """Where the camera stands, how far round the car from its nose (degrees, to the car's left),
    how high, how far off, and how long its lens is."""

    turn: float
    up: float = 1.45
    away: float = 9.0
    lens: float = 2400.0


FROM_THE_CORNER = Eye(38, lens=2100)
FROM_THE_SIDE = Eye(90, up=1.2, away=12, lens=3000)


@dataclass(frozen=True)
class Shape:
    """The kind of body: its roof and windows, or none."""

    roof: float
    screen: tuple[float, float]
    back: tuple[float, float]
    panes: tuple[tuple[float, float], ...]


SPRINT = Shape(1.24, (1.5, 1.98), (2.5, 3.5), ((1.86, 2.5), (2.56, 2.98)))
SALOON = Shape(1.4, (1.42, 1.8), (3.0, 3.55), ((1.72, 2.28), (2.36, 2.9)))

Draw = Callable[[], bytes]
Faces = list[tuple[Field, Colour, float]]
"""Corners of each face, its colour and its gloss."""


def whole_car(seed: int, paint: Colour, eye: Eye, shape: Shape | None, floor: Colour) -> bytes:
    """The photograph; without a `shape` the car is open, its hood folded."""
    faces = [*_body(paint, shape is None), *_bumper(LENGTH + 0.02, 1), *_wheels(1)]
    faces += _cabin(shape, paint) if shape else _cockpit()
    nearest = _wheels(-1)
    (nearest if eye is FROM_THE_CORNER else faces).extend(_front())
    picture = Image.fromarray(_ground(seed, eye, floor)).resize((WIDTH * FINE, HEIGHT * FINE))
    draw = ImageDraw.Draw(picture)
    for points, colour in (*_seen(faces, eye), *_seen(nearest, eye)):
        draw.polygon(points, fill=colour)
    return developed(picture.resize((WIDTH, HEIGHT), Image.Resampling.LANCZOS), seed)


def both_views(seed: int, paint: Colour, shape: Shape | None, floor: Colour) -> dict[str, Draw]:
    """The two photographs of a whole car, by the ids of their exhibits."""
    return {
        "corner": partial(whole_car, seed, paint, FROM_THE_CORNER, shape, floor),
        "side": partial(whole_car, seed + 1, paint, FROM_THE_SIDE, shape, floor),
    }


def _curve(points: tuple[tuple[float, float], ...]) -> Callable[[Field], Field]:
    x, y = np.asarray(points).T
    fine = np.linspace(x[0], x[-1], 400)
    line = np.interp(fine, x, y)
    wide = np.pad(line, 20, mode="edge")
    smooth = np.convolve(wide, np.ones(41) / 41, "valid")
    return lambda at: np.interp(at, fine, smooth)


def _loft(x: Field, sides: Field) -> Field:
    """Quadrilaterals between rings: `sides` holds y and z of every corner of each ring."""
    ring = np.concatenate([np.broadcast_to(x[:, None, None], (*sides.shape[:2], 1)), sides], axis=2)
    ahead, behind = ring[:-1], ring[1:]
    near, far = (slice(None), slice(None, -1)), (slice(None), slice(1, None))
    return np.stack([ahead[near], ahead[far], behind[far], behind[near]], axis=2)


def _rounded(
    wide: Field, low: Field, high: Field, n: float, corners: int, lean: float = 0.0
) -> Field:
    """Rings from one sill over the top to the other, narrower by `lean` above."""
    t = np.linspace(0, np.pi, corners)
    across, up = np.sign(np.cos(t)) * np.abs(np.cos(t)) ** (2 / n), np.sin(t) ** (2 / n)
    y = wide[:, None] * across * (1 - lean * up)
    return np.stack([y, low[:, None] + (high - low)[:, None] * up], axis=2)


def _body(paint: Colour, is_open: bool) -> Faces:
    x = np.linspace(0, LENGTH, 300)
    sides = _rounded(_curve(FLANK)(x), _curve(SILL)(x), _curve(BELT)(x), 4.5, 90)
    faces: Faces = []
    for quad in _loft(x, sides).reshape(-1, 4, 3):
        at, across, up = quad.mean(axis=0)
        is_arch = abs(across) > 0.45 and any(np.hypot(at - a, up - WHEEL) < ARCH for a in AXLES)
        is_door = abs(across) > 0.6 and 0.34 < up < 0.9
        is_line = is_door and min(abs(at - 1.56), abs(at - 2.52)) < 0.008
        is_strip = abs(across) > 0.6 and abs(up - 0.6) < 0.009 and 0.5 < at < 3.6
        is_inside = is_open and 1.7 < at < 2.75 and abs(across) < 0.62
        is_dark = is_line or is_inside or is_arch
        colour = BLACK if is_dark else CHROME if is_strip else paint
        faces.append((quad, colour, 0.0 if is_dark else 0.5))
    for end in (0, -1):
        ring = np.column_stack([np.full(len(sides[end]), x[end]), sides[end]])
        faces.append((ring, paint, 0.2))
    return faces


def _cabin(shape: Shape, paint: Colour) -> Faces:
    (foot, top), (leave, end) = shape.screen, shape.back
    x = np.linspace(foot, end, 160)
    belt = _curve(BELT)(x) - 0.03
    roof = np.interp(x, (foot, top, (top + leave) / 2, leave, end), (0.9, 0.965, 1, 0.97, 0.62))
    high = np.maximum(belt + 0.01, np.interp(x, (foot, top), (0, 1)) ** 0.8 * shape.roof * roof)
    wide = np.interp(x, (foot, top, leave, end), (0.7, 0.71, 0.7, 0.6))
    faces: Faces = []
    for quad in _loft(x, _rounded(wide, belt, high, 5, 90, lean=0.2)).reshape(-1, 4, 3):
        at, across, up = quad.mean(axis=0)
        share = (up - 0.9) / (shape.roof - 0.9)
        is_pane = 0.1 < share < 0.8 and abs(across) > 0.5
        is_pane = is_pane and any(a < at < b for a, b in shape.panes)
        is_screen = foot + 0.06 < at < top - 0.03 or leave + 0.06 < at < end - 0.14
        is_glass = is_pane or (is_screen and abs(across) < 0.53)
        faces.append((quad, GLASS if is_glass else paint, 0.7))
    return faces


def _cockpit() -> Faces:
    """Screen, two seats and the folded hood of an open car."""
    faces: Faces = []
    for inset, colour in ((0.0, CHROME), (0.03, GLASS)):
        wide, low, high = 0.62 - inset, 0.92 + inset, 1.2 - inset
        slope = 1.55 + np.asarray((low, low, high, high)) * 0.9 - 0.83 - 0.002 * (inset > 0)
        y = np.asarray((-wide, wide, wide - 0.07, 0.07 - wide))
        faces.append((np.column_stack([slope, y, (low, low, high, high)]), colour, 0.6))
    for middle in (-0.32, 0.32):
        x = np.linspace(2.42, 2.62, 20)
        ring = _rounded(np.full(20, 0.24), np.full(20, 0.7), 1.06 - (x - 2.42) * 0.2, 4, 24)
        ring[:, :, 0] += middle
        faces += [(quad, LEATHER, 0.1) for quad in _loft(x, ring).reshape(-1, 4, 3)]
    x = np.linspace(2.75, 3.2, 40)
    high = 0.93 + 0.13 * np.sqrt(np.clip(np.sin((x - 2.75) / 0.45 * np.pi), 0, 1))
    hood = _rounded(np.full(40, 0.66), np.full(40, 0.86), high, 3, 40)
    return faces + [(quad, (52, 50, 48), 0.05) for quad in _loft(x, hood).reshape(-1, 4, 3)]


def _disc(middle: tuple[float, float, float], radius: float, across: bool = True) -> Field:
    """A disc that looks to the side, or forward."""
    t = np.linspace(0, 2 * np.pi, 60)
    first, second = radius * np.cos(t), radius * np.sin(t)
    flat = (first, 0 * t, second) if across else (0 * t, first, second)
    return np.asarray(middle) + np.column_stack(flat)


def _wheels(side: int) -> Faces:
    faces: Faces = []
    for axle in AXLES:
        rings = ((0.0, WHEEL, RUBBER), (0.01, 0.2, CHROME))
        rings += ((0.02, 0.17, (120, 122, 122)), (0.03, 0.08, CHROME))
        for out, radius, colour in rings:
            faces.append((_disc((axle, side * (TRACK + out), WHEEL), radius), colour, 0.2))
        t = np.linspace(0, 2 * np.pi, 40)
        rim = np.column_stack([axle + WHEEL * np.cos(t), WHEEL + WHEEL * np.sin(t)])
        inner, outer = side * (TRACK - 0.17), side * TRACK
        for (a, b), (c, d) in pairwise(rim):
            quad = np.asarray(((a, inner, b), (a, outer, b), (c, outer, d), (c, inner, d)))
            faces.append((quad, RUBBER, 0.0))
    return faces


def _front() -> Faces:
    """Lamps, grille and bumper."""
    faces: Faces = []
    for y in (-0.41, 0.41):
        for x, radius, colour in ((-0.01, 0.115, CHROME), (-0.02, 0.095, (226, 226, 214))):
            faces.append((_disc((x, y, 0.66), radius, across=False), colour, 0.3))
    grille = ((0.0, -0.3, 0.46), (0.0, 0.3, 0.46), (0.0, 0.27, 0.62), (0.0, -0.27, 0.62))
    faces.append((np.asarray(grille), BLACK, 0.0))
    for at in np.linspace(-0.26, 0.26, 14):
        bar = [(-0.03, at + a, b) for a, b in ((-0.008, 0.47), (0.008, 0.47), (0.008, 0.61))]
        faces.append((np.asarray([*bar, (-0.03, at - 0.008, 0.61)]), CHROME, 0.4))
    return faces + _bumper(-0.06, -1)


def _bumper(x0: float, sign: int) -> Faces:
    """A bumper and, below it, a plate with nothing on it."""
    plate = [(x0, y, z) for y, z in ((-0.24, 0.24), (0.24, 0.24), (0.24, 0.34), (-0.24, 0.34))]
    faces: Faces = [(np.asarray(plate), BLACK, 0.1)]
    y = np.linspace(-0.7, 0.7, 40)
    x = x0 - sign * 0.16 * np.abs(y / 0.7) ** 3
    for (a, b), (c, d) in pairwise(zip(x, y, strict=True)):
        quad = np.asarray(((a, b, 0.36), (c, d, 0.36), (c, d, 0.45), (a, b, 0.45)))
        faces.append((quad, CHROME, 0.6))
    return faces


def _axes(eye: Eye) -> tuple[Field, Field, Field, Field]:
    """Where the camera is, and what is right, up and ahead for it."""
    turn, look_at = np.deg2rad(eye.turn), np.asarray((LENGTH / 2, 0, 0.62))
    stand = look_at + np.asarray(
        (-np.cos(turn) * eye.away, -np.sin(turn) * eye.away, eye.up - 0.62)
    )
    ahead = (look_at - stand) / np.linalg.norm(look_at - stand)
    right = np.cross(ahead, (0, 0, 1))
    right /= np.linalg.norm(right)
    return stand, right, np.cross(right, ahead), ahead


def _flat(points: Field, eye: Eye) -> tuple[Field, Field]:
    """Points in pixels of the fine picture, and how far off they are."""
    stand, right, above, ahead = _axes(eye)
    ray = points - stand
    far = ray @ ahead
    size = eye.lens * FINE / far
    x, y = ray @ right * size, ray @ above * size
    return np.stack([WIDTH * FINE / 2 + x, HEIGHT * FINE * 0.54 - y], axis=-1), far


def _seen(faces: Faces, eye: Eye) -> list[tuple[list[tuple[float, float]], tuple[int, ...]]]:
    """Faces in the light, the farthest first."""
    stand = _axes(eye)[0]
    drawn = []
    for corners, colour, gloss in faces:
        normal = np.cross(corners[2] - corners[0], corners[-1] - corners[1])
        size = np.linalg.norm(normal)
        if size < 1e-12:
            continue
        middle = corners.mean(axis=0)
        view = (stand - middle) / np.linalg.norm(stand - middle)
        normal = normal / size * (1 if normal @ view > 0 else -1)
        half = (LAMP + view) / np.linalg.norm(LAMP + view)
        light = 0.34 + 0.62 * max(normal @ LAMP, 0) + 0.16 * max(normal[2], 0)
        glance = 150 * gloss * max(normal @ half, 0) ** 40
        sky = 46 * gloss * (1 - abs(normal @ view)) ** 3
        shade = tuple(int(min(255, c * light + glance + sky)) for c in colour)
        points, far = _flat(corners, eye)
        drawn.append((float(far.mean()), [(float(a), float(b)) for a, b in points], shade))
    drawn.sort(key=lambda each: -each[0])
    return [(points, shade) for _, points, shade in drawn]


def _ground(seed: int, eye: Eye, floor: Colour) -> Field:
    """A wall, the floor before it, and the car's shadow on the floor."""
    surface = blank(seed, floor, 0)
    rows = np.arange(HEIGHT, dtype=np.float32)[:, None] / HEIGHT
    wall = np.clip((0.4 - rows) * 60, 0, 1)
    surface.tint((150, 148, 140), np.broadcast_to(wall, surface.shape()) * 0.75)
    surface.colour *= (0.8 + 0.3 * rows)[..., None] * (1 + 0.1 * cloud(surface, 170))[..., None]
    surface.colour *= (1 + 0.05 * noise(surface, 4))[..., None]
    t = np.linspace(0, 2 * np.pi, 80)
    foot = np.column_stack([2.05 + 2.12 * np.cos(t), 0.86 * np.sin(t), 0 * t])
    points = _flat(foot, eye)[0] / FINE
    mask = Image.new("L", (WIDTH, HEIGHT))
    ImageDraw.Draw(mask).polygon([(float(a), float(b)) for a, b in points], fill=255)
    shadow = blur(np.asarray(mask, dtype=np.float32) / 255, 9)
    lit = surface.colour * (1 - 0.75 * shadow)[..., None]
    ground: Field = (np.clip(lit, 0, 1) * 255).astype(np.uint8)
    return ground
