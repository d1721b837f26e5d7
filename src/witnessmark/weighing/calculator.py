"""Runs batches over one network: keeps the rows, the reading rates and the questions together."""

from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from witnessmark.reading import MOVABLE_ROWS, ReadingRates, rate_of, rates_with
from witnessmark.weighing.evaluate import Batch, Joints, evaluate
from witnessmark.weighing.network import Network

Array = NDArray[np.float64]
Index = NDArray[np.intp]


@dataclass(frozen=True, slots=True)
class ClampPair:
    """Two propositions as masks on variables: variable name to which states it allows."""

    first: dict[str, tuple[bool, ...]]
    second: dict[str, tuple[bool, ...]]


@dataclass(frozen=True, slots=True)
class Ratios:
    """ln LR of each case of a batch, and its slope in the weight of every row."""

    ln_lr: Array
    row_slope: Array


@dataclass(frozen=True)
class Calculator:
    """One network with its base reading rates."""

    network: Network
    rates: ReadingRates
    _rates_seen: dict[tuple[float, ...], ReadingRates] = field(default_factory=dict)

    @property
    def n_rows(self) -> int:
        """Number of rows, in the order of the network's values."""
        return len(self.network.values.rows)

    def ones(self, size: int) -> Array:
        """Scales that change nothing."""
        return np.ones((size, self.n_rows))

    def reading_rows(self) -> list[int]:
        """The places of the rows that are rates of reading."""
        return [k for k, row in enumerate(self.network.values.rows) if row.id in MOVABLE_ROWS]

    def run(
        self,
        scale: Array,
        variants: dict[str, Index] | None = None,
        clamps: dict[str, Array] | None = None,
        *,
        slopes: bool = False,
    ) -> Joints:
        """Sum the network with its evidence for every case of a batch."""
        rates, index = self._rates(scale)
        batch = Batch(scale, rates, variants or {}, clamps or {}, index)
        return evaluate(self.network, batch, with_evidence=True, slopes=slopes)

    def prior(
        self, scale: Array, clamps: dict[str, Array] | None = None, *, slopes: bool = False
    ) -> Joints:
        """Sum the network without evidence for every case of a batch."""
        if not slopes and not clamps and scale.shape[0] == 1 and bool((scale == 1.0).all()):
            return self._base_prior
        batch = Batch(scale, (self.rates,), {}, clamps or {})
        return evaluate(self.network, batch, with_evidence=False, slopes=slopes)

    @cached_property
    def _base_prior(self) -> Joints:
        """The network without evidence, with every row at its base."""
        return evaluate(self.network, Batch(self.ones(1), (self.rates,)), with_evidence=False)

    def ratios(self, scale: Array, pairs: list[ClampPair]) -> Ratios:
        """ln LR of pair k under row scales k, and its slopes: `scale` is (pairs, rows)."""
        count = len(pairs)
        doubled = np.concatenate([scale, scale])
        clamps: dict[str, Array] = {}
        for k, pair in enumerate(pairs):
            for offset, masks in ((0, pair.first), (count, pair.second)):
                for name, mask in masks.items():
                    clamp = clamps.setdefault(name, np.ones((2 * count, len(mask))))
                    clamp[k + offset] = np.array(mask, dtype=np.float64)
        evidence = self.run(doubled, clamps=clamps, slopes=True)
        prior = self.prior(doubled, clamps, slopes=True)
        assert evidence.row_slope is not None
        assert prior.row_slope is not None
        log = np.log(np.maximum(evidence.total, 1e-300)) - np.log(prior.total)
        slope = evidence.row_slope - prior.row_slope
        return Ratios(log[:count] - log[count:], slope[:count] - slope[count:])

    def _rates(self, scale: Array) -> tuple[tuple[ReadingRates, ...], Index | None]:
        """The reading rates that the scales of the reading rows ask for."""
        columns = self.reading_rows()
        wanted = scale[:, columns]
        if not columns or np.all(wanted == 1.0):
            return (self.rates,), None
        distinct, inverse = np.unique(wanted, axis=0, return_inverse=True)
        return tuple(self._scaled(tuple(row)) for row in distinct), inverse.reshape(-1)

    def _scaled(self, factors: tuple[float, ...]) -> ReadingRates:
        if factors not in self._rates_seen:
            rates = self.rates
            for place, factor in zip(self.reading_rows(), factors, strict=True):
                row = self.network.values.rows[place].id
                value = rate_of(self.rates, row)
                odds = value / (1.0 - value) * factor
                rates = rates_with(rates, row, odds / (1.0 + odds))
            self._rates_seen[factors] = rates
        return self._rates_seen[factors]
