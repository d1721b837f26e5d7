"""Panels of the structure's own assembly: sold in service, replaced, welded or bolted on.

They are replaced, and come over to another structure, as a set as often as one by one: that set
is a variable of the car (`axes.PANELS`), so that six labels are not six independent witnesses.
"""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from witnessmark.codebook.pieces import PieceKind
from witnessmark.weighing.evidence.noted import PieceSeen
from witnessmark.weighing.pieces.axes import (
    IDENTITY,
    PANELS,
    Structure,
    along,
    by_structure,
    odds_times,
    only,
)
from witnessmark.weighing.pieces.core_hands import MADE, TO_PASS
from witnessmark.weighing.pieces.scene import ALONE, BLANK, OTHER, OWN, STRUCK, Scene
from witnessmark.weighing.pieces.terms import Term, product

Array = NDArray[np.float64]

S = Structure


def panel_terms(scene: Scene, panel: PieceSeen) -> list[Term]:
    """A panel is the claimed car's, the other car's, new, or some third car's."""
    found = []
    later = odds_times(scene.rates["panel.struck"], along(IDENTITY, 1.0, scene.rates["pass.odds"]))
    for share, origin, record in _origins(scene):
        fit = scene.like_code() if record == OTHER else None
        acts: tuple[tuple[Array, str, str, str], ...] = ((share, MADE, record, "made"),)
        if origin != "first":
            # A label is printed again, or the number struck, for what was put on later.
            acts = (
                (share * (1.0 - later), MADE, record, "made"),
                (share * later, TO_PASS, STRUCK, "struck"),
            )
        for prior, hand, shows, look in acts:
            slip = "slip.later" if shows == STRUCK else "slip.works"
            for each in product(
                scene.shown(s, PieceKind.PANEL, shows, scene.look(s, look), slip=slip, fit=fit)
                for s in panel.surfaces
            ):
                term = Term(
                    prior=prior,
                    weight=each.weight,
                    groups=each.groups,
                    vectors=each.vectors,
                    origin=origin,
                    hand=hand,
                )
                found.append(term)
    return found


def _origins(scene: Scene) -> Iterator[tuple[Array, str, str]]:
    """P(each origin | the car), and whose record it then shows."""
    rates = scene.rates
    single, in_set, service = rates["panel.single"], rates["panel.in.set"], rates["panel.service"]
    replaced = along(PANELS, single, single, in_set)
    link = scene.has_other_car() * by_structure(
        rates["link.first"], rates["link.reshell"], rates["link.taken"], rates["link.first"]
    )
    at_home, bare_shell = only([S.FIRST, S.JOINED]), only([S.NEW, S.NEW_STRUCK])
    moved = only([S.RESHELL, S.RESHELL_CHANGED]) + bare_shell
    own = (
        at_home
        + along(PANELS, 0.0, 1.0, 0.0) * (1.0 - at_home)
        + along(PANELS, 0.0, 0.0, 1.0) * moved
    )
    bare = bare_shell * along(PANELS, 1.0, 0.0, 0.0)
    others, donor = 1.0 - own - bare, replaced * (1.0 - service)
    yield (1.0 - replaced) * own, "first", OWN
    yield (1.0 - replaced) * others + donor * link, "other car", OTHER
    yield donor * (1.0 - link), "donor", ALONE
    yield (1.0 - replaced) * bare + replaced * service, "service", BLANK
