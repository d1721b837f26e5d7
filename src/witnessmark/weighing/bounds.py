"""The bounds of a likelihood ratio: every assumed row wrong by a factor of 3 in odds.

Along a row that stands in one distribution the log-odds of identity are
monotone, and its ends would do. Most rows stand in several tables, and the
prior odds of the other questions move with them: there the least and the most
may lie inside the range of a row. So the search climbs: every row goes where its
slope points, to its end at first and half as far whenever it went too far; then
from a few other starts too; each question goes on from the best place that any
question has found, and each of
the rows that matter most is turned to its other end; and so once more. The base is
always among the candidates. What such a search can miss was measured against all
vertices of small cases (docs/decisions/0008-bounds-and-single-rows.md).
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

STEPS = 6
"""Steps of each question from the base."""
FURTHER_STEPS = 3
"""Steps from the best place that any question has found."""
STARTS = 3
"""Further starts, at places that have nothing to do with the base."""
TURNED = 6
"""How many of the strongest rows are tried at their other end."""
ROUNDS = 2
"""How often that is done."""
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
        """Every end with that one of its strongest rows turned to its other end which
        helps most, where one helps."""
        _, slopes = self._look(places.at, np.arange(len(self.ends)))
        rows = np.argsort(-np.abs(slopes), axis=1, kind="stable")[:, :TURNED]
        tried = np.repeat(places.at, rows.shape[1], axis=0)
        every, column = np.arange(len(tried)), rows.reshape(-1)
        tried[every, column] = np.where(tried[every, column] > 0, -1.0, 1.0)
        scale = FACTOR**tried
        found = measure(self.calculator.run(scale), self.calculator.prior(scale))
        own = np.repeat(np.arange(len(self.ends)) % found.shape[1], rows.shape[1])
        mine = self.upward[:, None] * found[every, own].reshape(rows.shape)
        best = mine.argmax(axis=1)
        helps = mine.max(axis=1) > self.upward * places.ln_lr
        chosen = tried.reshape(*rows.shape, -1)[np.arange(len(best)), best]
        return _Places(
            np.where(helps[:, None], chosen, places.at),
            np.where(helps, self.upward * mine.max(axis=1), places.ln_lr),
        )

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
    # The same starts every time: the bounds of a case must not depend on chance.
    draw = np.random.default_rng(STARTS)
    for _ in range(STARTS):
        start = draw.choice([-1.0, 0.0, 1.0], size=shape)
        best = search.better(best, search.climb(start, STEPS, 0.5))
    for _ in range(ROUNDS):
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
