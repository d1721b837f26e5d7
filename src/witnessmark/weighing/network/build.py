"""From a car's marks to its network: what the case says, once; then its factors under rates."""

from collections.abc import Callable, Hashable, Iterator
from dataclasses import replace
from functools import partial

import numpy as np

from witnessmark.agreement.records import CarMarks
from witnessmark.casefile.records import Seen
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.piece_records import SoldInService
from witnessmark.codebook.pieces import PieceKind, pieces_of
from witnessmark.codebook.records import Assembly
from witnessmark.weighing.arrays import Array
from witnessmark.weighing.evidence import days
from witnessmark.weighing.evidence.days import Grid, weeks_of
from witnessmark.weighing.evidence.gather import pieces_seen
from witnessmark.weighing.evidence.noted import READ, CodeSeen, DateSeen, PieceSeen, SurfaceSeen
from witnessmark.weighing.evidence.numbers import NumberItem, number_items
from witnessmark.weighing.evidence.sets import with_sets
from witnessmark.weighing.evidence.vouched import with_vouched
from witnessmark.weighing.kept_alike import alike, told
from witnessmark.weighing.network.factors import (
    Cells,
    Factor,
    cells_of,
    day_factors,
    item_axes,
    number_factor,
    squeezed,
)
from witnessmark.weighing.network.network import Network
from witnessmark.weighing.network.ties import bound, configured
from witnessmark.weighing.pieces import cores, plates
from witnessmark.weighing.pieces.axes import ONE, Traits, prior_of_car
from witnessmark.weighing.pieces.core_days import core_days
from witnessmark.weighing.pieces.items import code_items
from witnessmark.weighing.pieces.noted_car import Core, Noted, is_structure
from witnessmark.weighing.pieces.plates import sheet_of
from witnessmark.weighing.pieces.scene import Scene
from witnessmark.weighing.pieces.structure import panel_terms, structure_terms
from witnessmark.weighing.pieces.terms import DayTie, Term
from witnessmark.weighing.rates import RateValues

WHOLE = (PieceKind.CORE, PieceKind.STRUCTURE)
SHEETS = (PieceKind.PLATE, PieceKind.PAPER)


class NoBearerError(ValueError):
    """The book has no assembly that bears the identity of such a car."""


def noted(car: CarMarks, supposed: SurfaceSeen | None = None) -> Noted:
    """What the case says of every piece of the car; of one surface what is `supposed`."""
    car = with_sets(with_vouched(car))
    pieces = pieces_of(car.book, car.context)
    if not pieces.bearers:
        raise NoBearerError(car.book.id)
    claim = car.casefile.claim
    seen = pieces_seen(car, pieces)
    if supposed is not None:
        seen = tuple(_supposing(each, supposed) for each in seen)
    grid = weeks_of(car.book, car.context, claim.built)
    seen = tuple(_said_once(_dated_within(grid, each)) for each in seen)
    items, seen = code_items(car, seen)
    items, ties = bound(car, items)
    seen = tuple(as_before(car.book, each) for each in seen)
    numbers = number_items(car.book, car.context, claim.items, seen)
    bearer = pieces.bearers[0]
    cores = (_core(car, seen, each, grid, bearer) for each in car.book.assemblies_for(car.context))
    found = tuple(core for core in cores if core is not None)
    items = {
        name: replace(item, pieces=tuple(_weighed_in(found, piece) for piece in item.pieces))
        for name, item in items.items()
    }
    traits = _traits(car, seen, numbers, bearer)
    if claim.built and traits.claim_may_be_read_off:
        grid = weeks_of(car.book, car.context, claim.built, read_off=True)
    return Noted(
        car=car,
        pieces=pieces,
        seen=seen,
        numbers=numbers,
        items=items,
        ties=ties,
        grid=grid,
        bearer=bearer,
        cores=found,
        sheets={p.piece.id: sheet_of(car, seen, p) for p in seen if _is_sheet(p)},
        traits=traits,
    )


def as_before(book: CodeBook, piece: PieceSeen) -> PieceSeen:
    """The piece itself, or the one of which the same was noted in an examination before."""
    return alike(book, "pieces", told(piece), lambda: piece)


def _supposing(piece: PieceSeen, supposed: SurfaceSeen) -> PieceSeen:
    surfaces = (supposed if each.id == supposed.id else each for each in piece.surfaces)
    return replace(piece, surfaces=tuple(surfaces))


def _weighed_in(cores: tuple[Core, ...], piece: str) -> str:
    """The core with which a fitted piece or a panel on it is weighed, else the piece itself."""
    parts = {
        part.piece.id: core.piece.piece.id
        for core in cores
        for part in (*core.fitted, *core.panels)
    }
    return parts.get(piece, piece)


