"""What is kept back of a plan that leaves the examiner's hands (decisions/0020)."""

import re

from witnessmark.casefile.records import Casefile
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.records import ItemKind
from witnessmark.plan.marks import DOT
from witnessmark.plan.records import SitePlan

SHORTEST_TOLD = 3
"""A run of this many characters of a number tells something of it; two do not."""

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


def masked_id(casefile: Casefile, book: CodeBook) -> str:
    """The case's short name with every run of a claimed number, or of the title's, as dots."""
    numbers = [casefile.title_paper.number]
    for name, value in casefile.claim.items.items():
        item = book.item(name)
        if item is None or item.kind is ItemKind.NUMBER:
            numbers.append(value)
    return masked(casefile.id, tuple(numbers))


def masked(text: str, numbers: tuple[str, ...]) -> str:
    """The text with each run of three or more characters of a number as dots.

    >>> masked("sprint-700143-a", ("700143",))
    'sprint-······-a'
    """
    hidden = [False] * len(text)
    plain = text.casefold()
    for number in numbers:
        whole = "".join(number.split()).casefold()
        for at in range(len(whole) - SHORTEST_TOLD + 1):
            run = whole[at : at + SHORTEST_TOLD]
            for start in range(len(plain) - SHORTEST_TOLD + 1):
                if plain.startswith(run, start):
                    hidden[start : start + SHORTEST_TOLD] = [True] * SHORTEST_TOLD
    return "".join(DOT if hide else c for c, hide in zip(text, hidden, strict=True))


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
