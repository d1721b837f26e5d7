"""A situation: what is changed on which standard cars, and what an inspector would answer."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from tests.worked.situations.car import Car, Change

ANY = float("inf")

Range = tuple[float, float]
"""Least and most of a likelihood ratio, or of a ratio of two."""


@dataclass(frozen=True, slots=True)
class Situation:
    """One row of the table.

    `number` is that of the design's list, or a word of our own. `cars` are standard cars by
    name; each must answer alike. `expected` maps a question to the range of its LR, `moved` to
    the range of its LR over that of the same car with `against` in place of `change` (the
    standard car where that is empty). A question is named as in `tried.py`: "identity",
    "engine", "stamp engine", "plate body_plate", "paper build_sheet", "item paint".

    `first` is the kind of the first thing that does not fit and what it is about; `told` are
    pieces, marks or items about which something is told, `never` words that no sentence and no
    kind of what does not fit may have. `stop` says whether it is a matter for the authority
    first. `more_than` are two ways of one question's answer with the least factor between them.
    `disclosed` maps what was stated about to how it was found. `next_look` is the kind of a look
    that must be proposed, and of which mark. `is_honest`: nobody means to pass off anything, so
    that nothing may accuse the car. `needs` says what the formats cannot say yet: the situation
    is then skipped.
    """

    number: str
    title: str
    cars: tuple[str, ...]
    change: tuple[Change, ...] = ()
    expected: Mapping[str, Range] = field(default_factory=dict)
    moved: Mapping[str, Range] = field(default_factory=dict)
    against: tuple[Change, ...] = ()
    first: tuple[str, str] | None = None
    told: tuple[str, ...] = ()
    never: tuple[str, ...] = ()
    stop: bool | None = None
    more_than: tuple[tuple[str, str, str, float], ...] = ()
    disclosed: Mapping[str, str] = field(default_factory=dict)
    next_look: tuple[str, Callable[[Car], str]] | None = None
    is_honest: bool = False
    needs: str = ""


def at_least(least: float) -> Range:
    """This LR or a higher one."""
    return (least, ANY)


def at_most(most: float) -> Range:
    """This LR or a lower one."""
    return (0.0, most)


def within(factor: float) -> Range:
    """As much up as down."""
    return (1 / factor, factor)
