"""The curve of one assumption: where the ratio would lie at other assumed values."""

import math

from witnessmark.catalogue import in_a_row, said
from witnessmark.figures.drawing import (
    FIRST,
    INK,
    LINE,
    PALE,
    SOFT,
    WIDTH,
    box,
    disc,
    figure,
    line,
    num,
    path,
    width_of,
    words,
    wrapped,
)
from witnessmark.figures.records import Figure
from witnessmark.figures.weight_strip import NEUTRAL_LOG10, REACH_LOG10
from witnessmark.weighing import CurvePoint, LeadingRow, Weighed
from witnessmark.wording import Names, Toward, lr_text
from witnessmark.wording.amounts import factor_rate_text, rate_text
from witnessmark.wording.conclusions import heading, leading_sentence, row_words

LEFT, RIGHT, TOP, HEIGHT = 58.0, WIDTH - 20, 24.0, 104.0
BOTTOM = TOP + HEIGHT


def assumption_curve(conclusion: Weighed, names: Names) -> Figure | None:
    """The likelihood ratio against the value of the row that moves it most; None where there is
    no such row."""
    leading = _leading(conclusion)
    points = tuple(p for p in leading.curve if p.value > 0) if leading is not None else ()
    if leading is None or len(points) < 2:
        return None
    x_axis = _AssumedAxis(points)
    y_axis = _RatioAxis(points)
    text = said("assumed: {row}", row=row_words(leading.row))
    label = wrapped(text, RIGHT - LEFT, 10)
    parts = [*y_axis.grid(), *x_axis.ticks(), _curve(points, x_axis, y_axis)]
    used = _used_point(points)
    parts.extend(_used(used.value, used.log10_lr, x_axis, y_axis))
    middle = (LEFT + RIGHT) / 2
    for at, text in enumerate(label):
        parts.append(words(middle, BOTTOM + 28 + 12 * at, text, fill=SOFT, anchor="middle"))
    parts.append(words(0, TOP - 13, said("likelihood ratio"), fill=SOFT))
    about = heading(conclusion, names)
    title = said("Effect of one assumption: {conclusion}", conclusion=about)
    name = f"curve-{conclusion.question.value}-{conclusion.about}"
    height = BOTTOM + 32 + 12 * len(label)
    return figure(name, title, _caption(points, conclusion), height, parts)


def _leading(conclusion: Weighed) -> LeadingRow | None:
    """The row that moves the answer most, which alone has a curve."""
    return next(iter(conclusion.leading), None)


