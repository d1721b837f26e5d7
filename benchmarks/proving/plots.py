"""Plots of the proving ground, as SVG: the same numbers give the same bytes.

Nothing is said by colour alone: lines differ in dash and marker, marks in shape and fill.
Each function writes one file and returns one sentence that says what it shows.
"""

import math
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

import matplotlib as mpl
import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure as Canvas
from matplotlib.layout_engine import ConstrainedLayoutEngine

from benchmarks.proving.measures import Bin, Interval, Scored, misleading, reaching, tippett

STYLE: Any = {
    "svg.hashsalt": "witnessmark",
    "svg.fonttype": "path",
    "font.family": "DejaVu Sans",
    "font.size": 10.0,
    "axes.titlesize": 11.5,
    "axes.titlelocation": "left",
    "axes.spines.top": False,
    "axes.spines.right": False,
    "axes.grid": True,
    "grid.color": "#dddddd",
    "grid.linewidth": 0.6,
    "legend.frameon": False,
    "figure.facecolor": "white",
}
WIDE = 700.0 / 96.0
"""Width of every plot in inches: 700 px on a page."""
MARKERS = ("o", "s", "^", "D", "v", "P", "X")
SHADES = ("#0b3c6f", "#b4560f", "#3f7a4c", "#7a4b94", "#555555", "#8a7a1f", "#a03050")
WIDEST = 6.0
"""A Tippett plot goes no further than this many powers of ten either way."""


def tippett_plot(curves: Mapping[str, Scored], title: str, path: Path) -> str:
    """Write the shares of true and of false cases that reach each log10 LR or more.

    `curves` gives every system by name, seven at most. Solid lines are true cases, dashed
    lines false ones; the marker is the system's.
    """
    edge = _reach(curves)
    grid = np.linspace(-edge, edge, 1201)
    with mpl.rc_context(STYLE):
        canvas, axes = _canvas(4.7)
        for k, (name, scored) in enumerate(curves.items()):
            shares = tippett(scored, grid)
            for of, share, dash in zip(("true", "false"), shares, ("-", "--"), strict=True):
                axes.plot(
                    grid, 100.0 * share, dash, color=SHADES[k], marker=MARKERS[k],
                    markevery=(40 + 60 * k, 150), markersize=6.5, linewidth=1.7,
                    markerfacecolor=SHADES[k] if of == "true" else "white",
                    label=f"{name}, {of} cases",
                )  # fmt: skip
        axes.axvline(0.0, color="black", linewidth=0.8)
        axes.set(xlim=(-edge, edge), ylim=(-2.0, 102.0), xlabel="log10 LR")
        axes.set_ylabel("share of cases with this log10 LR or more, %")
        _legend_below(canvas, axes, 2, step=2)
        _write(canvas, axes, title, path)
    return f"An LR above 1: {'; '.join([_above_one(*each) for each in curves.items()])}."


def reliability_plot(bins: Sequence[Bin], title: str, path: Path) -> str:
    """Write the observed log10 LR of each bin against the stated one, with the diagonal.

    A bar that ends in an arrow has no bound on that side; a hollow mark stands at the
    bound of a bin in which one class has no case. The small numbers are cases, true /
    false. Bins without any case are not drawn, and are counted in the sentence.
    """
    held = [b for b in bins if b.true_count + b.false_count]
    low, high = _square(held)
    with mpl.rc_context(STYLE):
        canvas, axes = _canvas(6.6)
        axes.plot([low, high], [low, high], "--", color="#777777", linewidth=1.0, zorder=1)
        for b in held:
            _draw_bin(axes, b, low, high)
        axes.set(xlim=(low, high), ylim=(low, high), aspect="equal")
        axes.set(xlabel="stated log10 LR (mean of the bin)")
        axes.set_ylabel("observed log10 LR")
        canvas.text(
            0.5, 0.012,
            "dashed: observed = stated; bars: bootstrap intervals; arrow: no bound this way;\n"
            "hollow: no case of one class; small numbers: cases, true / false",
            fontsize=9, ha="center", va="bottom",
        )  # fmt: skip
        canvas.set_layout_engine(ConstrainedLayoutEngine(rect=(0.0, 0.075, 1.0, 0.925)))
        _write(canvas, axes, title, path)
    return _said_of_bins(bins)


