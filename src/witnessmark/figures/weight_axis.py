"""The axis on which weights are drawn: log10 LR from 1/10,000 to 10,000, even in the middle."""

from dataclasses import dataclass

from witnessmark.catalogue import as_said, marked, said
from witnessmark.figures.drawing import (
    FIRST,
    INK,
    LINE,
    PALE,
    SECOND,
    SOFT,
    box,
    disc,
    line,
    path,
    words,
)
from witnessmark.wording.amounts import lr_text
from witnessmark.wording.verbal_scale import Favours, shipped_scale

REACH_LOG10 = 4
"""The axis ends at ten thousand either way, where every ratio is capped."""

NEUTRAL_LOG10 = shipped_scale().bands[1].log10_lr_from
"""Where the words begin to name a proposition."""

_SHORT = {
    "weak support": marked("weak"),
    "moderate support": marked("moderate"),
    "moderately strong support": marked("moderately strong"),
    "strong support": marked("strong"),
    "very strong support": marked("very strong"),
    "extremely strong support": marked("extremely strong"),
}
"""The words of the scale without what they all have in common, for the axis."""


@dataclass(frozen=True, slots=True)
class WeightAxis:
    """A horizontal log10 LR axis from `left` to `right`, in points."""

    left: float
    right: float

    def x(self, log10_lr: float) -> float:
        """The place of a ratio; beyond the ends, the end."""
        held = max(-REACH_LOG10, min(REACH_LOG10, log10_lr))
        share = (held + REACH_LOG10) / (2 * REACH_LOG10)
        return self.left + share * (self.right - self.left)

    def grid(self, top: float, bottom: float) -> list[str]:
        """The neutral stretch and a line at every power of ten, strongest at 1."""
        low, high = self.x(-NEUTRAL_LOG10), self.x(NEUTRAL_LOG10)
        parts = [box(low, top, high - low, bottom - top, fill=PALE)]
        for power in range(-REACH_LOG10, REACH_LOG10 + 1):
            stroke, width = (SOFT, 1.0) if power == 0 else (LINE, 0.5)
            parts.append(
                line(self.x(power), top, self.x(power), bottom, stroke=stroke, width=width)
            )
        return parts

    def ticks(self, y: float) -> list[str]:
        """The ratio at every power of ten."""
        return [
            words(self.x(power), y, lr_text(float(power)), size=9.5, fill=SOFT, anchor="middle")
            for power in range(-REACH_LOG10, REACH_LOG10 + 1)
        ]

    def band_words(self, y: float) -> list[str]:
        """The words of the scale in their stretches, both ways; `y` is the upper of two lines."""
        parts = [words(self.x(0), y, said("neither"), size=9.5, fill=SOFT, anchor="middle")]
        bands = [band for band in shipped_scale().bands[1:] if band.log10_lr_from < REACH_LOG10]
        edges = [band.log10_lr_from for band in bands] + [REACH_LOG10]
        for band, low, high in zip(bands, edges, edges[1:], strict=False):
            lines = as_said(_SHORT.get(band.words, band.words)).rsplit(" ", 1)
            for side in (-1, 1):
                x = self.x(side * (low + high) / 2)
                for at, part in enumerate(lines):
                    parts.append(words(x, y + 10 * at, part, size=9.5, fill=SOFT, anchor="middle"))
        return parts


def tint(favours: Favours) -> str:
    """The tint that repeats what shape and words say."""
    return {Favours.FIRST: FIRST, Favours.SECOND: SECOND, Favours.NEITHER: INK}[favours]


def point(x: float, y: float, favours: Favours) -> str:
    """Filled disc: first proposition. Filled wedge: second. Open ring: neither."""
    if favours is Favours.NEITHER:
        return disc(x, y, 4.6, fill="#ffffff")
    if favours is Favours.FIRST:
        return disc(x, y, 4.8, fill=FIRST, stroke=FIRST)
    return path(
        f"M{x - 5.6:.2f} {y - 4.6:.2f}L{x + 5.6:.2f} {y - 4.6:.2f}L{x:.2f} {y + 5.8:.2f}Z",
        fill=SECOND,
        stroke=SECOND,
    )


def arrow(x: float, y: float, side: int) -> str:
    """An arrow head pointing on: the ratio is held here by the cap."""
    tip = x + side * 15
    back = x + side * 8
    return path(
        f"M{back:.2f} {y - 4:.2f}L{tip:.2f} {y:.2f}L{back:.2f} {y + 4:.2f}",
        stroke=INK,
        width=1.4,
    )
