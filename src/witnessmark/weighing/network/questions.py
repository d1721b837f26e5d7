"""The questions that have a likelihood ratio, and the joint of each side, by draw.

A side's LR is P(what was noted | side), which is its joint over its prior: the pair that is
asked is cut from its parents.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from witnessmark.catalogue import said
from witnessmark.codebook.pieces import PieceKind
from witnessmark.weighing.arrays import Array, Which
from witnessmark.weighing.evidence.noted import READ
from witnessmark.weighing.network.factors import way_axis, ways_of
from witnessmark.weighing.network.leaving_out import OnePiece
from witnessmark.weighing.network.network import Network
from witnessmark.weighing.pieces.axes import Structure
from witnessmark.weighing.pieces.core_hands import STRUCK_HANDS
from witnessmark.weighing.pieces.items import CLAIMED
from witnessmark.weighing.pieces.noted_car import Core, Noted
from witnessmark.weighing.pieces.origins import Hand, Origin
from witnessmark.weighing.records import Asked, Pair

TINY = 1e-300
PLACES = 12
"""Places of a log10 LR; what is smaller is the order of sums: nothing noted is exactly 1."""


type Asking = Network | OnePiece
"""What can be asked: a car, or one in which one piece is noted otherwise."""


@dataclass(frozen=True, slots=True)
class Question:
    """One question about a piece or an item, whether anything that bears on it was examined, and
    whether anything on such a car can."""

    asked: Asked
    about: str
    pair: Pair
    is_examined: bool
    can_be_told: bool = True


@dataclass(frozen=True, slots=True, eq=False)
class Sides:
    """By draw: P(what was noted and the way), and P(the way); shape (draws, ways). `first`
    says which ways make the first proposition true, `second` which the second."""

    names: tuple[str, ...]
    joint: Array
    prior: Array
    first: Which
    second: Which

    def log10_lr(self) -> float:
        """The LR integrated over the draws."""
        a, b = (self._side(which).mean() for which in (self.first, self.second))
        pa, pb = (self._before(which).mean() for which in (self.first, self.second))
        found = float(np.log10(max(a, TINY) / pa) - np.log10(max(b, TINY) / pb))
        return round(found, PLACES) + 0.0

    def log10_by_draw(self) -> Array:
        """The LR of every draw, shape (draws,)."""
        one = np.maximum(self._side(self.first), TINY) / self._before(self.first)
        other = np.maximum(self._side(self.second), TINY) / self._before(self.second)
        return np.log10(one) - np.log10(other)

    @property
    def can_be_told(self) -> bool:
        """Whether either side could be, before anything was noted."""
        return all(self._before(which).all() for which in (self.first, self.second))

    def _side(self, which: Which) -> Array:
        return self.joint[:, which].sum(axis=1)

    def _before(self, which: Which) -> Array:
        return self.prior[:, which].sum(axis=1)


def questions_of(known: Noted) -> tuple[Question, ...]:
    """Identity, each core and its stamp, plates, papers and items, in this order."""
    return (
        *_identity(known),
        *_cores(known),
        *_panels(known),
        *_sheets(known),
        *_items(known),
    )


def _identity(known: Noted) -> Iterator[Question]:
    for bearer in known.pieces.bearers:
        name = next(a.name for a in known.car.book.assemblies if a.id == bearer)
        pair = Pair(
            said("this {part} left the factory as the claimed car", part=name),
            said("this {part} did not leave the factory as the claimed car", part=name),
        )
        core = _second_bearer(known, bearer)
        noted = (
            any(not each.is_silent for each in known.seen) if core is None else not core.is_silent
        )
        yield Question(Asked.IDENTITY, bearer, pair, noted)


def _second_bearer(known: Noted, assembly: str) -> Core | None:
    """What a second bearer of the identity is weighed as; None of the first."""
    return next(
        (each for each in known.cores if assembly in known.pieces.bearers and
         assembly == each.piece.piece.assembly),
        None,
    )  # fmt: skip


def _cores(known: Noted) -> Iterator[Question]:
    for core in known.cores:
        piece = core.piece.piece
        name = piece.name
        # What was read of it, and the book has from memory alone, speaks neither way.
        is_mute = core.is_silent and any(known.car.of(mark) for mark in core.marks)
        if not core.marks:
            name = said("{part}, on which the book knows no mark,", part=name)
        elif is_mute:
            name = said("{part}, whose marks the book knows from memory alone,", part=name)
        if piece.assembly not in known.pieces.bearers:
            pair = _fitted_here(name)
            can_be_told = bool(core.marks) and not is_mute
            yield Question(Asked.CORE, piece.id, pair, not core.is_silent, can_be_told)
        if any(number.status is READ for number in core.piece.main.numbers):
            pair = Pair(
                said("what is struck on this {part} was struck at the works for this car",
                     part=piece.name),
                said("what is struck on this {part} was struck there again later", part=piece.name),
            )  # fmt: skip
            yield Question(Asked.STAMP, piece.id, pair, True)


def _panels(known: Noted) -> Iterator[Question]:
    """Panels of the first bearer of which something was noted: one may be new, or another car's."""
    for seen in known.seen:
        if known.is_panel_noted(seen):
            yield Question(Asked.CORE, seen.piece.id, _fitted_here(seen.piece.name), True)


