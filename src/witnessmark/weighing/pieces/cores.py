"""The core of an assembly: whence it came, what was done to its number, and how that was noted.

Origin: first; a donor with a car of its own, suited or not; the other car's; a service piece.
Hand on its main surface, the one that bears its number: as made; struck openly; struck to pass,
with day and type or the number alone; taken off. Other surfaces that bear it under the same hand,
but for places that it missed. Fitted pieces and
panels came with the core, or were kept from the first one, or came from anywhere.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from witnessmark.codebook.pieces import PieceKind
from witnessmark.codebook.records import AssemblyKind
from witnessmark.weighing.evidence.days import Grid
from witnessmark.weighing.evidence.noted import READ, PieceSeen, SurfaceSeen
from witnessmark.weighing.pieces.axes import ONE
from witnessmark.weighing.pieces.core_days import CoreDays, fitted_shares
from witnessmark.weighing.pieces.core_hands import (
    FIRST,
    MADE,
    NUMBER_ALONE,
    OPENLY,
    OTHER_CARS,
    RECORD,
    REMOVED,
    SERVICE,
    SUITED,
    TO_PASS,
    all_of_it,
    claimed_type,
    fit_of,
    hands,
    origins,
)
from witnessmark.weighing.pieces.scene import (
    ALONE,
    BLANK,
    GONE,
    OTHER,
    OWN,
    STRUCK,
    HowNoted,
    Scene,
    SurfaceWay,
)
from witnessmark.weighing.pieces.terms import DayTie, Term, joined, merged, product, times

Array = NDArray[np.float64]

TINY = 1e-12
BY_SERIES = 0.9
"""Chosen cores whose own number lies in the series of such cars."""
IN_STOCK, LATER = 0.4, 0.6
"""Service pieces from the year's own stock, and made up to three years after."""


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Core:
    """A core with what is fitted to it, its kind of assembly and its days. `is_named`: some
    paper names the day of its stamp."""

    piece: PieceSeen
    kind: AssemblyKind
    fitted: tuple[PieceSeen, ...]
    panels: tuple[PieceSeen, ...]
    days: CoreDays
    is_named: bool

    @property
    def is_silent(self) -> bool:
        """Was nothing noted of any of it?"""
        return all(each.is_silent for each in (self.piece, *self.fitted, *self.panels))


def core_terms(scene: Scene, core: Core) -> list[Term]:
    """The terms of a core; of one of which nothing was noted, its origins alone."""
    found = []
    replaced = scene.said_replaced(core.piece.piece.id, core.piece.piece.assembly)
    for origin, share in origins(scene, core.piece.piece, core.kind).items():
        told = replaced if origin == FIRST else ONE
        if core.is_silent:
            found.append(Term(prior=share, weight=told, origin=origin))
            continue
        base, fitted = _beside(scene, core, origin, MADE), _fitted(scene, core, origin)
        for hand, part in _noted_hands(scene, core, origin).items():
            prior = share * part
            beside = base if hand in (MADE, OPENLY) else _beside(scene, core, origin, hand)
            series = _in_series(scene, core) if (origin, hand) == (SUITED, MADE) else 1.0
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


def _noted_hands(scene: Scene, core: Core, origin: str) -> dict[str, Array]:
    """The hands that what was noted can tell apart."""
    found = hands(scene, origin, core.piece.piece, core.kind)
    main = core.piece.main
    if main.is_silent:
        return {MADE: ONE}
    if not (main.codes or core.days.has_struck):
        found[TO_PASS] = found[TO_PASS] + found.pop(NUMBER_ALONE)
    return found


def _beside(scene: Scene, core: Core, origin: str, hand: str) -> tuple[SurfaceWay, ...]:
    """Everything but the main surface: the other surfaces of the core, its panels. Whoever struck
    or took off the number did so wherever it stands, but for places that he missed."""
    record = RECORD[origin]
    fit = fit_of(scene, origin)
    ways = []
    for s in core.piece.surfaces[1:]:
        made = scene.shown(s, PieceKind.CORE, record, scene.look(s, "made"), fit=fit)
        ways.append(_under_hand(scene, (s,), PieceKind.CORE, hand, made))
    for panel in core.panels:
        made = _panel(scene, panel, record, fit)
        ways.append(_under_hand(scene, panel.surfaces, PieceKind.PANEL, hand, made))
    return merged(replace(each, how=HowNoted.STANDS) for each in product(ways))


