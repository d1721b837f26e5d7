"""The network of one car: its factors, and their sum.

Every question is a marginal of the network: of the structure, of the ways of a piece, of an
item.
"""

from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from witnessmark.weighing.second.axes import NAMES
from witnessmark.weighing.second.factors import (
    Cells,
    Configured,
    Factor,
    ItemAxes,
    item_axes,
    noted_factor,
    prior_factor,
    squeezed,
    way_axis,
)
from witnessmark.weighing.second.items import CodeItem
from witnessmark.weighing.second.messages import DRAW, Tree, contracted, joined

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Network:
    """The factors of one car for so many draws. `prior` is that of the car's own variables,
    `ways` P(way | car) of each piece; `bonds` what binds their cells. `axes` are those of the
    items; `noted` P(what was noted | way, car, items) and `summed` the same over the ways."""

    draws: int
    prior: Array
    ways: dict[str, Factor]
    cells: dict[str, Cells]
    items: dict[str, CodeItem]
    bonds: tuple[Factor, ...]
    axes: ItemAxes
    noted: dict[str, Factor]
    summed: dict[str, Factor]
    trees: list[Tree] = field(default_factory=list)

    @property
    def tree(self) -> Tree:
        """The messages of all its factors: made when first asked for."""
        if not self.trees:
            self.trees.append(Tree([*self.shared(), *self.summed.values()]))
        return self.trees[0]

    def asking(self, item: str) -> "Network":
        """The network in which this item stands by itself."""
        axes = item_axes(self.items, self.axes.configured, item)
        return self if item in self.axes.alone else self._with(axes)

    def _with(self, axes: ItemAxes) -> "Network":
        noted = {piece: noted_factor(cells, axes) for piece, cells in self.cells.items()}
        summed = {piece: over_ways(self.ways[piece], each) for piece, each in noted.items()}
        return replace(self, axes=axes, noted=noted, summed=summed, trees=[])

    def of_structure(self) -> Array:
        """P(what was noted, and each state of the structure), shape (draws, states)."""
        return self._of_axis(0, "S")

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

    def of_ways(self, piece: str) -> tuple[Array, Array]:
        """P(what was noted, each way of a piece) and P(the way), each (draws, ways)."""
        axis = way_axis(piece)
        way = squeezed(self.ways[piece].table, self.ways[piece].axes)
        before = contracted([squeezed(self.prior, NAMES), way], (DRAW, axis))
        joint = contracted([self.around(piece), way, self.noted[piece]], (DRAW, axis))
        return laid(joint, axis, self.draws), laid(before, axis, self.draws)

    def of_item(self, item: str) -> Array:
        """P(what was noted, each state of an item), shape (draws, states)."""
        axis = f"item {item}"
        if self.items[item].is_shared:
            alone = self.asking(item)
            return alone._of_axis(1 + list(alone.axes.all).index(item), axis)
        piece = self.items[item].pieces[0]
        split = over_ways(self.ways[piece], noted_factor(self.cells[piece], self.axes, split=item))
        return laid(joined(self.around(piece), split, {DRAW, axis}), axis, self.draws)


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
    ways = {piece: prior_factor(each) for piece, each in cells.items()}
    noted = {piece: noted_factor(each, axes) for piece, each in cells.items()}
    summed = {piece: over_ways(ways[piece], each) for piece, each in noted.items()}
    return Network(draws, prior, ways, cells, items, bonds, axes, noted, summed)


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
