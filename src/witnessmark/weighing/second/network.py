"""The network of one car: its factors, and their sum.

`Network` holds the factors; a question takes the message to a piece (everything but the piece
itself, summed) and multiplies it with the ways in question.
"""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
import opt_einsum
from numpy.typing import NDArray

from witnessmark.weighing.second.axes import NAMES
from witnessmark.weighing.second.factors import WAY, Axes, Cells, Factor, squeezed
from witnessmark.weighing.second.items import CodeItem

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Network:
    """The factors of one car for so many draws. `prior` is that of the car's own variables,
    `pieces` the coefficients of each
    piece by way, `items` the priors of the shared items, `bonds`
    what binds the cells; `summed` the pieces summed over their ways."""

    draws: int
    prior: Array
    pieces: dict[str, Factor]
    cells: dict[str, Cells]
    items: dict[str, CodeItem]
    item_priors: dict[str, Array]
    bonds: tuple[Factor, ...]
    summed: dict[str, Factor]

    def factors(self, skip: str = "") -> list[Factor]:
        """All factors but that of one piece."""
        found = [squeezed(self.prior, NAMES)]
        found += [
            squeezed(prior, (*NAMES, f"item {item}"))
            for item, prior in self.item_priors.items()
            if self.items[item].is_shared
        ]
        found += [factor for piece, factor in self.summed.items() if piece != skip]
        return [*found, *self.bonds]

    def message(self, piece: str) -> Factor:
        """Everything but one piece, summed to the axes on which the piece depends."""
        rest = self.factors(skip=piece)
        known = {axis for each in rest for axis in each.axes}
        wanted = tuple(axis for axis in self.summed[piece].axes if axis in known and axis != "d")
        return contracted(rest, ("d", *wanted))

    def marginal(self, axes: Axes) -> Factor:
        """P(what was noted, and these variables), by draw."""
        return contracted(self.factors(), ("d", *axes))


def whole(factor: Factor) -> Factor:
    """The factor of a piece summed over its ways."""
    place = factor.axes.index(WAY)
    axes = (*factor.axes[:place], *factor.axes[place + 1 :])
    return squeezed(factor.table.sum(axis=place), axes)


def contracted(factors: Iterable[Factor], wanted: Axes) -> Factor:
    """The sum over every axis that is not wanted; an axis that no factor has is left out."""
    found = [factor for factor in factors]
    present = {axis for each in found for axis in each.axes}
    out = tuple(axis for axis in wanted if axis in present)
    names = {axis: k for k, axis in enumerate(dict.fromkeys(a for f in found for a in f.axes))}
    operands: list[object] = []
    for factor in found:
        operands += [factor.table, [names[axis] for axis in factor.axes]]
    table = opt_einsum.contract(*operands, [names[axis] for axis in out], optimize="greedy")
    return Factor(np.asarray(table), out)
