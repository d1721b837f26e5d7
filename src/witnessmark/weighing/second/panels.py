"""Panels of the structure's own assembly: sold in service, replaced, welded or bolted on."""

from dataclasses import replace

from witnessmark.codebook.pieces import PieceKind
from witnessmark.weighing.second.axes import STRUCTURE, along, by_structure
from witnessmark.weighing.second.evidence import PieceSeen
from witnessmark.weighing.second.scene import ALONE, BLANK, OTHER, OWN, Scene
from witnessmark.weighing.second.terms import Term, product


def panel_terms(scene: Scene, panel: PieceSeen) -> list[Term]:
    """A panel came with the structure, from the other car, new, or from some third car."""
    rates = scene.rates
    with_it = rates["panel.first"]
    link = by_structure(
        rates["link.first"], rates["link.reshell"], rates["link.taken"], rates["link.first"]
    )
    # A shell is bought bare: the claimed car's own doors and wings come over with its parts.
    moved = rates["panel.reshell"]
    own = along(STRUCTURE, 1.0, moved, moved, 0.03, 0.03, 1.0, 1.0, 1.0)
    new = (1.0 - with_it) * rates["panel.service"]
    donor = (1.0 - with_it) * (1.0 - rates["panel.service"])
    from_other = donor * link * scene.has_other_car() + with_it * (1.0 - own)
    shares = (
        (with_it * own, "first", OWN),
        (from_other, "other car", OTHER),
        (donor * (1.0 - link * scene.has_other_car()), "donor", ALONE),
        (new, "service", BLANK),
    )
    found = []
    for share, origin, record in shares:
        fit = scene.like_code() if record == OTHER else None
        for each in product(
            scene.shown(s, PieceKind.PANEL, record, scene.look(s, "made"), fit=fit)
            for s in panel.surfaces
        ):
            found.append(Term(share, each.weight, each.groups, each.vectors, origin=origin))
    return [replace(term, hand="made") for term in found]
