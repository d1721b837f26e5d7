"""A figure: one measured number with its unit, its runs, and what it stands beside."""

import operator
import time
from collections.abc import Callable
from dataclasses import asdict, dataclass
from statistics import median

COMPARE = {"under": operator.lt, "over": operator.gt}


@dataclass(frozen=True, slots=True)
class Aim:
    """What was aimed at: `under` or `over` a value, in the figure's own unit, or of its ratio."""

    side: str
    value: float
    of_ratio: bool = False

    def is_met_by(self, value: float) -> bool:
        """Does the value lie on the side aimed at?"""
        return bool(COMPARE[self.side](value, self.value))


@dataclass(frozen=True, slots=True)
class Figure:
    """One line of the table.

    `value` is the median of `runs` runs, `least` and `most` their extremes.
    `ratio` is value over that of `ratio_to`, the median of the ratios pair by
    pair where the runs were taken in turn. `note` says what the figure leaves out.
    """

    name: str
    value: float
    unit: str
    runs: int
    least: float | None = None
    most: float | None = None
    ratio: float | None = None
    ratio_to: str = ""
    aim: Aim | None = None
    note: str = ""

    @property
    def verdict(self) -> str:
        """The aim and whether it is met; empty where nothing was aimed at."""
        if self.aim is None:
            return ""
        reached = self.ratio if self.aim.of_ratio else self.value
        met = "met" if reached is not None and self.aim.is_met_by(reached) else "not met"
        of = "ratio " if self.aim.of_ratio else ""
        return f"{of}{self.aim.side} {self.aim.value:g}: {met}"

    def plain(self) -> dict[str, object]:
        """The figure as JSON knows it."""
        return {**asdict(self), "verdict": self.verdict}


def timed(
    work: Callable[[], object],
    runs: int,
    warm: int = 1,
    clock: Callable[[], float] = time.perf_counter,
) -> list[float]:
    """Milliseconds of each run, after `warm` runs that do not count.

    What was made is thrown away after the clock has stopped. `clock` gives seconds.
    """
    for _ in range(warm):
        work()
    found = []
    for _ in range(runs):
        start = clock()
        made = work()
        found.append((clock() - start) * 1e3)
        del made
    return found


def in_turn(
    first: Callable[[], float], second: Callable[[], float], runs: int
) -> list[list[float]]:
    """What both give, in turn: first, second, first, second, so that both meet the same noise."""
    pairs = [(first(), second()) for _ in range(runs)]
    return [[pair[0] for pair in pairs], [pair[1] for pair in pairs]]


def of_times(
    name: str, milliseconds: list[float], *, aim: Aim | None = None, note: str = ""
) -> Figure:
    """The figure of some runs, in milliseconds."""
    return Figure(
        name,
        median(milliseconds),
        "ms",
        len(milliseconds),
        min(milliseconds),
        max(milliseconds),
        aim=aim,
        note=note,
    )


def ratio_of(numerators: list[float], denominators: list[float]) -> float:
    """The median of the ratios, pair by pair."""
    return median(n / d for n, d in zip(numerators, denominators, strict=True))
