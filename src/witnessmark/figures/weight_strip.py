"""The strip of a conclusion, for a cell of a table: its ratio on one axis, and the band it lies in.

The ratio is told by shape (disc: first proposition; wedge: second; ring: neither) and by its
place; the band is a grey bar, hatched where trials turned the answer. No colour tells anything
that shape and place do not.
"""

from dataclasses import dataclass

from witnessmark.catalogue import said
from witnessmark.figures.drawing import (
    FIRST,
    INK,
    LINE,
    SECOND,
    SOFT,
    box,
    disc,
    figure,
    line,
    num,
    path,
    words,
)
from witnessmark.figures.records import Figure
from witnessmark.weighing import CAP_LOG10, FEWEST_TURNED, Weighed
from witnessmark.wording import Favours, Names, Toward, lr_text, shipped_scale
from witnessmark.wording.conclusions import favours_of, heading, turned_text, words_of

REACH_LOG10 = 4
"""The axis ends at ten thousand either way, where every ratio is capped."""

NEUTRAL_LOG10 = shipped_scale().bands[1].log10_lr_from
"""Where the words begin to name a proposition."""

STRIP_WIDTH, STRIP_HEIGHT = 96.0, 10.0
AXIS_HEIGHT = 24.0
BAR, HATCH, RADIUS = 5.0, 3.5, 3.1


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
        """A faint line at every power of ten, a strong one at 1."""
        powers = range(-REACH_LOG10, REACH_LOG10 + 1)
        looks = ((power, (INK, 1.1) if power == 0 else (LINE, 0.4)) for power in powers)
        return [
            line(self.x(power), top, self.x(power), bottom, stroke=stroke, width=width)
            for power, (stroke, width) in looks
        ]


AXIS = WeightAxis(8, STRIP_WIDTH - 8)


def weight_strip(conclusion: Weighed, names: Names) -> Figure:
    """Band and ratio of one conclusion; its title names the conclusion, its caption says all that
    is drawn."""
    y = STRIP_HEIGHT / 2
    parts = [*AXIS.grid(0, STRIP_HEIGHT), *_band(conclusion, y)]
    parts.append(_point(AXIS.x(conclusion.log10_lr), y, favours_of(conclusion)))
    name = f"strip-{conclusion.question.value}-{conclusion.about}"
    title, told = heading(conclusion, names), _heard(conclusion, names)
    return figure(name, title, told, STRIP_HEIGHT, parts, width=STRIP_WIDTH)


def strip_axis() -> Figure:
    """The axis of all strips, for the head of their column."""
    title = said("Likelihood ratio, against the claim and for it")
    least, most = lr_text(-float(REACH_LOG10)), lr_text(float(REACH_LOG10))
    caption = said(
        "A logarithmic axis from {least} on the left to {most} on the right, with 1 in the middle.",
        least=least,
        most=most,
    )
    parts = [
        words(0, 9, said("against"), size=9.5, fill=SOFT),
        words(STRIP_WIDTH, 9, said("for"), size=9.5, fill=SOFT, anchor="end"),
        words(0, 20, least, size=9.5, fill=SOFT),
        words(AXIS.x(0), 20, "1", size=9.5, anchor="middle", strong=True),
        words(STRIP_WIDTH, 20, most, size=9.5, fill=SOFT, anchor="end"),
    ]
    return figure("strip-axis", title, caption, AXIS_HEIGHT, parts, width=STRIP_WIDTH)


def strip_legend(*, is_tried: bool) -> str:
    """What the shapes mean, in words; of the bar too where how steady the answers are was tried."""
    told = said("Disc: for the claim; wedge: against it; ring: neither.")
    if not is_tried:
        return told
    band = said(
        "Bar: nine in ten trials, hatched where {fewest} or more turned the answer; arrow: held at "
        "the end.",
        fewest=FEWEST_TURNED,
    )
    return f"{told} {band}"


def _band(conclusion: Weighed, y: float) -> list[str]:
    """The bar of the band, and an arrow wherever the cap has stopped it (or a bare ratio)."""
    low, high = conclusion.log10_lr_low, conclusion.log10_lr_high
    if low is None or high is None:
        ends = [conclusion.log10_lr] if conclusion.is_capped else []
        return [_arrow(AXIS.x(end), y, 1 if end > 0 else -1) for end in ends]
    left, top = AXIS.x(low), y - BAR / 2
    width = max(AXIS.x(high) - left, 0.8)
    arrows = [_arrow(AXIS.x(e), y, s) for e, s in ((low, -1), (high, 1)) if e * s >= CAP_LOG10]
    if (conclusion.turned or 0) < FEWEST_TURNED:
        return [box(left, top, width, BAR, fill=LINE), *arrows]
    strokes = "".join(
        f"M{num(left + at)} {num(y + BAR / 2)}L{num(left + at + BAR)} {num(top)}"
        for at in (HATCH * step for step in range(int(width / HATCH) + 1))
        if at + BAR <= width
    )
    bar = box(left, top, width, BAR, fill="#ffffff", stroke=SOFT, stroke_width=0.7)
    return [bar, *([path(strokes, stroke=SOFT, width=0.6)] if strokes else []), *arrows]


def _point(x: float, y: float, favours: Favours) -> str:
    """Filled disc: first proposition. Filled wedge: second. Open ring: neither."""
    if favours is Favours.NEITHER:
        return disc(x, y, RADIUS, fill="#ffffff")
    if favours is Favours.FIRST:
        return disc(x, y, RADIUS, fill=FIRST, stroke=FIRST)
    d = f"M{num(x - 4)} {num(y - 3.2)}L{num(x + 4)} {num(y - 3.2)}L{num(x)} {num(y + 3.9)}Z"
    return path(d, fill=SECOND, stroke=SECOND, width=0.6)


def _arrow(x: float, y: float, side: int) -> str:
    """An arrow head pointing on: the ratio is held here by the cap."""
    back, tip = x + side * 3.6, x + side * 7
    head = f"M{num(back)} {num(y - 3)}L{num(tip)} {num(y)}L{num(back)} {num(y + 3)}"
    return path(head, stroke=INK, width=1.1)


def _heard(conclusion: Weighed, names: Names) -> str:
    """One conclusion in a sentence, for those who hear the figure."""
    about, lr = heading(conclusion, names), lr_text(conclusion.log10_lr)
    low, high = conclusion.log10_lr_low, conclusion.log10_lr_high
    if low is None or high is None or conclusion.turned is None:
        return said("{conclusion}: LR {lr}", conclusion=about, lr=lr)
    values = {
        "conclusion": about,
        "lr": lr,
        "low": lr_text(low, Toward.DOWN),
        "high": lr_text(high, Toward.UP),
        "words": words_of(conclusion),
        "turned": turned_text(conclusion.turned),
    }
    if conclusion.is_capped:
        return said(
            "{conclusion}: LR {lr} (no ratio is given beyond it), band {low} to {high}, {words}; "
            "it pointed the other way in {turned} trials",
            **values,
        )
    return said(
        "{conclusion}: LR {lr}, band {low} to {high}, {words}; it pointed the other way in "
        "{turned} trials",
        **values,
    )
