"""A piece of the car as a relief: height, colour and gloss of every pixel.

Everything that is drawn changes these three fields; `light.photograph` then looks
at them in raking light, so that a struck figure and a rivet throw shadows alike.
"""

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray
from PIL import Image

Field = NDArray[np.floating[Any]]
Colour = tuple[int, int, int]

WIDTH = 1200
HEIGHT = 800


@dataclass
class Surface:
    """`height` in pixels, `colour` from 0 to 1 in three channels, `gloss` from 0 to 1."""

    height: Field
    colour: Field
    gloss: Field
    random: np.random.Generator

    def shape(self) -> tuple[int, int]:
        """Rows and columns of pixels."""
        rows, columns = self.height.shape
        return rows, columns

    def tint(self, colour: Colour, where: Field) -> None:
        """Lay a colour over the surface with the coverage `where` (0 to 1)."""
        cover = where[..., None]
        self.colour = self.colour * (1 - cover) + rgb(colour) * cover


def rgb(colour: Colour) -> Field:
    """A colour of 0 to 255 as 0 to 1."""
    return np.asarray(colour, dtype=np.float32) / 255


def blank(seed: int, colour: Colour, gloss: float) -> Surface:
    """A flat surface of one colour."""
    flat = np.zeros((HEIGHT, WIDTH), dtype=np.float32)
    return Surface(
        flat.copy(),
        np.broadcast_to(rgb(colour), (HEIGHT, WIDTH, 3)).copy(),
        flat + np.float32(gloss),
        np.random.default_rng(seed),
    )


def grid(surface: Surface) -> tuple[Field, Field]:
    """Coordinates x and y of every pixel."""
    rows, columns = surface.shape()
    y, x = np.mgrid[0:rows, 0:columns]
    return x.astype(np.float32), y.astype(np.float32)


def noise(surface: Surface, cell_x: float, cell_y: float | None = None) -> Field:
    """Smooth noise of about -1 to 1 with grains of the given size in pixels."""
    rows, columns = surface.shape()
    cell_y = cell_x if cell_y is None else cell_y
    shape = (max(2, round(rows / cell_y)), max(2, round(columns / cell_x)))
    coarse = surface.random.standard_normal(shape).astype(np.float32) / 1.6
    picture = Image.fromarray(coarse).resize((columns, rows), Image.Resampling.BICUBIC)
    return np.asarray(picture, dtype=np.float32)


def cloud(surface: Surface, cell: float) -> Field:
    """Noise of several sizes at once, about -1 to 1."""
    found: Field = noise(surface, cell) * 0.55
    for part, weight in ((2.3, 0.3), (5.1, 0.2)):
        found = found + noise(surface, cell / part) * weight
    return found


def blur(field: Field, radius: float) -> Field:
    """The field with its edges softened: three passes of a running mean each way."""
    reach = max(1, round(radius))
    for _ in range(3):
        for axis in (0, 1):
            field = _running_mean(field, reach, axis)
    return field


def _running_mean(field: Field, reach: int, axis: int) -> Field:
    """The mean over `reach` pixels to either side; the edges are repeated."""
    wide = [(0, 0), (0, 0)]
    wide[axis] = (reach + 1, reach)
    total = np.cumsum(np.pad(field, wide, mode="edge"), axis=axis, dtype=np.float64)
    count = 2 * reach + 1
    upper = np.take(total, range(count, total.shape[axis]), axis=axis)
    lower = np.take(total, range(total.shape[axis] - count), axis=axis)
    return ((upper - lower) / count).astype(np.float32)


def step(field: Field, low: float | Field, high: float | Field) -> Field:
    """0 below `low`, 1 above `high`, smooth between."""
    t: Field = np.clip((field - low) / (high - low), 0, 1)
    return t * t * (3 - 2 * t)


def painted(seed: int, colour: Colour, *, gloss: float = 0.25, age: float = 0.3) -> Surface:
    """Painted sheet: a little orange peel, dulled and dirtied with `age` (0 to 1)."""
    surface = blank(seed, colour, gloss)
    surface.height += noise(surface, 16) * 0.16 + noise(surface, 260) * 5
    surface.colour *= 1 + (cloud(surface, 190) * 0.14 * age)[..., None]
    surface.tint((70, 60, 48), step(cloud(surface, 120), 0.2, 1.4) * 0.45 * age)
    surface.gloss *= 1 - 0.5 * age * step(cloud(surface, 90), -0.3, 0.6)
    return surface


def bare_steel(seed: int, *, angle: float = 0.0, colour: Colour = (150, 151, 152)) -> Surface:
    """Machined steel or iron: fine parallel tool lines at `angle` degrees."""
    surface = blank(seed, colour, 0.34)
    machine(surface, angle, 0.26, np.ones(surface.shape(), dtype=np.float32))
    surface.tint((96, 84, 70), step(cloud(surface, 150), 0.1, 1.3) * 0.5)
    return surface


def machine(surface: Surface, angle: float, depth: float, where: Field) -> None:
    """Cut parallel tool lines into part of the surface."""
    x, y = grid(surface)
    turn = np.deg2rad(angle)
    across = x * np.sin(turn) + y * np.cos(turn)
    along = x * np.cos(turn) - y * np.sin(turn)
    lines = surface.random.standard_normal(4096).astype(np.float32)
    lines = np.convolve(lines, np.ones(3) / 3, "same").astype(np.float32)
    place = (across + 1200 + np.sin(along / 240) * 0.6) * 0.8
    low = np.floor(place).astype(int) % 4096
    part = place - np.floor(place)
    cut = (lines[low] * (1 - part) + lines[(low + 1) % 4096] * part).astype(np.float32)
    surface.height += cut * depth * where
    surface.colour *= 1 + (cut * 0.05 * where)[..., None]


def cast_skin(seed: int, colour: Colour = (92, 94, 96), *, gloss: float = 0.14) -> Surface:
    """Rough cast iron or alloy."""
    surface = blank(seed, colour, gloss)
    surface.height += noise(surface, 5) * 0.75 + noise(surface, 14) * 1.0 + noise(surface, 70) * 1.6
    surface.colour *= 1 + (cloud(surface, 60) * 0.14)[..., None]
    surface.tint((58, 46, 34), step(cloud(surface, 130), 0.15, 1.1) * 0.5)
    return surface


def rust(surface: Surface, amount: float, *, pits: float = 1.0, where: Field | None = None) -> None:
    """Let rust grow over part of the surface, `amount` from 0 to 1."""
    cover = step(cloud(surface, 110), 1.1 - 2.2 * amount, 1.7 - 2.2 * amount)
    if where is not None:
        cover = cover * where
    tones = cloud(surface, 26)
    surface.tint((112, 66, 36), cover * 0.85)
    surface.tint((66, 38, 26), cover * step(tones, 0.0, 0.7) * 0.8)
    surface.tint((158, 98, 52), cover * step(-tones, 0.25, 0.9) * 0.6)
    holes = step(noise(surface, 8), 0.35, 1.0) * 2.4 + step(noise(surface, 17), 0.45, 1.1) * 4
    surface.height += cover * (noise(surface, 4) * 0.7 - holes * pits)
    surface.gloss *= 1 - 0.85 * cover
