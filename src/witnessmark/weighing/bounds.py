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
LEVEL = 1e-9
"""A slope below this is rounding and points nowhere: the row stays where it is."""


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
    both_reading = np.concatenate([reading, reading])
    direction = np.repeat([-1.0, 1.0], count)[:, None]
    best = np.concatenate([base.ln_lr, base.ln_lr])
    sign = _sign(np.concatenate([slopes, slopes]))
    moving = np.arange(2 * count)
    for _ in range(STEPS):
        scale = FACTOR ** (direction[moving] * sign[moving])
        found = calculator.ratios(scale, [both[k] for k in moving])
        further = direction[moving, 0] * (found.ln_lr - best[moving]) > 0
        best[moving] = np.where(further, found.ln_lr, best[moving])
        here = _sign(found.row_slope + both_reading[moving])
        here = np.where(here == 0, sign[moving], here)
        turned = (here != sign[moving]).any(axis=1)
        sign[moving] = here
        moving = moving[turned]
        if not moving.size:
            break
    return Bounded(base.ln_lr, best[:count], best[count:], slopes)


def _sign(slopes: Array) -> Array:
    """-1, 0 or 1 for every slope; 0 where only rounding would decide."""
    signs: Array = np.where(np.abs(slopes) < LEVEL, 0.0, np.sign(slopes))
    return signs


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
