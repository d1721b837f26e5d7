"""Whence a core came and what was done to its number, before anything was noted of it."""

import numpy as np
from numpy.typing import NDArray

from witnessmark.codebook.piece_records import SoldInService
from witnessmark.codebook.pieces import Piece, ServiceNumbers
from witnessmark.codebook.records import AssemblyKind
from witnessmark.weighing.pieces.axes import (
    DRESS,
    HUNTED,
    IDENTITY,
    ONE,
    Structure,
    along,
    by_structure,
    odds_times,
    only,
)
from witnessmark.weighing.pieces.scene import BLANK, FURTHER, OTHER, OWN, Scene

Array = NDArray[np.float64]

FIRST, SUITED, DONOR, OTHER_CARS, SERVICE = "first", "suited", "donor", "other car", "service"
MADE, OPENLY, TO_PASS, NUMBER_ALONE, REMOVED = (
    "made", "struck openly", "struck to pass", "number struck", "removed",
)  # fmt: skip
RECORD = {FIRST: OWN, SUITED: FURTHER, DONOR: FURTHER, OTHER_CARS: OTHER, SERVICE: BLANK}
UNDER_IT = (AssemblyKind.GEARBOX, AssemblyKind.AXLE)
"""Cores that are seldom struck to pass."""
STRUCK_HANDS = (OPENLY, TO_PASS, NUMBER_ALONE)


def origins(scene: Scene, piece: Piece, kind: AssemblyKind) -> dict[str, Array]:
    """P(each origin | the car)."""
    rates = scene.rates
    row = f"core.first.{kind.value}"
    first = by_structure(rates[row], rates[row], rates["core.first.taken"], rates[row])
    link = (
        by_structure(
            rates["link.first"], rates["link.reshell"], rates["link.taken"], rates["link.first"]
        )
        * scene.has_other_car()
    )
    rest, service = 1.0 - first, rates["core.service"]
    if piece.sold_in_service is SoldInService.NO:
        service = service * rates["service.unsold"]
    own = rest * (1.0 - service) * (1.0 - link)
    suit = along(HUNTED, rates["suit.plain"], rates["suit.hunted"])
    suit = odds_times(suit, along(DRESS, 1.0, rates["dress.suit"]))
    return {
        FIRST: first,
        SUITED: own * suit,
        DONOR: own * (1.0 - suit),
        OTHER_CARS: rest * (1.0 - service) * link,
        SERVICE: rest * service,
    }


def hands(scene: Scene, origin: str, piece: Piece, kind: AssemblyKind) -> dict[str, Array]:
    """P(each hand on the main surface | origin, the car)."""
    rates = scene.rates
    passed = along(IDENTITY, 1.0, rates["pass.odds"])
    dressed = along(DRESS, 1.0, rates["dress.odds"])
    openly, gone = rates[_openly(origin, piece)], rates["core.gone.donor"]
    if origin == SUITED:
        # Whoever hunts parts to pass strikes them too: one cause for both.
        struck = along(HUNTED, rates["core.struck.plain"], rates["core.struck.suited"])
    else:
        rows = {FIRST: "core.struck", SERVICE: "core.struck.service"}
        struck = rates[rows.get(origin, "core.struck.any")]
    struck = odds_times(struck, passed)
    if origin == FIRST:
        struck = odds_times(struck, dressed)
    if origin == FIRST:
        gone = rates["core.gone.first"]
    if origin == SERVICE:
        gone = 0.01 * ONE
        # A pad that was numbered when it was supplied invites nobody to strike it.
        struck = struck * (1.0 - openly)
    if origin == OTHER_CARS:
        changed = only([Structure.RESHELL_CHANGED, Structure.OTHER_CHANGED])
        struck = (1.0 - changed) * struck + changed * rates["core.struck.other"]
        gone = (1.0 - changed) * gone + changed * rates["core.gone.other"]
    if kind in UNDER_IT:
        # An engine is what buyers ask for; the number of a gearbox few go to see.
        struck = odds_times(struck, 1.0 / rates["core.struck.engine"])
    alike, unlike = all_of_it(scene, kind)
    claimed = claimed_type(scene, origin)
    together = claimed * alike + (1.0 - claimed) * unlike
    made = np.maximum(1.0 - openly - struck - gone, 0.02)
    # In some draws the other hands alone would be more than all.
    whole = made + openly + struck + gone
    return {
        MADE: made / whole,
        OPENLY: openly / whole,
        TO_PASS: struck * together / whole,
        NUMBER_ALONE: struck * (1.0 - together) / whole,
        REMOVED: gone / whole,
    }


def _openly(origin: str, piece: Piece) -> str:
    """The row of who strikes the claimed number openly: who numbered service pieces, else the
    few offices and restorers that number any."""
    if origin == FIRST:
        return "core.open.first"
    if origin != SERVICE or piece.service_numbers is ServiceNumbers.NEVER:
        return "core.open.donor"
    is_works = piece.service_numbers is ServiceNumbers.WORKS
    return "core.open.works" if is_works else "core.open.service"


def all_of_it(scene: Scene, kind: AssemblyKind) -> tuple[Array, Array]:
    """P(day and type struck with the number | the core has the claimed type, another one)."""
    if kind is not AssemblyKind.ENGINE:
        return (scene.rates["struck.all.other"],) * 2
    # On a pad that names another type, whoever strikes the number strikes the type too.
    return scene.rates["struck.all.engine"], scene.rates["struck.all.unlike"]


def claimed_type(scene: Scene, origin: str) -> Array:
    """P(a core of this origin has the claimed type), by its origin alone."""
    if origin == FIRST:
        return ONE
    fit = fit_of(scene, origin)
    return scene.rates["any.code"] if fit is None else fit


def fit_of(scene: Scene, origin: str) -> Array | None:
    """P(a code on a core of this origin is the claimed one); None where nothing says so."""
    if origin == SUITED:
        return scene.rates["suit.code"]
    return scene.like_code() if origin == OTHER_CARS else None
