"""Many tables laid end to end, so that a batch takes a few operations on arrays for all of them.

Arrays here have the batch axis last: `(entries, batch)`, one table after the other.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from witnessmark.weighing.rows import Table

Array = NDArray[np.float64]
Index = NDArray[np.intp]


class TableStack:
    """The tables of a network in a fixed order."""

    __slots__ = (
        "_base",
        "_moved",
        "_row_index",
        "_row_starts",
        "_rows",
        "_segment",
        "_shapes",
        "_slices",
        "_starts",
    )

    def __init__(self, tables: Sequence[Table]) -> None:
        self._shapes = [table.shape for table in tables]
        ends = np.cumsum([table.base.size for table in tables]).tolist()
        self._slices = [slice(e - t.base.size, e) for e, t in zip(ends, tables, strict=True)]
        self._base: Array = np.concatenate([table.base.reshape(-1) for table in tables])
        self._row_index: Index = np.concatenate([table.row_index.reshape(-1) for table in tables])
        # A segment is one distribution: the entries that together make 1.
        widths = [width for t in tables for width in [t.shape[-1]] * (t.base.size // t.shape[-1])]
        self._starts: Index = np.cumsum([0, *widths[:-1]])
        self._segment: Index = np.repeat(np.arange(len(widths)), widths)
        order = np.argsort(self._row_index, kind="stable")
        self._moved: Index = order[self._row_index[order] >= 0]
        self._rows, self._row_starts = np.unique(self._row_index[self._moved], return_index=True)

    def values(self, scale: Array) -> Array:
        """Every distribution for a batch of `scale` (batch, rows), shape (entries, batch)."""
        padded = np.concatenate([scale.T, np.ones((1, scale.shape[0]))])
        weights = self._base[:, None] * padded[self._row_index]
        totals = np.add.reduceat(weights, self._starts, axis=0)
        shares: Array = weights / totals[self._segment]
        return shares

    def split(self, values: Array) -> list[Array]:
        """The same, table by table, each of shape (*parents, states, batch)."""
        return [
            values[where].reshape(*shape, -1)
            for where, shape in zip(self._slices, self._shapes, strict=True)
        ]

    def row_slopes(self, values: Array, expected: list[Array], scale: Array) -> Array:
        """d log P / d log weight of every row, shape (batch, rows).

        `expected` are the expected counts of each entry given the evidence, one
        array for each table, (*parents, states, batch); `values` the
        distributions themselves.
        """
        slopes = np.zeros(scale.shape)
        if not self._rows.size:
            return slopes
        counts = np.empty((self._base.size, scale.shape[0]))
        for where, shape, each in zip(self._slices, self._shapes, expected, strict=True):
            counts[where].reshape(*shape, -1)[...] = each
        totals = np.add.reduceat(counts, self._starts, axis=0)
        segment = self._segment[self._moved]
        surplus = counts[self._moved] - values[self._moved] * totals[segment]
        slopes[:, self._rows] = np.add.reduceat(surplus, self._row_starts, axis=0).T
        return slopes