def cost_plot(
    costs: Mapping[str, Mapping[str, Interval]],
    title: str,
    path: Path,
    measured: str = "Cllr, bits",
) -> str:
    """Write a cost by world with its interval, for several systems.

    `costs` gives for every system, seven at most, the interval of each world by name; the
    line at 1 is the cost of always saying LR = 1. What is infinite stands at the right edge.
    `measured` is the title of the axis.
    """
    worlds = list(dict.fromkeys(world for of in costs.values() for world in of))
    right = _right_of(costs)
    with mpl.rc_context(STYLE):
        canvas, axes = _canvas(1.9 + len(worlds) * (0.24 + 0.2 * len(costs)))
        for k, (name, of) in enumerate(costs.items()):
            shift = 0.7 * ((k + 0.5) / len(costs) - 0.5)
            rows = [worlds.index(world) + shift for world in of]
            spans = [(each.low, each.value, each.high) for each in of.values()]
            low, values, high = np.clip(np.array(spans).reshape(-1, 3).T, 0.0, right)
            axes.errorbar(
                values, rows, xerr=[values - low, high - values], fmt=MARKERS[k], markersize=7,
                color=SHADES[k], markerfacecolor=SHADES[k] if k % 2 == 0 else "white",
                capsize=3, linewidth=1.4, label=name, clip_on=False,
            )  # fmt: skip
            for row, (_, value, _) in zip(rows, spans, strict=True):
                if math.isinf(value):
                    axes.annotate("∞", (right, row), xytext=(7, -4), textcoords="offset points")
        axes.axvline(1.0, color="black", linestyle=":", linewidth=1.2, label="always LR = 1")
        axes.set_yticks(range(len(worlds)), worlds)
        axes.set(xlim=(0.0, right), ylim=(len(worlds) - 0.5, -0.5), xlabel=measured)
        axes.grid(visible=False, axis="y")
        for row in range(1, len(worlds)):
            axes.axhline(row - 0.5, color="#dddddd", linewidth=0.6)
        _legend_below(canvas, axes, 3)
        _write(canvas, axes, title, path)
    said = "; ".join([_range_of(*each) for each in costs.items()])
    return f"{measured.split(',')[0]} is {said}; 1 is the cost of always saying LR = 1."


def _canvas(height: float) -> tuple[Canvas, Axes]:
    room = ConstrainedLayoutEngine(w_pad=0.1, h_pad=0.08)
    canvas = Canvas(figsize=(WIDE, height), layout=room)
    return canvas, canvas.add_subplot()


def _legend_below(canvas: Canvas, axes: Axes, columns: int, step: int = 1) -> None:
    """The legend, column after column, taking every `step`-th line first."""
    handles, labels = axes.get_legend_handles_labels()
    order = [k for first in range(step) for k in range(first, len(labels), step)]
    canvas.legend(
        [handles[k] for k in order], [labels[k] for k in order],
        loc="outside lower center", ncols=columns, handlelength=3.2, fontsize=9.5,
    )  # fmt: skip


def _write(canvas: Canvas, axes: Axes, title: str, path: Path) -> None:
    axes.set_title(title)
    axes.set_axisbelow(True)
    told = {"Title": title, "Date": None, "Creator": None}
    canvas.savefig(path, format="svg", metadata=told)


def _reach(curves: Mapping[str, Scored]) -> float:
    """Whole powers of ten that hold all finite ratios, between 1 and `WIDEST`."""
    ratios = np.concatenate([each.log10_lr for each in curves.values()])
    finite = np.abs(ratios[np.isfinite(ratios)])
    return float(np.clip(np.ceil(finite.max(initial=1.0)), 1.0, WIDEST))


