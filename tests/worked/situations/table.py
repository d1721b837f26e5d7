"""Every situation: the fifty of the design and our own, honest cars first."""

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

SITUATIONS: tuple[Situation, ...] = (
    *engines.ROWS,
    *shells.ROWS,
    *items_and_papers.ROWS,
    *other_kinds.ROWS,
    *honest_parts.ROWS,
    *honest_words.ROWS,
    *honest_kinds.ROWS,
    *passed_off.ROWS,
)
TRIED: tuple[tuple[Situation, str], ...] = tuple(
    (situation, car) for situation in SITUATIONS for car in situation.cars
)
"""Each situation on each of its cars."""
