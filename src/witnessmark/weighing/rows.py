"""The assumed rows of the model: read from tables/assumed.csv, overridden by a case.

Each row is one probability. Where several rows share one distribution, each is
the odds of its state against the state that is left over; a row "wrong by a
factor of 3 in odds" multiplies that weight by 3, which multiplies the odds of
the state against all others by 3 and leaves the others in proportion.
"""

import csv
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from witnessmark.casefile.records import Override
from witnessmark.catalogue import marked
from witnessmark.reading import MOVABLE_ROWS, rate_rows

Array = NDArray[np.float64]
FACTOR = 3.0
"""How wrong every assumed row may be, in odds, either way."""

FIXED_TABLE = Path(__file__).with_name("tables") / "fixed.csv"
TABLE = Path(__file__).with_name("tables") / "assumed.csv"


@dataclass(frozen=True, slots=True)
class Row:
    """One assumed probability, in plain words, with its reason."""

    id: str
    value: float
    plain: str
    reason: str


@cache
def shipped_rows() -> tuple[Row, ...]:
    """The rows as shipped, in the order of the table."""
    with TABLE.open(encoding="utf-8", newline="") as stream:
        return tuple(
            Row(line["row"], float(line["value"]), line["plain"], line["reason"])
            for line in csv.DictReader(stream)
        )


_READING_PLAIN = {
    "reading.error.clear": marked("characters called clear that are read wrongly"),
    "reading.error.worn": marked("characters on a worn mark that are read wrongly"),
    "reading.error.poor": marked("characters on a poor mark that are read wrongly"),
    "reading.misstrike": marked("characters struck by hand that are others than meant"),
    "reading.shared": marked("misreadings that two examiners have in common"),
}


@cache
def model_rows() -> tuple[Row, ...]:
    """Every row that may be moved or overridden: those of this room and the rates of reading."""
    rates = (
        Row(row.id, row.value, _READING_PLAIN[row.id], row.reason)
        for row in rate_rows()
        if row.id in MOVABLE_ROWS
    )
    return (*shipped_rows(), *rates)


@cache
def fixed(name: str) -> float:
    """A fixed number of the model, from tables/fixed.csv: it is not moved for the bounds."""
    with FIXED_TABLE.open(encoding="utf-8", newline="") as stream:
        return {line["id"]: float(line["value"]) for line in csv.DictReader(stream)}[name]


@dataclass(frozen=True, slots=True)
class RowValues:
    """The value of every row for one case, with the reason for each that was overridden."""

    rows: tuple[Row, ...]
    overridden: frozenset[str]

    def index(self) -> Mapping[str, int]:
        """Row id to its place."""
        return {row.id: place for place, row in enumerate(self.rows)}


def row_values(overrides: tuple[Override, ...]) -> RowValues:
    """The shipped rows with a case's overrides; unknown rows are left to the caller's checks."""
    wanted = {override.row: override for override in overrides}
    rows = tuple(
        Row(row.id, wanted[row.id].value, row.plain, wanted[row.id].reason)
        if row.id in wanted
        else row
        for row in model_rows()
    )
    return RowValues(rows, frozenset(wanted) & {row.id for row in rows})


class Table:
    """Conditional distributions whose entries are rows: shape `(*parents, states)`.

    `entries[parents]` maps a state to a row id; the state `rest[parents]` takes
    what is left. `values(scale)` gives them for a batch: `scale` has shape
    `(batch, rows)` and multiplies each row's weight.
    """

    __slots__ = ("base", "row_index", "shape")

    def __init__(self, shape: tuple[int, ...]) -> None:
        self.shape = shape
        self.base: Array = np.zeros(shape)
        self.row_index: NDArray[np.intp] = np.full(shape, -1, dtype=np.intp)

    def put(
        self,
        where: tuple[int, ...],
        entries: Mapping[int, str],
        rest: int,
        index: Mapping[str, int],
        rows: tuple[Row, ...],
    ) -> None:
        """Set one distribution: states by row, the rest to `rest`."""
        total = 0.0
        for state, row_id in entries.items():
            place = index[row_id]
            self.base[(*where, state)] = rows[place].value
            self.row_index[(*where, state)] = place
            total += rows[place].value
        # Overrides may add up to more than one: the rest then keeps a sliver.
        self.base[(*where, rest)] = max(1.0 - total, 1e-6)

    def put_spread(
        self,
        where: tuple[int, ...],
        entries: Mapping[int, str],
        rests: tuple[int, ...],
        index: Mapping[str, int],
        rows: tuple[Row, ...],
    ) -> None:
        """Set one distribution: states by row, what is left evenly over the `rests`."""
        self.put(where, entries, rests[0], index, rows)
        share = self.base[(*where, rests[0])] / len(rests)
        for rest in rests:
            self.base[(*where, rest)] = share

    def put_certain(self, where: tuple[int, ...], state: int) -> None:
        """Set one distribution that leaves no doubt."""
        self.base[(*where, state)] = 1.0

    def values(self, scale: Array) -> Array:
        """The distributions for a batch, shape `(batch, *shape)`; each sums to 1."""
        padded = np.concatenate([scale, np.ones((scale.shape[0], 1))], axis=1)
        weights = self.base[None] * padded[:, self.row_index]
        total: Array = weights.sum(axis=-1, keepdims=True)
        shares: Array = weights / total
        return shares

    def touched(self) -> set[int]:
        """The rows that this table uses."""
        return set(np.unique(self.row_index).tolist()) - {-1}
