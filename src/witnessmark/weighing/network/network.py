"""The network of one car: its factors, and their sum.

Every question is a marginal of the network: of the structure, of the ways of a piece, of an
item.
"""

from collections.abc import Callable, Hashable
from dataclasses import dataclass, field, replace
from functools import cached_property, partial
from typing import Any

import numpy as np

from witnessmark.codebook.book import CodeBook
from witnessmark.weighing.arrays import Array
from witnessmark.weighing.kept_alike import Latest, of_book, told
from witnessmark.weighing.network.factors import (
    Cells,
    Factor,
    ItemAxes,
    item_axes,
    noted_factor,
    squeezed,
    way_axis,
    way_priors,
    ways_factor,
)
from witnessmark.weighing.network.messages import DRAW, Tree, contracted, joined
from witnessmark.weighing.pieces.axes import NAMES
from witnessmark.weighing.pieces.items import CodeItem


@dataclass(frozen=True, eq=False, kw_only=True)
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

    @cached_property
    def ways(self) -> dict[str, Factor]:
        """P(way | car) of each piece."""
        return {
            piece: self._kept(("ways", each), partial(ways_factor, each))
            for piece, each in self.cells.items()
        }

    @cached_property
    def noted(self) -> dict[str, Factor]:
        """P(what was noted | way, car, items) of each piece."""
        return {piece: self._noted(each) for piece, each in self.cells.items()}

    @cached_property
    def summed(self) -> dict[str, Factor]:
        """The same summed over the ways."""
        return {piece: self._over_ways(piece, each) for piece, each in self.noted.items()}

    @cached_property
    def tree(self) -> Tree:
        """The messages of all its factors."""
        return Tree([*self.shared(), *self.summed.values()], kept=self._kept)

    def _noted(self, cells: Cells, split: str = "") -> Factor:
        question = ("noted", cells, self.axes.bearing_on(cells, split))
        return self._kept(question, partial(noted_factor, cells, self.axes, split=split))

    def _over_ways(self, piece: str, noted: Factor) -> Factor:
        ways = self.ways[piece]
        return self._kept(("over ways", ways, noted), partial(over_ways, piece, ways, noted))

    def _kept(self, question: Hashable, answer: Callable[[], Factor]) -> Factor:
        """A factor as it was before, where all that it follows from is; none of many draws."""
        return FACTORS.ask(question, answer) if self.draws == 1 else answer()

    def asking(self, item: str) -> "Network":
        """The network in which this item stands by itself."""
        axes = item_axes(self.items, self.axes.configured, item)
        return self if item in self.axes.alone else replace(self, axes=axes, made={})

    def along(self, axis: str) -> Array:
        """P(what was noted, and each state along an axis), shape (draws, states)."""
        if ("along", axis) not in self.made:
            self.made["along", axis] = self._along(axis).table
        found: Array = self.made["along", axis]
        return found

    def _along(self, axis: str) -> Factor:
        item = self.items.get(axis.removeprefix("item "))
        piece = next((each for each in self.cells if way_axis(each) == axis), None)
        if piece is not None:
            own = (self.ways[piece], self.noted[piece])
            summing = partial(self._around_piece, piece, own, axis)
            return self._summed_along(axis, own, summing)
        if item is not None and not item.is_shared:
            (piece,) = item.pieces
            split = self._over_ways(piece, self._noted(self.cells[piece], item.id))
            return self._summed_along(axis, (split,), partial(self._split, piece, split, axis))
        alone = self if item is None else self.asking(item.id)
        return alone._summed_along(axis, (), partial(alone._of_no_piece, axis))

    def _around_piece(self, piece: str, own: tuple[Factor, ...], axis: str) -> Factor:
        return contracted([self.around(piece), *own], (DRAW, axis))

    def _split(self, piece: str, split: Factor, axis: str) -> Factor:
        return joined(self.around(piece), split, {DRAW, axis})

    def _summed_along(
        self, axis: str, own: tuple[Factor, ...], answer: Callable[[], Factor]
    ) -> Factor:
        """What an answer gives from the sum of everything and these factors, (draws, states)."""
        return self._kept(
            (axis, own, *self.shared(), *self.summed.values()),
            lambda: Factor(laid(answer(), axis, self.draws), (DRAW, axis)),
        )

    def _of_no_piece(self, axis: str) -> Factor:
        """The sum along an axis, at the first of the factors of no one piece that has it."""
        shared = self.shared()
        place = next(k for k, each in enumerate(shared) if axis in each.axes)
        return joined(shared[place], self.tree.outside(place), {DRAW, axis})

    def shared(self) -> list[Factor]:
        """The factors that are of no one piece: the car's own variables, the items, the bonds."""
        return self._shared

    @cached_property
    def _shared(self) -> list[Factor]:
        items = [squeezed(prior, (*NAMES, f"item {item}")) for item, prior in self.axes.all.items()]
        found = [squeezed(self.prior, NAMES), *items, *self.axes.configured.rules, *self.bonds]
        return [self._kept((each.axes, told(each.table)), partial(_same, each)) for each in found]

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


MOST_BYTES = 128 * 2**20
"""Bytes of factors that are kept from one examination to the next."""
FACTORS: Latest[Factor] = Latest(MOST_BYTES, lambda factor: factor.table.nbytes)


def _same(factor: Factor) -> Factor:
    return factor


def forget(book: CodeBook) -> None:
    """Start as in an interpreter that has weighed nothing by this book."""
    FACTORS.forget()
    of_book(book).clear()


def ways_before(prior: Array, cells: Cells) -> Array:
    """P(each way of a piece) under the prior of the car's own variables, (draws, ways)."""
    ways = way_priors(cells).values()
    shape = np.broadcast_shapes(*(each.shape[1:] for each in ways))
    gone = tuple(axis for axis, size in enumerate(shape, 1) if size == 1)
    car = prior.sum(axis=gone, keepdims=True)
    rest = tuple(range(1, prior.ndim))
    return np.stack([(car * each).sum(axis=rest) for each in ways], axis=1)


def over_ways(piece: str, ways: Factor, noted: Factor) -> Factor:
    """P(what was noted | car) of a piece, its ways summed."""
    axes = dict.fromkeys((*ways.axes, *noted.axes))
    axes.pop(way_axis(piece), None)
    return contracted([ways, noted], tuple(axes))


def laid(factor: Factor, axis: str, draws: int) -> Array:
    """The table as (draws, states)."""
    table = factor.table
    if axis not in factor.axes:
        table = table[..., None]
    if "d" not in factor.axes:
        table = table[None]
    return np.broadcast_to(table, (draws, table.shape[-1]))
