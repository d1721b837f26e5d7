"""The rates of the model: read from tables/rates.csv, overridden by a case, or drawn.

Every rate is one row with a family, a sign, a basis, plain words and a reason. The sign says
which way a greater value favours the claim (+, - or 0). In draws ln odds of a row are normal
about its value, standard deviation ln 3 / 1.645; half of that variance is shared within a
family by sign, so that a common error widens and never cancels. The normals of a row depend
on its own name alone: a new row moves no old band.
"""

import csv
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from hashlib import sha256
from pathlib import Path
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

from witnessmark.casefile.records import Override
from witnessmark.catalogue import marked
from witnessmark.codebook.records import Basis
from witnessmark.reading import MOVABLE_ROWS
from witnessmark.reading import rate_rows as reading_rows
from witnessmark.weighing.arrays import Array, Places

TABLE = Path(__file__).with_name("tables") / "rates.csv"
SPREAD = float(np.log(3.0)) / 1.645
"""Standard deviation of ln odds: nine rates in ten lie within a factor of 3 of their row."""
SHARED = 0.5
"""Share of the variance that a family has in common."""
BESIDE = {"doubtful": "disturbed", "disturbed": "doubtful"}
"""The outcomes of a look that have a row; as made is what they leave."""
AXES = 8
"""Axes of a table of the car behind the one of the draws."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RateRow:
    """One assumed number, in plain words, with its reason. `sign`: 1 where a greater value
    favours the claim, -1 where it speaks against it, 0 where it does neither as a rule."""

    id: str
    value: float
    family: str
    sign: int
    basis: Basis
    plain: str
    reason: str


@cache
def rate_rows() -> tuple[RateRow, ...]:
    """The rows as shipped, in the order of the table."""
    signs = {"+": 1, "-": -1, "0": 0}
    with TABLE.open(encoding="utf-8", newline="") as stream:
        return tuple(
            RateRow(
                id=line["row"],
                value=float(line["value"]),
                family=line["family"],
                sign=signs[line["sign"]],
                basis=Basis(line["basis"]),
                plain=line["plain"],
                reason=line["reason"],
            )
            for line in csv.DictReader(stream)
        )


def base_value(row: str) -> float:
    """The value of one row as shipped, where it is a part of a curve and not drawn."""
    return next(each.value for each in rate_rows() if each.id == row)


@dataclass(frozen=True, slots=True, eq=False)
class RateValues:
    """The value of every row for so many draws: `table` maps a row to its values, shape
    (draws, 1, 1, 1, 1, 1, 1, 1, 1); `shifts` to what was added to its ln odds, shape (draws,)."""

    draws: int
    table: dict[str, Array]
    shifts: dict[str, Array]

    def __getitem__(self, row: str) -> Array:
        return self.table[row]

    def at(self, places: Places) -> "RateValues":
        """Some of the draws."""
        table = {row: values[places] for row, values in self.table.items()}
        shifts = {row: values[places] for row, values in self.shifts.items()}
        return RateValues(places.size, table, shifts)


def rate_values(overrides: Iterable[Override] = (), draws: int = 1) -> RateValues:
    """The rates with a case's overrides; one draw is the rows themselves.

    An override of a row that this table does not have is left to the caller's checks.
    """
    values = {row.id: row.value for row in rate_rows()}
    values |= {o.row: o.value for o in overrides if o.row in values}
    shifts = {row.id: _shift(row, draws) for row in rate_rows()}
    table = {r.id: _moved(values[r.id], shifts[r.id], r.value >= 1.0) for r in rate_rows()}
    for doubtful in [row for row in values if row.endswith(".doubtful")]:
        _look(doubtful, values, shifts, table)
    shape = (draws,) + (1,) * AXES
    return RateValues(draws, {r: v.reshape(shape) for r, v in table.items()}, shifts)


@lru_cache(maxsize=64)
def base_rates(overrides: tuple[Override, ...]) -> RateValues:
    """The rows themselves with a case's overrides: one draw, the same each time."""
    return rate_values(overrides)


def each_with(base: RateValues, changed: Sequence[dict[str, float]]) -> RateValues:
    """The rates of one draw, once for each of these changes of some rows; looks as they are."""
    draws = len(changed)
    table = {row: np.repeat(values, draws, axis=0) for row, values in base.table.items()}
    for draw, rows in enumerate(changed):
        for row, value in rows.items():
            table[row][draw] = value
    shifts = {row: np.repeat(values, draws) for row, values in base.shifts.items()}
    return RateValues(draws, table, shifts)


