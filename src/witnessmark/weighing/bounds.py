"""The bounds of a likelihood ratio: every assumed row wrong by a factor of 3 in odds.

Along a row that stands in one distribution the log-odds of identity are
monotone, and its ends would do. Most rows stand in several tables, and the
prior odds of the other questions move with them: there the least and the most
may lie inside the range of a row. So the search climbs, from the base and from a
few other starts: every row goes where its slope points, to its end at first and
half as far whenever it went too far. Then each question goes on from the best place
that any question has found, and its strongest rows are tried at all combinations of
their ends. The base is always among the candidates. What such a search can miss was
measured (docs/decisions/0008-bounds-and-single-rows.md).
"""

from collections.abc import Callable
from dataclasses import dataclass
from itertools import product

import numpy as np
from numpy.typing import NDArray

from witnessmark.weighing.calculator import Calculator, ClampPair
from witnessmark.weighing.evaluate import Joints
from witnessmark.weighing.rows import FACTOR

Array = NDArray[np.float64]
Measure = Callable[[Joints, Joints], Array]

STEPS = 6
"""Steps of each question from the base."""
FURTHER_STEPS = 3
"""Steps from the best place that any question has found."""
DEAR = 200_000
"""Products for one case beyond which only the search from the base is made."""
STARTS = 2
"""Further starts, at places that have nothing to do with the base."""
TURNED = 5
"""How many of the strongest rows are tried at all combinations of their ends."""
LEVEL = 1e-9
"""A slope below this is rounding and points nowhere: the row stays where it is."""
STILL = 1e-3
"""A move below this, in powers of the factor, is none."""


@dataclass(frozen=True, slots=True)
class Bounded:
    """ln LR of every pair at the base, at its least and most, each (pairs,), and the
    slopes at the base in the weight of every row, (pairs, rows)."""

    base: Array
    least: Array
    most: Array
    row_slope: Array


@dataclass(frozen=True, slots=True)
class _Places:
    """For every end sought where its rows stand, in powers of the factor from -1 to 1,
    shape (ends, rows), and its ln LR there, (ends,)."""

    at: Array
    ln_lr: Array


@dataclass(frozen=True, slots=True)
class _Search:
    """The ends sought: the least of every pair, then the most. `upward` is -1 or 1 for
    each, `reading` the slopes that the tables do not carry."""

    calculator: Calculator
    ends: list[ClampPair]
    upward: Array
    reading: Array

    def climb(self, start: Array, steps: int, stride: float) -> _Places:
        """The best place of every end on its way from `start`."""
        at, best = start.copy(), start.copy()
        ln_lr, slopes = self._look(at, np.arange(len(self.ends)))
        strides, before = np.full(at.shape, stride), np.zeros(at.shape)
        for _ in range(steps):
            turned = slopes * before
            strides *= np.where(turned > 0, 1.5, np.where(turned < 0, 0.5, 1.0))
            ahead = np.clip(at + strides * _sign(slopes), -1.0, 1.0)
            moving = np.flatnonzero(np.abs(ahead - at).max(axis=1) > STILL)
            if not moving.size:
                break
            at[moving], before[moving] = ahead[moving], slopes[moving]
            found, slopes[moving] = self._look(at[moving], moving)
            better = self.upward[moving] * (found - ln_lr[moving]) > 0
            best[moving[better]], ln_lr[moving[better]] = at[moving[better]], found[better]
        return _Places(best, ln_lr)

    def _look(self, at: Array, ends: NDArray[np.intp]) -> tuple[Array, Array]:
        """ln LR of these ends, and its slopes in the direction sought."""
        found = self.calculator.ratios(FACTOR**at, [self.ends[k] for k in ends])
        slopes = found.row_slope + self.reading[ends]
        return found.ln_lr, self.upward[ends, None] * slopes

    def best_of_all(self, places: _Places, measure: Measure) -> Array:
        """For every end the best of all places found, its own first."""
        scale = FACTOR**places.at
        found = measure(self.calculator.run(scale), self.calculator.prior(scale))
        chosen = np.concatenate([found.argmin(axis=0), found.argmax(axis=0)])
        there = np.concatenate([found.min(axis=0), found.max(axis=0)])
        better = self.upward * (there - places.ln_lr) > STILL
        at: Array = np.where(better[:, None], places.at[chosen], places.at)
        return at

    def turned(self, places: _Places, measure: Measure) -> _Places:
        """Every end with its strongest rows at those of their ends that help most, where
        any do: all combinations of them are tried."""
        _, slopes = self._look(places.at, np.arange(len(self.ends)))
        strongest = np.argsort(-np.abs(slopes), axis=1, kind="stable")[:, :TURNED]
        corners = np.array(list(product((-1.0, 1.0), repeat=strongest.shape[1])))
        tried = np.repeat(places.at[:, None], len(corners), axis=1)
        every = np.arange(len(self.ends))
        for k in range(strongest.shape[1]):
            tried[every, :, strongest[:, k]] = corners[:, k]
        scale = FACTOR ** tried.reshape(-1, tried.shape[2])
        found = measure(self.calculator.run(scale), self.calculator.prior(scale))
        own = np.repeat(every % found.shape[1], len(corners))
        mine = found[np.arange(len(own)), own].reshape(len(every), len(corners))
        best = (self.upward[:, None] * mine).argmax(axis=1)
        return self.better(places, _Places(tried[every, best], mine[every, best]))

    def better(self, one: _Places, other: _Places) -> _Places:
        """For every end the better of two places."""
        helps = self.upward * (other.ln_lr - one.ln_lr) > 0
        at = np.where(helps[:, None], other.at, one.at)
        return _Places(at, np.where(helps, other.ln_lr, one.ln_lr))


def bounds_of(calculator: Calculator, pairs: list[ClampPair], measure: Measure) -> Bounded:
    """The bounds of every pair. `measure` gives ln LR of every pair from the joints of a
    batch with and without evidence, shape (batch, pairs)."""
    count = len(pairs)
    base = calculator.ratios(calculator.ones(count), pairs)
    reading = _reading_slopes(calculator, count, measure)
    upward = np.repeat([-1.0, 1.0], count)
    search = _Search(calculator, pairs + pairs, upward, np.concatenate([reading, reading]))
    shape = (2 * count, calculator.n_rows)
    best = search.climb(np.zeros(shape), STEPS, 1.0)
    if calculator.network.full_plan.cost > DEAR:
        # A claim that leaves nearly all open: a longer search would take minutes.
        found = best.ln_lr
        return Bounded(base.ln_lr, found[:count], found[count:], base.row_slope + reading)
    # The same starts every time: the bounds of a case must not depend on chance.
    draw = np.random.default_rng(STARTS)
    for _ in range(STARTS):
        start = draw.integers(-1, 2, size=shape).astype(np.float64)
        best = search.better(best, search.climb(start, STEPS, 0.5))
    onward = search.climb(search.best_of_all(best, measure), FURTHER_STEPS, 0.5)
    best = search.turned(search.better(best, onward), measure)
    return Bounded(base.ln_lr, best.ln_lr[:count], best.ln_lr[count:], base.row_slope + reading)


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
