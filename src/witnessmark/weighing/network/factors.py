"""Factors: the terms of each piece by cell, and what binds the cells of pieces together.

Terms with the same days, number groups and tie are one cell. Days, numbers and ties bind cells;
they do not depend on the rates (a tie on two of them alone), and are worked out once.
"""

from collections.abc import Hashable, Iterable
from dataclasses import dataclass

import numpy as np

from witnessmark.weighing.arrays import Array
from witnessmark.weighing.evidence.days import Grid
from witnessmark.weighing.evidence.numbers import NumberItem
from witnessmark.weighing.pieces.axes import NAMES
from witnessmark.weighing.pieces.items import CodeItem
from witnessmark.weighing.pieces.origins import Hand, Origin
from witnessmark.weighing.pieces.terms import Group, Term, Vectors, key_of

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


def cells_of(piece: str, terms: Iterable[Term], within: Cells | None = None) -> Cells:
    """The terms of a piece by cell; `within`: with the days and groups of these cells, in their
    order, which are all that the terms have."""
    all_terms = tuple(terms)
    by_days: dict[object, Term] = {}
    by_groups: dict[object, Term] = {}
    for term in (*(within.by_days if within else ()), *all_terms):
        by_days.setdefault(_days_of(term), term)
    for term in (*(within.by_groups if within else ()), *all_terms):
        by_groups.setdefault(_groups_of(term), term)
    at_days = {key: place for place, key in enumerate(by_days)}
    at_groups = {key: place for place, key in enumerate(by_groups)}
    cell_of = tuple((at_days[_days_of(each)], at_groups[_groups_of(each)]) for each in all_terms)
    return Cells(piece, all_terms, cell_of, tuple(by_days.values()), tuple(by_groups.values()))


def _days_of(term: Term) -> object:
    return (_bytes(term.own_days), _bytes(term.other_days))


def _groups_of(term: Term) -> object:
    return (key_of(term.groups), term.tie)


def _bytes(curve: Array | None) -> bytes:
    return b"" if curve is None else curve.tobytes()


def squeezed(table: Array, axes: Axes) -> Factor:
    """The table without the axes along which it does not vary."""
    kept = tuple(k for k, size in enumerate(table.shape) if size > 1)
    return Factor(table.reshape([table.shape[k] for k in kept]), tuple(axes[k] for k in kept))


def ways_of(cells: Cells) -> tuple[tuple[Origin, Hand], ...]:
    """The ways of a piece (where from, by what hand), in the order of its terms."""
    return tuple(dict.fromkeys((term.origin, term.hand) for term in cells.terms))


def way_axis(piece: str) -> str:
    """The name of the axis of the ways in which a piece came to be."""
    return f"way {piece}"


def way_priors(cells: Cells) -> dict[tuple[Origin, Hand], Array]:
    """P(each way | the car) of a piece, by way."""
    priors: dict[tuple[Origin, Hand], Array] = {}
    counted: list[Array] = []
    for term in cells.terms:
        # The terms of one way share one prior, or have one each where the way has several acts.
        if not any(term.prior is each for each in counted):
            counted.append(term.prior)
            way = (term.origin, term.hand)
            priors[way] = priors[way] + term.prior if way in priors else term.prior
    return priors


def ways_factor(cells: Cells) -> Factor:
    """The same as one table."""
    stacked = np.stack(np.broadcast_arrays(*way_priors(cells).values()), axis=-1)
    return squeezed(stacked, (*NAMES, way_axis(cells.piece)))