def _used_point(points: tuple[CurvePoint, ...]) -> CurvePoint:
    """The point of the value that was used: the middle one, at a factor of 1."""
    return points[len(points) // 2]


class _AssumedAxis:
    """Assumed values along the bottom, logarithmic, from the least to the most drawn; all in the
    unit of the value that was used."""

    def __init__(self, points: tuple[CurvePoint, ...]) -> None:
        self.is_factor = _is_factor(points)
        logs = [math.log10(p.value) for p in points]
        self.low, self.high = min(logs), max(logs)

    def x(self, value: float) -> float:
        span = (self.high - self.low) or 1.0
        return LEFT + (math.log10(value) - self.low) / span * (RIGHT - LEFT)

    def ticks(self) -> list[str]:
        """1, 3 and 10 of every decade, thinned where they would touch."""
        parts: list[str] = []
        edge = -math.inf
        for power in range(math.floor(self.low), math.ceil(self.high) + 1):
            for figure_ in (1, 3):
                value = figure_ * 10.0**power
                if not self.low - 1e-9 <= math.log10(value) <= self.high + 1e-9:
                    continue
                x, label = self.x(value), _tick(value, self.is_factor)
                parts.append(line(x, BOTTOM, x, BOTTOM + 3, stroke=SOFT))
                if x - edge > 34:
                    parts.append(words(x, BOTTOM + 13, label, size=9.5, fill=SOFT, anchor="middle"))
                    edge = x
        return parts


def _is_factor(points: tuple[CurvePoint, ...]) -> bool:
    """Is what was assumed a factor of odds, and no share?"""
    return _used_point(points).value >= 1


def _tick(value: float, is_factor: bool) -> str:
    """A tick exactly as it is, in per cent; of what multiplies odds, by how much.

    >>> _tick(0.001, False), _tick(0.3, False), _tick(0.3, True), _tick(1000.0, True)
    ('0.1 %', '30 %', '× 0.3', '× 1,000')
    """
    amount = value if is_factor else value * 100
    text = f"{amount:,.6f}".rstrip("0").rstrip(".")
    return said("× {times}", times=text) if is_factor else said("{percent} %", percent=text)


def _assumed(value: float, is_factor: bool) -> str:
    """An assumed value in the unit of its axis."""
    return factor_rate_text(value) if is_factor else rate_text(value)


class _RatioAxis:
    """Ratios up the side: whole powers of ten that hold the curve and the number 1."""

    def __init__(self, points: tuple[CurvePoint, ...]) -> None:
        logs = [p.log10_lr for p in points] + [0.0]
        self.low = max(-REACH_LOG10, math.floor(min(logs)))
        self.high = min(REACH_LOG10, math.ceil(max(logs)))
        if self.low == self.high:
            self.high += 1

    def y(self, log10_lr: float) -> float:
        held = max(self.low, min(self.high, log10_lr))
        return BOTTOM - (held - self.low) / (self.high - self.low) * HEIGHT

    def grid(self) -> list[str]:
        """The neutral stretch, a line and its ratio at every power of ten."""
        upper, lower = self.y(NEUTRAL_LOG10), self.y(-NEUTRAL_LOG10)
        parts = [box(LEFT, upper, RIGHT - LEFT, lower - upper, fill=PALE)]
        for power in range(self.low, self.high + 1):
            y = self.y(power)
            stroke, width = (SOFT, 1.0) if power == 0 else (LINE, 0.5)
            parts.append(line(LEFT, y, RIGHT, y, stroke=stroke, width=width))
            label = lr_text(float(power))
            parts.append(words(LEFT - 6, y + 3, label, size=9.5, fill=SOFT, anchor="end"))
        return parts


def _curve(points: tuple[CurvePoint, ...], x_axis: _AssumedAxis, y_axis: _RatioAxis) -> str:
    ordered = sorted(points, key=lambda p: p.value)
    steps = [f"{num(x_axis.x(p.value))} {num(y_axis.y(p.log10_lr))}" for p in ordered]
    return path("M" + "L".join(steps), stroke=FIRST, width=1.8)


def _used(value: float, log10_lr: float, x_axis: _AssumedAxis, y_axis: _RatioAxis) -> list[str]:
    """The value that was used: a ring with a dashed line down, named above the frame."""
    x, y = max(LEFT, min(RIGHT, x_axis.x(value))), y_axis.y(log10_lr)
    label = said(
        "used: {share}, LR {lr}", share=_assumed(value, x_axis.is_factor), lr=lr_text(log10_lr)
    )
    return [
        line(x, y, x, BOTTOM, stroke=INK, width=0.8, dash="2.5 2"),
        disc(x, y, 4.4, fill="#ffffff"),
        disc(RIGHT - width_of(label, 10, 0.46) - 12, TOP - 16.4, 4, fill="#ffffff"),
        words(RIGHT, TOP - 13, label, anchor="end", strong=True),
    ]


def _caption(points: tuple[CurvePoint, ...], conclusion: Weighed) -> str:
    leading = conclusion.leading[0]
    ordered = sorted(points, key=lambda p: p.value)
    first, last = ordered[0], ordered[-1]
    logs = [p.log10_lr for p in points]
    is_factor = _is_factor(points)
    told = said(
        "Where the likelihood ratio would lie if another value were assumed for “{row}”: "
        "{lr_first} at {share_first}, {lr_last} at {share_last}, and over the whole range "
        "between {lowest} and {highest}. The value used was {share_used}.",
        row=row_words(leading.row),
        lr_first=lr_text(first.log10_lr),
        share_first=_assumed(first.value, is_factor),
        lr_last=lr_text(last.log10_lr),
        share_last=_assumed(last.value, is_factor),
        lowest=lr_text(min(logs), Toward.DOWN),
        highest=lr_text(max(logs), Toward.UP),
        share_used=_assumed(_used_point(points).value, is_factor),
    )
    beside = _beside_conclusion(_used_point(points), conclusion)
    return in_a_row(filter(None, (told, beside, leading_sentence(leading))))


def _beside_conclusion(used: CurvePoint, conclusion: Weighed) -> str:
    """Why the ratio at the value used is not the figure of the conclusion; nothing where both are
    printed alike."""
    at_used, whole = lr_text(used.log10_lr), lr_text(conclusion.log10_lr)
    if at_used == whole:
        return ""
    return said(
        "The curve moves this one value and holds all others as assumed, so that it reads "
        "{at_used} there; the conclusion’s {whole} is taken over all assumed rates varied "
        "together.",
        at_used=at_used,
        whole=whole,
    )
