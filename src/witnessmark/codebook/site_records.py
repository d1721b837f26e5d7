"""Where to look on a car, what to look at, whom else to ask, and what is remarked."""

from dataclasses import dataclass
from typing import Any

from witnessmark.casefile.words import LookClass
from witnessmark.codebook.conditions import outcome_pairs
from witnessmark.codebook.records import CarRow
from witnessmark.codebook.sketches import Sketch, sketches
from witnessmark.documents.entries import Entry
from witnessmark.documents.row import (
    free_text,
    identifier,
    number,
    word,
)

MOST_MINUTES = 100_000
POSTURES = ("standing", "over the wing", "kneeling", "lying", "seated", "at a bench")
"""How one must be to see a site: a field sheet takes all of one posture together."""


@dataclass(frozen=True, slots=True)
class FeatureOutcome:
    """One outcome of a feature; `look` is what it counts as.

    `sketch` is what a field sheet draws beside it, None where it is not drawn.
    """

    id: str
    look: LookClass
    sketch: Sketch | None = None


class Feature(CarRow, called="features.csv"):
    """Things to look at on a site."""

    id: str = identifier("Its id.")
    site: str = identifier("The site.", of="site")
    prompt: str = free_text("What to look at, in words.")
    outcomes: tuple[FeatureOutcome, ...] = free_text("Outcomes, each with the look it counts as.")
    sketches = free_text("Outcomes, each with the sketch that shows it: all, or none.", default="")

    @staticmethod
    def settle(made: dict[str, Any], entry: Entry, ground: Any) -> None:
        """An outcome is written `as factory=factory` before a semicolon."""
        # A sketch or a look that there is not is reported elsewhere.
        drawn = dict(outcome_pairs(entry.text("sketches")))
        made["outcomes"] = tuple(
            FeatureOutcome(outcome, LookClass(look), sketches().get(drawn.get(outcome, "")))
            for outcome, look in outcome_pairs(entry.text("outcomes"))
            if look in tuple(LookClass)
        )


class Site(CarRow, called="sites.csv"):
    """Where the marks are on the car, and how to get at them.

    Several rows of one site id differ by works or years: a row is the place as this works
    put it. What the book does not say of the place on the car is None.
    """

    id: str = identifier("Its id.", names="site", once=False)
    name: str = free_text("Its name.")
    where: str = free_text("Where it is.")
    for_a_seller: str = free_text(
        "Where somebody who is not a mechanic should point a camera, without saying what "
        "is there; if empty, a seller is not asked for the place.",
        default="",
    )
    look_at: str = free_text("What to look at.", default="")
    piece: str = identifier(
        "The piece or assembly of which its features speak, where no mark stands there.",
        of="assembly or piece",
        default="",
    )
    dismantling: str = free_text("What must come off.", default="none")
    minutes: int = number("Minutes on the site.", 0, MOST_MINUTES)
    access_group: str = free_text(
        "The access it shares with other sites, such as being raised on a lift.", default=""
    )
    access_minutes: int = number("Minutes for that access.", 0, MOST_MINUTES, default=0)
    caution: str = free_text("What to beware of.", default="")
    posture: str = word("The posture needed to see it.", POSTURES, default="")
    along: int | None = number("Per cent of the length from the front.", 0, 100, default=None)
    across: int | None = number("Per cent of the width from the left.", 0, 100, default=None)
    up: int | None = number("Per cent of the height.", 0, 100, default=None)


class Settlement(CarRow, called="settlements.csv"):
    """Archives, laboratories and papers beyond the car that could settle a question."""

    id: str = identifier("Its id.")
    name: str = free_text("Its name.")
    speaks_of: str = identifier(
        "The mark, a paper or a stamping, that it could read.", of="mark or assembly"
    )
    how: str = free_text("How to ask, in words.")
    minutes: int = number("Minutes it takes.", 0, MOST_MINUTES)


class Remark(CarRow, called="remarks.csv"):
    """What is known besides codes."""

    id: str = identifier("Its id.")
    about: str = identifier(
        "A mark, item, assembly, piece, site, or book.", of="mark, item, assembly, piece or site"
    )
    sentence: str = free_text("What is known, in words.")
