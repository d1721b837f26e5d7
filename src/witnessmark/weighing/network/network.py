"""The network of one car: its factors, and their sum.

Every question is a marginal of the network: of the structure, of the ways of a piece, of an
item.
"""

from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from witnessmark.weighing.network.factors import (
    Cells,
    Configured,
    Factor,
    ItemAxes,
    item_axes,
    noted_factor,
    prior_factor,
    squeezed,
    way_axis,
    way_priors,
)
from witnessmark.weighing.network.messages import DRAW, Tree, contracted, joined
from witnessmark.weighing.pieces.axes import NAMES
from witnessmark.weighing.pieces.items import CodeItem

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Network:
    """The factors of one car for so many draws. `prior` is that of the car's own variables,
    `bonds` what binds the cells of pieces; `axes` are those of the items."""

    draws: int
    prior: Array
    cells: dict[str, Cells]
    items: dict[str, CodeItem]
    bonds: tuple[Factor, ...]
    axes: ItemAxes
    made: dict[object, Any] = field(default_factory=dict)
    """What was made when first asked for."""

    @property
    def ways(self) -> dict[str, Factor]:
        """P(way | car) of each piece."""
        if "ways" not in self.made:
            self.made["ways"] = {p: prior_factor(each) for p, each in self.cells.items()}
        found: dict[str, Factor] = self.made["ways"]
        return found

    @property
    def noted(self) -> dict[str, Factor]:
        """P(what was noted | way, car, items) of each piece."""
        if "noted" not in self.made:
            cells = self.cells.items()
            self.made["noted"] = {p: noted_factor(each, self.axes) for p, each in cells}
        found: dict[str, Factor] = self.made["noted"]
        return found

    @property
    def summed(self) -> dict[str, Factor]:
        """The same summed over the ways."""
        if "summed" not in self.made:
            noted = self.noted.items()
            self.made["summed"] = {p: over_ways(self.ways[p], each) for p, each in noted}
        found: dict[str, Factor] = self.made["summed"]
        return found

    @property
    def tree(self) -> Tree:
        """The messages of all its factors."""
        if "tree" not in self.made:
            self.made["tree"] = Tree([*self.shared(), *self.summed.values()])
        found: Tree = self.made["tree"]
        return found

    def asking(self, item: str) -> "Network":
        """The network in which this item stands by itself."""
        axes = item_axes(self.items, self.axes.configured, item)
        return self if item in self.axes.alone else replace(self, axes=axes, made={})

    def along(self, axis: str) -> Array:
        """P(what was noted, and each state along an axis), shape (draws, states)."""
        if ("along", axis) not in self.made:
            self.made["along", axis] = self._along(axis)
        found: Array = self.made["along", axis]
        return found

    def _along(self, axis: str) -> Array:
        if axis == "S":
            return self._of_axis(0, axis)
        piece = next((each for each in self.cells if way_axis(each) == axis), None)
        if piece is not None:
            way = squeezed(self.ways[piece].table, self.ways[piece].axes)
            joint = contracted([self.around(piece), way, self.noted[piece]], (DRAW, axis))
            return laid(joint, axis, self.draws)
        item = axis.removeprefix("item ")
        if self.items[item].is_shared:
            alone = self.asking(item)
            return alone._of_axis(1 + list(alone.axes.all).index(item), axis)
        piece = self.items[item].pieces[0]
        split = over_ways(self.ways[piece], noted_factor(self.cells[piece], self.axes, split=item))
        return laid(joined(self.around(piece), split, {DRAW, axis}), axis, self.draws)

    def _of_axis(self, place: int, axis: str) -> Array:
        """The joint of one axis of a shared factor."""
        factor = self.shared()[place]
        return laid(joined(factor, self.tree.outside(place), {DRAW, axis}), axis, self.draws)

    def shared(self) -> list[Factor]:
        """The factors that are of no one piece: the car's own variables, the items, the bonds."""
        items = [squeezed(prior, (*NAMES, f"item {item}")) for item, prior in self.axes.all.items()]
        return [squeezed(self.prior, NAMES), *items, *self.axes.configured.rules, *self.bonds]

    def around(self, piece: str) -> Factor:
        """The sum of everything but what is known of a piece, by the axes of its factor."""
        place = len(self.shared()) + list(self.summed).index(piece)
        return self.tree.outside(place)

    def before(self, piece: str) -> Array:
        """P(each way of a piece), shape (draws, ways)."""
        if ("before", piece) not in self.made:
            self.made["before", piece] = ways_before(self.prior, self.cells[piece])
        found: Array = self.made["before", piece]
        return found


def network_with(
    draws: int,
    prior: Array,
    cells: dict[str, Cells],
    items: dict[str, CodeItem],
    configured: Configured,
    bonds: tuple[Factor, ...],
) -> Network:
    """The network of these pieces and bonds."""
    axes = item_axes(items, configured)
    return Network(draws=draws, prior=prior, cells=cells, items=items, bonds=bonds, axes=axes)


def ways_before(prior: Array, cells: Cells) -> Array:
    """P(each way of a piece) under the prior of the car's own variables, (draws, ways)."""
    ways = way_priors(cells).values()
    shape = np.broadcast_shapes(*(each.shape[1:] for each in ways))
    gone = tuple(axis for axis, size in enumerate(shape, 1) if size == 1)
    car = prior.sum(axis=gone, keepdims=True)
    rest = tuple(range(1, prior.ndim))
    return np.stack([(car * each).sum(axis=rest) for each in ways], axis=1)


def over_ways(ways: Factor, noted: Factor) -> Factor:
    """P(what was noted | car) of a piece, its ways summed."""
    first = squeezed(ways.table, ways.axes)
    axes = dict.fromkeys((*first.axes, *noted.axes))
    return contracted([first, noted], tuple(axis for axis in axes if axis != ways.axes[-1]))


def laid(factor: Factor, axis: str, draws: int) -> Array:
    """The table as (draws, states)."""
    table = factor.table
    if axis not in factor.axes:
        table = table[..., None]
    if "d" not in factor.axes:
        table = table[None]
    return np.broadcast_to(table, (draws, table.shape[-1]))