def _fitted_here(name: str) -> Pair:
    return Pair(
        said("this {part} was fitted to this car at the factory", part=name),
        said("this {part} was not fitted to this car at the factory", part=name),
    )


def _sheets(known: Noted) -> Iterator[Question]:
    for seen in known.seen:
        if seen.piece.id not in known.sheets:
            continue
        if seen.piece.kind is PieceKind.PAPER:
            pair = Pair(
                said("this {paper} was written for the claimed car", paper=seen.piece.name),
                said("this {paper} was written later, or is another car's", paper=seen.piece.name),
            )
            yield Question(Asked.PAPER, seen.piece.id, pair, True)
        else:
            pair = Pair(
                said("this {plate} was made by the factory for the claimed car",
                     plate=seen.piece.name),
                said("this {plate} was made later, or is another car's", plate=seen.piece.name),
            )  # fmt: skip
            yield Question(Asked.PLATE, seen.piece.id, pair, True)


def _items(known: Noted) -> Iterator[Question]:
    for item_id in known.car.casefile.claim.items:
        item = known.car.book.item(item_id)
        if item is None or item_id in known.numbers or item.length:
            continue
        pair = Pair(
            said("the claimed car was built with the claimed {item}", item=item.name),
            said("the claimed car was built with another {item}", item=item.name),
        )
        is_said = item_id in known.items
        yield Question(Asked.ITEM, item_id, pair, is_said, is_said)


def axis_of(known: Noted, question: Question) -> str:
    """The axis of the network along which the sides of a question lie."""
    match question.asked:
        case Asked.IDENTITY:
            core = _second_bearer(known, question.about)
            return "S" if core is None else way_axis(core.piece.piece.id)
        case Asked.ITEM:
            return f"item {question.about}"
        case _:
            return way_axis(question.about)


def sides(network: Asking, known: Noted, question: Question) -> Sides | None:
    """Both sides of a question; None where nothing on the car can tell them apart, or where one
    side cannot be (a stamp of which no number was read was struck by nobody)."""
    if not question.is_examined and question.asked is not Asked.IDENTITY:
        return None
    axis = axis_of(known, question)
    if axis == "S":
        found = _of_structure(network)
    elif question.asked is Asked.ITEM:
        found = _of_item(network, question.about)
    else:
        found = _of_piece(network, axis, question.asked)
    return found if found.can_be_told else None


def _of_structure(network: Asking) -> Sides:
    prior = network.prior.sum(axis=(2, 3, 4, 5, 6, 7, 8))
    first = np.array([state is Structure.FIRST for state in Structure])
    names = tuple(state.name.lower().replace("_", " ") for state in Structure)
    return Sides(names, network.along("S"), _spread(prior, network.draws), first, ~first)


def _of_item(network: Asking, item: str) -> Sides:
    prior = network.axes.configured.before[item][:, 0, 0, :, 0, 0, 0, 0, 0]
    before = (network.prior.sum(axis=(1, 2, 4, 5, 6, 7, 8))[:, :, None] * prior).sum(axis=1)
    first = np.arange(network.items[item].states) == CLAIMED
    names = ("claimed", "other", "rest")[: first.size]
    joint = network.along(f"item {item}")
    return Sides(names, joint, _spread(before, network.draws), first, ~first)


def _of_piece(network: Asking, axis: str, asked: Asked) -> Sides:
    piece = next(each for each in network.cells if way_axis(each) == axis)
    ways = ways_of(network.cells[piece])
    is_first = np.array([origin is Origin.FIRST for origin, _ in ways])
    first, second = is_first, ~is_first
    if asked is Asked.STAMP:
        second = np.array([hand in STRUCK_HANDS for _, hand in ways])
        first = is_first & np.array([hand is Hand.MADE for _, hand in ways])
    names = tuple(f"{origin}, {hand}" for origin, hand in ways)
    return Sides(names, network.along(axis), network.before(piece), first, second)


def _spread(table: Array, draws: int) -> Array:
    return np.broadcast_to(table, (draws, *table.shape[1:]))
