"""Looks at a surface in raking light and gives the photograph as JPEG bytes."""

import io

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw, ImageFilter

from drawing.characters import PLAIN, SANS, font
from drawing.surface import Field, Surface, blur, grid

CAPTION = "drawn for the demonstration"
QUALITY = 72
SHADOW_STEPS = 26
PIXELS_PER_MM = 11.0


def photograph(
    surface: Surface, *, azimuth: float = 142, elevation: float = 33, scale_mm: int = 0
) -> bytes:
    """The lit surface with its caption and, if asked for, a scale of `scale_mm`.

    `azimuth` is the direction of the lamp in degrees, 0 to the right, 90 up.
    """
    picture = Image.fromarray(_lit(surface, azimuth, elevation))
    picture = picture.filter(ImageFilter.GaussianBlur(0.7))
    if scale_mm:
        _scale(picture, scale_mm)
    return _captioned(picture)


def developed(picture: Image.Image, seed: int) -> bytes:
    """A picture that has its light already, with a little grain and its caption."""
    soft = np.asarray(picture.filter(ImageFilter.GaussianBlur(0.8)), dtype=np.float32)
    grain = np.random.default_rng(seed).normal(0, 1.6, soft.shape[:2])[..., None]
    return _captioned(Image.fromarray(np.clip(soft + grain, 0, 255).astype(np.uint8)))


def _captioned(picture: Image.Image) -> bytes:
    _caption(picture)
    file = io.BytesIO()
    picture.save(file, "JPEG", quality=QUALITY, optimize=True)
    return file.getvalue()


def _lit(surface: Surface, azimuth: float, elevation: float) -> NDArray[np.uint8]:
    """Diffuse and glancing light, shadows, the lamp's falling off, a little grain."""
    turn, up = np.deg2rad(azimuth), np.deg2rad(elevation)
    lamp = (np.cos(turn) * np.cos(up), -np.sin(turn) * np.cos(up), np.sin(up))
    slope_y, slope_x = np.gradient(surface.height)
    length = np.sqrt(slope_x**2 + slope_y**2 + 1)
    diffuse = (-slope_x * lamp[0] - slope_y * lamp[1] + lamp[2]) / length
    diffuse = np.clip(diffuse, 0, None) / lamp[2]
    half = np.asarray((lamp[0], lamp[1], lamp[2] + 1))
    half = half / np.linalg.norm(half)
    glance = np.clip((-slope_x * half[0] - slope_y * half[1] + half[2]) / length, 0, 1) ** 34
    shade = 1 - 0.62 * _shadow(surface.height, lamp)
    light = 0.42 + 0.78 * np.minimum(diffuse, 2.2) * shade
    picture = surface.colour * light[..., None]
    picture = picture + (glance * surface.gloss * shade)[..., None]
    picture = picture * _falloff(surface, lamp)[..., None]
    grain = surface.random.normal(0, 0.009, surface.shape())[..., None]
    seen: NDArray[np.uint8] = (np.clip(picture + grain, 0, 1) ** 0.92 * 255).astype(np.uint8)
    return seen


def _shadow(height: Field, lamp: tuple[float, float, float]) -> Field:
    """Where something nearer to the lamp stands in the way, from 0 to 1."""
    flat = np.hypot(lamp[0], lamp[1])
    rise = lamp[2] / flat
    dark = np.zeros_like(height)
    rows, columns = height.shape
    wide = np.pad(height, SHADOW_STEPS, mode="edge")
    for distance in range(1, SHADOW_STEPS):
        x = SHADOW_STEPS + round(lamp[0] / flat * distance)
        y = SHADOW_STEPS + round(lamp[1] / flat * distance)
        blocking = wide[y : y + rows, x : x + columns] - height - distance * rise
        dark = np.maximum(dark, np.clip(blocking / 1.5, 0, 1))
    return blur(dark, 1.2)


def _falloff(surface: Surface, lamp: tuple[float, float, float]) -> Field:
    """Brighter towards the lamp, darker in the corners."""
    x, y = grid(surface)
    rows, columns = surface.shape()
    u, v = x / columns - 0.5, y / rows - 0.5
    pool = np.exp(-((u - 0.22 * lamp[0]) ** 2 + (v - 0.22 * lamp[1]) ** 2) * 3.2)
    return np.clip(0.5 + 0.66 * pool, 0.2, 1.4)


def _scale(picture: Image.Image, length_mm: int) -> None:
    """A strip with millimetres, lying in the plane of the picture."""
    columns, rows = picture.size
    wide, high = round(length_mm * PIXELS_PER_MM) + 64, 50
    left, top = columns - wide - 40, rows - high - 44
    draw = ImageDraw.Draw(picture)
    draw.rectangle((left + 4, top + 5, left + wide + 4, top + high + 5), fill=(28, 26, 24))
    draw.rectangle((left, top, left + wide, top + high), fill=(232, 229, 218))
    dark = (24, 24, 24)
    for mm in range(length_mm + 1):
        x = left + 16 + mm * PIXELS_PER_MM
        tall = 19 if mm % 10 == 0 else 14 if mm % 5 == 0 else 9
        draw.line((x, top + 1, x, top + tall), fill=dark, width=3 if mm % 10 == 0 else 1)
        if mm % 10 == 0:
            draw.text((x, top + 35), str(mm), fill=dark, font=font(SANS, 18), anchor="mm")
    draw.text((left + wide - 6, top + 35), "mm", fill=dark, font=font(PLAIN, 17), anchor="rm")


def _caption(picture: Image.Image) -> None:
    """The line that says what kind of picture this is."""
    columns, rows = picture.size
    draw = ImageDraw.Draw(picture)
    draw.rectangle((0, rows - 26, columns, rows), fill=(22, 22, 22))
    draw.text((14, rows - 13), CAPTION, fill=(214, 212, 206), font=font(PLAIN, 16), anchor="lm")
