"""The car with one piece noted otherwise: all else is summed once, for whatever is left out of
this piece."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from witnessmark.codebook.pieces import Piece
from witnessmark.weighing.network.build import (
    Noted,
    bonds_of,
    can_be_joined,
    home_of,
    prior_of,
    scene_of,
    sheets_of,
    terms_of,
    ties_of,
)
from witnessmark.weighing.network.factors import (
    Axes,
    Cells,
    Factor,
    ItemAxes,
    cells_of,
    noted_factor,
    prior_factor,
    squeezed,
    way_axis,
)
from witnessmark.weighing.network.messages import DRAW, contracted, joined
from witnessmark.weighing.network.network import Network, laid, over_ways, ways_before
from witnessmark.weighing.pieces.axes import NAMES
from witnessmark.weighing.pieces.items import CodeItem
from witnessmark.weighing.pieces.scene import Scene
from witnessmark.weighing.pieces.terms import Term
from witnessmark.weighing.rates import RateValues

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class OnePiece:
    """What a network is asked, for a car of which only this piece is known to differ from the
    one that is summed already: `around` it is the sum of all else."""

    draws: int
    prior: Array
    piece: str
    cells: dict[str, Cells]
    items: dict[str, CodeItem]
    axes: ItemAxes
    ways: Factor
    noted: Factor
    around: Factor
    made: dict[frozenset[str], Factor] = field(default_factory=dict)
    """What was made when first asked for."""

    def before(self, piece: str) -> Array:
        """P(each way of a piece), shape (draws, ways)."""
        return ways_before(self.prior, self.cells[piece])

    def along(self, axis: str) -> Array:
        """P(what was noted, and each state along an axis), shape (draws, states)."""
        item = self.items.get(axis.removeprefix("item "))
        if item is not None and not item.is_shared:
            noted = noted_factor(self.cells[self.piece], self.axes, split=item.id)
            split = over_ways(self.ways, noted)
            return laid(joined(self.around, split, {DRAW, axis}), axis, self.draws)
        needed = frozenset((*NAMES, way_axis(self.piece), axis))
        if needed not in self.made:
            self.made[needed] = joined(self.around, self.noted, set(needed))
        return laid(joined(self.made[needed], self.ways, {DRAW, axis}), axis, self.draws)


def each_without(
    network: Network, known: Noted, rates: RateValues, piece: Piece, without: Sequence[Noted]
) -> Iterator[OnePiece]:
    """The network of each of these cars, in their order. In them only this piece is noted
    otherwise than in the car of `known`."""
    owner = piece.id if piece.id in network.cells else piece.assembly
    # What all of them have in common is worked out once.
    kept = network.made.setdefault("kept by scenes", {})
    scenes = [replace(scene_of(each, rates), kept=kept) for each in without]
    terms = [
        terms_of(scene, each, sheets_of(scene, each), owner)
        for scene, each in zip(scenes, without, strict=True)
    ]
    kinds = [_binding(*each, owner) for each in zip(scenes, without, terms, strict=True)]
    scene = replace(scene_of(known, rates), kept=kept)
    own = _binding(scene, known, network.cells[owner].terms, owner)
    found: dict[int, OnePiece] = {}
    for kind in dict.fromkeys(kinds):
        places = [k for k, each in enumerate(kinds) if each == kind]
        one = _Around(network, without[places[0]], rates, owner, kind == own)
        found |= dict(zip(places, one.each([terms[k] for k in places]), strict=True))
    yield from (found[k] for k in range(len(without)))


def _binding(scene: Scene, known: Noted, terms: Sequence[Term], owner: str) -> object:
    """Equal where a piece is bound to all else in the same way, whatever its cells are."""
    ties = ties_of(known, sheets_of(scene, known))
    tied = tuple((core, sheet, named.item) for core, sheet, _, named in ties)
    shown = {item for term in terms for item, group in term.groups.items() if any(group)}
    at_home = frozenset(item for item in shown if home_of(known, item) == owner)
    return tied, at_home, can_be_joined(scene)


@dataclass(frozen=True, slots=True, eq=False)
class _Around:
    """All but one piece of a car. `is_alike`: it is bound as in the network that is summed."""

    network: Network
    known: Noted
    rates: RateValues
    owner: str
    is_alike: bool

    def each(self, terms: list[list[Term]]) -> Iterator[OnePiece]:
        """The networks with these terms of the piece in turn."""
        network, owner = self.network, self.owner
        base = network.cells[owner]
        first = base if self.is_alike else None
        wide = cells_of(owner, (term for each in terms for term in each), first)
        made = [cells_of(owner, each, wide) for each in terms]
        ways = [prior_factor(each) for each in made]
        ways = [squeezed(each.table, each.axes) for each in ways]
        noted = [noted_factor(each, network.axes) for each in made]
        own = set(network.summed[owner].axes)
        axes = {axis for each in (*ways, *noted) for axis in each.axes} - {way_axis(owner)}
        implied = (each for each in network.items.values() if each.implied and owner in each.pieces)
        axes |= {f"item {name}" for each in implied for name in each.bound}
        same = (len(wide.by_days), len(wide.by_groups)) == (len(base.by_days), len(base.by_groups))
        if self.is_alike and same and axes <= own:
            prior, around = network.prior, network.around(owner)
        else:
            prior, around = self._summed(wide, ("S", *sorted((axes | own) - {DRAW, "S"})))
        yield from self._all(prior, around, made, ways, noted)

    def _all(
        self,
        prior: Array,
        around: Factor,
        cells: list[Cells],
        ways: list[Factor],
        noted: list[Factor],
    ) -> Iterator[OnePiece]:
        of = self.network
        for own, way, each in zip(cells, ways, noted, strict=True):
            cells_now = {**of.cells, self.owner: own}
            yield OnePiece(
                draws=of.draws,
                prior=prior,
                piece=self.owner,
                cells=cells_now,
                items=of.items,
                axes=of.axes,
                ways=way,
                noted=each,
                around=around,
            )

    def _summed(self, wide: Cells, axes: Axes) -> tuple[Array, Factor]:
        """The prior of the car, and the sum of everything but the piece."""
        of, known, rates = self.network, self.known, self.rates
        scene = scene_of(known, rates)
        prior, sheets = prior_of(scene), sheets_of(scene, known)
        bonds = bonds_of(known, rates, {**of.cells, self.owner: wide}, sheets)
        rest = [factor for piece, factor in of.summed.items() if piece != self.owner]
        items = [squeezed(each, (*NAMES, f"item {item}")) for item, each in of.axes.all.items()]
        shared = [squeezed(prior, NAMES), *items, *of.axes.configured.rules, *bonds]
        around = contracted([*shared, *rest], (DRAW, *axes))
        return prior, around
