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
    """The cells of one piece: for each term its cell, and the term that stands for each."""

    piece: str
    terms: tuple[Term, ...]
    cell_of: tuple[int, ...]
    firsts: tuple[Term, ...]

    @property
    def axis(self) -> str:
        """The name of its axis."""
        return f"piece {self.piece}"


def cells_of(piece: str, terms: Iterable[Term]) -> Cells:
    """The terms of a piece by cell."""
    all_terms = tuple(terms)
    places: dict[object, int] = {}
    cell_of = []
    firsts = []
    for term in all_terms:
        key = (key_of(term.groups), _bytes(term.own_days), _bytes(term.other_days), term.tie)
        if key not in places:
            places[key] = len(places)
            firsts.append(term)
        cell_of.append(places[key])
    return Cells(piece, all_terms, tuple(cell_of), tuple(firsts))


def _bytes(curve: Array | None) -> bytes:
    return b"" if curve is None else curve.tobytes()


def squeezed(table: Array, axes: Axes) -> Factor:
    """The table without the axes along which it does not vary."""
    kept = tuple(k for k, size in enumerate(table.shape) if size > 1)
    return Factor(table.reshape([table.shape[k] for k in kept]), tuple(axes[k] for k in kept))


WAY = "way"
"""The axis of the ways in which a piece came to be: whence, and what was done to it."""


def ways_of(cells: Cells) -> tuple[tuple[str, str], ...]:
    """The ways of a piece (whence, by what hand), in the order of its terms."""
    return tuple(dict.fromkeys((term.origin, term.hand) for term in cells.terms))


def piece_factor(
    cells: Cells, items: dict[str, CodeItem], priors: dict[str, Array], split: str = ""
) -> Factor:
    """The coefficients of a piece by way and cell. Items that several pieces bear are axes,
    as is the item `split`; those of this piece alone are summed."""
    ways = {way: place for place, way in enumerate(ways_of(cells))}
    borne = sorted({item for term in cells.terms for item in term.vectors} | {split} - {""})
    axes = [item for item in borne if items[item].is_shared or item == split]
    kept: dict[tuple[int, int], Array] = {}
    for term, cell in zip(cells.terms, cells.cell_of, strict=True):
        table = _term_table(term, axes, items, priors, split)
        place = (ways[term.origin, term.hand], cell)
        kept[place] = kept[place] + table if place in kept else table
    shape = np.broadcast_shapes(*(table.shape for table in kept.values()))
    found = np.zeros((*shape, len(ways), len(cells.firsts)))
    for (way, cell), table in kept.items():
        found[..., way, cell] = table
    names = (*NAMES, *(f"item {item}" for item in axes), WAY, cells.axis)
    return Factor(found, names)


def _term_table(
    term: Term,
    axes: list[str],
    items: dict[str, CodeItem],
    priors: dict[str, Array],
    split: str,
) -> Array:
    """One term over the car's axes and those of the items."""
    table = term.coefficient
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
        if item == split and not items[item].is_shared:
            prior = priors[item]
            table = table * prior.reshape(prior.shape[:-1] + tuple(shape[len(NAMES) :]))
    return table


def day_factors(pieces: Iterable[Cells], grid: Grid) -> list[Factor]:
    """What binds the days: p(t), p(the other car's week | K) and the curves of every cell."""
    dated = [cells for cells in pieces if any(_is_dated(term) for term in cells.firsts)]
    if not dated:
        return []
    own = [_stack(cells, True, grid.prior.size) for cells in dated]
    other_size = grid.other.stop - grid.other.start
    other = [_stack(cells, False, other_size) for cells in dated]
    axes = [cells.axis for cells in dated]
    with_other = [k for k, table in enumerate(other) if np.ptp(table) > 0]
    factors = _bound(own, axes, grid.prior[None], "t", [])
    if with_other:
        tables = [other[k] for k in with_other]
        factors += _bound(tables, [axes[k] for k in with_other], grid.other_priors, "y", ["K"])
    return factors


MOST_CELLS = 60_000
"""Most cells of a table of days that is summed beforehand."""


def _bound(
    curves: list[Array], axes: list[str], prior: Array, week: str, before: list[str]
) -> list[Factor]:
    """The sum over weeks of all curves, where it is not too large; else the curves themselves."""
    size = prior.shape[0] * int(np.prod([table.shape[0] for table in curves]))
    if size > MOST_CELLS:
        first = Factor(prior if before else prior[0], (*before, week))
        return [first, *(Factor(c, (a, week)) for c, a in zip(curves, axes, strict=True))]
    table = prior
    for curve in curves[:-1]:
        table = table[..., None, :] * curve
    summed = table @ curves[-1].T
    return [Factor(summed if before else summed[0], (*before, *axes))]


def _is_dated(term: Term) -> bool:
    return term.own_days is not None or term.other_days is not None


def _stack(cells: Cells, is_own: bool, size: int) -> Array:
    even = np.ones(size)
    curves = [term.own_days if is_own else term.other_days for term in cells.firsts]
    return np.stack([even if curve is None else curve for curve in curves])


def number_factor(item: NumberItem, pieces: list[Cells], home: str) -> Factor | None:
    """What binds the marks of one number: those that show one car's are weighed together.

    `home` is the core whose own number it is, if it is one: what copies, copies that.
    """
    bearing = [
        cells
        for cells in pieces
        if any(any(term.groups.get(item.id, ())) for term in cells.firsts)
    ]
    if not bearing:
        return None
    none: Group = (0, 0, 0, 0)
    groups = [
        np.array([term.groups.get(item.id, none) for term in cells.firsts]) for cells in bearing
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
    return Factor(np.asarray(table), tuple(cells.axis for cells in bearing))