def _traits(
    car: CarMarks, seen: tuple[PieceSeen, ...], numbers: dict[str, NumberItem], bearer: str
) -> Traits:
    identities = {item.id for item in car.book.items if item.identification}
    events = {item.id for item in car.book.items if not item.home}
    of_bearer = [each for each in seen if each.piece.assembly == bearer]
    structure = [each for each in of_bearer if each.piece.kind is PieceKind.STRUCTURE]
    is_dated = any(
        date.item in events and _names_the_car(surface, numbers, identities)
        for each in seen
        if each.piece.kind is PieceKind.PAPER
        for surface in each.surfaces
        for date in surface.dates
    )
    seen_how = {s.how for each in seen for s in each.surfaces if not s.is_silent}
    return Traits(
        bears_number=any(s.bears_identity for each in structure for s in each.surfaces),
        claim_may_be_read_off=bool(car.casefile.claim.built) and not is_dated,
        has_panels=any(p.piece.kind is PieceKind.PANEL and not p.is_silent for p in of_bearer),
        has_pictures=Seen.PHOTOGRAPH in seen_how,
        has_words=Seen.TOLD in seen_how,
        is_sold=any(p.surfaces and p.piece.sold_in_service is SoldInService.YES for p in structure),
    )


def _names_the_car(
    surface: SurfaceSeen, numbers: dict[str, NumberItem], identities: set[str]
) -> bool:
    """Does it show no number but the claimed one?"""
    shown = [each for each in surface.numbers if each.item in identities and each.status is READ]
    items = [numbers[each.item] for each in shown]
    return all(
        item.records is not None and item.records[item.slots[each]].hit > 1.0
        for item, each in zip(items, shown, strict=True)
    )


def _dated_within(grid: Grid, piece: PieceSeen) -> PieceSeen:
    surfaces = tuple(
        replace(s, dates=tuple(days.within(grid, each) for each in s.dates)) if s.dates else s
        for s in piece.surfaces
    )
    return replace(piece, surfaces=surfaces)


def _said_once(piece: PieceSeen) -> PieceSeen:
    """A code that several marks of one piece show is one code: whosever it is, they agree."""
    first: dict[str, CodeSeen] = {}
    for code in piece.codes:
        was = first.get(code.item)
        first[code.item] = code if was is None else was.joined(code)
    surfaces = []
    for surface in piece.surfaces:
        items = dict.fromkeys(code.item for code in surface.codes)
        codes = tuple(first.pop(item) for item in items if item in first)
        surfaces.append(replace(surface, codes=codes))
    return replace(piece, surfaces=tuple(surfaces))


def _core(
    car: CarMarks, seen: tuple[PieceSeen, ...], assembly: Assembly, grid: Grid, bearer: str
) -> Core | None:
    """The core of an assembly; None of the bearer of the identity, and of one without pieces."""
    own = [each for each in seen if each.piece.assembly == assembly.id]
    if assembly.id == bearer or not own:
        return None
    fitted = tuple(each for each in own if each.piece.kind is PieceKind.FITTED)
    # A second bearer of the identity is weighed as what it is: a body, a frame.
    core = next((each for each in own if each.piece.kind in WHOLE), None)
    core = core or as_before(car.book, _bare(assembly, own[0]))
    stages = tuple(day for each in seen if is_structure(each, bearer) for day in each.dates)
    stamped = {day.item for day in core.main.dates}
    question = (car.context, grid, core, fitted, stages)
    answer = partial(core_days, car, grid, core, fitted, stages)
    return Core(
        piece=core,
        assembly=assembly,
        fitted=fitted,
        panels=tuple(each for each in own if each.piece.kind is PieceKind.PANEL),
        days=alike(car.book, "days of a core", question, answer),
        is_named=any(
            day.item in stamped for each in seen if each.piece.kind in SHEETS for day in each.dates
        ),
    )


def _bare(assembly: Assembly, like: PieceSeen) -> PieceSeen:
    """A core on which no mark stands, known by what is fitted to it alone."""
    piece = replace(like.piece, id=assembly.id, name=assembly.name, kind=PieceKind.CORE)
    return PieceSeen(piece, (SurfaceSeen(id=assembly.id, marks=()),))


def _is_sheet(seen: PieceSeen) -> bool:
    """Is it a plate or paper of which something was noted?"""
    return seen.piece.kind in SHEETS and not seen.is_silent


def with_piece(known: Noted, changed: PieceSeen) -> Noted:
    """The same with something else noted of one piece."""
    seen = tuple(changed if p.piece.id == changed.piece.id else p for p in known.seen)
    cores = tuple(
        _core(known.car, seen, core.assembly, known.grid, known.bearer) or core
        if core.piece.piece.id in (changed.piece.id, changed.piece.assembly)
        else core
        for core in known.cores
    )
    sheets = {
        each.piece.id: sheet_of(known.car, seen, each)
        if each is changed
        else known.sheets[each.piece.id]
        for each in seen
        if _is_sheet(each)
    }
    return replace(known, seen=seen, cores=cores, sheets=sheets)


