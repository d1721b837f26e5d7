"""What is to be minded: once for all places of an access, and at each what it alone asks."""

import re

from witnessmark.plan.records import Reach, SitePlan, VisitPlan

_BETWEEN = re.compile(r"\s*;\s+|\.\s+(?=[A-Z])")


def _parts(caution: str) -> tuple[str, ...]:
    """Each thing to be minded.

    >>> _parts("Lead: gloves. Engine cold, keys out; no flame.")
    ('Lead: gloves', 'Engine cold, keys out', 'no flame')
    """
    return tuple(filter(None, _BETWEEN.split(caution.strip().removesuffix("."))))


def shared_care(reach: Reach) -> str:
    """What every place of an access asks for; empty where it serves one alone."""
    first, *others = (_parts(each.row.caution) for each in reach.sites)
    return "; ".join(e for e in first if all(e in each for each in others)) if others else ""


def own_care(site: SitePlan, shared: str) -> str:
    """What a place asks for beside what all have in common."""
    common = _parts(shared)
    return "; ".join(each for each in _parts(site.row.caution) if each not in common)


def reach_of(plan: VisitPlan, site: SitePlan) -> Reach | None:
    """The places that are reached as this one is; None for one that such a car has not."""
    own = site.row.id
    return next((r for r in plan.reaches if any(e.row.id == own for e in r.sites)), None)
