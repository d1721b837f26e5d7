"""The core of an assembly: where it came from, what was done to its number, and how that was noted.

Origin: first; a donor with a car of its own, suited or not; the other car's; a service piece.
Hand on its main surface, the one that bears its number: as made; struck openly; struck to pass,
with day and type or the number alone; taken off. Other surfaces that bear it under the same hand,
but for places that it missed. Fitted pieces and
panels came with the core, or were kept from the first one, or came from anywhere.
"""

from collections.abc import Iterable, Iterator
from dataclasses import replace

import numpy as np

from witnessmark.codebook.pieces import PieceKind, ServiceNumbers
from witnessmark.weighing.arrays import Array
from witnessmark.weighing.evidence.days import Grid
from witnessmark.weighing.evidence.noted import READ, PieceSeen, SurfaceSeen
from witnessmark.weighing.pieces.axes import ONE
from witnessmark.weighing.pieces.core_days import CoreDays, fitted_shares
from witnessmark.weighing.pieces.core_hands import (
    RECORD,
    all_of_it,
    claimed_type,
    fit_of,
    hands,
    origins,
)
from witnessmark.weighing.pieces.noted_car import Core
from witnessmark.weighing.pieces.origins import Hand, Look, Origin, Shows
from witnessmark.weighing.pieces.scene import Scene
from witnessmark.weighing.pieces.terms import (
    DayTie,
    HowNoted,
    SurfaceWay,
    Term,
    joined,
    merged,
    product,
    shared,
    times,
)

TINY = 1e-12
SUPPLIED = (Origin.SERVICE, Hand.OPENLY)
"""How the works themselves number a piece again."""
BY_SERIES = 0.9
"""Chosen cores whose own number lies in the series of such cars."""
IN_STOCK, LATER = 0.4, 0.6
"""Service pieces from the year's own stock, and made up to three years after."""


def core_terms(scene: Scene, core: Core) -> list[Term]:
    """The terms of a core; of one of which nothing was noted, its origins alone."""
    found = []
    replaced = scene.said_replaced(core.piece.piece.id, core.piece.piece.assembly)
    for origin, share in origins(scene, core.piece.piece, core.assembly.kind).items():
        told = replaced if origin is Origin.FIRST else ONE
        if core.is_silent:
            found.append(Term(prior=share, weight=told, origin=origin))
            continue
        base, fitted = _beside(scene, core, origin, Hand.MADE), _fitted(scene, core, origin)
        for hand, part in _noted_hands(scene, core, origin).items():
            prior = share * part
            beside = (
                base if hand in (Hand.MADE, Hand.OPENLY) else _beside(scene, core, origin, hand)
            )
            series = (
                _in_series(scene, core) if (origin, hand) == (Origin.SUITED, Hand.MADE) else 1.0
            )
            for shown in _main(scene, core, origin, hand):
                for rest in beside:
                    term = Term(
                        prior=prior,
                        weight=shown.weight * rest.weight * series * told,
                        groups=joined(shown.groups, rest.groups),
                        vectors=times(shown.vectors, rest.vectors),
                        origin=origin,
                        hand=hand,
                    )
                    found += _dated(scene, core, term, on_core=fitted, hand=hand, how=shown.how)
    return found


def _noted_hands(scene: Scene, core: Core, origin: Origin) -> dict[Hand, Array]:
    """The hands that what was noted can tell apart."""
    found = hands(scene, origin, core.piece.piece, core.assembly.kind)
    main = core.piece.main
    if main.is_silent:
        return {Hand.MADE: ONE}
    if not (main.codes or core.days.has_struck):
        found[Hand.TO_PASS] = found[Hand.TO_PASS] + found.pop(Hand.NUMBER_ALONE)
    return found


def _beside(scene: Scene, core: Core, origin: Origin, hand: Hand) -> tuple[SurfaceWay, ...]:
    """Everything but the main surface: the other surfaces of the core, its panels. Whoever struck
    or took off the number did so wherever it stands, but for places that he missed."""
    record = RECORD[origin]
    fit = fit_of(scene, origin)
    ways = []
    for s in core.piece.surfaces[1:]:
        made = scene.shown(s, PieceKind.CORE, record, scene.look(s, Look.MADE), fit=fit)
        ways.append(_under_hand(scene, (s,), PieceKind.CORE, hand, made))
    for panel in core.panels:
        made = _panel(scene, panel, record, fit)
        ways.append(_under_hand(scene, panel.surfaces, PieceKind.PANEL, hand, made))
    return merged(replace(each, how=HowNoted.STANDS) for each in product(ways))


def _under_hand(
    scene: Scene,
    surfaces: tuple[SurfaceSeen, ...],
    kind: PieceKind,
    hand: Hand,
    made: tuple[SurfaceWay, ...],
) -> tuple[SurfaceWay, ...]:
    """A further place that bears a number, under the hand of the main one."""
    if hand in (Hand.MADE, Hand.OPENLY) or not any(surface.numbers for surface in surfaces):
        return made
    missed = scene.rates["structure.missed"]
    is_gone = hand is Hand.REMOVED
    act, look = (Shows.GONE, Look.REMOVED) if is_gone else (Shows.STRUCK, Look.STRUCK)
    done = product(scene.shown(s, kind, act, scene.look(s, look), "slip.later") for s in surfaces)
    return shared(((missed, made), (1.0 - missed, done)))


