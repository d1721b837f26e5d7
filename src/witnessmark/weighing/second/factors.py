"""Factors: the terms of each piece by cell, and what binds the cells of pieces together.

Terms with the same days, number groups and tie are one cell. Days, numbers and ties bind cells;
they do not depend on the rates (a tie on two of them alone), and are worked out once.
"""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from witnessmark.weighing.second.axes import NAMES
from witnessmark.weighing.second.days import Grid
from witnessmark.weighing.second.items import CodeItem
from witnessmark.weighing.second.numbers import NumberItem
from witnessmark.weighing.second.scene import Group
from witnessmark.weighing.second.terms import Term, key_of

Array = NDArray[np.float64]

type Axes = tuple[str, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Factor:
    """A table with the names of its axes."""

    table: Array
    axes: Axes


@dataclass(frozen=True, slots=True, eq=False)
class Cells:
    """The cells of one piece. A term's cell is a pair: which days it has, and which number
    groups and tie; each with a term that stands for it."""

    piece: str
    terms: tuple[Term, ...]
    cell_of: tuple[tuple[int, int], ...]
    by_days: tuple[Term, ...]
    by_groups: tuple[Term, ...]

    @property
    def days(self) -> str:
        """The name of the axis of its days."""
        return f"days {self.piece}"

    @property
    def groups(self) -> str:
        """The name of the axis of its number groups and ties."""
        return f"groups {self.piece}"


def cells_of(piece: str, terms: Iterable[Term]) -> Cells:
    """The terms of a piece by cell."""
    all_terms = tuple(terms)
    by_days: dict[object, Term] = {}
    by_groups: dict[object, Term] = {}
    keys = []
    for term in all_terms:
        days = (_bytes(term.own_days), _bytes(term.other_days))
        groups = (key_of(term.groups), term.tie)
        by_days.setdefault(days, term)
        by_groups.setdefault(groups, term)
        keys.append((days, groups))
    at_days = {key: place for place, key in enumerate(by_days)}
    at_groups = {key: place for place, key in enumerate(by_groups)}
    cell_of = tuple((at_days[days], at_groups[groups]) for days, groups in keys)
    return Cells(piece, all_terms, cell_of, tuple(by_days.values()), tuple(by_groups.values()))


def _bytes(curve: Array | None) -> bytes:
    return b"" if curve is None else curve.tobytes()


def squeezed(table: Array, axes: Axes) -> Factor:
    """The table without the axes along which it does not vary."""
    kept = tuple(k for k, size in enumerate(table.shape) if size > 1)
    return Factor(table.reshape([table.shape[k] for k in kept]), tuple(axes[k] for k in kept))


def ways_of(cells: Cells) -> tuple[tuple[str, str], ...]:
    """The ways of a piece (whence, by what hand), in the order of its terms."""
    return tuple(dict.fromkeys((term.origin, term.hand) for term in cells.terms))


def way_axis(piece: str) -> str:
    """The name of the axis of the ways in which a piece came to be."""
    return f"way {piece}"


def prior_factor(cells: Cells) -> Factor:
    """P(each way | the car) of a piece."""
    priors: dict[tuple[str, str], Array] = {}
    counted: set[int] = set()
    for term in cells.terms:
        # The terms of one way share one prior, or have one each where the way has several acts.
        if id(term.prior) not in counted:
            counted.add(id(term.prior))
            way = (term.origin, term.hand)
            priors[way] = priors[way] + term.prior if way in priors else term.prior
    stacked = np.stack(np.broadcast_arrays(*priors.values()), axis=-1)
    return Factor(stacked, (*NAMES, way_axis(cells.piece)))


def noted_factor(
    cells: Cells,
    items: dict[str, CodeItem],
    priors: dict[str, Array],
    axes_of: frozenset[str],
    split: str = "",
) -> Factor:
    """P(what was noted of a piece | way, the car, the items `axes_of`), by cell; other items
    are summed, but for `split`, which is kept with its prior."""
    ways = {way: place for place, way in enumerate(ways_of(cells))}
    borne = sorted({item for term in cells.terms for item in term.vectors} | {split} - {""})
    axes = [item for item in borne if item in axes_of or item == split]
    kept: dict[tuple[int, int, int], Array] = {}
    for term, cell in zip(cells.terms, cells.cell_of, strict=True):
        table = _term_table(term, axes, items, priors, "" if split in axes_of else split)
        place = (ways[term.origin, term.hand], *cell)
        kept[place] = kept[place] + table if place in kept else table
    shape = np.broadcast_shapes(*(table.shape for table in kept.values()))
    found = np.zeros((*shape, len(ways), len(cells.by_days), len(cells.by_groups)))
    for (way, days, groups), table in kept.items():
        found[..., way, days, groups] = table
    names = (*NAMES, *(f"item {item}" for item in axes))
    return squeezed(found, (*names, way_axis(cells.piece), cells.days, cells.groups))


def _term_table(
    term: Term,
    axes: list[str],
    items: dict[str, CodeItem],
    priors: dict[str, Array],
    split: str,
) -> Array:
    """What was noted under one term over the car's axes and those of the items."""
    table = term.weight
    for item, vector in term.vectors.items():
        if item not in axes:
            table = table * (priors[item] @ vector)
    table = table.reshape(table.shape + (1,) * len(axes))
    for place, item in enumerate(axes):
        vector = term.vectors.get(item)
        if vector is None and item != split:
            continue
        shape = [1] * (len(NAMES) + len(axes))
        shape[len(NAMES) + place] = items[item].states
        if vector is not None:
            table = table * vector.reshape(shape)
        if item == split:
            prior = priors[item]
            table = table * prior.reshape(prior.shape[:-1] + tuple(shape[len(NAMES) :]))
    return table


def day_factors(pieces: Iterable[Cells], grid: Grid) -> list[Factor]:
    """What binds the days: the sum over the claimed car's weeks, and over the other car's by
    K, of the curves of all pieces."""
    all_pieces = list(pieces)
    size = grid.other.stop - grid.other.start
    own = _stacks(all_pieces, [t.own_days for c in all_pieces for t in c.by_days], grid.prior.size)
    other = _stacks(all_pieces, [t.other_days for c in all_pieces for t in c.by_days], size)
    return [
        *_bound(own, grid.prior[None], ("t",)),
        *_bound(other, grid.other_priors, ("K", "y")),
    ]


MOST_CELLS = 60_000
"""Most cells of a table of days that is summed beforehand."""


def _stacks(pieces: list[Cells], curves: list[Array | None], size: int) -> list[Factor]:
    """The curves of each piece that has any, by its days."""
    even, found = np.ones(size), []
    for cells in pieces:
        own, curves = curves[: len(cells.by_days)], curves[len(cells.by_days) :]
        if any(curve is not None for curve in own):
            table = np.stack([even if curve is None else curve for curve in own])
            found.append(Factor(table, (cells.days,)))
    return found


def _bound(curves: list[Factor], prior: Array, axes: Axes) -> list[Factor]:
    """The sum over weeks of all curves, where it is not too large; else the curves themselves."""
    if not curves:
        return []
    before = axes[:-1]
    size = prior.shape[0] * int(np.prod([each.table.shape[0] for each in curves]))
    if size > MOST_CELLS:
        first = Factor(prior if before else prior[0], axes)
        return [first, *(Factor(c.table, (*c.axes, axes[-1])) for c in curves)]
    table = prior
    for each in curves[:-1]:
        table = table[..., None, :] * each.table
    summed = table @ curves[-1].table.T
    names = (*before, *(each.axes[0] for each in curves))
    # An axis of length 1 binds nothing.
    return [squeezed(summed if before else summed[0], names)]


def number_factor(item: NumberItem, pieces: list[Cells], home: str) -> Factor | None:
    """What binds the marks of one number: those that show one car's are weighed together.

    `home` is the core whose own number it is, if it is one: what copies, copies that.
    """
    bearing = [
        cells
        for cells in pieces
        if any(any(term.groups.get(item.id, ())) for term in cells.by_groups)
    ]
    if not bearing:
        return None
    none: Group = (0, 0, 0, 0)
    groups = [
        np.array([term.groups.get(item.id, none) for term in cells.by_groups]) for cells in bearing
    ]
    size = len(bearing)
    laid = [
        [g[:, k].reshape([-1 if p == place else 1 for p in range(size)]) for k in range(4)]
        for place, g in enumerate(groups)
    ]
    own, other, copied = (
        np.bitwise_or.reduce(np.broadcast_arrays(*(each[k] for each in laid))) for k in (0, 1, 3)
    )
    at_home = next((k for k, cells in enumerate(bearing) if cells.piece == home), None)
    further = [each[2] for each in laid]
    if at_home is None:
        own = own | copied
    else:
        shows_own, shows_other = laid[at_home][0] > 0, laid[at_home][1] > 0
        own = own | np.where(shows_own, copied, 0)
        other = other | np.where(shows_other, copied, 0)
        rest = np.where(shows_own | shows_other, 0, copied)
        further[at_home] = further[at_home] | rest
    table = item.own[own] * item.any_car[other]
    for masks in further:
        table = table * item.any_car[masks]
    return Factor(np.asarray(table), tuple(cells.groups for cells in bearing))
