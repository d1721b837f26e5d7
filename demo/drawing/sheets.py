"""Papers: ledger page, build card, invoice, photocopy; printed lines and a pen's writing."""

import numpy as np
from PIL import Image, ImageDraw

from drawing.characters import SERIF, SLANTED, Row, font, print_line
from drawing.fittings import box, disc
from drawing.surface import Colour, Surface, blank, blur, cloud, grid, noise, step

BROWN_INK = (58, 44, 40)
BLUE_INK = (38, 52, 108)
PRINT = (70, 60, 50)


def paper(seed: int, colour: Colour, *, age: float = 0.5) -> Surface:
    """A sheet that fills the picture, its fibres and stains."""
    surface = blank(seed, colour, 0.0)
    surface.height += noise(surface, 5) * 0.08 + noise(surface, 320) * 7
    surface.colour *= (
        1 + (noise(surface, 7, 3) * 0.012 + cloud(surface, 240) * 0.05 * age)[..., None]
    )
    surface.tint((150, 116, 70), step(cloud(surface, 200), 0.2, 1.5) * 0.5 * age)
    return surface


def fold(surface: Surface, at: float, *, upright: bool = True) -> None:
    """An old fold across the sheet."""
    x, y = grid(surface)
    away = (x if upright else y) - at + noise(surface, 90) * 1.2
    surface.height += 7 * np.exp(-np.abs(away) / 9).astype(np.float32)
    surface.tint((120, 100, 76), np.exp(-((away / 2.2) ** 2)).astype(np.float32) * 0.5)


def oil(surface: Surface, x: float, y: float, radius: float) -> None:
    """A stain of oil with a darker rim."""
    away = disc(surface, x, y, radius) + cloud(surface, 70) * 0.18
    surface.tint((112, 84, 48), step(-away, -1.05, -0.8) * 0.34)
    surface.tint((92, 66, 36), np.exp(-(((away - 0.95) / 0.06) ** 2)).astype(np.float32) * 0.3)


def rule(
    surface: Surface, x0: float, y0: float, x1: float, y1: float, colour: Colour, wide: int = 2
) -> None:
    """A printed line."""
    rows, columns = surface.shape()
    picture = Image.new("L", (columns, rows), 0)
    ImageDraw.Draw(picture).line((x0, y0, x1, y1), fill=200, width=wide)
    surface.tint(colour, np.asarray(picture, dtype=np.float32) / 255)


def printed(
    surface: Surface, text: str, x: float, y: float, size: int, colour: Colour = PRINT
) -> None:
    """A printed heading."""
    print_line(surface, text, x, y, size, colour, SERIF)


def write(
    surface: Surface, text: str, x: float, y: float, size: int, colour: Colour = BLUE_INK
) -> None:
    """A line in a clerk's hand: sloping, uneven in height and in the ink."""
    rows, columns = surface.shape()
    total = Image.new("L", (columns, rows), 0)
    shape = font(SLANTED, size)
    for character in text:
        row = Row(character, x, y + surface.random.normal(0, 2.0), size)
        _pen(total, row, surface.random.normal(0, 3.0))
        x += shape.getlength(character) * 1.06 + surface.random.normal(0, 1.2)
    strokes = blur(np.asarray(total, dtype=np.float32) / 255, 1)
    surface.tint(colour, np.clip(strokes * (1.05 + 0.35 * noise(surface, 30)), 0, 0.95))


def _pen(total: Image.Image, row: Row, turn: float) -> None:
    """One written character, sheared and turned a little."""
    side = row.size * 2
    patch = Image.new("L", (side, side), 0)
    ImageDraw.Draw(patch).text(
        (row.size * 0.6, row.size), row.text, fill=255, font=font(SLANTED, row.size), anchor="lm"
    )
    slope = (1, 0.18, -0.18 * row.size, 0, 1, 0)
    patch = patch.transform((side, side), Image.Transform.AFFINE, slope, Image.Resampling.BICUBIC)
    patch = patch.rotate(turn, Image.Resampling.BICUBIC)
    total.paste(255, (round(row.x - row.size * 0.6), round(row.y - row.size)), patch)


def photocopied(surface: Surface, *, foot: float) -> None:
    """Turn a sheet into its photocopy: hard grey tones, specks, black where it ends at `foot`."""
    grey = surface.colour.mean(axis=2)
    copied = step(grey, 0.42, 0.78) * 0.86 + 0.06
    specks = step(noise(surface, 3), 1.25, 1.5) * 0.6
    edge = 1 - box(surface, 26, 18, 1186, foot, 9)
    copied = np.clip(copied - specks - edge * 0.75, 0.05, 1)
    surface.colour = np.repeat(copied[..., None], 3, axis=2).astype(np.float32)
    surface.height *= 0.15
