"""The network of one car: its factors, and their sum.

Every question is a marginal of the network: of the structure, of the ways of a piece, of an
item.
"""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
import opt_einsum
from numpy.typing import NDArray

from witnessmark.weighing.second.axes import NAMES
from witnessmark.weighing.second.factors import (
    Axes,
    Cells,
    Factor,
    noted_factor,
    squeezed,
    way_axis,
)
from witnessmark.weighing.second.items import CodeItem

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Network:
    """The factors of one car for so many draws. `prior` is that of the car's own variables;
    `ways` P(way | car) and `noted` P(what was noted | way, car) of each piece; `summed`
    is both of them over the ways; `bonds` what binds their cells. `axes_of`: the items that are axes, `item_priors` those of all."""

    draws: int
    prior: Array
    ways: dict[str, Factor]
    noted: dict[str, Factor]
    cells: dict[str, Cells]
    items: dict[str, CodeItem]
    item_priors: dict[str, Array]
    axes_of: frozenset[str]
    bonds: tuple[Factor, ...]
    summed: dict[str, Factor]

    def marginal(self, axis: str, instead: dict[str, Factor] | None = None) -> Array:
        """P(what was noted, and this variable), shape (draws, states). `instead`: other factors
        of what was noted of some pieces."""
        pieces = self.summed | (instead or {})
        found = contracted([*self._shared(), *pieces.values()], ("d", axis))
        return laid(found, axis, self.draws)

    def _shared(self) -> list[Factor]:
        """The factors that are of no one piece."""
        items = [
            squeezed(self.item_priors[item], (*NAMES, f"item {item}")) for item in self.axes_of
        ]
        return [squeezed(self.prior, NAMES), *items, *self.bonds]

    def of_ways(self, piece: str) -> tuple[Array, Array]:
        """P(what was noted, each way of a piece) and P(the way), each (draws, ways)."""
        axis = way_axis(piece)
        way = squeezed(self.ways[piece].table, self.ways[piece].axes)
        before = contracted([squeezed(self.prior, NAMES), way], ("d", axis))
        rest = [factor for each, factor in self.summed.items() if each != piece]
        message = contracted([*self._shared(), *rest], ("d", *self.summed[piece].axes))
        joint = contracted([message, way, self.noted[piece]], ("d", axis))
        return laid(joint, axis, self.draws), laid(before, axis, self.draws)

    def of_item(self, item: str) -> Array:
        """P(what was noted, each state of an item), shape (draws, states)."""
        axis = f"item {item}"
        if item in self.axes_of:
            return self.marginal(axis)
        piece = self.items[item].pieces[0]
        split = noted_factor(
            self.cells[piece], self.items, self.item_priors, self.axes_of, split=item
        )
        return self.marginal(axis, {piece: over_ways(self.ways[piece], split)})


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


def contracted(factors: Iterable[Factor], wanted: Axes) -> Factor:
    """The sum over every axis that is not wanted; an axis that no factor has is left out."""
    found = list(factors)
    present = {axis for each in found for axis in each.axes}
    out = tuple(dict.fromkeys(axis for axis in wanted if axis in present))
    names = {axis: k for k, axis in enumerate(dict.fromkeys(a for f in found for a in f.axes))}
    operands: list[object] = []
    for factor in found:
        operands += [factor.table, [names[axis] for axis in factor.axes]]
    table = opt_einsum.contract(*operands, [names[axis] for axis in out], optimize="greedy")
    return Factor(np.asarray(table), out)
