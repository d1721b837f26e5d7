"""The number tensors of a network for a batch: each is computed once and kept.

Most cases of a batch, and most batches of one car, show the same readings; what
they have in common is found here and not computed again.
"""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from witnessmark.reading import ReadingRates
from witnessmark.weighing.evidence import SEEN, Evidence, NumberReading
from witnessmark.weighing.numbers import number_tensor

Array = NDArray[np.float64]
Index = NDArray[np.intp]
Case = tuple[int, ...]


@dataclass(frozen=True)
class NumberFactors:
    """The number items of one network, with what was computed for them so far."""

    evidence: Evidence
    _likelihoods: dict[tuple[int, int, ReadingRates], Array] = field(default_factory=dict)
    _tensors: dict[tuple[int, tuple[bool, ...], bytes], Array] = field(default_factory=dict)

    def factor(
        self, k: int, variants: list[Index], rates: tuple[ReadingRates, ...], index: Index | None
    ) -> Array:
        """The tensor of item `k` for every case, shape (*groups, batch or 1).

        `variants` has for each showing the variant of its reading, `index` the
        place in `rates`; each has the length of the batch, or 1.
        """
        columns = [*variants, np.zeros(1, dtype=np.intp) if index is None else index]
        length = max(column.size for column in columns)
        cases = zip(*(_spread(column.tolist(), length) for column in columns), strict=True)
        places: dict[Case, int] = {}
        inverse = [places.setdefault(case, len(places)) for case in cases]
        tensors = [self._tensor(k, case[:-1], rates[case[-1]]) for case in places]
        if all(tensor is tensors[0] for tensor in tensors):
            return tensors[0][..., None]
        stacked: Array = np.stack(tensors, axis=-1)[..., inverse]
        return stacked

    def _tensor(self, k: int, variants: Case, rates: ReadingRates) -> Array:
        item = self.evidence.items[k]
        likelihoods = []
        for showing, variant in zip(item.showings, variants, strict=True):
            reading = self.evidence.readings.get(showing.node)
            likelihood = None
            if reading is not None and variant == SEEN:
                likelihood = self._seen(k, reading, rates)
            elif reading is not None and variant > SEEN:
                likelihood = reading.variants[variant - 2].likelihoods.get(item.id)
            likelihoods.append(np.ones(item.shape) if likelihood is None else likelihood)
        hypothetical = [variant > SEEN for variant in variants]
        key = (k, tuple(hypothetical), b"".join(each.tobytes() for each in likelihoods))
        if key not in self._tensors:
            self._tensors[key] = number_tensor(item, likelihoods, hypothetical)
        return self._tensors[key]

    def _seen(self, k: int, reading: NumberReading, rates: ReadingRates) -> Array | None:
        """P(what was seen | character) of an item; None where the reading does not reach it."""
        item = self.evidence.items[k].id
        if item in reading.vectors:
            return reading.vectors[item]
        seen = reading.seen.get(item)
        if seen is None:
            return None
        key = (k, reading.node, rates)
        if key not in self._likelihoods:
            self._likelihoods[key] = seen.likelihood(rates)
        return self._likelihoods[key]


def _spread(column: list[int], length: int) -> list[int]:
    """The column for every case: one value stands for all."""
    return column if len(column) == length else column * length
