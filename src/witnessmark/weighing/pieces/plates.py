"""Plates and papers of the whole car: first, made later, the other car's or some third one's."""

from collections.abc import Iterable
from dataclasses import replace

import numpy as np

from witnessmark.agreement.records import CarMarks
from witnessmark.codebook.pieces import PieceKind
from witnessmark.weighing.arrays import Array
from witnessmark.weighing.evidence import days, lags
from witnessmark.weighing.evidence.days import DatedLink
from witnessmark.weighing.evidence.noted import DateSeen, PieceSeen, SurfaceSeen
from witnessmark.weighing.pieces.axes import (
    DRESS,
    IDENTITY,
    ONE,
    RESTORED,
    Structure,
    along,
    by_structure,
    odds_times,
    only,
)
from witnessmark.weighing.pieces.core_days import events
from witnessmark.weighing.pieces.noted_car import Noted, PlateOrPaper
from witnessmark.weighing.pieces.origins import Look, Origin, Shows
from witnessmark.weighing.pieces.scene import Scene
from witnessmark.weighing.pieces.terms import DayTie, HowNoted, SurfaceWay, Term

S = Structure
IN_PAPER_PASS = 3.0
"""Times the odds that a paper was made later, where somebody set out to pass the car off."""


def sheet_of(car: CarMarks, seen: Iterable[PieceSeen], piece: PieceSeen) -> PlateOrPaper:
    """A plate or paper as it is weighed, among all pieces of the car."""
    homes = {item.id: item.home for item in car.book.items}
    own = tuple(d for d in piece.dates if not homes[d.item])
    named = tuple(d for d in piece.dates if homes[d.item])
    plates = (p for p in seen if p.piece.kind is PieceKind.PLATE and p.main.bears_identity)
    fewest = min(map(_fields, plates), default=0)
    is_data = not piece.main.bears_identity or _fields(piece) > fewest
    return PlateOrPaper(piece, events(car, own), named, is_data)


def _fields(piece: PieceSeen) -> int:
    return sum(len(mark.fields) for mark in piece.main.marks)


def origins(scene: Scene, sheet: PlateOrPaper) -> dict[Origin, Array]:
    """P(each origin | the car)."""
    rates = scene.rates
    dressed = along(DRESS, 1.0, rates["dress.odds"])
    restored = along(RESTORED, 1.0, rates["tag.restored"])
    other_whole, changed = only([S.OTHER]), only([S.OTHER_CHANGED])
    if sheet.is_paper:
        later = odds_times(rates["paper.later"], dressed * along(IDENTITY, 1.0, IN_PAPER_PASS))
        # Who reads the claim off the car that stands here has no paper of it to go by.
        own = rates["paper.y0"] * scene.by_other_car(1.0, 1.0, 1.0, 0.0)
        # A parts car is bought whole, papers and all.
        own = own * (other_whole + (1.0 - other_whole) / 3.0) * scene.has_other_car()
        here = own + 0.01
        donor = rates["paper.other"]
    elif sheet.is_number_plate:
        row, other = rates["plate.later"], rates["plate.later.other"]
        later = by_structure(row, other, other, other)
        if sheet.is_data_plate:
            # On a door it comes over whole: on another structure it need not be made anew.
            later = odds_times(rates["tag.later"], along(IDENTITY, 1.0, 2.0) * restored)
        here = only([S.RESHELL, S.OTHER, S.JOINED]) * rates["plate.y0.own"] + 0.002
        donor = rates["plate.donor"]
    else:
        later = along(DRESS, rates["tag.later"], rates["tag.later.dressed"])
        later = odds_times(later, along(IDENTITY, 1.0, 2.0) * restored)
        # Where the claim was read off the car that stands here, it bears what was read.
        own = scene.by_other_car(*(rates["tag.y0.own"],) * 3, rates["suit.code"])
        here = other_whole * own + changed * rates["tag.y0.changed"] + 0.003
        donor = rates["plate.donor"]
    first = np.maximum(1.0 - later - here - donor, 0.02)
    # In some draws the other origins alone would be more than all.
    whole = first + later + here + donor
    shares = {Origin.FIRST: first, Origin.LATER: later, Origin.OTHER_CAR: here, Origin.DONOR: donor}
    return {origin: share / whole for origin, share in shares.items()}


def sheet_terms(scene: Scene, sheet: PlateOrPaper) -> list[Term]:
    """The terms of a plate or paper."""
    found: list[Term] = []
    for origin, share in origins(scene, sheet).items():
        if sheet.piece.is_silent:
            found.append(Term(prior=share, weight=ONE, origin=origin))
        elif sheet.piece.main.is_gone:
            kind = "plate" if sheet.is_number_plate and not sheet.is_data_plate else "tag"
            first, other = scene.rates[f"{kind}.gone"], scene.rates[f"{kind}.gone.other"]
            found.append(
                Term(prior=share, weight=by_structure(first, other, other, other), origin=origin)
            )
        else:
            found += _noted(scene, sheet, origin, share)
    return found


def _noted(scene: Scene, sheet: PlateOrPaper, origin: Origin, share: Array) -> list[Term]:
    surface = sheet.piece.main
    found = []
    for each, tied in _shown(scene, sheet, surface, origin):
        tie = tied if sheet.named and tied is not DayTie.LIKE else DayTie.NONE
        made = Term(
            prior=share,
            weight=each.weight,
            groups=each.groups,
            vectors=each.vectors,
            origin=origin,
            tie=tie,
        )
        found += _dated(scene, sheet, made, each.how, tied is DayTie.LIKE)
    return found


