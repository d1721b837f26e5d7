"""The tables that the sum of a car begins with, at some of their entries alone, for all draws.

In this order: a table of one entry; what is of no one piece, as the network has it; and for
each piece P(way | car) and P(what was noted | way, car, items). A question is a marginal of one
of them: of the structure's states its prior, of a piece's ways P(way | car), of an item's
states its prior, or what was noted of the one piece that speaks of it.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from witnessmark.weighing.arrays import Array, Places, Which
from witnessmark.weighing.network.factors import (
    Axes,
    Cells,
    ItemAxes,
    way_axis,
    way_priors,
    ways_of,
)
from witnessmark.weighing.network.messages import DRAW, NOTHING
from witnessmark.weighing.network.network import Network
from witnessmark.weighing.pieces.axes import NAMES
from witnessmark.weighing.pieces.terms import Term


@dataclass(frozen=True, slots=True, eq=False)
class Entries:
    """Some entries of a table: its axes but for the draws, their sizes, and where the entries
    stand in it, the last axis running fastest."""

    axes: Axes
    sizes: tuple[int, ...]
    places: Places

    def along(self, axis: str) -> Places:
        """Where the entries stand along one axis; 0 where the table has none such."""
        if axis not in self.axes:
            return np.zeros_like(self.places)
        k = self.axes.index(axis)
        after = int(np.prod(self.sizes[k + 1 :], dtype=np.intp))
        return self.places // after % self.sizes[k]

    def code(self, axes: Axes, sizes: dict[str, int]) -> Places:
        """One number for where an entry stands along these axes together."""
        found = np.zeros_like(self.places)
        for axis in axes:
            found = found * sizes[axis] + self.along(axis)
        return found

    def only(self, kept: Which | Places) -> "Entries":
        """Some of them."""
        return replace(self, places=self.places[kept])

    def of(self, table: Array, axes: Axes) -> Array:
        """The values of a table with these axes, the draws first among them, and length 1 where
        it does not vary; shape (entries, draws)."""
        place = np.zeros_like(self.places)
        for axis, size in zip(axes[1:], table.shape[1:], strict=True):
            if size > 1:
                place = place * size + self.along(axis)
        return table.reshape(table.shape[0], -1)[:, place].T


@dataclass(frozen=True, slots=True)
class Marginal:
    """Where a question about the states along an axis stands: in which table. An `item` of
    which one piece alone speaks stands in what was noted of that, which has no such axis."""

    table: int
    states: int
    axis: str
    item: str = ""

    @property
    def is_of_car(self) -> bool:
        """Is it of an axis that several pieces may have?"""
        return not self.item and (self.axis == "S" or self.axis.startswith("item "))


class Leaves:
    """The tables of one network."""

    def __init__(self, network: Network) -> None:
        self._network = network
        self._shared = (NOTHING, *network.shared())
        self._pieces = tuple(network.cells)

    def __len__(self) -> int:
        return len(self._shared) + 2 * len(self._pieces)

    def marginal(self, axis: str, states: int) -> Marginal:
        """Where a question about the states along an axis stands in them."""
        ways = {way_axis(piece): self._of_piece(piece) for piece in self._pieces}
        items = [f"item {item}" for item in self._network.axes.all]
        places = {"S": 1, **ways, **{item: place for place, item in enumerate(items, 2)}}
        if axis in places:
            return Marginal(places[axis], states, axis)
        item = axis.removeprefix("item ")
        piece = self._network.items[item].pieces[0]
        return Marginal(self._of_piece(piece) + 1, states, axis, item)

    def _of_piece(self, piece: str) -> int:
        return len(self._shared) + 2 * self._pieces.index(piece)

    def at(self, table: int, entries: Entries) -> Array | None:
        """The values of one of them, shape (entries, draws); None where it does not depend on
        the draws."""
        if table < len(self._shared):
            factor = self._shared[table]
            return entries.of(factor.table, factor.axes) if DRAW in factor.axes else None
        cells = self._cells(table)
        if (table - len(self._shared)) % 2:
            return noted_at(entries, cells, self._network.axes, self._network.draws)
        return ways_at(entries, cells, self._network.draws)

    def by_state(self, marginal: Marginal, entries: Entries) -> list[Array]:
        """What was noted of the one piece that speaks of an item, and the item in each of its
        states; each of shape (entries, draws)."""
        cells, of, item = self._cells(marginal.table), self._network, marginal.item
        states = range(marginal.states)
        return [
            noted_at(entries, cells, of.axes, draws=of.draws, item=item, state=state)
            for state in states
        ]

    def _cells(self, table: int) -> Cells:
        return self._network.cells[self._pieces[(table - len(self._shared)) // 2]]


def ways_at(entries: Entries, cells: Cells, draws: int) -> Array:
    """P(way | car) of a piece at these entries, shape (entries, draws)."""
    found = np.zeros((entries.places.size, draws))
    at = entries.along(way_axis(cells.piece))
    for way, prior in enumerate(way_priors(cells).values()):
        rows = np.flatnonzero(at == way)
        found[rows] = entries.only(rows).of(prior, NAMES)
    return found


def noted_at(
    entries: Entries, cells: Cells, axes: ItemAxes, draws: int, item: str = "", state: int = 0
) -> Array:
    """P(what was noted | way, the car, the items) of a piece at these entries, shape (entries,
    draws). With an `item` of which it alone speaks: and the item is in this state."""
    if item:
        axes = replace(axes, alone=axes.alone | {item})
    found = np.zeros((entries.places.size, draws))
    for rows, term in _terms_at(entries, cells):
        vectors, rest = axes.vectors(term.vectors)
        if item:
            rest = rest * axes.priors[item][..., state]
            rest = rest * vectors.pop(item)[state] if item in vectors else rest
        here = entries.only(rows)
        value = here.of(term.weight * rest, NAMES)
        for name, vector in vectors.items():
            value = value * vector[here.along(f"item {name}"), None]
        found[rows] += value
    return found


def _terms_at(entries: Entries, cells: Cells) -> Iterator[tuple[Places, Term]]:
    """Each term with the entries that are of its way and its cell."""
    axes = (way_axis(cells.piece), cells.days, cells.groups)
    ways = {way: place for place, way in enumerate(ways_of(cells))}
    sizes = (len(ways), len(cells.by_days), len(cells.by_groups))
    codes = entries.code(axes, dict(zip(axes, sizes, strict=True)))
    order = np.argsort(codes, kind="stable")
    ordered = codes[order]
    for term, (days, groups) in zip(cells.terms, cells.cell_of, strict=True):
        at = (ways[term.origin, term.hand] * sizes[1] + days) * sizes[2] + groups
        first, last = np.searchsorted(ordered, (at, at + 1))
        if last > first:
            yield order[first:last], term