def _under_hand(
    scene: Scene,
    surfaces: tuple[SurfaceSeen, ...],
    kind: PieceKind,
    hand: str,
    made: tuple[SurfaceWay, ...],
) -> tuple[SurfaceWay, ...]:
    """A further place that bears a number, under the hand of the main one."""
    if hand in (MADE, OPENLY) or not any(surface.numbers for surface in surfaces):
        return made
    missed = scene.rates["structure.missed"]
    act, look = (GONE, "removed") if hand == REMOVED else (STRUCK, "struck")
    done = product(scene.shown(s, kind, act, scene.look(s, look), "slip.later") for s in surfaces)
    shares = ((missed, made), (1.0 - missed, done))
    return merged(
        replace(each, weight=share * each.weight) for share, ways in shares for each in ways
    )


def _in_series(scene: Scene, core: Core) -> float:
    """How the core's own number lies in the series of such cars, over those of any: who chose the
    core to fit had the same book."""
    found = 1.0
    for number in core.piece.main.numbers:
        item = scene.car.book.item(number.item)
        if number.status == READ and item is not None and item.home == core.piece.piece.assembly:
            own = float(scene.numbers[number.item].own[1 << number.slot])
            found *= BY_SERIES * own + 1.0 - BY_SERIES
    return found


def _panel(
    scene: Scene, panel: PieceSeen, record: str, fit: Array | None
) -> tuple[SurfaceWay, ...]:
    """A panel of the core: with it, else a new one or some third car's."""
    rates, first = scene.rates, scene.rates["panel.first"]
    found = []
    for share, shows in (
        (first, record),
        ((1.0 - first) * rates["panel.service"], BLANK),
        ((1.0 - first) * (1.0 - rates["panel.service"]), ALONE),
    ):
        for each in product(
            scene.shown(
                s,
                PieceKind.PANEL,
                shows,
                scene.look(s, "made"),
                fit=fit if shows == record else None,
            )
            for s in panel.surfaces
        ):
            found.append(replace(each, weight=share * each.weight))
    return merged(found)


def _main(scene: Scene, core: Core, origin: str, hand: str) -> tuple[SurfaceWay, ...]:
    """What the main surface shows under a hand. A service piece ordered for a car has the car's
    own type."""
    if origin != SERVICE or hand == TO_PASS or not core.piece.main.codes:
        return _by_hand(scene, core, origin, hand, "")
    own = scene.rates["service.type"]
    # A way noted of the wrong thing is none that was noted as it stands: they stay apart.
    return tuple(
        replace(each, weight=share * each.weight)
        for share, codes_as in ((own, OWN), (1.0 - own, ""))
        for each in _by_hand(scene, core, origin, hand, codes_as)
    )


def _by_hand(
    scene: Scene, core: Core, origin: str, hand: str, codes_as: str
) -> tuple[SurfaceWay, ...]:
    """Openly, or of the number alone, the codes are those of the piece as made, or of the
    record `codes_as`; struck to pass they are the claimed ones."""
    surface = core.piece.main
    if surface.is_silent:
        return (SurfaceWay(ONE),)
    kind, record, fit = PieceKind.CORE, RECORD[origin], fit_of(scene, origin)
    if hand == MADE:
        look = scene.look(surface, "made")
        return scene.shown(surface, kind, record, look, fit=fit, codes_as=codes_as)
    if hand == NUMBER_ALONE and origin != FIRST:
        # The number alone is struck beside the claimed type rather than beside another.
        claimed, (alike, unlike) = claimed_type(scene, origin), all_of_it(scene, core.kind)
        stay, leave = claimed * (1.0 - alike), (1.0 - claimed) * (1.0 - unlike)
        fit = stay / (stay + leave)
    look = scene.look(surface, "removed" if hand == REMOVED else "struck")
    if hand == TO_PASS:
        return scene.shown(surface, kind, STRUCK, look, "slip.later")
    act = GONE if hand == REMOVED else STRUCK
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
    any_codes = scene.shown(codes, kind, ALONE, ONE)[0].weight / once
    return (kept, *(replace(each, weight=each.weight * any_codes) for each in others))


