"""The bounds of a likelihood ratio: every assumed row wrong by a factor of 3 in odds.

The log-odds are monotone in each row while the others stand still, so the least
and most favourable values lie at vertices. The search goes from the base to the
vertex that the slopes point to, looks at the slopes there, and goes on until it
stands still; the base itself is always among the candidates.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from witnessmark.weighing.calculator import Calculator, ClampPair
from witnessmark.weighing.evaluate import Joints
from witnessmark.weighing.rows import FACTOR

Array = NDArray[np.float64]
Measure = Callable[[Joints, Joints], Array]

STEPS = 4


@dataclass(frozen=True, slots=True)
class Bounded:
    """ln LR of every pair at the base, at its least and most, each (pairs,), and the
    slopes at the base in the weight of every row, (pairs, rows)."""

    base: Array
    least: Array
    most: Array
    row_slope: Array


def bounds_of(calculator: Calculator, pairs: list[ClampPair], measure: Measure) -> Bounded:
    """The bounds of every pair. `measure` gives ln LR of every pair from the joints of a
    batch with and without evidence, shape (batch, pairs)."""
    count = len(pairs)
    base = calculator.ratios(calculator.ones(count), pairs)
    reading = _reading_slopes(calculator, count, measure)
    slopes = base.row_slope + reading
    both = pairs + pairs
    direction = np.repeat([-1.0, 1.0], count)[:, None]
    best = np.concatenate([base.ln_lr, base.ln_lr])
    sign = np.sign(np.concatenate([slopes, slopes]))
    for _ in range(STEPS):
        scale = FACTOR ** (direction * sign)
        found = calculator.ratios(scale, both)
        best = np.where(direction[:, 0] * (found.ln_lr - best) > 0, found.ln_lr, best)
        here = np.sign(found.row_slope + np.concatenate([reading, reading]))
        here = np.where(here == 0, sign, here)
        if np.array_equal(here, sign):
            break
        sign = here
    return Bounded(base.ln_lr, best[:count], best[count:], slopes)


def _reading_slopes(calculator: Calculator, count: int, measure: Measure) -> Array:
    """The mean slope over the range of each rate of reading, which the tables do not carry."""
    slopes = np.zeros((count, calculator.n_rows))
    columns = calculator.reading_rows()
    if not columns:
        return slopes
    scale = calculator.ones(2 * len(columns))
    for k, column in enumerate(columns):
        scale[2 * k, column] = 1.0 / FACTOR
        scale[2 * k + 1, column] = FACTOR
    found = measure(calculator.run(scale), calculator.prior(scale))
    for k, column in enumerate(columns):
        slopes[:, column] = (found[2 * k + 1] - found[2 * k]) / (2.0 * np.log(FACTOR))
    return slopes
