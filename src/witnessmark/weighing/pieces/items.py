"""Claimed configuration items: each as claimed, as another value that was read, or otherwise.

An item that nobody claimed is one of them where the car shows it as it cannot be together with
the claim: then it is as the claim implies, or otherwise.
"""

from collections.abc import Hashable, Iterable
from dataclasses import dataclass, field, replace

import numpy as np

from witnessmark.agreement.records import CarMarks
from witnessmark.weighing.arrays import Array
from witnessmark.weighing.evidence.noted import UNLISTED, CodeSeen, PieceSeen
from witnessmark.weighing.evidence.rules import excluded
from witnessmark.weighing.pieces.axes import DRESS, along
from witnessmark.weighing.rates import RateValues

UNLISTED_SHARE = 0.02
MOST_DRESSED = 2
"""Items of a dressed car of which each is not as claimed as often as its row says; of more
items together no more are."""
CLAIMED, READ_OTHER = 0, 1
IMPLIED = "as the claim implies"
"""The value of an item that nobody claimed where it can be together with the claim."""


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class CodeItem:
    """One claimed item. `read` is the value, other than the claimed one, that what was read
    fits best; `listed` all that the marks can show. `shares`: of what is not as claimed, that
    other value and the rest. `pieces` are those that bear it; `is_of_number`: its codes stand
    beside the identification number. `implied` are the values that can be together with the
    claim, of an item that nobody claimed; `bound` the items to which rules bind it."""

    id: str
    claimed: str
    read: str
    listed: tuple[str, ...]
    shares: tuple[float, ...]
    pieces: tuple[str, ...]
    is_of_number: bool
    implied: tuple[str, ...] = ()
    bound: tuple[str, ...] = ()
    vectors: dict[CodeSeen, Array] = field(default_factory=dict)

    @property
    def is_shared(self) -> bool:
        """Does anything but one piece alone speak of it?"""
        return len(self.pieces) > 1 or bool(self.bound)

    @property
    def as_weighed(self) -> Hashable:
        """All of it that bears on how a code of it is weighed on one piece."""
        return (self.id, self.claimed, self.read, self.shares, self.is_of_number)

    @property
    def speaks_of(self) -> tuple[str, ...]:
        """The items of which its codes speak: its own, or what excludes it where nobody claimed
        it."""
        return (self.id, *(self.bound if self.implied else ()))

    def values_of(self, state: int, named: Iterable[str]) -> tuple[str, ...]:
        """The values that it may have in one of its states, of those that somebody names; ""
        for any other."""
        if state == CLAIMED:
            return self.implied or (self.claimed,)
        if state == READ_OTHER and self.is_contradicted:
            return (self.read,)
        known = {*(self.implied or (self.claimed,)), *((self.read,) * self.is_contradicted)}
        return (*(value for value in named if value not in known), "")

    def vector(self, code: CodeSeen) -> Array:
        """P(what was seen | claimed, the other value read, the rest), shape (3,); of an item
        that no mark shows otherwise, | claimed, another value, shape (2,)."""
        if code not in self.vectors:
            self.vectors[code] = self._vector(code)
        return self.vectors[code]

    def _vector(self, code: CodeSeen) -> Array:
        rest = [v for v in code.values if v not in (self.claimed, self.read, UNLISTED)]
        unlisted = code.values.get(UNLISTED, 0.0)
        mean = float(np.mean([code.values[v] for v in rest])) if rest else unlisted
        others = (1.0 - UNLISTED_SHARE) * mean + UNLISTED_SHARE * unlisted
        other = code.values.get(self.read, unlisted)
        if len(self.shares) == 1:
            listed = [v for v in code.values if v not in (self.claimed, UNLISTED)]
            mean = float(np.mean([code.values[v] for v in listed])) if listed else unlisted
            return np.array(
                [
                    code.values[self.claimed],
                    (1.0 - UNLISTED_SHARE) * mean + UNLISTED_SHARE * unlisted,
                ]
            )
        return np.array([code.values[self.claimed], other, others])

    @property
    def is_contradicted(self) -> bool:
        """Does some mark show it otherwise than claimed?"""
        return len(self.shares) > 1

    @property
    def states(self) -> int:
        """As claimed, and the ways in which it may be otherwise."""
        return 1 + len(self.shares)

    def other(self, vector: Array) -> float:
        """P(what was seen | any value but the claimed one)."""
        return float(vector[READ_OTHER:] @ np.array(self.shares))

    def prior(self, rates: RateValues, count: int) -> Array:
        """P(claimed, the other value, the rest | dressed or not), the states last, of one among
        so many items. A car is dressed as something: one or two items, however many are claimed,
        so that those that are right do not clear it."""
        honest = 1.0 - rates["item.other.dress"]
        dressed = 1.0 - honest ** (MOST_DRESSED / max(count, MOST_DRESSED))
        share = along(DRESS, rates["item.other"], dressed)
        states = [1.0 - share, *(share * each for each in self.shares)]
        return np.stack(np.broadcast_arrays(*states), axis=-1)


