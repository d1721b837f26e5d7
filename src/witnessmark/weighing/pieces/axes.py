"""The axes of every table of one car, in a fixed order, and how a table is laid along them.

    draw      which draw of the rates
    S         the structure: first; another car's with the claimed car's parts moved onto it, or
              the other car whole, each with its marks left or changed; new, bare or struck;
              joined from two
    I, M      did somebody set out to pass off the identity; to dress the car as another kind
    K         the other car: none, a like one, any
    H         were parts hunted
    R         was the car taken apart and painted anew
    P         its bolted panels: those of the structure; on another structure, the claimed car's
              moved onto it; a set that was replaced
    L         does what was only told, or pictured, show the claim whatever stands there

A table has length 1 along every axis on which it does not depend.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import IntEnum

import numpy as np

from witnessmark.weighing.arrays import Array
from witnessmark.weighing.rates import RateValues

NAMES = ("d", "S", "I", "M", "K", "H", "R", "P", "L")
STRUCTURE, IDENTITY, DRESS, OTHER_CAR, HUNTED, RESTORED, PANELS, LEAK = range(1, 9)


class Structure(IntEnum):
    """How the structure came to be, and what was done to its marks."""

    FIRST = 0
    RESHELL = 1
    RESHELL_CHANGED = 2
    OTHER = 3
    OTHER_CHANGED = 4
    NEW = 5
    NEW_STRUCK = 6
    JOINED = 7


ONE: Array = np.ones((1,) * len(NAMES))


@dataclass(frozen=True, slots=True, kw_only=True)
class Traits:
    """What the case says of the axes that not every car has. `bears_number`: the structure has
    a place for the identification number. `claim_may_be_read_off`: a day is claimed, and no
    paper that dates the claimed car is in hand. `has_panels`, `has_pictures`, `has_words`:
    something was noted of a panel of the structure, from a photograph alone, or as told.
    `is_sold`: the book says that such structures were sold in service."""

    bears_number: bool
    claim_may_be_read_off: bool
    has_panels: bool
    has_pictures: bool
    has_words: bool
    is_sold: bool

    @property
    def leaks(self) -> int:
        """How many sources there are that may show the claim whatever stands there."""
        return self.has_pictures + self.has_words


def along(axis: int, *parts: Array | float) -> Array:
    """The parts, each a table or a number, laid side by side along one axis."""
    tables = np.broadcast_arrays(*(np.asarray(part, dtype=float) * ONE for part in parts))
    return np.concatenate(tables, axis=axis)


def by_structure(
    first: Array | float,
    reshell: Array | float,
    other: Array | float,
    new: Array | float,
    reshell_changed: Array | float | None = None,
    other_changed: Array | float | None = None,
) -> Array:
    """A table over S; the changed states as the left ones unless said, joined as a re-shell."""
    changed = reshell if reshell_changed is None else reshell_changed
    other_too = other if other_changed is None else other_changed
    return along(STRUCTURE, first, reshell, changed, other, other_too, new, new, reshell)


def only(states: Sequence[int]) -> Array:
    """1 where the structure is in one of these states, else 0."""
    return along(STRUCTURE, *(float(state in states) for state in Structure))


def odds_times(share: Array, factor: Array) -> Array:
    """The share whose odds are so many times those of the given one."""
    odds = share / (1.0 - share) * factor
    return odds / (1.0 + odds)


def prior_of_car(rates: RateValues, traits: Traits, can_be_joined: bool) -> Array:
    """P(S, I, M, K, H, R, P, L), shape (draws, 8, 2, 2, 3 or 4, 2, 2, 1 or 3, 1 to 3).
    `can_be_joined`: two of its places show whose they are."""
    joined = rates["structure.joined"] if can_be_joined else 0.0 * ONE
    other = rates["structure.other"]
    new = rates["structure.sold" if traits.is_sold else "structure.new"]
    whole = np.maximum(1.0 - rates["structure.reshell"] - new - joined, 0.02)
    share = np.maximum(rates["structure.reshell"], 0.0)
    total = share + new + joined + whole
    changed = along(IDENTITY, rates["structure.changed.honest"], rates["structure.changed.pass"])
    # Nobody changes a structure that nothing contradicts: the other car's own parts agree with it.
    other_changed = changed if traits.bears_number else 0.0 * changed
    struck = rates["structure.new.struck"]
    structure = along(
        STRUCTURE,
        1.0 - other,
        other * share / total * (1.0 - changed),
        other * share / total * changed,
        other * whole / total * (1.0 - other_changed),
        other * whole / total * other_changed,
        other * new / total * (1.0 - struck),
        other * new / total * struck,
        other * joined / total,
    )
    passed = by_structure(
        rates["pass.first"], rates["pass.reshell"], rates["pass.taken"], rates["pass.reshell"]
    )
    dress, hunted, restored = rates["dress"], rates["hunted"], rates["restored"]
    found: Array = (
        structure
        * along(IDENTITY, 1.0 - passed, passed)
        * along(DRESS, 1.0 - dress, dress)
        * _other_car(rates, traits)
        * along(HUNTED, 1.0 - hunted, hunted)
        * along(RESTORED, 1.0 - restored, restored)
    )
    if traits.has_panels:
        found = found * _panels(rates)
    return found * _hearsay(rates, traits) if traits.leaks else found


def _other_car(rates: RateValues, traits: Traits) -> Array:
    """P(none, a like one, any | S): a parts car, or the car whose structure this is; of the
    latter also that the claim describes it, where nothing else dates the claimed car."""
    none = by_structure(1.0 - rates["parts.car"], 0.0, 0.0, 1.0 - rates["parts.car"])
    like, some = rates["like"], 1.0 - none
    if not traits.claim_may_be_read_off:
        return along(OTHER_CAR, none, some * like, some * (1.0 - like))
    read = by_structure(0.0, 0.0, rates["claim.read"], 0.0)
    some = some * (1.0 - read)
    return along(OTHER_CAR, none, some * like, some * (1.0 - like), read)


def _panels(rates: RateValues) -> Array:
    """P(the panels are the structure's, were moved onto it, replaced as a set | S)."""
    replaced, over = rates["panel.set"], rates["panel.reshell"]
    moved = by_structure(0.0, over, rates["panel.taken"], over)
    moved = moved * (1.0 - only([Structure.JOINED]))
    return along(PANELS, (1.0 - replaced) * (1.0 - moved), (1.0 - replaced) * moved, replaced)


def _hearsay(rates: RateValues, traits: Traits) -> Array:
    """P(nothing shows the claim whatever stands there; what was told does; pictures, too)."""
    pictures = rates["leak.picture"]
    told = np.maximum(rates["leak.told"], pictures)
    if traits.leaks > 1:
        return along(LEAK, 1.0 - told, told - pictures, pictures)
    share = pictures if traits.has_pictures else told
    return along(LEAK, 1.0 - share, share)
