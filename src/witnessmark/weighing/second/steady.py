"""How far the answers of a car rest on assumed rates: all rates varied together, 512 times.

The band is the central 90 % of log10 LR: sensitivity to assumptions, no interval of the LR and
not the chance that it is wrong.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from witnessmark.agreement.records import CarMarks
from witnessmark.weighing.second.build import Noted, network_of, noted
from witnessmark.weighing.second.network import Network
from witnessmark.weighing.second.questions import Question, Sides, questions_of, sides
from witnessmark.weighing.second.rates import (
    RateValues,
    rate_rows,
    rate_values,
    with_values,
)
from witnessmark.weighing.second.records import (
    CurvePoint,
    LeadingRow,
    Steadiness,
    Steady,
)

Array = NDArray[np.float64]

CHUNK, HELD = 64, 12_000_000
"""Most draws that are summed together, and most values that their sums hold."""
BAND = (0.05, 0.95)
LEAST_CORRELATION = 0.15
"""A rank correlation below this is noise at 512 draws."""
LEADING = 5
FACTORS = (0.01, 0.03, 0.1, 0.3, 1.0, 3.0, 10.0, 30.0, 100.0)
"""Times the odds of the leading row, for its curve."""


def steadiness(car: CarMarks, draws: int = 512) -> Steadiness:
    """The band of every answer over so many draws of all rates."""
    known = noted(car)
    overrides = car.casefile.circumstances.overrides
    drawn = rate_values(overrides, draws)
    asked = [each for each in questions_of(known) if each.is_examined]
    base = rate_values(overrides)
    found = drawn_sides(known, drawn, asked, _chunk(known, base))
    moved = _Moved(known, base, {})
    return Steadiness(
        draws, tuple(_steady(moved, drawn, each, found[k]) for k, each in enumerate(asked))
    )


@dataclass(frozen=True, slots=True, eq=False)
class _Moved:
    """The car with single rows moved: each network once, whatever asks for it."""

    known: Noted
    base: RateValues
    networks: dict[tuple[str, float], Network]

    def log10_lr(self, question: Question, row: str, factor: float) -> CurvePoint:
        """The LR with the odds of one row so many times what they are."""
        value = _times_odds(float(self.base[row].reshape(-1)[0]), factor)
        if (row, factor) not in self.networks:
            rates = with_values(self.base, {row: value})
            self.networks[row, factor] = network_of(self.known, rates)
        found = sides(self.networks[row, factor], self.known, question)
        assert found is not None
        return CurvePoint(value, found.log10_lr())


def _chunk(known: Noted, base: RateValues) -> int:
    """How many draws of this car fit into the memory together."""
    return max(1, min(CHUNK, HELD // network_of(known, base).tree.held))


def drawn_sides(known: Noted, drawn: RateValues, asked: list[Question], chunk: int) -> list[Sides]:
    """Both sides of every question, for all draws."""
    parts: list[list[Sides]] = [[] for _ in asked]
    for first in range(0, drawn.draws, chunk):
        network = network_of(known, drawn.part(first, first + chunk))
        for k, question in enumerate(asked):
            side = sides(network, known, question)
            assert side is not None
            parts[k].append(side)
    return [_together(each) for each in parts]


def _together(parts: list[Sides]) -> Sides:
    first = parts[0]
    return Sides(
        first.names,
        np.concatenate([each.joint for each in parts]),
        np.concatenate([each.prior for each in parts]),
        first.first,
        first.second,
    )


def _steady(moved: _Moved, drawn: RateValues, question: Question, found: Sides) -> Steady:
    log10 = found.log10_by_draw()
    integrated = found.log10_lr()
    low, high = (float(each) for each in np.quantile(log10, BAND))
    turned = int(np.count_nonzero(np.sign(log10) != np.sign(integrated)))
    return Steady(
        question.asked,
        question.about,
        integrated,
        low,
        high,
        turned,
        _leading(moved, drawn, question, log10),
    )


def _leading(
    moved: _Moved, drawn: RateValues, question: Question, log10: Array
) -> tuple[LeadingRow, ...]:
    """The rows that move the answer most, the first with its curve."""
    if float(np.ptp(log10)) < 1e-9:
        return ()
    all_rows = [row.id for row in rate_rows()]
    correlations = _correlations(np.stack([drawn.shifts[row] for row in all_rows]), log10)
    order = np.argsort(-np.abs(correlations), kind="stable")[:LEADING]
    chosen = [(all_rows[k], float(correlations[k])) for k in order]
    rows = [LeadingRow(*each) for each in chosen if abs(each[1]) >= LEAST_CORRELATION]
    if rows:
        first = rows[0]
        curve = tuple(moved.log10_lr(question, first.row, factor) for factor in FACTORS)
        rows[0] = LeadingRow(first.row, first.correlation, curve, _turning(curve))
    return tuple(rows)


def _correlations(shifts: Array, log10: Array) -> Array:
    """Rank correlation of every row's shifts with the answer, shape (rows,)."""
    ranks = np.argsort(np.argsort(shifts, axis=1), axis=1).astype(float)
    of_answer = np.argsort(np.argsort(log10)).astype(float)
    ranks -= ranks.mean(axis=1, keepdims=True)
    of_answer -= of_answer.mean()
    scale = np.sqrt((ranks**2).sum(axis=1) * (of_answer**2).sum())
    found: Array = ranks @ of_answer / np.maximum(scale, 1e-12)
    return found


def _times_odds(value: float, factor: float) -> float:
    if value >= 1.0:
        return value * factor
    odds = value / (1.0 - value) * factor
    return odds / (1.0 + odds)


def _turning(curve: tuple[CurvePoint, ...]) -> float | None:
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