def _shown(
    scene: Scene, sheet: PlateOrPaper, surface: SurfaceSeen, origin: Origin
) -> list[tuple[SurfaceWay, DayTie]]:
    """What it shows, and what the days that it names of cores are to these."""
    kind = sheet.piece.piece.kind
    look = _look(scene, sheet, surface, origin)
    if origin is Origin.FIRST:
        ways = scene.shown(surface, kind, Shows.OWN, look)
        return [
            (each, DayTie.GENUINE if each.how is HowNoted.STANDS else DayTie.NONE) for each in ways
        ]
    if origin is Origin.OTHER_CAR:
        return [
            (w, DayTie.NONE)
            for w in scene.shown(surface, kind, Shows.OTHER, look, fit=scene.like_code())
        ]
    if origin is Origin.DONOR:
        # A sheet in the wrong seat or file is of a like car as often as any other car is.
        like, rates = scene.rates["like"], scene.rates
        fits = ((like, rates["like.code"]), (1.0 - like, rates["any.code"]))
        return [
            (replace(each, weight=share * each.weight), stray)
            for (share, fit), stray in zip(fits, (DayTie.LIKE, DayTie.NONE), strict=True)
            for each in scene.shown(surface, kind, Shows.ALONE, look, fit=fit)
        ]
    # Who dresses a car up has the claimed codes put on it, and not those of what was there.
    copies = odds_times(
        scene.rates["later.copies"], along(DRESS, 1.0, 1.0 / scene.rates["dress.odds"])
    )
    knows, rest = scene.rates["later.knows"], 1.0 - copies
    # A data plate is ordered to the old one's numbers, a paper is written with the car at hand:
    # what the claim leaves open is copied off the parts.
    found = []
    for share, record, codes, tie in (
        (copies, Shows.COPY, None, DayTie.COPIED),
        (rest * knows, Shows.COPY, Shows.STRUCK, DayTie.COPIED),
        (rest * (1.0 - knows), Shows.STRUCK, None, DayTie.NONE),
    ):
        for each in scene.shown(surface, kind, record, look, "slip.later", codes_as=codes):
            tied = tie if each.how is HowNoted.STANDS else DayTie.NONE
            found.append((replace(each, weight=share * each.weight), tied))
    return found


def _look(scene: Scene, sheet: PlateOrPaper, surface: SurfaceSeen, origin: Origin) -> Array:
    """How it looks: refitted plates look moved, so do those of another structure."""
    if sheet.is_paper or surface.look is None:
        return ONE
    made, moved = scene.look(surface, Look.MADE), scene.look(surface, Look.MOVED)
    if origin is Origin.LATER:
        return scene.look(surface, Look.STRUCK)
    if origin is Origin.DONOR:
        return moved
    off = scene.rates["refitted.tag" if sheet.is_data_plate else "refitted.plate"]
    refitted = odds_times(off, along(RESTORED, 1.0, scene.rates["refitted.restored"]))
    if sheet.is_label:
        refitted = 0.0 * refitted
    stayed = (1.0 - refitted) * made + refitted * moved
    # The claimed car's plates came with it only where its structure did.
    at_home = only([S.FIRST, S.JOINED] if origin is Origin.FIRST else [S.OTHER, S.OTHER_CHANGED])
    if origin is Origin.OTHER_CAR:
        at_home = at_home + only([S.RESHELL, S.RESHELL_CHANGED])
    if sheet.is_data_plate:
        # A door or another panel comes over whole, with the plate that is riveted to it.
        whole = scene.rates["tag.panel"]
        moved = whole * made + (1.0 - whole) * moved
    return at_home * stayed + (1.0 - at_home) * moved


def _dated(
    scene: Scene, sheet: PlateOrPaper, term: Term, how: HowNoted, is_like: bool
) -> list[Term]:
    """The term with the events of the car, and the days it names, as curves; a stray sheet of a
    like car has days of such cars."""
    grid = scene.known.grid
    named = float(np.prod([named_share(scene.known, each) for each in sheet.named] or [1.0]))
    loose = float(np.prod([days.flat(each) for each in sheet.named] or [1.0]))
    knows = how is not HowNoted.IRRELEVANT and term.origin in (Origin.FIRST, Origin.LATER)
    term = replace(term, weight=term.weight * (named if knows else loose))
    if not sheet.events:
        return [term]
    curve = days.curve(grid, sheet.events)
    flat = float(np.prod([days.flat(each.seen) for each in sheet.events]))
    if is_like and how is not HowNoted.IRRELEVANT:
        return [replace(term, weight=term.weight * grid.mean(curve, grid.like))]
    if how is HowNoted.IRRELEVANT or term.origin is Origin.DONOR:
        return [replace(term, weight=term.weight * flat)]
    if term.origin is Origin.OTHER_CAR:
        return [replace(term, other_days=curve[grid.other])]
    if term.origin is Origin.FIRST:
        return [replace(term, own_days=curve[grid.own])]
    suited = scene.rates["suit.date"]
    year = grid.mean(curve, grid.like)
    return [
        replace(term, weight=term.weight * suited, own_days=curve[grid.own]),
        replace(term, weight=term.weight * (1.0 - suited) * year),
    ]


def named_share(known: Noted, seen: DateSeen) -> float:
    """P(the day that a paper names of a core | it is the claimed car's), over p(t)."""
    link = lags.link_to_car(known.car.book, known.car.context, seen.item, False)
    assert link is not None
    curve = days.curve(known.grid, (DatedLink(seen, link),))
    return float(curve[known.grid.own] @ known.grid.prior)
