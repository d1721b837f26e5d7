"""Claimed configuration items: each as claimed, as another value that was read, or otherwise."""

from collections.abc import Iterable
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from witnessmark.agreement.records import CarMarks
from witnessmark.weighing.second.axes import DRESS, along
from witnessmark.weighing.second.evidence import UNLISTED, CodeSeen, PieceSeen
from witnessmark.weighing.second.rates import RateValues

Array = NDArray[np.float64]

UNLISTED_SHARE = 0.02
CLAIMED, READ_OTHER = 0, 1


@dataclass(frozen=True, slots=True, eq=False)
class CodeItem:
    """One claimed item. `read` is the value, other than the claimed one, that what was read
    fits best; `listed` all that the marks can show. `shares`: of what is not as claimed, that
    other value and the rest. `pieces` are those that bear it; `is_of_number`: its codes stand
    beside the identification number."""

    id: str
    claimed: str
    read: str
    listed: tuple[str, ...]
    shares: tuple[float, ...]
    pieces: tuple[str, ...]
    is_of_number: bool
    vectors: dict[CodeSeen, Array] = field(default_factory=dict)

    @property
    def is_shared(self) -> bool:
        """Do several pieces bear it?"""
        return len(self.pieces) > 1

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

    def prior(self, rates: RateValues) -> Array:
        """P(claimed, the other value, the rest | dressed or not), the states last."""
        share = along(DRESS, rates["item.other"], rates["item.other.dress"])
        states = [1.0 - share, *(share * each for each in self.shares)]
        return np.stack(np.broadcast_arrays(*states), axis=-1)


def code_items(car: CarMarks, seen: Iterable[PieceSeen]) -> dict[str, CodeItem]:
    """The claimed items of which some weighed mark shows a code, in the order of the claim."""
    codes: dict[str, list[tuple[str, CodeSeen]]] = {}
    for piece in seen:
        for code in piece.codes:
            codes.setdefault(code.item, []).append((piece.piece.id, code))
    with_number = _of_number(car)
    found = {}
    for item, claimed in car.casefile.claim.items.items():
        if item in codes:
            found[item] = _item(item, claimed, codes[item], item in with_number)
    return found


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
        item,
        claimed,
        read,
        listed,
        (first, 1.0 - first) if differs else (1.0,),
        tuple(dict.fromkeys(piece for piece, _ in codes)),
        is_of_number,
    )
