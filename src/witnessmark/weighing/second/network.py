"""The network of one car: its factors, and their sum.

Every question is a marginal of the network: of the structure, of the ways of a piece, of an
item.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from functools import lru_cache

import numpy as np
import opt_einsum
from numpy.typing import NDArray

from witnessmark.weighing.second.axes import NAMES
from witnessmark.weighing.second.factors import (
    Axes,
    Cells,
    Factor,
    ItemAxes,
    item_axes,
    noted_factor,
    prior_factor,
    squeezed,
    way_axis,
)
from witnessmark.weighing.second.items import CodeItem

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
    kept: dict[str, tuple[Array, Array]] = field(default_factory=dict)

    def asking(self, item: str) -> "Network":
        """The network in which this item stands by itself."""
        axes = item_axes(self.items, self.axes.priors, item)
        return self if axes.alone == self.axes.alone else self._with(axes)

    def _with(self, axes: ItemAxes) -> "Network":
        noted = {piece: noted_factor(cells, axes) for piece, cells in self.cells.items()}
        summed = {piece: over_ways(self.ways[piece], each) for piece, each in noted.items()}
        return replace(self, axes=axes, noted=noted, summed=summed, kept={})

    def marginal(self, axis: str, instead: dict[str, Factor] | None = None) -> Array:
        """P(what was noted, and this variable), shape (draws, states). `instead`: other factors
        of what was noted of some pieces."""
        pieces = self.summed | (instead or {})
        found = contracted([*self._shared(), *pieces.values()], ("d", axis))
        return laid(found, axis, self.draws)

    def _shared(self) -> list[Factor]:
        """The factors that are of no one piece."""
        items = [squeezed(prior, (*NAMES, f"item {item}")) for item, prior in self.axes.all.items()]
        return [squeezed(self.prior, NAMES), *items, *self.bonds]

    def of_ways(self, piece: str) -> tuple[Array, Array]:
        """P(what was noted, each way of a piece) and P(the way), each (draws, ways)."""
        if piece not in self.kept:
            self.kept[piece] = self._of_ways(piece)
        return self.kept[piece]

    def _of_ways(self, piece: str) -> tuple[Array, Array]:
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
        if self.items[item].is_shared:
            return self.asking(item).marginal(axis)
        piece = self.items[item].pieces[0]
        split = noted_factor(self.cells[piece], self.axes, split=item)
        return self.marginal(axis, {piece: over_ways(self.ways[piece], split)})


def network_with(
    draws: int,
    prior: Array,
    cells: dict[str, Cells],
    items: dict[str, CodeItem],
    priors: dict[str, Array],
    bonds: tuple[Factor, ...],
    like: Network | None = None,
    same: frozenset[str] = frozenset(),
) -> Network:
    """The network of these pieces and bonds; the pieces `same` are as in the network `like`."""
    axes = item_axes(items, priors)
    ways, noted, summed = {}, {}, {}
    for piece, each in cells.items():
        if like is not None and piece in same:
            ways[piece], noted[piece] = like.ways[piece], like.noted[piece]
            summed[piece] = like.summed[piece]
        else:
            ways[piece], noted[piece] = prior_factor(each), noted_factor(each, axes)
            summed[piece] = over_ways(ways[piece], noted[piece])
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


def contracted(factors: Iterable[Factor], wanted: Axes) -> Factor:
    """The sum over every axis that is not wanted; an axis that no factor has is left out."""
    found = list(factors)
    names = {axis: k for k, axis in enumerate(dict.fromkeys(a for f in found for a in f.axes))}
    out = tuple(dict.fromkeys(axis for axis in wanted if axis in names))
    letters = [_letters(names, factor.axes) for factor in found]
    equation = f"{','.join(letters)}->{_letters(names, out)}"
    # The order of sums depends on the sizes of axes, and not on how many draws there are.
    shapes = tuple(
        tuple(1 if axis == "d" else size for axis, size in zip(f.axes, f.table.shape, strict=True))
        for f in found
    )
    path = _path(equation, shapes)
    table = opt_einsum.contract(equation, *(f.table for f in found), optimize=path)
    return Factor(np.asarray(table), out)


def _letters(names: dict[str, int], axes: Axes) -> str:
    return "".join(opt_einsum.get_symbol(names[axis]) for axis in axes)


TRIALS = 32
"""Orders of summing that are tried; the cheapest is kept for cars that are noted alike."""


@lru_cache(maxsize=2048)
def _path(equation: str, shapes: tuple[tuple[int, ...], ...]) -> list[tuple[int, ...]]:
    how = opt_einsum.RandomGreedy(max_repeats=TRIALS) if len(shapes) > 4 else "optimal"
    path, _ = opt_einsum.contract_path(equation, *shapes, optimize=how, shapes=True)
    return list(path)
