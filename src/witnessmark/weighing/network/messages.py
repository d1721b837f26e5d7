"""One tree of messages: a product of factors summed inward once, and outward to whatever is
asked.

Factors are joined two by two. Inward, every axis is summed where the last factor that has it is
joined; outward, each node learns the sum of all that lies outside of it. A factor times what
lies outside of it is its joint with everything, so that one tree answers every question.
"""

from collections import Counter
from collections.abc import Callable, Hashable, Iterable, Sequence
from functools import lru_cache, partial
from itertools import combinations
from math import prod

import numpy as np

from witnessmark.weighing.arrays import Array
from witnessmark.weighing.network.factors import Axes, Factor

DRAW = "d"
"""The axis of the draws: never summed."""
LEAST_PRODUCT = 48
"""Products for each element of the shared axes from which a product of matrices is quicker."""


class Tree:
    """The factors joined two by two, all sums inward done. `outside` gives the sum of all
    factors but one over every axis that this one does not have."""

    def __init__(
        self, factors: Sequence[Factor], wanted: Axes = (), kept: "Kept | None" = None
    ) -> None:
        """`wanted`: axes that are kept to the end; `kept` gives what was joined before."""
        self._nodes = list(factors)
        self.joins: list[tuple[int, tuple[int, int]]] = []
        self._parent: dict[int, int] = {}
        self._sibling: dict[int, int] = {}
        self._outside: dict[int, Factor] = {}
        left = list(range(len(self._nodes)))
        for one, other in _path(tuple(_signature(each) for each in self._nodes), wanted):
            left = [node for node in left if node not in (one, other)]
            needed = {DRAW, *wanted, *(axis for node in left for axis in self._nodes[node].axes)}
            parent = len(self._nodes)
            self._nodes.append(_joined(self._nodes[one], self._nodes[other], needed, kept))
            self.joins.append((parent, (one, other)))
            self._parent |= {one: parent, other: parent}
            self._sibling |= {one: other, other: one}
            left.append(parent)
        self.root = left[0]
        self.total = joined(self._nodes[self.root], NOTHING, {DRAW, *wanted})

    def node(self, place: int) -> Factor:
        """One of the factors, in their order, or of the joined ones."""
        return self._nodes[place]

    def outside(self, node: int) -> Factor:
        """The sum over everything but this factor, by its axes (and draw); axes on which it
        does not depend are left out."""
        if node == self.root:
            return NOTHING
        if node not in self._outside:
            above = self.outside(self._parent[node])
            needed = {DRAW, *self._nodes[node].axes}
            self._outside[node] = joined(above, self._nodes[self._sibling[node]], needed)
        return self._outside[node]


type Kept = Callable[[Hashable, Callable[[], Factor]], Factor]
"""What gives a factor that was made before, by what it follows from, or makes it."""


def _joined(one: Factor, other: Factor, needed: set[str], kept: Kept | None) -> Factor:
    if kept is None:
        return joined(one, other, needed)
    both = frozenset(needed.intersection((*one.axes, *other.axes)))
    return kept((one, other, both), partial(joined, one, other, needed))


NOTHING = Factor(np.ones(()), ())


def contracted(factors: Sequence[Factor], wanted: Axes) -> Factor:
    """The sum of the product over every axis that is not wanted, the axes in the order wanted;
    an axis that no factor has is left out."""
    total = Tree(factors, wanted).total
    axes = tuple(axis for axis in wanted if axis in total.axes)
    order = [total.axes.index(axis) for axis in axes]
    return Factor(total.table.transpose(order), axes)


