"""The structure: its marks under one act for each way in which it came to be here; and the
panels of its own assembly: sold in service, replaced, welded or bolted on.

Panels are replaced, and come over to another structure, as a set as often as one by one: that
set is a variable of the car (`axes.PANELS`), so that six labels are not six independent
witnesses.
"""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import product as every

import numpy as np

from witnessmark.codebook.pieces import PieceKind
from witnessmark.weighing.arrays import Array
from witnessmark.weighing.evidence.noted import PieceSeen, SurfaceSeen
from witnessmark.weighing.pieces.axes import (
    IDENTITY,
    ONE,
    PANELS,
    Structure,
    along,
    odds_times,
    only,
)
from witnessmark.weighing.pieces.origins import Hand, Look, Origin, Shows
from witnessmark.weighing.pieces.scene import Scene
from witnessmark.weighing.pieces.terms import SurfaceWay, Term, merged, product, shared

S = Structure
KIND = PieceKind.STRUCTURE


def structure_terms(scene: Scene, piece: PieceSeen) -> list[Term]:
    """The terms of the structure over all its states."""
    surfaces = [surface for surface in piece.surfaces if not surface.is_silent]
    replaced = scene.said_replaced(piece.piece.id, piece.piece.assembly)
    told = {Origin.FIRST: replaced}
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


type Branch = tuple[Array, Origin, Hand, tuple[SurfaceWay, ...]]


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
    yield made * (1.0 - share), Origin.FIRST, Hand.MADE, _all(scene, surfaces, Shows.OWN, Look.MADE)
    for ways in mended:
        yield made * share / len(mended), Origin.FIRST, Hand.MENDED, ways
    yield first * struck, Origin.FIRST, Hand.STRUCK, _act(scene, surfaces, Shows.STRUCK, Shows.OWN)
    yield first * removed, Origin.FIRST, Hand.REMOVED, _act(scene, surfaces, Shows.GONE, Shows.OWN)
    left = only([S.RESHELL, S.OTHER])
    yield left, Origin.OTHER, Hand.MADE, _all(scene, surfaces, Shows.OTHER, Look.MADE)
    taken, let_in = rates["structure.changed.removed"], rates["structure.changed.letin"]
    over = np.maximum(1.0 - taken - let_in, 0.02)
    # In some draws the other two alone would be more than all.
    changed = changed / (over + taken + let_in)
    yield (
        changed * over,
        Origin.OTHER,
        Hand.STRUCK,
        _act(scene, surfaces, Shows.STRUCK, Shows.OTHER),
    )
    yield (
        changed * taken,
        Origin.OTHER,
        Hand.REMOVED,
        _act(scene, surfaces, Shows.GONE, Shows.OTHER),
    )
    yield changed * let_in, Origin.OTHER, Hand.LET_IN, _let_in(scene, surfaces)
    yield only([S.NEW]), Origin.SERVICE, Hand.MADE, _all(scene, surfaces, Shows.BLANK, Look.MADE)
    yield (
        only([S.NEW_STRUCK]),
        Origin.SERVICE,
        Hand.STRUCK,
        _act(scene, surfaces, Shows.STRUCK, Shows.BLANK),
    )
    yield only([S.JOINED]), Origin.JOINED, Hand.MADE, _joined(scene, surfaces)


def _shown(scene: Scene, surface: SurfaceSeen, record: Shows, look: Look) -> tuple[SurfaceWay, ...]:
    slip = "slip.later" if record is Shows.STRUCK else "slip.works"
    fit = scene.like_code() if record is Shows.OTHER else None
    return scene.shown(surface, KIND, record, scene.look(surface, look), slip=slip, fit=fit)


def _all(
    scene: Scene, surfaces: list[SurfaceSeen], record: Shows, look: Look
) -> tuple[SurfaceWay, ...]:
    return product(_shown(scene, surface, record, look) for surface in surfaces)


def _act(
    scene: Scene, surfaces: list[SurfaceSeen], act: Shows, record: Shows
) -> tuple[SurfaceWay, ...]:
    """Every mark under one act; each hidden one may have been missed, and one that does not
    bear the structure's number is left alone. One act is one hand's, crude or skilled."""
    if act is Shows.GONE:
        return _by_one_hand(scene, surfaces, act, record, Look.REMOVED)
    skilled = scene.rates["skilled"]
    return shared(
        (share, _by_one_hand(scene, surfaces, act, record, look))
        for share, look in ((skilled, Look.SKILLED), (1.0 - skilled, Look.CRUDE))
    )