def _dated(
    scene: Scene, core: Core, term: Term, on_core: tuple[SurfaceWay, ...], hand: str, how: HowNoted
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


def _tie(core: Core, origin: str, hand: str, how: HowNoted) -> DayTie:
    if not core.is_named or how is not HowNoted.STANDS:
        return DayTie.NONE
    if hand == TO_PASS:
        return DayTie.STRUCK
    return DayTie.RECORD if origin == FIRST else DayTie.FURTHER


def _fitted(scene: Scene, core: Core, origin: str) -> tuple[SurfaceWay, ...]:
    """What the marks of the fitted pieces show: these came with the core, were kept from the
    first one, or came from anywhere. Their days are part of the core's curves."""
    noted = [each for each in core.fitted if not each.is_silent]
    if not noted:
        return (SurfaceWay(ONE),)
    together, kept = fitted_shares(origin if origin in (FIRST, SERVICE) else "donor")
    record = {FIRST: OWN, OTHER_CARS: OTHER}.get(origin, ALONE)
    ways = (
        (together, record, fit_of(scene, origin)),
        (kept, OWN, None),
        (1.0 - together - kept, ALONE, None),
    )
    surfaces = [s for piece in noted for s in piece.surfaces]
    return merged(
        replace(each, weight=share * each.weight)
        for share, shows, fit in ways
        if share
        for each in product(
            scene.shown(s, PieceKind.FITTED, shows, scene.look(s, "made"), fit=fit)
            for s in surfaces
        )
    )


def _with_curves(
    scene: Scene, of: CoreDays, term: Term, hand: str, how: HowNoted
) -> Iterator[Term]:
    """The days as coefficients and curves, by origin."""
    if how is HowNoted.IRRELEVANT:
        term = replace(term, weight=term.weight * of.main_flat)
    is_struck = hand == TO_PASS or how is HowNoted.LEAK
    forged = of.has_struck and how is not HowNoted.IRRELEVANT and is_struck
    dates = "rest" if how is HowNoted.IRRELEVANT else "cast" if forged else "whole"
    suited = scene.rates["suit.date"]
    foreign = of.of_service if term.origin == SERVICE else of.of_donor
    for share, curve in _struck(scene.rates["struck.date"], of, forged):
        made = replace(term, weight=term.weight * share)
        if term.origin in (FIRST, SUITED):
            fits = made if term.origin == FIRST else replace(made, weight=made.weight * suited)
            core = getattr(of.of_first, dates)
            yield replace(fits, own_days=curve * core[of.grid.own])
        if term.origin == FIRST:
            continue
        for part in foreign:
            own = replace(made, own_days=curve * part.kept)
            yield from _foreign(of.grid, own, getattr(part, dates), 1.0 - suited)


def _foreign(grid: Grid, term: Term, core: Array, unfit: Array) -> Iterator[Term]:
    """A core that is no first one, by the days of its own car."""
    match term.origin:
        case "suited":
            yield replace(term, weight=term.weight * unfit * grid.mean(core, grid.like))
        case "donor":
            yield replace(term, weight=term.weight * grid.mean_of_any(core))
        case "other car":
            yield replace(term, other_days=core[grid.other])
        case _:
            when = IN_STOCK * grid.mean(core, grid.like) + LATER * _after(grid, core)
            assert term.own_days is not None
            yield replace(term, own_days=term.own_days * when)


def _struck(share: Array, of: CoreDays, forged: bool) -> Iterator[tuple[Array, Array]]:
    """The day struck again: as a first one's would lie, else anywhere in the year."""
    even = np.ones(of.grid.prior.size)
    if not forged:
        yield ONE, even
        return
    yield share, of.struck[of.grid.own]
    yield (1.0 - share) * of.grid.mean(of.struck, of.grid.like), even


def _after(grid: Grid, joint: Array) -> Array:
    """A service piece made up to three years after the week in which the car was done."""
    weeks = 3 * 52
    sums = np.concatenate([[0.0], np.cumsum(joint)])
    starts = np.arange(grid.own.start, grid.own.stop) - 8
    starts = np.maximum(starts, 0)
    ends = np.minimum(starts + weeks, joint.size)
    found: Array = (sums[ends] - sums[starts]) / (ends - starts)
    return found