def times_odds(base: RateValues, row: str, factor: float) -> dict[str, float]:
    """One row of one draw with so many times its odds (a factor: its value); of an outcome of a
    look the odds against the first outcome, and the other outcome gives way."""
    value = _of(base, row)
    if value >= 1.0:
        return {row: value * factor}
    beside = other_outcome(row)
    rest = 1.0 - value - (_of(base, beside) if beside else 0.0)
    weight = value / rest * factor
    if not beside:
        return {row: weight / (1.0 + weight)}
    other = _of(base, beside) / rest
    return {row: weight / (1.0 + weight + other), beside: other / (1.0 + weight + other)}


def other_outcome(row: str) -> str:
    """The row that shares a look with this one; none of any other row."""
    name, _, outcome = row.rpartition(".")
    return f"{name}.{BESIDE[outcome]}" if outcome in BESIDE else ""


def _of(base: RateValues, row: str) -> float:
    return float(base[row].reshape(-1)[0])


def _moved(value: float, shift: Array, is_factor: bool) -> Array:
    """The value with its ln odds (of a factor its logarithm) moved."""
    if is_factor:
        return value * np.exp(shift)
    odds = value / (1.0 - value) * np.exp(shift)
    return odds / (1.0 + odds)


def _look(
    doubtful: str, values: dict[str, float], shifts: dict[str, Array], table: dict[str, Array]
) -> None:
    """Three outcomes: odds against the first one, normalised, or they leave the simplex."""
    rows = (doubtful, other_outcome(doubtful))
    rest = 1.0 - sum(values[row] for row in rows)
    weights = [values[row] / rest * np.exp(shifts[row]) for row in rows]
    total = 1.0 + weights[0] + weights[1]
    for row, weight in zip(rows, weights, strict=True):
        table[row] = weight / total


def _shift(row: RateRow, draws: int) -> Array:
    if draws == 1:
        return np.zeros(1)
    own = _normals(row.id, draws)
    common = (row.sign or 1) * _normals(f"family {row.family}", draws)
    shift: Array = SPREAD * (np.sqrt(1.0 - SHARED) * own + np.sqrt(SHARED) * common)
    return shift


@lru_cache(maxsize=1024)
def _normals(key: str, draws: int) -> Array:
    """Normals by their middle quantiles, in an order that the key alone decides."""
    return _quantiles(draws)[np.argsort(_digests(key, draws), kind="stable")]


@cache
def _quantiles(draws: int) -> Array:
    return np.array([NormalDist().inv_cdf((k + 0.5) / draws) for k in range(draws)])


def _digests(key: str, draws: int) -> NDArray[np.uint64]:
    blocks = (sha256(f"{key} {k}".encode()).digest() for k in range((draws + 3) // 4))
    return np.frombuffer(b"".join(blocks), dtype="<u8")[:draws]


READING_PLAIN = {
    "reading.error.clear": marked("characters called clear that are read wrongly"),
    "reading.error.worn": marked("characters on a worn mark that are read wrongly"),
    "reading.error.poor": marked("characters on a poor mark that are read wrongly"),
    "reading.misstrike": marked("characters struck by hand that are others than meant"),
    "reading.shared": marked("misreadings that two examiners have in common"),
}


@dataclass(frozen=True, slots=True)
class Assumed:
    """One assumed number, in plain words, with its basis and reason."""

    id: str
    value: float
    basis: Basis
    plain: str
    reason: str

    @property
    def is_share(self) -> bool:
        """Is it a share, and not how many times more often something happens?"""
        return self.value < 1.0

    @property
    def beside(self) -> str:
        """The other row of the same look, with which it leaves something for places that look as
        made; none of any other row."""
        return other_outcome(self.id)

    def ends(self, value: float) -> tuple[float, float]:
        """Where the draws about this value lie, nine in ten of them: a factor of 3 either way, of a
        share in its odds."""
        shifts = np.log([1 / 3, 3.0])
        low, high = _moved(value, shifts, is_factor=not self.is_share)
        return float(low), float(high)


@cache
def assumed_rows() -> tuple[Assumed, ...]:
    """Every row that a case may give another value, in the order of the tables."""
    own = (Assumed(row.id, row.value, row.basis, row.plain, row.reason) for row in rate_rows())
    reading = (
        Assumed(row.id, row.value, row.basis, READING_PLAIN[row.id], row.reason)
        for row in reading_rows()
        if row.id in MOVABLE_ROWS
    )
    return (*own, *reading)
