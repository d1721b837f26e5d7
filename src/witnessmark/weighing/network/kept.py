"""What of a car's sum is kept: the entries and products without which no question would change.

Under base rates every product of two entries has a share of each side of each question. Those
that have next to none of any are left out, and the draws are summed over the rest.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from witnessmark.weighing.arrays import Array, Places, Which
from witnessmark.weighing.network.factors import Axes, Factor
from witnessmark.weighing.network.leaves import Entries, Marginal
from witnessmark.weighing.network.messages import NOTHING, along
from witnessmark.weighing.network.network import Network
from witnessmark.weighing.network.questions import Sides
from witnessmark.weighing.network.sums import Relative, Step, Sums


@dataclass(frozen=True, slots=True, eq=False)
class KeptTable:
    """The entries of one table that are kept, their values at base rates, the sum of all else
    at each, and the least share of the whole that counts there."""

    entries: Entries
    values: Array
    outside: Array
    least: Array


LEAST = 1e-8
"""A share of the least side in which it can stand, below which an entry or a product does not
count."""


class Least:
    """The least share of the whole that counts: by the states of some axes, else anywhere."""

    def __init__(self, asked: Iterable[tuple[Marginal, Sides]]) -> None:
        self._by_axis: dict[str, Array] = {}
        self._anywhere = 1.0
        for marginal, side in asked:
            joint = side.joint[0] / side.joint[0].sum()
            shares = [float(joint[which].sum()) for which in (side.first, side.second)]
            if marginal.is_of_car:
                least = np.ones(joint.size)
                least[side.first], least[side.second] = shares
                self._by_axis[marginal.axis] = least
            else:
                self._anywhere = min(self._anywhere, *shares)

    def of(self, axes: Axes) -> Array:
        """Laid along the axes of a table, length 1 where all states are alike."""
        found = np.full((1,) * len(axes), self._anywhere)
        for axis, least in self._by_axis.items():
            if axis in axes:
                shape = [-1 if each == axis else 1 for each in axes]
                found = np.minimum(found, least.reshape(shape))
            else:
                found = np.minimum(found, least.min())
        return LEAST * found


class Keeping:
    """The tables of a network and the steps by which they are summed, with what counts alone."""

    def __init__(self, network: Network, asked: Iterable[tuple[Marginal, Sides]]) -> None:
        """`network` of one draw; both sides of each question under it."""
        tree = network.tree
        self._tree, self._least = tree, Least(asked)
        self._total = float(tree.total.table.reshape(-1)[0])
        self.tables: list[KeptTable] = [self._whole(NOTHING)]
        self.steps: list[Step] = []
        leaves = len(network.shared())
        self._places = {node: self._add(self._of_node(node)) for node in range(leaves)}
        pairs = []
        for piece, noted in network.noted.items():
            ways = self._whole(network.ways[piece])
            pairs.append((self._add(ways), self._add(self._whole(noted))))
        for node, (one, other) in enumerate(pairs, leaves):
            self._places[node] = self._step(one, other, self._of_node(node))
        for parent, (one, other) in tree.joins:
            sides = (self._summed(one, other, parent), self._summed(other, one, parent))
            self._places[parent] = self._step(*sides, self._of_node(parent))
        self._step(self._places[tree.root], 0, self._whole(tree.total))

    def _add(self, table: KeptTable) -> int:
        self.tables.append(table)
        return len(self.tables) - 1

    def _whole(self, factor: Factor) -> KeptTable:
        """All entries of a table that are not 0."""
        return self._counting(factor, NOTHING, np.zeros((1,) * len(factor.axes)))

    def _of_node(self, node: int) -> KeptTable:
        factor = self._tree.node(node)
        return self._counting(factor, self._tree.outside(node), self._least.of(factor.axes))

    def _counting(self, factor: Factor, outside: Factor, least: Array) -> KeptTable:
        """The entries of a table that have a share which counts."""
        around, least = along(outside, factor.axes), least * self._total
        kept = factor.table * around > least
        around, least = (np.broadcast_to(each, kept.shape)[kept] for each in (around, least))
        entries = Entries(factor.axes, factor.table.shape, np.flatnonzero(kept))
        return KeptTable(entries, factor.table[kept], around, least)

    def _summed(self, node: int, other: int, parent: int) -> int:
        """The table of a node, summed over what neither the other nor the parent has."""
        one = self._tree.node(node)
        needed = {*self._tree.node(other).axes, *self._tree.node(parent).axes}
        gone = tuple(k for k, axis in enumerate(one.axes) if axis not in needed)
        if not gone:
            return self._places[node]
        axes = tuple(axis for axis in one.axes if axis in needed)
        summed = Factor(np.asarray(one.table.sum(axis=gone)), axes)
        table = self._counting(summed, self._tree.outside(node), self._least.of(axes))
        return self._step(self._places[node], 0, table)

    def _step(self, one: int, other: int, to: KeptTable) -> int:
        """A further table, with the pairs of entries that add up to it."""
        a, b = self.tables[one], self.tables[other]
        at_one, at_other, at = _meeting(a.entries, b.entries, to.entries)
        share = a.values[at_one] * b.values[at_other] * to.outside[at]
        kept = share > to.least[at]
        place = self._add(to)
        self.steps.append(
            Step(
                one=one,
                other=other,
                to=place,
                at_one=at_one[kept],
                at_other=at_other[kept],
                at=at[kept],
            )
        )
        return place

    def sums(self, asked: Sequence[int]) -> Sums:
        """The plan of all that."""
        leaves = [each.values for each in self.tables[: len(self.tables) - len(self.steps)]]
        return Sums(leaves, [each.values.size for each in self.tables], self.steps, asked)


def _meeting(one: Entries, other: Entries, to: Entries) -> tuple[Places, Places, Places]:
    """The pairs of entries that agree along all axes which both have, and where their product
    stands in the table that it adds up to; pairs of which that keeps nothing are left out."""
    sizes = dict(zip((*one.axes, *other.axes), (*one.sizes, *other.sizes), strict=True))
    shared = tuple(axis for axis in one.axes if axis in other.axes)
    at, keys = one.code(shared, sizes), other.code(shared, sizes)
    order = np.argsort(keys, kind="stable")
    first, last = (np.searchsorted(keys[order], at, side) for side in ("left", "right"))
    count = last - first
    at_one = np.repeat(np.arange(at.size), count)
    within = np.arange(at_one.size) - np.repeat(np.cumsum(count) - count, count)
    at_other = order[first[at_one] + within]
    # Where the product stands: what the first has of the axes of the table, and the second.
    strides = dict(zip(to.axes, _strides(to.sizes), strict=True))
    own = sum((one.along(axis) * strides[axis] for axis in to.axes if axis in one.axes), 0 * at)
    rest = [axis for axis in to.axes if axis not in one.axes]
    further = sum((other.along(axis) * strides[axis] for axis in rest), 0 * keys)
    index = np.full(int(np.prod(to.sizes, dtype=np.intp)), -1)
    index[to.places] = np.arange(to.places.size)
    found = index[own[at_one] + further[at_other]]
    kept = found >= 0
    return at_one[kept], at_other[kept], found[kept]


def _strides(sizes: tuple[int, ...]) -> tuple[int, ...]:
    return tuple(int(np.prod(sizes[k + 1 :], dtype=np.intp)) for k in range(len(sizes)))


PAIRS, HALVINGS = 2048, 64
"""Pairs of which the shares are worked out together; halvings of 1 by which they are told apart."""


def counting_pairs(sums: Sums, values: Sequence[Relative], lost: Array) -> list[Which]:
    """Which pairs of each step are kept. `values` are those of all tables, a column for each
    side; `lost` the share of each that may be left out in all, which every step has alike."""
    between = range(len(sums.leaves), len(sums.sizes))
    outside = sums.backward(values, between)
    found = []
    for step in sums.steps:
        parts = [slice(k, k + PAIRS) for k in range(0, step.at.size, PAIRS)]
        shares = [_shares(sums, step, values, outside[step.to], part) for part in parts]
        least = _least(shares, lost / len(sums.steps))
        found.append(np.concatenate([(each >= least).any(axis=1) for each in shares]))
    return found


def _shares(
    sums: Sums, step: Step, values: Sequence[Relative], outside: Relative, part: slice
) -> NDArray[np.float32]:
    """The share that some pairs of a step have of each side, shape (pairs, sides)."""
    at_one, at_other, at = step.at_one[part], step.at_other[part], step.at[part]
    base = sums.values[step.one][at_one] * sums.values[step.other][at_other]
    base = base * sums.outside[step.to][at] / sums.values[-1]
    found = base[:, None].astype(np.float32)
    for each, places in ((values[step.one], at_one), (values[step.other], at_other), (outside, at)):
        if each is not None:
            found = found * np.take(each, places, axis=0, mode="clip")
    whole = values[-1]
    return found if whole is None else found / whole


def _least(shares: list[NDArray[np.float32]], lost: Array) -> Array:
    """The greatest share of each side below which all shares together are at most so much."""
    sides = np.arange(lost.size)
    total = np.zeros(HALVINGS * lost.size)
    for each in shares:
        each = np.broadcast_to(each, (each.shape[0], lost.size))
        halvings = np.clip(-np.frexp(each)[1], 0, HALVINGS - 1)
        place = halvings.astype(np.intp) * lost.size + sides
        total += np.bincount(place.reshape(-1), each.reshape(-1), total.size)
    below = np.cumsum(total.reshape(HALVINGS, -1)[::-1], axis=0)
    count = (below <= lost).sum(axis=0)
    return 0.5 ** (HALVINGS - count.astype(float))