def network_of(known: Noted, rates: RateValues) -> Network:
    """The factors of the car under these rates."""
    scene = Scene(known=known, rates=rates)
    cells = {
        piece: _cells(scene, piece, question, terms) for piece, question, terms in _all_terms(scene)
    }
    return Network(
        draws=rates.draws,
        prior=prior_of(known, rates),
        cells=cells,
        items=known.items,
        bonds=bonds_of(known, rates, cells),
        axes=item_axes(known.items, configured(known.items, known.ties, rates)),
    )


def terms_of(scene: Scene, piece: str) -> tuple[Term, ...]:
    """The terms of one piece; of one of which nothing was noted, a single one that says nothing."""
    for weighed, question, terms in _all_terms(scene):
        if weighed == piece:
            return _terms(scene, question, terms)
    return (Term(prior=ONE, weight=ONE),)


type Terms = Callable[[], list[Term]]


def _terms(scene: Scene, question: Hashable, terms: Terms) -> tuple[Term, ...]:
    """The terms of a piece, or those that it had before; not kept of many draws."""
    if scene.rates.draws > 1:
        return tuple(terms())
    return alike(scene.known.car.book, "terms", question, lambda: tuple(terms()))


def _cells(scene: Scene, piece: str, question: Hashable, terms: Terms) -> Cells:
    found = _terms(scene, question, terms)
    if scene.rates.draws > 1:
        return cells_of(piece, found)
    return alike(scene.known.car.book, "cells", (piece, found), lambda: cells_of(piece, found))


def prior_of(known: Noted, rates: RateValues) -> Array:
    """That of the car's own variables."""
    return prior_of_car(rates, known.traits, known.can_be_joined)


def bonds_of(known: Noted, rates: RateValues, cells: dict[str, Cells]) -> tuple[Factor, ...]:
    """What binds the cells of pieces: days, numbers, and papers that name a stamp."""
    numbers = (number_factor(item, cells.values()) for item in known.numbers.values())
    ties = (
        _tie(known, rates, (cells[core], cells[sheet]), stamp, named)
        for core, sheet, stamp, named in ties_of(known)
    )
    days_bound = day_factors(cells.values(), known.grid)
    return (*days_bound, *(each for each in numbers if each is not None), *ties)


def _all_terms(scene: Scene) -> Iterator[tuple[str, Hashable, Terms]]:
    """Each piece that is weighed, all that its terms follow from, and what gives them."""
    known = scene.known
    for core in known.cores:
        parts = (core.piece, *core.fitted, *core.panels)
        question = (core.assembly.id, core.days, core.is_named, scene.bearing_on(*parts))
        yield core.piece.piece.id, question, partial(cores.core_terms, scene, core)
    for seen in known.seen:
        piece, bearing = seen.piece, scene.bearing_on(seen)
        if is_structure(seen, known.bearer):
            yield piece.id, ("structure", bearing), partial(structure_terms, scene, seen)
        elif piece.id in known.sheets:
            sheet = known.sheets[piece.id]
            terms = partial(plates.sheet_terms, scene, sheet)
            yield piece.id, (sheet.is_data_plate, bearing), terms
        elif known.is_panel_noted(seen):
            yield piece.id, ("panel", bearing), partial(panel_terms, scene, seen)


def ties_of(known: Noted) -> Iterator[tuple[str, str, DateSeen, DateSeen]]:
    """Each core and paper that names the day of its stamp, with the stamp and what is named."""
    for sheet_id, sheet in known.sheets.items():
        for named in sheet.named:
            for core in known.cores:
                stamp = next((d for d in core.piece.main.dates if d.item == named.item), None)
                if stamp is not None:
                    yield core.piece.piece.id, sheet_id, stamp, named


def _tie(
    known: Noted, rates: RateValues, pair: tuple[Cells, Cells], stamp: DateSeen, named: DateSeen
) -> Factor:
    core, sheet = pair
    shared, on_stamp, on_paper = np.intersect1d(stamp.days, named.days, return_indices=True)
    weight = stamp.likelihood / stamp.likelihood.sum()
    same = float(weight[on_stamp] @ named.likelihood[on_paper]) if shared.size else 0.0
    same = max(same, float(named.floor)) / plates.named_share(known, named)
    wrong, copied = rates["paper.line"].reshape(-1), rates["struck.record"].reshape(-1)
    # The line above or below is that of a car of the same days.
    ratio = (1.0 - wrong) * same + wrong
    table = np.ones((rates.draws, len(core.by_groups), len(sheet.by_groups)))
    for a, one in enumerate(core.by_groups):
        for b, other in enumerate(sheet.by_groups):
            if other.tie is DayTie.GENUINE and one.tie is DayTie.RECORD:
                table[:, a, b] = ratio
            elif other.tie is DayTie.GENUINE and one.tie is DayTie.STRUCK:
                table[:, a, b] = copied * ratio + 1.0 - copied
            elif other.tie is DayTie.COPIED and one.tie:
                table[:, a, b] = ratio
    return squeezed(table, ("d", core.groups, sheet.groups))
