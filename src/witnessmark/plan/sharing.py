"""What is kept back of a plan that leaves the examiner's hands (decisions/0020)."""

import re

from witnessmark.plan.records import SitePlan

SHORT_ACCESS_MINUTES = 5
"""Opening a door or a bonnet takes no longer; lifting the car and taking out a seat do."""
BESIDE_THE_CAR = ("standing", "over the wing", "kneeling")
DANGER = re.compile(r"\b(under a car|stands|jack|chock\w*|sharp)\b", re.I)
"""Words of a caution that speak of more than a picture taken beside the car."""

TELLING = re.compile(
    r"\b(upright|upside|sideways|facing|read|level|spac\w*|close|wide|raised|struck|punch\w*|stamp"
    r"\w*|cast|engrav\w*|written|pencil|chalk\w*|weld\w*|rivet\w*|screw\w*|bolt\w*|numbers?|codes?"
    r"|characters?|letters?|figures?|rows?|dab|tag|deck\w*|said|sources?|published|car|cars)\b",
    re.I,
)
"""Words by which a book tells what stands at a place, rather than where the place is."""


def is_for_a_seller(site: SitePlan) -> bool:
    """Can somebody who is no mechanic see it from beside the car, a bonnet or door open at most?

    Where the book does not say how one must be, its caution and the time for access decide.
    """
    if site.dismantling or site.access_minutes > SHORT_ACCESS_MINUTES:
        return False
    is_beside = not site.posture or site.posture in BESIDE_THE_CAR
    return is_beside and not DANGER.search(site.caution)


def place_alone(where: str) -> str:
    """Where a place is, without what the book says of the mark that stands there.

    >>> place_alone("on the flat behind the damper top, right-hand side, upright, wide spacing")
    'on the flat behind the damper top, right-hand side'
    """
    parts = [part.strip() for part in re.split(r"[,;]", where) if part.strip()]
    return ", ".join(part for at, part in enumerate(parts) if at == 0 or not TELLING.search(part))