def _by_one_hand(
    scene: Scene, surfaces: list[SurfaceSeen], act: Shows, record: Shows, look: Look
) -> tuple[SurfaceWay, ...]:
    missed = scene.rates["structure.missed"]
    found = []
    for surface in surfaces:
        left = _shown(scene, surface, record, Look.MADE)
        if _bears_number(scene, surface):
            done = _shown(scene, surface, act, look)
            left = shared(((1.0 - missed, done), (missed, left)))
        found.append(left)
    return product(found)


def _bears_number(scene: Scene, surface: SurfaceSeen) -> bool:
    """Does it bear the identification number; where no place of the structure does, any number?"""
    if scene.known.traits.bears_number:
        return surface.bears_identity
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
        records = ((link, Shows.OTHER), (1.0 - link, Shows.ALONE))
        own = shared((share, _shown(scene, one, each, Look.JOINED)) for share, each in records)
        rest = (_shown(scene, each, Shows.OWN, Look.JOINED) for each in surfaces if each is not one)
        found.append(product((own, *rest)))
    return found


def _let_in(scene: Scene, surfaces: list[SurfaceSeen]) -> tuple[SurfaceWay, ...]:
    """One surface is the claimed car's, let in; the others were left."""
    if not surfaces:
        return (SurfaceWay(ONE),)
    ways = (
        product(
            _shown(scene, each, Shows.OWN, Look.MOVED)
            if each is one
            else _shown(scene, each, Shows.OTHER, Look.MADE)
            for each in surfaces
        )
        for one in surfaces
    )
    return _alike(ways, len(surfaces))


def _alike(acts: Iterable[tuple[SurfaceWay, ...]], count: int) -> tuple[SurfaceWay, ...]:
    """The ways of so many acts, of which each is as likely."""
    return merged(replace(each, weight=each.weight / count) for ways in acts for each in ways)


def _joined(scene: Scene, surfaces: list[SurfaceSeen]) -> tuple[SurfaceWay, ...]:
    """Some surfaces before or behind the seam are the claimed car's, the others another's."""
    sides = [
        side
        for side in every((Shows.OWN, Shows.OTHER), repeat=len(surfaces))
        if len(set(side)) == 2
    ] or [
        (Shows.OWN,) * len(surfaces),
        (Shows.OTHER,) * len(surfaces),
    ]
    ways = (
        product(
            _shown(scene, surface, record, Look.JOINED)
            for surface, record in zip(surfaces, side, strict=True)
        )
        for side in sides
    )
    return _alike(ways, len(sides))


def panel_terms(scene: Scene, panel: PieceSeen) -> list[Term]:
    """A panel is the claimed car's, the other car's, new, or some third car's."""
    found = []
    later = odds_times(scene.rates["panel.struck"], along(IDENTITY, 1.0, scene.rates["pass.odds"]))
    for share, origin, record in _origins(scene):
        fit = scene.like_code() if record is Shows.OTHER else None
        acts: tuple[tuple[Array, Hand, Shows, Look], ...] = ((share, Hand.MADE, record, Look.MADE),)
        if origin is not Origin.FIRST:
            # A label is printed again, or the number struck, for what was put on later.
            acts = (
                (share * (1.0 - later), Hand.MADE, record, Look.MADE),
                (share * later, Hand.TO_PASS, Shows.STRUCK, Look.STRUCK),
            )
        for prior, hand, shows, look in acts:
            slip = "slip.later" if shows is Shows.STRUCK else "slip.works"
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


def _origins(scene: Scene) -> Iterator[tuple[Array, Origin, Shows]]:
    """P(each origin | the car), and whose record it then shows."""
    rates = scene.rates
    single, in_set, service = rates["panel.single"], rates["panel.in.set"], rates["panel.service"]
    replaced = along(PANELS, single, single, in_set)
    link = scene.link()
    at_home, bare_shell = only([S.FIRST, S.JOINED]), only([S.NEW, S.NEW_STRUCK])
    moved = only([S.RESHELL, S.RESHELL_CHANGED]) + bare_shell
    own = (
        at_home
        + along(PANELS, 0.0, 1.0, 0.0) * (1.0 - at_home)
        + along(PANELS, 0.0, 0.0, 1.0) * moved
    )
    bare = bare_shell * along(PANELS, 1.0, 0.0, 0.0)
    others, donor = 1.0 - own - bare, replaced * (1.0 - service)
    yield (1.0 - replaced) * own, Origin.FIRST, Shows.OWN
    yield (1.0 - replaced) * others + donor * link, Origin.OTHER_CAR, Shows.OTHER
    yield donor * (1.0 - link), Origin.DONOR, Shows.ALONE
    yield (1.0 - replaced) * bare + replaced * service, Origin.SERVICE, Shows.BLANK
