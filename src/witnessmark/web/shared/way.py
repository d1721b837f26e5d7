"""The way of a case: claim, plan, evidence, story, weight, report."""

from collections.abc import Mapping
from dataclasses import dataclass

from django.urls import reverse

STEPS = ("claim", "plan", "evidence", "story", "weight", "report")


@dataclass(frozen=True, slots=True)
class WayStep:
    """One page of the way: its name, its address, and how much is open there."""

    name: str
    address: str
    open: int


def way_of(case: str, left: Mapping[str, int]) -> tuple[WayStep, ...]:
    """All steps of this case, with what is left open on each."""
    return tuple(WayStep(each, reverse(each, args=[case]), left.get(each, 0)) for each in STEPS)
