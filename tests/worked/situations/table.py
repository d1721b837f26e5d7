"""Every situation: the fifty of the design and our own, honest cars first."""

from tests.worked.situations import honest, other_kinds, parts_that_bear, passed_off
from tests.worked.situations.situation import Situation

SITUATIONS: tuple[Situation, ...] = (
    *parts_that_bear.ROWS,
    *other_kinds.ROWS,
    *honest.ROWS,
    *passed_off.ROWS,
)
TRIED: tuple[tuple[Situation, str], ...] = tuple(
    (situation, car) for situation in SITUATIONS for car in situation.cars
)
"""Each situation on each of its cars."""
