"""Every situation: the fifty of the design and our own, honest cars first."""

from collections.abc import Iterable
from dataclasses import replace

from tests.worked.situations import (
    engines,
    honest_kinds,
    honest_parts,
    honest_words,
    items_and_papers,
    other_kinds,
    passed_off,
    shells,
)
from tests.worked.situations.situation import Situation

HONEST = {
    *(str(number) for number in (1, 2, 3, 4, 7, 9, 10, 21, *range(27, 30), *range(31, 42))),
    *("43", "44", "46", "47", "48"),
}
"""Of the fifty those in which nobody means to pass off what the answer is about."""


def _honest(rows: Iterable[Situation]) -> tuple[Situation, ...]:
    return tuple(replace(row, is_honest=True) for row in rows)


def _of_the_design(*rows: Situation) -> tuple[Situation, ...]:
    return tuple(replace(row, is_honest=row.number in HONEST) for row in rows)


SITUATIONS: tuple[Situation, ...] = (
    *_of_the_design(*engines.ROWS, *shells.ROWS, *items_and_papers.ROWS, *other_kinds.ROWS),
    *_honest((*honest_parts.ROWS, *honest_words.ROWS, *honest_kinds.ROWS)),
    *passed_off.ROWS,
)
TRIED: tuple[tuple[Situation, str], ...] = tuple(
    (situation, car) for situation in SITUATIONS for car in situation.cars
)
"""Each situation on each of its cars."""
