"""The car with one piece noted otherwise: all else is summed once, for whatever is left out of
this piece."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from witnessmark.codebook.pieces import Piece
from witnessmark.weighing.arrays import Array
from witnessmark.weighing.network.build import bonds_of, prior_of, terms_of, ties_of
from witnessmark.weighing.network.factors import (
    Cells,
    Factor,
    ItemAxes,
    cells_of,
    noted_factor,
    way_axis,
    ways_factor,
)
from witnessmark.weighing.network.messages import DRAW, contracted, joined
from witnessmark.weighing.network.network import Network, laid, over_ways, ways_before
from witnessmark.weighing.pieces.axes import NAMES
from witnessmark.weighing.pieces.items import CodeItem
from witnessmark.weighing.pieces.noted_car import Noted
from witnessmark.weighing.pieces.scene import Scene
from witnessmark.weighing.pieces.terms import Term
from witnessmark.weighing.rates import RateValues


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
            split = over_ways(self.piece, self.ways, noted)
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
    scenes = (Scene(known=each, rates=rates, kept=kept) for each in without)
    terms = [terms_of(scene, owner) for scene in scenes]
    kinds = [_binding(*each, owner) for each in zip(without, terms, strict=True)]
    own = _binding(known, network.cells[owner].terms, owner)
    found: dict[int, OnePiece] = {}
    for kind in dict.fromkeys(kinds):
        places = [k for k, each in enumerate(kinds) if each == kind]
        alike = _alike(
            network,
            without[places[0]],
            rates,
            owner=owner,
            terms=[terms[k] for k in places],
            is_as_summed=kind == own,
        )
        found |= dict(zip(places, alike, strict=True))
    yield from (found[k] for k in range(len(without)))


def _binding(known: Noted, terms: Sequence[Term], owner: str) -> object:
    """Equal where a piece is bound to all else in the same way, whatever its cells are."""
    tied = tuple((core, sheet, named.item) for core, sheet, _, named in ties_of(known))
    shown = {item for term in terms for item, group in term.groups.items() if any(group)}
    at_home = frozenset(item for item in shown if known.numbers[item].home == owner)
    return tied, at_home, known.can_be_joined


def _alike(
    network: Network,
    known: Noted,
    rates: RateValues,
    *,
    owner: str,
    terms: list[tuple[Term, ...]],
    is_as_summed: bool,
) -> Iterator[OnePiece]:
    """The networks with these terms of a piece in turn, bound in all of them as in the car of
    `known`. `is_as_summed`: and as in the network that is summed."""
    base = network.cells[owner]
    every = (term for each in terms for term in each)
    wide = cells_of(owner, every, base if is_as_summed else None)
    made = [cells_of(owner, each, wide) for each in terms]
    ways = [ways_factor(each) for each in made]
    noted = [noted_factor(each, network.axes) for each in made]
    axes = {axis for each in (*ways, *noted) for axis in each.axes} - {way_axis(owner)}
    same = (len(wide.by_days), len(wide.by_groups)) == (len(base.by_days), len(base.by_groups))
    implied = (each for each in network.items.values() if each.implied and owner in each.pieces)
    axes |= {f"item {name}" for each in implied for name in each.bound}
    own = set(network.summed[owner].axes)
    if is_as_summed and same and axes <= own:
        prior, around = network.prior, network.around(owner)
    else:
        prior = prior_of(known, rates)
        around = _summed(network, known, rates, prior, wide, axes=axes | own)
    for cells_now, way, each in zip(made, ways, noted, strict=True):
        yield OnePiece(
            draws=network.draws,
            prior=prior,
            piece=owner,
            cells={**network.cells, owner: cells_now},
            items=network.items,
            axes=network.axes,
            ways=way,
            noted=each,
            around=around,
        )


def _summed(
    network: Network, known: Noted, rates: RateValues, prior: Array, wide: Cells, *, axes: set[str]
) -> Factor:
    """The sum of everything but the piece of these cells, along these axes."""
    cells = {**network.cells, wide.piece: wide}
    bonds = bonds_of(known, rates, cells)
    whole = replace(network, prior=prior, cells=cells, bonds=bonds, made={})
    rest = [factor for piece, factor in network.summed.items() if piece != wide.piece]
    wanted = (DRAW, "S", *sorted(axes - {DRAW, "S"}))
    return contracted([*whole.shared(), *rest], wanted)
