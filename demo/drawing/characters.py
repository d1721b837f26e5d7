"""Characters on a surface: struck one by one, cast, printed or painted."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
from PIL import Image, ImageDraw, ImageFont

from drawing.surface import Colour, Field, Surface, blur, noise, step

FONTS = Path(__file__).resolve().parents[2] / "src" / "witnessmark" / "report" / "fonts"
SANS = "SourceSans3-Semibold.otf"
PLAIN = "SourceSans3-Regular.otf"
SERIF = "SourceSerif4-Semibold.otf"
SLANTED = "SourceSerif4-It.otf"
TYPED = "SourceCodePro-Medium.otf"

AnyFont = ImageFont.FreeTypeFont | ImageFont.ImageFont


def font(name: str, size: int) -> AnyFont:
    """A shipped font, or Pillow's own where it is not there."""
    path = FONTS / name
    return ImageFont.truetype(path, size) if path.exists() else ImageFont.load_default(size)


@dataclass(frozen=True)
class Row:
    """A row of characters: where its first one stands, how large, how evenly.

    `pitch` is the distance between characters as a part of `size`; `wander` how
    far each leaves the line (pixels); `tilt` how far each turns (degrees);
    `worn` maps a character's place to the share of it that is gone.
    """

    text: str
    x: float
    y: float
    size: int = 96
    pitch: float = 0.62
    wander: float = 4.0
    tilt: float = 2.5
    upside_down: bool = False
    worn: Mapping[int, float] = field(default_factory=dict)


def coverage(surface: Surface, row: Row, face: str = SANS, *, uneven: float = 0.35) -> Field:
    """How strongly each pixel is struck, from 0 to about 1."""
    rows, columns = surface.shape()
    total = np.zeros((rows, columns), dtype=np.float32)
    for place, character in enumerate(row.text):
        if character == " ":
            continue
        patch = _punched(surface, character, row, face, uneven)
        patch = patch * (1 - row.worn.get(place, 0.0))
        side = patch.shape[0]
        offset = (len(row.text) - 1 - place) if row.upside_down else place
        shift = surface.random.normal(0, row.wander, 2)
        left = round(row.x + offset * row.pitch * row.size + shift[0] * 0.5 - side / 2)
        top = round(row.y + shift[1] - side / 2)
        _lay(total, patch, left, top)
    return total


def _punched(surface: Surface, character: str, row: Row, face: str, uneven: float) -> Field:
    """One character, turned a little, deeper on one side than on the other."""
    side = int(row.size * 1.6)
    picture = Image.new("L", (side, side), 0)
    ImageDraw.Draw(picture).text(
        (side / 2, side / 2), character, fill=255, font=font(face, row.size), anchor="mm"
    )
    turn = surface.random.normal(0, row.tilt) + (180 if row.upside_down else 0)
    picture = picture.rotate(turn, Image.Resampling.BICUBIC)
    y, x = np.mgrid[-1 : 1 : side * 1j, -1 : 1 : side * 1j]
    lean = surface.random.normal(0, uneven, 2)
    depth: Field = np.clip(0.9 + lean[0] * x + lean[1] * y, 0.25, 1.1)
    return (np.asarray(picture, dtype=np.float32) / 255 * depth).astype(np.float32)


def _lay(total: Field, patch: Field, left: int, top: int) -> None:
    """Put a character's patch into the whole field, cut at the edges."""
    rows, columns = total.shape
    side = patch.shape[0]
    x0, y0 = max(left, 0), max(top, 0)
    x1, y1 = min(left + side, columns), min(top + side, rows)
    if x0 < x1 and y0 < y1:
        cut = patch[y0 - top : y1 - top, x0 - left : x1 - left]
        total[y0:y1, x0:x1] = np.maximum(total[y0:y1, x0:x1], cut)


def strike(surface: Surface, row: Row, *, depth: float = 9, fresh: float = 0.0) -> None:
    """Strike a row with punches: a groove, a raised burr, dirt in the bottom.

    `fresh` from 0 to 1: bright clean grooves instead of dark old ones.
    """
    struck = coverage(surface, row)
    if row.worn:
        struck = struck * (1 - 0.5 * step(noise(surface, 9), 0.1, 0.9) * float(bool(row.worn)))
    groove = blur(struck, row.size / 48)
    burr = np.clip(blur(struck, row.size / 22) - groove, 0, 1)
    surface.height += burr * depth * 0.55 - groove * depth
    surface.tint((44, 36, 28), step(groove, 0.25, 0.95) * 0.5 * (1 - fresh))
    surface.tint((206, 206, 204), step(groove, 0.2, 0.8) * 0.7 * fresh)
    surface.gloss += groove * 0.4 * fresh


def cast(surface: Surface, row: Row, *, height: float = 8) -> None:
    """Characters raised by the mould, with rounded shoulders."""
    raised = coverage(surface, row, uneven=0.1)
    surface.height += blur(raised, row.size / 30) * height
    surface.colour *= 1 + (step(blur(raised, 2), 0.4, 0.9) * 0.16)[..., None]


def ink(
    surface: Surface, row: Row, colour: Colour, face: str = PLAIN, strength: float = 0.9
) -> None:
    """Printed or painted characters that do not change the relief."""
    surface.tint(colour, np.clip(coverage(surface, row, face, uneven=0.08), 0, 1) * strength)


def line_of(text: str, x: float, y: float, size: int, face: str = PLAIN) -> list[Row]:
    """A line of evenly set type as one row a character, by the font's own widths."""
    rows = []
    shape = font(face, size)
    for character in text:
        advance = shape.getlength(character)
        rows.append(Row(character, x + advance / 2, y, size, wander=0, tilt=0))
        x += advance
    return rows


def print_line(
    surface: Surface, text: str, x: float, y: float, size: int, colour: Colour, face: str = PLAIN
) -> None:
    """Set a line of type on the surface; `x` is its left end, `y` its middle."""
    rows, columns = surface.shape()
    picture = Image.new("L", (columns, rows), 0)
    ImageDraw.Draw(picture).text((x, y), text, fill=235, font=font(face, size), anchor="lm")
    surface.tint(colour, np.asarray(picture, dtype=np.float32) / 255)
