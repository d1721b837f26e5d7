"""The structure: its marks under one act for each way in which it came to be here."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import product as every

import numpy as np
from numpy.typing import NDArray

from witnessmark.codebook.pieces import PieceKind
from witnessmark.weighing.evidence.noted import PieceSeen, SurfaceSeen
from witnessmark.weighing.pieces.axes import IDENTITY, ONE, Structure, along, odds_times, only
from witnessmark.weighing.pieces.scene import (
    ALONE,
    BLANK,
    GONE,
    OTHER,
    OWN,
    STRUCK,
    Scene,
    SurfaceWay,
)
from witnessmark.weighing.pieces.terms import Term, merged, product

Array = NDArray[np.float64]

S = Structure
KIND = PieceKind.STRUCTURE


def structure_terms(scene: Scene, piece: PieceSeen) -> list[Term]:
    """The terms of the structure over all its states."""
    surfaces = [surface for surface in piece.surfaces if not surface.is_silent]
    replaced = scene.said_replaced(piece.piece.id, piece.piece.assembly)
    told = {"first": replaced}
    return [
        Term(
            prior=prior,
            weight=each.weight * told.get(origin, ONE),
            groups=each.groups,
            vectors=each.vectors,
            origin=origin,
            hand=hand,
        )
        for prior, origin, hand, ways in _branches(scene, surfaces)
        for each in ways
    ]


type Branch = tuple[Array, str, str, tuple[SurfaceWay, ...]]


def _branches(scene: Scene, surfaces: list[SurfaceSeen]) -> Iterator[Branch]:
    """Each act with its prior given the state of the structure."""
    rates = scene.rates
    passed = along(IDENTITY, 1.0, rates["pass.odds"])
    struck = odds_times(rates["structure.struck"], passed)
    removed = odds_times(rates["structure.removed"], passed)
    first, changed = only([S.FIRST]), only([S.RESHELL_CHANGED, S.OTHER_CHANGED])
    made = first * (1.0 - struck - removed)
    mended = _mended(scene, surfaces)
    share = rates["structure.mended"] * len(mended)
    yield made * (1.0 - share), "first", "made", _all(scene, surfaces, OWN, "made")
    for ways in mended:
        yield made * share / len(mended), "first", "mended", ways
    yield first * struck, "first", "struck", _act(scene, surfaces, STRUCK, OWN)
    yield first * removed, "first", "removed", _act(scene, surfaces, GONE, OWN)
    left = only([S.RESHELL, S.OTHER])
    yield left, "other", "made", _all(scene, surfaces, OTHER, "made")
    taken, let_in = rates["structure.changed.removed"], rates["structure.changed.letin"]
    over = np.maximum(1.0 - taken - let_in, 0.02)
    # In some draws the other two alone would be more than all.
    changed = changed / (over + taken + let_in)
    yield changed * over, "other", "struck", _act(scene, surfaces, STRUCK, OTHER)
    yield changed * taken, "other", "removed", _act(scene, surfaces, GONE, OTHER)
    yield changed * let_in, "other", "let in", _let_in(scene, surfaces)
    yield only([S.NEW]), "service", "made", _all(scene, surfaces, BLANK, "made")
    yield only([S.NEW_STRUCK]), "service", "struck", _act(scene, surfaces, STRUCK, BLANK)
    yield only([S.JOINED]), "joined", "made", _joined(scene, surfaces)


def _shown(scene: Scene, surface: SurfaceSeen, record: str, look: str) -> tuple[SurfaceWay, ...]:
    slip = "slip.later" if record == STRUCK else "slip.works"
    fit = scene.like_code() if record == OTHER else None
    return scene.shown(surface, KIND, record, scene.look(surface, look), slip=slip, fit=fit)


def _all(
    scene: Scene, surfaces: list[SurfaceSeen], record: str, look: str
) -> tuple[SurfaceWay, ...]:
    return product(_shown(scene, surface, record, look) for surface in surfaces)


def _act(
    scene: Scene, surfaces: list[SurfaceSeen], act: str, record: str
) -> tuple[SurfaceWay, ...]:
    """Every mark under one act; each hidden one may have been missed, and one that does not
    bear the structure's number is left alone. One act is one hand's, crude or skilled."""
    if act == GONE:
        return _by_one_hand(scene, surfaces, act, record, "removed")
    skilled = scene.rates["skilled"]
    return merged(
        replace(each, weight=share * each.weight)
        for share, look in ((skilled, "skilled"), (1.0 - skilled, "crude"))
        for each in _by_one_hand(scene, surfaces, act, record, look)
    )


def _by_one_hand(
    scene: Scene, surfaces: list[SurfaceSeen], act: str, record: str, look: str
) -> tuple[SurfaceWay, ...]:
    missed = scene.rates["structure.missed"]
    return product(
        _shown(scene, surface, record, "made")
        if not _bears_number(scene, surface)
        else merged(
            SurfaceWay(share * each.weight, each.groups, each.vectors)
            for share, ways in (
                (1.0 - missed, _shown(scene, surface, act, look)),
                (missed, _shown(scene, surface, record, "made")),
            )
            for each in ways
        )
        for surface in surfaces
    )


def _bears_number(scene: Scene, surface: SurfaceSeen) -> bool:
    """Does it bear the identification number; where no place of the structure does, any number?"""
    if scene.traits.bears_number:
        return scene.bears_identity(surface)
    return bool(surface.numbers)


def _mended(scene: Scene, surfaces: list[SurfaceSeen]) -> list[tuple[SurfaceWay, ...]]:
    """One of several places that bear the number is on metal of another car, welded in when the
    structure was mended: of the parts car, where there is one that gave it, else of some car."""
    bearing = [each for each in surfaces if _bears_number(scene, each) and each.numbers]
    if len(bearing) < 2:
        return []
    link = scene.rates["link.first"] * scene.has_other_car()
    found = []
    for one in bearing:
        parts = (
            replace(each, weight=share * each.weight)
            for share, record in ((link, OTHER), (1.0 - link, ALONE))
            for each in _shown(scene, one, record, "joined")
        )
        rest = (_shown(scene, each, OWN, "joined") for each in surfaces if each is not one)
        found.append(product((merged(parts), *rest)))
    return found


def _let_in(scene: Scene, surfaces: list[SurfaceSeen]) -> tuple[SurfaceWay, ...]:
    """One surface is the claimed car's, let in; the others were left."""
    if not surfaces:
        return (SurfaceWay(ONE),)
    found = []
    for one in surfaces:
        ways = product(
            _shown(scene, each, OWN, "moved") if each is one else _shown(scene, each, OTHER, "made")
            for each in surfaces
        )
        found += [SurfaceWay(w.weight / len(surfaces), w.groups, w.vectors) for w in ways]
    return merged(found)


def _joined(scene: Scene, surfaces: list[SurfaceSeen]) -> tuple[SurfaceWay, ...]:
    """Some surfaces before or behind the seam are the claimed car's, the others another's."""
    sides = [side for side in every((OWN, OTHER), repeat=len(surfaces)) if len(set(side)) == 2] or [
        (OWN,) * len(surfaces),
        (OTHER,) * len(surfaces),
    ]
    found = []
    for side in sides:
        ways = product(
            _shown(scene, surface, record, "joined")
            for surface, record in zip(surfaces, side, strict=True)
        )
        found += [SurfaceWay(w.weight / len(sides), w.groups, w.vectors) for w in ways]
    return merged(found)