def joined(one: Factor, other: Factor, needed: set[str]) -> Factor:
    """The product of two factors, summed over every axis that is not needed."""
    one, other = _summed(one, other, needed), _summed(other, one, needed)
    shared = [axis for axis in one.axes if axis in other.axes]
    both = tuple(axis for axis in shared if axis in needed)
    over = tuple(axis for axis in shared if axis not in needed)
    if not over:
        return _multiplied(one, other)
    left = tuple(axis for axis in one.axes if axis not in shared)
    right = tuple(axis for axis in other.axes if axis not in shared)
    a, b = _laid(one, (*both, *left, *over)), _laid(other, (*both, *over, *right))
    sizes = dict(zip(one.axes, one.table.shape, strict=True))
    sizes |= dict(zip(other.axes, other.table.shape, strict=True))
    m, k, n = (prod(sizes[axis] for axis in each) for each in (left, over, right))
    axes = (*both, *left, *right)
    if both and m * k * n < LEAST_PRODUCT:
        names = {axis: chr(97 + place) for place, axis in enumerate(sizes)}
        letters = ["".join(names[axis] for axis in each) for each in (one.axes, other.axes, axes)]
        found = np.einsum(f"{letters[0]},{letters[1]}->{letters[2]}", one.table, other.table)
        return Factor(np.asarray(found), axes)
    batch = tuple(sizes[axis] for axis in both)
    found = a.reshape(*batch, m, k) @ b.reshape(*batch, k, n)
    return Factor(found.reshape([sizes[axis] for axis in axes]), axes)


def _summed(one: Factor, other: Factor, needed: set[str]) -> Factor:
    """The factor summed over what it alone has and nothing needs."""
    gone = tuple(
        place
        for place, axis in enumerate(one.axes)
        if axis not in needed and axis not in other.axes
    )
    if not gone:
        return one
    kept = tuple(axis for place, axis in enumerate(one.axes) if place not in gone)
    return Factor(np.asarray(one.table.sum(axis=gone)), kept)


def _multiplied(one: Factor, other: Factor) -> Factor:
    """The product, axis by axis."""
    further = tuple(axis for axis in other.axes if axis not in one.axes)
    axes = (*one.axes, *further)
    table = one.table.reshape(one.table.shape + (1,) * len(further)) * along(other, axes)
    return Factor(np.asarray(table), axes)


def along(factor: Factor, axes: Axes) -> Array:
    """The table laid along these axes, length 1 where it does not have one."""
    laid = _laid(factor, tuple(axis for axis in axes if axis in factor.axes))
    sizes = dict(zip(factor.axes, factor.table.shape, strict=True))
    return laid.reshape([sizes.get(axis, 1) for axis in axes])


def _laid(factor: Factor, axes: Axes) -> Array:
    """The table with its axes in this order."""
    if axes == factor.axes:
        return factor.table
    return factor.table.transpose([factor.axes.index(axis) for axis in axes])


type _Signature = tuple[tuple[str, int], ...]


def _signature(factor: Factor) -> _Signature:
    """Axes and sizes; the order of sums does not depend on how many draws there are."""
    return tuple(
        (axis, 1 if axis == DRAW else size)
        for axis, size in zip(factor.axes, factor.table.shape, strict=True)
    )


MOVED = 8
"""Products in the time in which one value is read or written."""


@lru_cache(maxsize=512)
def _path(signatures: tuple[_Signature, ...], wanted: Axes) -> tuple[tuple[int, int], ...]:
    """Which two nodes are joined next; each pair is a further node.

    The axis that is summed with least work goes first. Of the searches of a library the quick
    one took up to three times as long on the cars with most papers, the others half a second.
    """
    sizes = {axis: size for each in signatures for axis, size in each}
    nodes = {place: frozenset(axis for axis, _ in each) for place, each in enumerate(signatures)}
    kept = frozenset((DRAW, *wanted))
    pairs: list[tuple[int, int]] = []

    def size(axes: Iterable[str]) -> int:
        return prod(sizes[axis] for axis in axes)

    def work(axis: str) -> tuple[int, str]:
        own = [axes for axes in nodes.values() if axis in axes]
        rest = (axes for axes in nodes.values() if axis not in axes)
        both = frozenset[str]().union(*own)
        moved = size(both & kept.union(*rest)) + sum(size(axes) for axes in own)
        return size(both) + MOVED * moved, axis

    while len(nodes) > 1:
        count = Counter(axis for axes in nodes.values() for axis in axes - kept)
        shared = [axis for axis, times in count.items() if times > 1]
        least = min(shared, key=work, default=None)
        places = [place for place, axes in nodes.items() if least is None or least in axes]
        pairs_here = combinations(places, 2)
        one, other = min(pairs_here, key=lambda two: size(nodes[two[0]] | nodes[two[1]]))
        both = nodes.pop(one) | nodes.pop(other)
        nodes[len(signatures) + len(pairs)] = both & kept.union(*nodes.values())
        pairs.append((one, other))
    return tuple(pairs)
