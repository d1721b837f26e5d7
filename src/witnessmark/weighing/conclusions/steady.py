"""How far the answers of a car rest on assumed rates: all rates varied together, 512 times.

The band is the central 90 % of log10 LR: sensitivity to assumptions, no interval of the LR and
not the chance that it is wrong.
"""

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from witnessmark.agreement.records import CarMarks
from witnessmark.weighing.arrays import Array
from witnessmark.weighing.network.build import noted
from witnessmark.weighing.network.questions import Question, Sides, questions_of
from witnessmark.weighing.rates import (
    RateValues,
    each_with,
    rate_rows,
    rate_values,
    times_odds,
)
from witnessmark.weighing.records import (
    CurvePoint,
    LeadingRow,
    Steadiness,
    Steady,
)

if TYPE_CHECKING:
    from witnessmark.weighing.network.pruned import Pruned

type Curve = tuple[CurvePoint, ...]

BAND = (0.05, 0.95)
TRIED = 64
"""Draws on which it is tried how far the answers are moved by what is left out."""
LEAST_CORRELATION = 0.15
"""A rank correlation below this is noise at 512 draws."""
LEADING = 5
FACTORS = (0.01, 0.03, 0.1, 0.3, 1.0, 3.0, 10.0, 30.0, 100.0)
"""Times the odds of the leading row, for its curve."""


def steadiness(car: CarMarks, draws: int = 512) -> Steadiness:
    """The band of every answer over so many draws of all rates."""
    # Late: its sums load a library for longer than an answer takes.
    from witnessmark.weighing.network.pruned import Pruned

    known = noted(car)
    overrides = car.casefile.circumstances.overrides
    drawn, base = rate_values(overrides, draws), rate_values(overrides)
    pruned = Pruned(known, base, [each for each in questions_of(known) if each.is_examined])
    pruned.try_on(drawn.at(np.arange(0, draws, max(1, draws // TRIED))))
    found = pruned.sides(drawn)
    leading = {question: _leading(drawn, side) for question, side in found.items()}
    curves = _curves(pruned, base, leading)
    return Steadiness(
        draws,
        tuple(
            _steady(question, side, leading[question], curves.get(question, ()))
            for question, side in found.items()
        ),
        pruned.apart_log10,
    )


def _steady(
    question: Question, found: Sides, leading: tuple[LeadingRow, ...], curve: Curve
) -> Steady:
    log10 = found.log10_by_draw()
    integrated = found.log10_lr()
    low, high = (float(each) for each in np.quantile(log10, BAND))
    turned = int(np.count_nonzero(np.sign(log10) != np.sign(integrated)))
    if curve:
        first = replace(leading[0], curve=curve, turning_factor=_turning(curve))
        leading = (first, *leading[1:])
    return Steady(
        question=question.asked,
        about=question.about,
        log10_lr=integrated,
        log10_lr_low=low,
        log10_lr_high=high,
        turned=turned,
        leading=leading,
    )


def _leading(drawn: RateValues, found: Sides) -> tuple[LeadingRow, ...]:
    """The rows that move the answer most."""
    log10 = found.log10_by_draw()
    if float(np.ptp(log10)) < 1e-9:
        return ()
    all_rows = [row.id for row in rate_rows()]
    correlations = _correlations(np.stack([drawn.shifts[row] for row in all_rows]), log10)
    order = np.argsort(-np.abs(correlations), kind="stable")[:LEADING]
    chosen = [(all_rows[k], float(correlations[k])) for k in order]
    return tuple(LeadingRow(*each) for each in chosen if abs(each[1]) >= LEAST_CORRELATION)


def _curves(
    pruned: "Pruned", base: RateValues, leading: dict[Question, tuple[LeadingRow, ...]]
) -> dict[Question, Curve]:
    """Every answer at so many times the odds of the row that leads it: all in one sum."""
    rows = list(dict.fromkeys(each[0].row for each in leading.values() if each))
    if not rows:
        return {}
    changed = {row: [times_odds(base, row, factor) for factor in FACTORS] for row in rows}
    moved = pruned.sides(each_with(base, [each for row in rows for each in changed[row]]))
    found = {}
    for question, each in leading.items():
        if each:
            first = rows.index(each[0].row) * len(FACTORS)
            log10 = moved[question].log10_by_draw()[first : first + len(FACTORS)]
            values = (one[each[0].row] for one in changed[each[0].row])
            points = zip(values, log10, strict=True)
            found[question] = tuple(CurvePoint(v, float(log10)) for v, log10 in points)
    return found


def _correlations(shifts: Array, log10: Array) -> Array:
    """Rank correlation of every row's shifts with the answer, shape (rows,)."""
    ranks = np.argsort(np.argsort(shifts, axis=1), axis=1).astype(float)
    of_answer = np.argsort(np.argsort(log10)).astype(float)
    ranks -= ranks.mean(axis=1, keepdims=True)
    of_answer -= of_answer.mean()
    scale = np.sqrt((ranks**2).sum(axis=1) * (of_answer**2).sum())
    found: Array = ranks @ of_answer / np.maximum(scale, 1e-12)
    return found


def _turning(curve: Curve) -> float | None:
    """The factor nearest 1 at which the answer turns, between two points of the curve."""
    middle = FACTORS.index(1.0)
    side = np.sign(curve[middle].log10_lr)
    for step in range(1, middle + 1):
        for k in (middle + step, middle - step):
            if np.sign(curve[k].log10_lr) != side:
                near = k - 1 if k > middle else k + 1
                a, b = curve[near].log10_lr, curve[k].log10_lr
                share = a / (a - b)
                logs = np.log([FACTORS[near], FACTORS[k]])
                return float(np.exp(logs[0] + share * (logs[1] - logs[0])))
    return None