def _above_one(name: str, scored: Scored) -> str:
    right, wrong = reaching(scored, 1.0).true, misleading(scored, 1.0).false
    return f"{name} gives it to {_percent(right)} of true and {_percent(wrong)} of false cases"


def _square(bins: Sequence[Bin]) -> tuple[float, float]:
    """Limits of both axes: whole numbers that hold all that is finite, with some air."""
    ends = [x for b in bins for x in (b.stated, b.observed.low, b.observed.value, b.observed.high)]
    finite = [x for x in ends if math.isfinite(x)] or [0.0]
    return math.floor(min(*finite, -1.0) - 0.3), math.ceil(max(*finite, 1.0) + 0.3)


def _draw_bin(axes: Axes, b: Bin, low: float, high: float) -> None:
    x = float(np.clip(b.stated, low, high))
    bottom, top = max(b.observed.low, low), min(b.observed.high, high)
    axes.plot([x, x], [bottom, top], "-", color="black", linewidth=1.2)
    for end, edge, marker in ((b.observed.low, low, "v"), (b.observed.high, high, "^")):
        if math.isinf(end):
            axes.plot(x, edge, marker, color="black", markersize=8, clip_on=False)
        else:
            axes.plot(x, end, "_", color="black", markersize=8)
    shown = math.isfinite(b.observed.value)
    at = b.observed.value
    if not shown:
        at = top if b.true_count == 0 else bottom
    if shown or not (math.isinf(b.observed.low) and math.isinf(b.observed.high)):
        face = SHADES[0] if shown else "white"
        axes.plot(x, at, "o", color=SHADES[0], markerfacecolor=face, markersize=7, zorder=3)
    axes.annotate(f"{b.true_count} / {b.false_count}", (x, at), xytext=(6, -11),
                  textcoords="offset points", fontsize=8)  # fmt: skip


def _said_of_bins(bins: Sequence[Bin]) -> str:
    known = [b for b in bins if not b.is_open]
    empty = sum(b.true_count + b.false_count == 0 for b in bins)
    thin = len(bins) - len(known) - empty
    if not known:
        return f"None of {len(bins)} bins has enough cases of both classes to compare."
    held = sum(b.observed.low <= b.stated <= b.observed.high for b in known)
    far = max(known, key=lambda b: abs(b.observed.value - b.stated))
    said = (
        f"In {held} of {len(known)} bins with enough cases of both classes the stated log10 LR "
        f"lies in the interval of the observed one; furthest apart are {_signed(far.stated)} "
        f"stated and {_signed(far.observed.value)} observed"
    )
    left = [f"{thin} with few cases of a class"] * bool(thin) + [f"{empty} empty"] * bool(empty)
    return f"{said} (other bins: {', '.join(left)})." if left else f"{said}."


def _right_of(costs: Mapping[str, Mapping[str, Interval]]) -> float:
    """The right limit of the axis: a little more than all that is finite, at least 1.1."""
    ends = [end for of in costs.values() for each in of.values() for end in (each.value, each.high)]
    return max(1.1, 1.05 * max((end for end in ends if math.isfinite(end)), default=1.0))


def _range_of(name: str, of: Mapping[str, Interval]) -> str:
    known = {world: each.value for world, each in of.items() if not math.isnan(each.value)}
    if not known:
        return f"not known for {name}"
    least, most = min(known, key=known.__getitem__), max(known, key=known.__getitem__)
    if least == most:
        return f"{_cost(known[least])} for {name} ({least})"
    return f"{_cost(known[least])} ({least}) to {_cost(known[most])} ({most}) for {name}"


def _percent(share: float) -> str:
    """A share in words that do not round something to nothing or to all."""
    if math.isnan(share):
        return "no known share"
    if 0.0 < share < 0.001 or 0.999 < share < 1.0:
        return "under 0.1 %" if share < 0.5 else "over 99.9 %"
    return f"{100.0 * share:.3g} %"


def _signed(value: float) -> str:
    return f"{value:+.2f}".replace("-", "−")


def _cost(value: float) -> str:
    return f"{value:.2f}" if math.isfinite(value) else "∞"
