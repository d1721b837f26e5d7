"""The order of a walk round the car: what one access serves together, least work first.

Within one access: standing before kneeling before lying; then what needs nothing taken off;
then round the car from its front left corner, back along its left-hand side, across the tail
and forward on the right. What the book does not place comes last, in the book's order.
"""

from dataclasses import replace
from itertools import count
from math import atan2, pi

from witnessmark.examination.looks import minutes_together
from witnessmark.plan.records import Reach, SitePlan

POSTURES = ("standing", "over the wing", "seated", "kneeling", "lying", "at a bench")
"""Easiest first; a posture that a book lacks lies between."""


def posture_rank(posture: str) -> int:
    """How much trouble it is: 0 for standing."""
    return POSTURES.index(posture) if posture in POSTURES else len(POSTURES)


def round_the_car(along: int | None, across: int | None) -> float:
    """How far round the car a place lies, 0 to 1 from the front left corner by the left side.

    `along` in per cent from the front, `across` from the car's own left; 2 where either is
    not known.
    """
    if along is None or across is None:
        return 2.0
    x, y = across - 50, along - 50  # the car seen from above, its front up
    angle = atan2(-y, x)  # anticlockwise from the right-hand side
    start = atan2(50, -50)
    return ((angle - start) / (2 * pi)) % 1.0


def reaches_of(sites: tuple[SitePlan, ...]) -> tuple[Reach, ...]:
    """The sites in walking order, numbered from 1, those of one access together."""
    together: dict[str, list[SitePlan]] = {}
    for site in sites:
        together.setdefault(site.row.access_group, []).append(site)
    groups = sorted(together.values(), key=_trouble)
    numbers = count(1)
    found = []
    for group in groups:
        ordered = sorted(group, key=_within)
        numbered = tuple(replace(site, number=next(numbers)) for site in ordered)
        access = max(site.row.access_minutes for site in numbered)
        found.append(Reach(numbered[0].row.access_group, access, minutes_of(numbered), numbered))
    return tuple(found)


def _trouble(group: list[SitePlan]) -> tuple[int, int]:
    """Of one access: the time it takes, and the easiest posture in it."""
    return (
        max(site.row.access_minutes for site in group),
        min(posture_rank(site.row.posture) for site in group),
    )


def _within(site: SitePlan) -> tuple[int, bool, float]:
    rank = posture_rank(site.row.posture)
    return rank, bool(site.dismantling), round_the_car(site.row.along, site.row.across)


def minutes_of(sites: tuple[SitePlan, ...]) -> int:
    """Minutes for these places, a shared access counted once."""
    rows = [site.row for site in sites]
    return minutes_together((r.id, r.minutes, r.access_group, r.access_minutes) for r in rows)
