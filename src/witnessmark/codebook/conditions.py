"""Further conditions of a row: other items that must have certain values for it to hold."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from witnessmark.documents.row import free_text


@dataclass(frozen=True, slots=True)
class Condition:
    """A further condition of a row: the item has one of the values."""

    item: str
    values: frozenset[str]


def outcome_pairs(cell: str) -> tuple[tuple[str, str], ...]:
    """What stands before and after the sign of each part of a cell of outcomes.

    >>> outcome_pairs("round red=factory; none = doubtful")
    (('round red', 'factory'), ('none', 'doubtful'))
    """
    if not cell:
        return ()
    parts = (part.partition("=") for part in cell.split(";") if part.strip())
    return tuple((outcome.strip(), said.strip()) for outcome, _, said in parts)


def conditions(label: str) -> Any:
    """A column of further conditions, written `item=value value; item=value`."""
    return free_text(
        label,
        default="",
        read=lambda cell: tuple(
            Condition(item, frozenset(values.split()))
            for item, values in outcome_pairs(cell)
            if item and values
        ),
    )


def held(also: tuple[Condition, ...], said: Mapping[str, frozenset[str]]) -> bool | None:
    """Do all of these hold? None where that is not known; `said` are the values that an item
    can have, by all that was read of it.

    >>> red = Condition("paint", frozenset({"red", "maroon"}))
    >>> held((red,), {"paint": frozenset({"red"})}), held((red,), {"paint": frozenset({"blue"})})
    (True, False)
    >>> held((red,), {"paint": frozenset({"red", "blue"})}) is held((red,), {}) is None
    True
    """
    known = [(each.values, said.get(each.item, frozenset())) for each in also]
    if any(values and not values & wanted for wanted, values in known):
        return False
    return True if all(values and values <= wanted for wanted, values in known) else None


def can_both_hold(one: tuple[Condition, ...], other: tuple[Condition, ...]) -> bool:
    """Is there a thing for which the conditions of both rows hold?"""
    return all(a.item != b.item or a.values & b.values for a in one for b in other)