def _in_series(scene: Scene, core: Core) -> float:
    """How the core's own number lies in the series of such cars, over those of any: who chose the
    core to fit had the same book."""
    found = 1.0
    for number in core.piece.main.numbers:
        item = scene.known.car.book.item(number.item)
        if number.status is READ and item is not None and item.home == core.piece.piece.assembly:
            shown = scene.known.numbers[number.item]
            own = float(shown.own[1 << shown.slots[number]])
            found *= BY_SERIES * own + 1.0 - BY_SERIES
    return found


def _panel(
    scene: Scene, panel: PieceSeen, record: Shows, fit: Array | None
) -> tuple[SurfaceWay, ...]:
    """A panel of the core: with it, else a new one or some third car's."""
    first, service = scene.rates["panel.first"], scene.rates["panel.service"]
    ways = (
        (first, record, fit),
        ((1.0 - first) * service, Shows.BLANK, None),
        ((1.0 - first) * (1.0 - service), Shows.ALONE, None),
    )
    return shared(
        (share, _as_made(scene, panel.surfaces, PieceKind.PANEL, shows, fit))
        for share, shows, fit in ways
    )


def _as_made(
    scene: Scene, surfaces: Iterable[SurfaceSeen], kind: PieceKind, shows: Shows, fit: Array | None
) -> tuple[SurfaceWay, ...]:
    """What surfaces with this record show that look as made."""
    return product(scene.shown(s, kind, shows, scene.look(s, Look.MADE), fit=fit) for s in surfaces)


def _main(scene: Scene, core: Core, origin: Origin, hand: Hand) -> tuple[SurfaceWay, ...]:
    """What the main surface shows under a hand. A service piece ordered for a car has the car's
    own type."""
    if origin is not Origin.SERVICE or hand is Hand.TO_PASS or not core.piece.main.codes:
        return _by_hand(scene, core, origin, hand, None)
    own = scene.rates["service.type"]
    # A way noted of the wrong thing is none that was noted as it stands: they stay apart.
    return tuple(
        replace(each, weight=share * each.weight)
        for share, codes_as in ((own, Shows.OWN), (1.0 - own, None))
        for each in _by_hand(scene, core, origin, hand, codes_as)
    )


def _struck_look(core: Core, origin: Origin, hand: Hand) -> Look:
    """How a main surface looks under a hand that changed it."""
    if hand is Hand.REMOVED:
        return Look.REMOVED
    by_works = core.piece.piece.service_numbers is ServiceNumbers.WORKS
    return Look.WORKS if by_works and (origin, hand) == SUPPLIED else Look.STRUCK


def _by_hand(
    scene: Scene, core: Core, origin: Origin, hand: Hand, codes_as: Shows | None
) -> tuple[SurfaceWay, ...]:
    """Openly, or of the number alone, the codes are those of the piece as made, or of the
    record `codes_as`; struck to pass they are the claimed ones."""
    surface = core.piece.main
    if surface.is_silent:
        return (SurfaceWay(ONE),)
    kind, record, fit = PieceKind.CORE, RECORD[origin], fit_of(scene, origin)
    if hand is Hand.MADE:
        look = scene.look(surface, Look.MADE)
        return scene.shown(surface, kind, record, look, fit=fit, codes_as=codes_as)
    if hand is Hand.NUMBER_ALONE and origin is not Origin.FIRST:
        # The number alone is struck beside the claimed type rather than beside another.
        claimed, (alike, unlike) = claimed_type(scene, origin), all_of_it(scene, core.assembly.kind)
        stay, leave = claimed * (1.0 - alike), (1.0 - claimed) * (1.0 - unlike)
        fit = stay / (stay + leave)
    look = scene.look(surface, _struck_look(core, origin, hand))
    if hand is Hand.TO_PASS:
        return scene.shown(surface, kind, Shows.STRUCK, look, "slip.later")
    act = Shows.GONE if hand is Hand.REMOVED else Shows.STRUCK
    numbers, codes = replace(surface, codes=()), replace(surface, numbers=(), look=None)
    if not surface.codes:
        return scene.shown(surface, kind, act, look, "slip.later")
    stands, *others = scene.shown(numbers, kind, act, look, "slip.later")
    with_codes = scene.shown(codes, kind, record, ONE, fit=fit, codes_as=codes_as)[0]
    # The surface was noted as it stands once, not twice.
    once = (1.0 - scene.irrelevant(surface)) * np.maximum(1.0 - scene.leak(surface), TINY)
    kept = SurfaceWay(
        stands.weight * with_codes.weight / once, stands.groups, with_codes.vectors, HowNoted.STANDS
    )
    any_codes = scene.shown(codes, kind, Shows.ALONE, ONE)[0].weight / once
    return (kept, *(replace(each, weight=each.weight * any_codes) for each in others))


