"""A law of the weighing and what it measures on one car."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from tests.worked.situations.car import Car
from tests.worked.situations.situation import ANY


@dataclass(frozen=True, slots=True)
class Measured:
    """One value of a law: an LR or a ratio of two, and between what it must lie."""

    what: str
    value: float
    low: float
    high: float

    @property
    def holds(self) -> bool:
        """Does it lie within its bounds?"""
        return self.low * (1 - 1e-9) <= self.value <= self.high * (1 + 1e-9)

    @property
    def room(self) -> float:
        """By what factor it could still move towards the nearer bound; below 1 where it is past."""
        value = max(self.value, 1e-300)
        return min(value / self.low if self.low else ANY, self.high / value)


@dataclass(frozen=True, slots=True)
class Law:
    """One law: `of` gives what it measures on a car; nothing means that `otherwise` tells why."""

    number: str
    sentence: str
    of: Callable[[Car], Iterator[Measured]]
    otherwise: str
