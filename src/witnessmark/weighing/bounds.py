"""The bounds of a likelihood ratio: every assumed row wrong by a factor of 3 in odds.

The log-odds are monotone in each row while the others stand still, so the least
and most favourable values lie at vertices. The search goes from the base to the
vertex that the slopes point to, looks at the slopes there, and goes on until it
stands still; the base itself is always among the candidates.
"""

import numpy as np
from numpy.typing import NDArray

from witnessmark.weighing.calculator import Calculator, ClampPair
from witnessmark.weighing.rows import FACTOR

Array = NDArray[np.float64]

STEPS = 4


def bounds_of(calculator: Calculator, pairs: list[ClampPair]) -> tuple[Array, Array, Array, Array]:
    """ln LR of every pair at the base, least, most, and the slopes at the base.

    Shapes (pairs,), (pairs,), (pairs,), (pairs, rows).
    """
    count = len(pairs)
    base = calculator.ratios(calculator.ones(count), pairs)
    reading = _reading_slopes(calculator, pairs)
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
    return base.ln_lr, best[:count], best[count:], base.row_slope + reading


def _reading_slopes(calculator: Calculator, pairs: list[ClampPair]) -> Array:
    """The mean slope over the range of each rate of reading, which the tables do not carry."""
    slopes = np.zeros((len(pairs), calculator.n_rows))
    columns = calculator.reading_rows()
    if not columns:
        return slopes
    count = len(pairs)
    repeated = [pair for _ in range(2 * len(columns)) for pair in pairs]
    scale = calculator.ones(len(repeated))
    for k, column in enumerate(columns):
        scale[2 * k * count : (2 * k + 1) * count, column] = 1.0 / FACTOR
        scale[(2 * k + 1) * count : (2 * k + 2) * count, column] = FACTOR
    found = calculator.ratios(scale, repeated).ln_lr.reshape(len(columns), 2, count)
    for k, column in enumerate(columns):
        slopes[:, column] = (found[k, 1] - found[k, 0]) / (2.0 * np.log(FACTOR))
    return slopes
