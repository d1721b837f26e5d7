"""Numbered markers of places: a shape for each state, pushed apart where they would touch."""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from witnessmark.casefile.records import SiteState
from witnessmark.catalogue import said
from witnessmark.figures.drawing import INK, SOFT, box, disc, line, num, path, words
from witnessmark.wording.terms import term

RADIUS = 8.5
"""Half of the width of a marker in points."""

APART = 2 * RADIUS + 3
"""Least distance, across or down, between the middles of two markers."""

ANGLES = 24
STEP = 4.0
MOVED = 1.0
"""A marker that was pushed farther than this has a leader to its place."""

_WHITE = "#ffffff"


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle in points."""

    left: float
    top: float
    right: float
    bottom: float

    def holds(self, x: float, y: float, edge: float = 0.0) -> bool:
        """Does a point lie inside, at least `edge` from every side?"""
        across = self.left + edge <= x <= self.right - edge
        return across and self.top + edge <= y <= self.bottom - edge


@dataclass(frozen=True, slots=True)
class Pin:
    """A place to be shown: its number, its state (None: to be ticked) and its point."""

    number: int
    state: SiteState | None
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Marker:
    """A pin with the point at which its marker stands."""

    pin: Pin
    x: float
    y: float

    @property
    def is_moved(self) -> bool:
        """Does the marker stand beside its place?"""
        return math.hypot(self.x - self.pin.x, self.y - self.pin.y) > MOVED


def set_apart(pins: Iterable[Pin], area: Box, kept_free: tuple[Box, ...]) -> tuple[Marker, ...]:
    """Markers that touch neither each other, nor each other's places, nor the boxes kept free."""
    ordered = tuple(pins)
    placed: list[Marker] = []
    for pin in ordered:
        others = tuple(each for each in ordered if each is not pin)
        x, y = _free_point(pin, others, placed, area, kept_free)
        placed.append(Marker(pin, x, y))
    return tuple(placed)


def _free_point(
    pin: Pin,
    others: tuple[Pin, ...],
    placed: list[Marker],
    area: Box,
    kept_free: tuple[Box, ...],
) -> tuple[float, float]:
    """The place itself or the nearest free point round it; the place where none is free."""
    upward = -1 if pin.y < (area.top + area.bottom) / 2 else 1
    reach = int(math.hypot(area.right - area.left, area.bottom - area.top) / STEP) + 1
    rings = [0.0, *(RADIUS + 8 + STEP * ring for ring in range(reach))]
    for radius in rings:
        for turn in range(ANGLES if radius else 1):
            half = (turn + 1) // 2 * (-1 if turn % 2 else 1)
            angle = upward * math.pi / 2 + half * 2 * math.pi / ANGLES
            x, y = pin.x + radius * math.cos(angle), pin.y + radius * math.sin(angle)
            if _is_free(x, y, others, placed, area, kept_free):
                return x, y
    return pin.x, pin.y


def _is_free(
    x: float,
    y: float,
    others: tuple[Pin, ...],
    placed: list[Marker],
    area: Box,
    kept_free: tuple[Box, ...],
) -> bool:
    if not area.holds(x, y, RADIUS):
        return False
    if any(each.holds(x, y, -RADIUS - 1) for each in kept_free):
        return False
    if any(max(abs(x - each.x), abs(y - each.y)) < RADIUS + 3 for each in others):
        return False
    return all(max(abs(x - each.x), abs(y - each.y)) >= APART for each in placed)


def draw_markers(markers: tuple[Marker, ...]) -> list[str]:
    """Leaders and places first, so that no line crosses a number; then the markers."""
    parts: list[str] = []
    for each in markers:
        if each.is_moved:
            parts.append(line(each.x, each.y, each.pin.x, each.pin.y, stroke=SOFT, width=0.7))
            parts.append(disc(each.pin.x, each.pin.y, 1.4))
    for each in markers:
        parts.extend(draw_marker(each.x, each.y, each.pin.state, str(each.pin.number)))
    return parts


def draw_marker(x: float, y: float, state: SiteState | None, number: str) -> list[str]:
    """The shape of a state round its number; an empty number gives the shape alone."""
    ink = _WHITE if state is SiteState.READ else INK
    parts = [_shape(x, y, state)]
    if number:
        parts.append(words(x, y + 3.3, number, size=9.5, fill=ink, anchor="middle", strong=True))
    return parts


def _shape(x: float, y: float, state: SiteState | None) -> str:
    """Full disc: read. Whole ring: found and illegible. Lozenge: absent. Barred square: not
    accessible. Broken ring: not looked for. Open square: to be ticked."""
    if state is SiteState.READ:
        return disc(x, y, RADIUS - 0.6)
    if state is SiteState.FOUND_ILLEGIBLE:
        return disc(x, y, RADIUS - 0.8, fill=_WHITE)
    if state is SiteState.ABSENT:
        reach = RADIUS + 1
        points = ((x, y - reach), (x + reach, y), (x, y + reach), (x - reach, y))
        d = "M" + "L".join(f"{num(a)} {num(b)}" for a, b in points) + "Z"
        return path(d, fill=_WHITE, stroke=INK, width=1.4)
    side = RADIUS - 0.8
    square = box(x - side, y - side, 2 * side, 2 * side, fill=_WHITE, stroke=INK, stroke_width=1)
    if state is SiteState.NOT_ACCESSIBLE:
        bars = [
            box(x - side, edge, 2 * side, 3, fill=INK) for edge in (y - side - 0.4, y + side - 2.6)
        ]
        return square + "".join(bars)
    if state is SiteState.NOT_LOOKED_FOR:
        return _broken_ring(x, y, RADIUS - 0.8)
    return square


def _broken_ring(x: float, y: float, radius: float) -> str:
    """A ring of eight short arcs on white."""
    arcs = [disc(x, y, radius, fill=_WHITE, stroke="none")]
    for eighth in range(8):
        start = eighth * math.pi / 4
        ends = (
            (x + radius * math.cos(angle), y + radius * math.sin(angle))
            for angle in (start, start + math.pi / 8)
        )
        (x1, y1), (x2, y2) = ends
        arc = f"M{num(x1)} {num(y1)}A{num(radius)} {num(radius)} 0 0 1 {num(x2)} {num(y2)}"
        arcs.append(path(arc, stroke=INK, width=1.4))
    return "".join(arcs)


def state_words(state: SiteState) -> str:
    """How a site ended, in words."""
    return said("absent: nothing there") if state is SiteState.ABSENT else term(state)