def _dated(
    scene: Scene, core: Core, term: Term, on_core: tuple[SurfaceWay, ...], hand: Hand, how: HowNoted
) -> Iterator[Term]:
    """The term with the codes of what is fitted to the core, and with the days of both."""
    tie = _tie(core, term.origin, hand, how)
    for fitted in on_core:
        made = replace(
            term,
            weight=term.weight * fitted.weight,
            vectors=times(term.vectors, fitted.vectors),
            tie=tie,
        )
        if not core.days.has_any:
            yield made
        else:
            yield from _with_curves(scene, core.days, made, hand, how)


def _tie(core: Core, origin: Origin, hand: Hand, how: HowNoted) -> DayTie:
    if not core.is_named or how is not HowNoted.STANDS:
        return DayTie.NONE
    if hand is Hand.TO_PASS:
        return DayTie.STRUCK
    return DayTie.RECORD if origin is Origin.FIRST else DayTie.FURTHER


def _fitted(scene: Scene, core: Core, origin: Origin) -> tuple[SurfaceWay, ...]:
    """What the marks of the fitted pieces show: these came with the core, were kept from the
    first one, or came from anywhere. Their days are part of the core's curves."""
    noted = [each for each in core.fitted if not each.is_silent]
    if not noted:
        return (SurfaceWay(ONE),)
    together, kept = fitted_shares(origin)
    record = {Origin.FIRST: Shows.OWN, Origin.OTHER_CAR: Shows.OTHER}.get(origin, Shows.ALONE)
    ways = (
        (together, record, fit_of(scene, origin)),
        (kept, Shows.OWN, None),
        (1.0 - together - kept, Shows.ALONE, None),
    )
    surfaces = [s for piece in noted for s in piece.surfaces]
    return shared(
        (share, _as_made(scene, surfaces, PieceKind.FITTED, shows, fit))
        for share, shows, fit in ways
        if share
    )


def _with_curves(
    scene: Scene, of: CoreDays, term: Term, hand: Hand, how: HowNoted
) -> Iterator[Term]:
    """The days as coefficients and curves, by origin."""
    if how is HowNoted.IRRELEVANT:
        term = replace(term, weight=term.weight * of.main_flat)
    is_struck = hand is Hand.TO_PASS or how is HowNoted.LEAK
    forged = of.has_struck and how is not HowNoted.IRRELEVANT and is_struck
    dates = "rest" if how is HowNoted.IRRELEVANT else "cast" if forged else "whole"
    suited = scene.rates["suit.date"]
    others = {Origin.SERVICE: of.of_service, Origin.OTHER_CAR: of.of_other}
    foreign = others.get(term.origin, of.of_donor)
    for share, curve in _struck(scene.rates["struck.date"], of, forged):
        made = replace(term, weight=term.weight * share)
        if term.origin in (Origin.FIRST, Origin.SUITED):
            fits = (
                made if term.origin is Origin.FIRST else replace(made, weight=made.weight * suited)
            )
            core = getattr(of.of_first, dates)
            yield replace(fits, own_days=curve * core)
        if term.origin is Origin.FIRST:
            continue
        for part in foreign:
            own = replace(made, own_days=curve * part.kept)
            yield from _foreign(of.grid, own, getattr(part, dates), 1.0 - suited)


def _foreign(grid: Grid, term: Term, core: Array, unfit: Array) -> Iterator[Term]:
    """A core that is no first one, by the days of its own car, for each week in which the
    claimed one may have been done."""
    assert term.own_days is not None
    match term.origin:
        case Origin.SUITED:
            own = term.own_days * grid.mean(core, grid.like)
            yield replace(term, weight=term.weight * unfit, own_days=own)
        case Origin.DONOR:
            yield replace(term, own_days=term.own_days * grid.mean_of_any(core))
        case Origin.OTHER_CAR:
            yield replace(term, other_days=core[grid.other])
        case _:
            when = IN_STOCK * grid.mean(core, grid.like) + LATER * _after(grid, core)
            yield replace(term, own_days=term.own_days * when)


def _struck(share: Array, of: CoreDays, forged: bool) -> Iterator[tuple[Array, Array]]:
    """The day struck again: as a first one's would lie, else anywhere in the year."""
    even = np.ones(of.grid.prior.size)
    if not forged:
        yield ONE, even
        return
    yield share, of.struck[of.grid.own]
    yield (1.0 - share) * of.grid.mean(of.struck, of.grid.like), even


def _after(grid: Grid, curves: Array) -> Array:
    """A service piece made up to three years after the week in which the car was done."""
    weeks = 3 * 52
    own = np.arange(grid.own.start, grid.own.stop)
    starts = np.maximum(own - 8, 0)
    ends = np.minimum(starts + weeks, grid.weeks.size)
    sums = np.cumsum(np.pad(curves, ((0, 0), (1, 0))), axis=1)
    of = own - grid.own.start
    found: Array = (sums[of, ends] - sums[of, starts]) / (ends - starts)
    return found
