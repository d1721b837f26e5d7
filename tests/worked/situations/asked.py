"""Every situation and every law on each of its cars, and what did not come out as expected."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from tests.worked.situations.law import Law, Measured
from tests.worked.situations.laws import LAWS
from tests.worked.situations.situation import Situation
from tests.worked.situations.standard import STANDARD
from tests.worked.situations.table import TRIED
from tests.worked.situations.tried import Fault, figure, in_words, tried

type Key = tuple[str, str, str, str]
"""Situation or law, its title, the car, and what of it."""


@dataclass(frozen=True, slots=True)
class Row:
    """One situation, or one law, on one car: what was got, in words, and what is wrong with it."""

    number: str
    title: str
    car: str
    got: str
    faults: tuple[Fault, ...]

    def key(self, fault: Fault) -> Key:
        """By what name a fault stands in the list of what is unmet."""
        return (self.number, self.title, self.car, fault.what)


def situations_on(*cars: str) -> list[tuple[Situation, str]]:
    """Each situation that can be asked, on each of these cars."""
    return [(each, car) for each, car in TRIED if car in cars and not each.needs]


def laws_on(*cars: str) -> list[tuple[Law, str]]:
    """Each law on each of these cars."""
    return [(law, car) for car in STANDARD if car in cars for law in LAWS]


def of_situation(situation: Situation, car: str) -> Row:
    """A situation tried on a car."""
    found = tried(situation, car)
    return Row(situation.number, situation.title, car, "; ".join(found.figures), found.faults)


@cache
def measured(law: Law, car: str) -> tuple[Measured, ...]:
    """All that a law measures on one standard car; empty where it does not apply."""
    return tuple(law.of(STANDARD[car]))


def of_law(law: Law, car: str) -> Row:
    """A law measured on a car: what lies nearest to its bound; why, where it does not apply."""
    found = measured(law, car)
    got = f"not applicable: {law.otherwise}"
    if found:
        worst = min(found, key=lambda each: each.room)
        bounds = in_words((worst.low, worst.high))
        got = f"{worst.what} {figure(worst.value)} ({bounds})"
    return Row(f"law {law.number}", law.sentence, car, got, tuple(_broken(law, found)))


def _broken(law: Law, found: tuple[Measured, ...]) -> Iterator[Fault]:
    for each in found:
        if not each.holds:
            is_against = law.number == "14" and each.value < min(each.low, 1.0)
            bounds = in_words((each.low, each.high))
            yield Fault(each.what, bounds, figure(each.value), is_against)


def every_row() -> Iterator[Row]:
    """All situations, then all laws, on all cars."""
    yield from (of_situation(*each) for each in situations_on(*STANDARD))
    yield from (of_law(*each) for each in laws_on(*STANDARD))