@dataclass(frozen=True, slots=True, eq=False)
class Configured:
    """P(each state of an item | dressed or not), the states last: `priors` of every item by
    itself; `rules` what the rules between codes make of items together; `before` of each item
    under these."""

    priors: dict[str, Array]
    before: dict[str, Array]
    rules: tuple[Factor, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class ItemAxes:
    """The claimed items as axes: `alone` each by itself, `agreed` all together (as claimed, or
    one of them not), each with its prior. An item that nothing contradicts and no rule binds
    need not stand alone while another is asked for."""

    alone: frozenset[str]
    agreed: frozenset[str]
    configured: Configured

    @property
    def priors(self) -> dict[str, Array]:
        """Those of all items, each by itself."""
        return self.configured.priors

    def bearing_on(self, cells: Cells, split: str) -> Hashable:
        """All that these say of the items of which a piece speaks."""
        items = dict.fromkeys(item for term in cells.terms for item in term.vectors)
        if split:
            items[split] = None
        return (
            split,
            len(self.agreed) if self.agreed & items.keys() else 0,
            tuple(
                [
                    (
                        item,
                        item in self.alone,
                        item in self.agreed,
                        b"" if item in self.alone - {split} else self.priors[item].tobytes(),
                    )
                    for item in items
                ]
            ),
        )

    def own(self, item: str) -> bool:
        """Does it stand by itself?"""
        return item in self.alone

    def vectors(self, vectors: Vectors) -> tuple[Vectors, Array | float]:
        """The likelihoods by axis, and that of the items of which the piece alone speaks."""
        found: Vectors = {}
        rest: Array | float = 1.0
        together = np.ones(2)
        for item, vector in vectors.items():
            if item in self.alone:
                found[item] = vector
            elif item in self.agreed:
                share = 1.0 / len(self.agreed)
                other = (1.0 - share) * vector[0] + share * vector[1:].mean()
                together = together * np.array([vector[0], other])
                found[AGREED] = together
            else:
                rest = rest * (self.priors[item] @ vector)
        return found, rest

    @property
    def all(self) -> dict[str, Array]:
        """The prior of every axis."""
        found = {item: self.priors[item] for item in sorted(self.alone)}
        if self.agreed:
            claimed = np.prod(
                np.stack([self.priors[item][..., 0] for item in sorted(self.agreed)]), axis=0
            )
            found[AGREED] = np.stack([claimed, 1.0 - claimed], axis=-1)
        return found


AGREED = "all that agree"


MOST_STATES = 32
"""Most states of items that stand by themselves at once, but for those that must."""


def item_axes(items: dict[str, CodeItem], configured: Configured, asked: str = "") -> ItemAxes:
    """Items of several pieces as axes: those that something contradicts or a rule binds, the one
    asked for and as many others as can be summed by themselves; the rest together."""
    shared = [item for item, each in items.items() if each.is_shared]
    needed = {item for item in shared if items[item].is_contradicted or items[item].bound}
    shared.sort(key=lambda item: (item not in needed, item != asked))
    alone, states = set(), 1
    for item in shared:
        states *= items[item].states
        if item in needed or item == asked or states <= MOST_STATES:
            alone.add(item)
    agreed = set(shared) - alone
    if len(agreed) == 1:
        alone, agreed = set(shared), set()
    return ItemAxes(frozenset(alone), frozenset(agreed), configured)


def noted_factor(cells: Cells, axes: ItemAxes, split: str = "") -> Factor:
    """P(what was noted of a piece | way, the car, the items), by cell; an item `split`, of
    which this piece alone speaks, is kept with its prior."""
    ways = {way: place for place, way in enumerate(ways_of(cells))}
    if split:
        axes = ItemAxes(axes.alone | {split}, axes.agreed, axes.configured)
    laid = [axes.vectors(term.vectors) for term in cells.terms]
    names = sorted({name for vectors, _ in laid for name in vectors} | ({split} - {""}))
    kept: dict[tuple[int, int, int], Array] = {}
    for term, cell, (vectors, rest) in zip(cells.terms, cells.cell_of, laid, strict=True):
        table = _by_item(term.weight * rest, vectors, names)
        if split:
            table = table * _own_prior(axes.priors[split], names, split)
        place = (ways[term.origin, term.hand], *cell)
        kept[place] = kept[place] + table if place in kept else table
    shape = np.broadcast_shapes(*(table.shape for table in kept.values()))
    found = np.zeros((*shape, len(ways), len(cells.by_days), len(cells.by_groups)))
    for (way, days, groups), table in kept.items():
        found[..., way, days, groups] = table
    axes_named = (*NAMES, *(f"item {item}" for item in names))
    return squeezed(found, (*axes_named, way_axis(cells.piece), cells.days, cells.groups))


def _by_item(table: Array, vectors: Vectors, names: list[str]) -> Array:
    """The table times the likelihoods of the items, each along its axis."""
    table = table.reshape(table.shape + (1,) * len(names))
    for place, item in enumerate(names):
        if item in vectors:
            shape = [1] * (len(NAMES) + len(names))
            shape[len(NAMES) + place] = vectors[item].size
            table = table * vectors[item].reshape(shape)
    return table


def _own_prior(prior: Array, names: list[str], split: str) -> Array:
    shape = [1] * len(names)
    shape[names.index(split)] = prior.shape[-1]
    return prior.reshape(prior.shape[:-1] + tuple(shape))


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
    # Two products of about as many curves each, and one product of matrices over the weeks.
    sizes = np.cumprod([each.table.shape[0] for each in curves])
    half = int(np.searchsorted(sizes, np.sqrt(sizes[-1])))
    one, other = _product(prior, curves[:half]), _product(np.ones(prior.shape[-1]), curves[half:])
    summed = one @ other.reshape(-1, other.shape[-1]).T
    summed = summed.reshape(one.shape[:-1] + other.shape[:-1])
    names = (*before, *(each.axes[0] for each in curves))
    # An axis of length 1 binds nothing.
    return [squeezed(summed if before else summed[0], names)]


def _product(table: Array, curves: list[Factor]) -> Array:
    """The table times the curves of each piece, an axis for the days of each; the weeks last."""
    for each in curves:
        table = table[..., None, :] * each.table
    return table


def number_factor(item: NumberItem, pieces: Iterable[Cells]) -> Factor | None:
    """What binds the marks of one number: those that show one car's are weighed together.

    What copies, copies that of the core whose own number it is, if it is one. None where nothing
    is bound.
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
    at_home = next((k for k, cells in enumerate(bearing) if cells.piece == item.home), None)
    further = [each[2] for each in laid]
    if at_home is None:
        own = own | copied
    else:
        shows_own = laid[at_home][0] > 0
        # A number struck on another car's core stands before those of its other surfaces.
        shows_other = (laid[at_home][1] > 0) & ~shows_own
        own = own | np.where(shows_own, copied, 0)
        other = other | np.where(shows_other, copied, 0)
        rest = np.where(shows_own | shows_other, 0, copied)
        further[at_home] = further[at_home] | rest
    table = item.own[own] * item.any_car[other]
    for masks in further:
        table = table * item.any_car[masks]
    return squeezed(np.asarray(table), tuple(cells.groups for cells in bearing))
