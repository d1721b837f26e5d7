"""Whence a core came and what was done to its number, before anything was noted of it."""

import numpy as np

from witnessmark.codebook.piece_records import SoldInService
from witnessmark.codebook.pieces import Piece, ServiceNumbers
from witnessmark.codebook.records import AssemblyKind
from witnessmark.weighing.arrays import Array
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
from witnessmark.weighing.pieces.origins import Hand, Origin, Shows
from witnessmark.weighing.pieces.scene import Scene

RECORD = {
    Origin.FIRST: Shows.OWN,
    Origin.SUITED: Shows.FURTHER,
    Origin.DONOR: Shows.FURTHER,
    Origin.OTHER_CAR: Shows.OTHER,
    Origin.SERVICE: Shows.BLANK,
}
UNDER_IT = (AssemblyKind.GEARBOX, AssemblyKind.AXLE)
"""Cores that are seldom struck to pass."""
STRUCK_HANDS = (Hand.OPENLY, Hand.TO_PASS, Hand.NUMBER_ALONE)


def origins(scene: Scene, piece: Piece, kind: AssemblyKind) -> dict[Origin, Array]:
    """P(each origin | the car)."""
    rates = scene.rates
    row = f"core.first.{kind.value}"
    first = by_structure(rates[row], rates[row], rates["core.first.taken"], rates[row])
    link, rest, service = scene.link(), 1.0 - first, rates["core.service"]
    if piece.sold_in_service is SoldInService.NO:
        service = service * rates["service.unsold"]
    own = rest * (1.0 - service) * (1.0 - link)
    suit = along(HUNTED, rates["suit.plain"], rates["suit.hunted"])
    suit = odds_times(suit, along(DRESS, 1.0, rates["dress.suit"]))
    return {
        Origin.FIRST: first,
        Origin.SUITED: own * suit,
        Origin.DONOR: own * (1.0 - suit),
        Origin.OTHER_CAR: rest * (1.0 - service) * link,
        Origin.SERVICE: rest * service,
    }


def hands(scene: Scene, origin: Origin, piece: Piece, kind: AssemblyKind) -> dict[Hand, Array]:
    """P(each hand on the main surface | origin, the car)."""
    rates = scene.rates
    passed = along(IDENTITY, 1.0, rates["pass.odds"])
    dressed = along(DRESS, 1.0, rates["dress.odds"])
    openly, gone = rates[_openly(origin, piece)], rates["core.gone.donor"]
    if origin is Origin.SUITED:
        # Whoever hunts parts to pass strikes them too: one cause for both.
        struck = along(HUNTED, rates["core.struck.plain"], rates["core.struck.suited"])
    else:
        rows = {Origin.FIRST: "core.struck", Origin.SERVICE: "core.struck.service"}
        struck = rates[rows.get(origin, "core.struck.any")]
    struck = odds_times(struck, passed)
    if origin is Origin.FIRST:
        struck = odds_times(struck, dressed)
        gone = rates["core.gone.first"]
    if origin is Origin.SERVICE:
        gone = 0.01 * ONE
        # A pad that was numbered when it was supplied invites nobody to strike it.
        struck = struck * (1.0 - openly)
    if origin is Origin.OTHER_CAR:
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
        Hand.MADE: made / whole,
        Hand.OPENLY: openly / whole,
        Hand.TO_PASS: struck * together / whole,
        Hand.NUMBER_ALONE: struck * (1.0 - together) / whole,
        Hand.REMOVED: gone / whole,
    }


def _openly(origin: Origin, piece: Piece) -> str:
    """The row of who strikes the claimed number openly: who numbered service pieces, else the
    few offices and restorers that number any."""
    if origin is Origin.FIRST:
        return "core.open.first"
    if origin is not Origin.SERVICE or piece.service_numbers is ServiceNumbers.NEVER:
        return "core.open.donor"
    is_works = piece.service_numbers is ServiceNumbers.WORKS
    return "core.open.works" if is_works else "core.open.service"


def all_of_it(scene: Scene, kind: AssemblyKind) -> tuple[Array, Array]:
    """P(day and type struck with the number | the core has the claimed type, another one)."""
    if kind is not AssemblyKind.ENGINE:
        return (scene.rates["struck.all.other"],) * 2
    # On a pad that names another type, whoever strikes the number strikes the type too.
    return scene.rates["struck.all.engine"], scene.rates["struck.all.unlike"]


def claimed_type(scene: Scene, origin: Origin) -> Array:
    """P(a core of this origin has the claimed type), by its origin alone."""
    if origin is Origin.FIRST:
        return ONE
    fit = fit_of(scene, origin)
    return scene.rates["any.code"] if fit is None else fit


def fit_of(scene: Scene, origin: Origin) -> Array | None:
    """P(a code on a core of this origin is the claimed one); None where nothing says so."""
    if origin is Origin.SUITED:
        return scene.rates["suit.code"]
    return scene.like_code() if origin is Origin.OTHER_CAR else None