def code_items(
    car: CarMarks, seen: Iterable[PieceSeen]
) -> tuple[dict[str, CodeItem], tuple[PieceSeen, ...]]:
    """The claimed items of which some weighed mark shows a code, in the order of the claim, then
    those that nobody claimed and that are as the claim excludes; and the pieces with the codes
    of these items alone."""
    pieces = tuple(seen)
    codes: dict[str, list[tuple[str, CodeSeen]]] = {}
    for piece in pieces:
        for code in piece.codes:
            codes.setdefault(code.item, []).append((piece.piece.id, code))
    with_number, claim = _of_number(car), car.casefile.claim.items
    found = {
        item: _item(item, claimed, codes[item], item in with_number)
        for item, claimed in claim.items()
        if item in codes
    }
    kept: dict[CodeSeen, CodeSeen] = {}
    for item in codes.keys() - claim.keys():
        listed = dict.fromkeys(value for _, code in codes[item] for value in code.values)
        shut = excluded(car.book, car.context, claim, item, listed)
        own = [(piece, _by_claim(code, shut)) for piece, code in codes[item]]
        if shut and any(code.values[IMPLIED] < max(code.values.values()) for _, code in own):
            implied = tuple(value for value in listed if value not in (*shut, UNLISTED))
            made = _item(item, IMPLIED, own, item in with_number)
            found[item] = replace(made, implied=implied)
            kept |= {was: now for (_, was), (_, now) in zip(codes[item], own, strict=True)}
    return found, tuple(_with_codes(piece, claim.keys(), kept) for piece in pieces)


def _by_claim(code: CodeSeen, shut: Iterable[str]) -> CodeSeen:
    """The code of an item that nobody claimed: what can be together with the claim as one."""
    out = {value: code.values[value] for value in shut if value in code.values}
    fits = [code.values[value] for value in code.values if value not in out]
    return replace(code, values={IMPLIED: max(fits), **out, UNLISTED: code.values[UNLISTED]})


def _with_codes(
    piece: PieceSeen, claimed: Iterable[str], kept: dict[CodeSeen, CodeSeen]
) -> PieceSeen:
    surfaces = tuple(
        replace(
            surface,
            codes=tuple(
                kept.get(code, code)
                for code in surface.codes
                if code.item in claimed or code in kept
            ),
        )
        for surface in piece.surfaces
    )
    return replace(piece, surfaces=surfaces)


def unread_item(item: str, claimed: str) -> CodeItem:
    """A claimed item that no weighed mark shows."""
    return CodeItem(
        id=item,
        claimed=claimed,
        read=UNLISTED,
        listed=(),
        shares=(1.0,),
        pieces=(),
        is_of_number=False,
    )


def _of_number(car: CarMarks) -> set[str]:
    """Items whose codes stand beside the identification number, part of it."""
    numbers = {item.id for item in car.book.items if item.identification}
    return {
        fld.says
        for mark in car.book.marks
        if not mark.windows and any(fld.says in numbers for fld in mark.fields)
        for fld in mark.fields
    }


def _item(
    item: str, claimed: str, codes: list[tuple[str, CodeSeen]], is_of_number: bool
) -> CodeItem:
    fit: dict[str, float] = {}
    for _, code in codes:
        for value in code.values:
            fit.setdefault(value, 0.0)
    for value in fit:
        for _, code in codes:
            likelihood = code.values.get(value, code.values[UNLISTED])
            fit[value] += float(np.log(max(likelihood, 1e-30)))
    listed = tuple(value for value in fit if value != UNLISTED)
    others = [value for value in listed if value != claimed]
    read = max(others, key=lambda value: fit[value], default=UNLISTED)
    # "Else one other value": where the book lists none, what is not listed stands for it.
    first = (1.0 - UNLISTED_SHARE) / len(others) if others else 0.5
    differs = any(code.values.get(read, 0.0) > code.values[claimed] for _, code in codes)
    return CodeItem(
        id=item,
        claimed=claimed,
        read=read,
        listed=listed,
        shares=(first, 1.0 - first) if differs else (1.0,),
        pieces=tuple(dict.fromkeys(piece for piece, _ in codes)),
        is_of_number=is_of_number,
    )
