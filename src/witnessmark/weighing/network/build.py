"""From a car's marks to its network: what the case says, once; then its factors under rates."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import partial

import numpy as np
from numpy.typing import NDArray

from witnessmark.agreement.records import CarMarks
from witnessmark.casefile.records import Seen
from witnessmark.codebook.piece_records import SoldInService
from witnessmark.codebook.pieces import PieceKind, Pieces, pieces_of
from witnessmark.codebook.records import Assembly
from witnessmark.weighing.evidence import days
from witnessmark.weighing.evidence.days import Grid, grid_of
from witnessmark.weighing.evidence.gather import pieces_seen
from witnessmark.weighing.evidence.noted import READ, CodeSeen, DateSeen, PieceSeen, SurfaceSeen
from witnessmark.weighing.evidence.numbers import NumberItem, number_items
from witnessmark.weighing.evidence.vouched import with_vouched
from witnessmark.weighing.network.factors import (
    Cells,
    Factor,
    cells_of,
    day_factors,
    number_factor,
    squeezed,
)
from witnessmark.weighing.network.network import Network, network_with
from witnessmark.weighing.network.ties import Tie, bound, configured
from witnessmark.weighing.pieces import cores, panels, plates
from witnessmark.weighing.pieces.axes import ONE, Traits, prior_of_car
from witnessmark.weighing.pieces.core_days import core_days
from witnessmark.weighing.pieces.cores import Core
from witnessmark.weighing.pieces.items import CodeItem, code_items
from witnessmark.weighing.pieces.plates import PlateOrPaper, sheet_of
from witnessmark.weighing.pieces.scene import Scene
from witnessmark.weighing.pieces.structure import structure_terms
from witnessmark.weighing.pieces.terms import DayTie, Term
from witnessmark.weighing.rates import RateValues

Array = NDArray[np.float64]


WHOLE = (PieceKind.CORE, PieceKind.STRUCTURE)


class NoBearerError(ValueError):
    """The book has no assembly that bears the identity of such a car."""


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Noted:
    """All that the case says, before any rate: the pieces with what was seen of each, the
    numbers, the claimed items, the weeks and the days of every core."""

    car: CarMarks
    pieces: Pieces
    seen: tuple[PieceSeen, ...]
    numbers: dict[str, NumberItem]
    items: dict[str, CodeItem]
    ties: tuple[Tie, ...]
    grid: Grid
    bearer: str
    cores: tuple[Core, ...]
    traits: Traits

    def piece(self, piece_id: str) -> PieceSeen:
        """One piece with what was seen of it."""
        return next(each for each in self.seen if each.piece.id == piece_id)


def noted(car: CarMarks) -> Noted:
    """What the case says of every piece of the car."""
    car = with_vouched(car)
    pieces = pieces_of(car.book, car.context)
    if not pieces.bearers:
        raise NoBearerError(car.book.id)
    claim = car.casefile.claim
    seen = pieces_seen(car, pieces)
    numbers, seen = number_items(car.book, car.context, claim.items, seen)
    grid = grid_of(car.book, car.context, claim.built)
    seen = tuple(_said_once(_dated_within(grid, each)) for each in seen)
    items, seen = code_items(car, seen)
    items, ties = bound(car, items)
    bearer = pieces.bearers[0]
    found = tuple(_cores(car, seen, grid, bearer))
    items = {
        name: replace(item, pieces=tuple(_weighed_in(found, piece) for piece in item.pieces))
        for name, item in items.items()
    }
    traits = _traits(car, seen, numbers, bearer)
    if claim.built and traits.claim_may_be_read_off:
        grid = days.with_claim_read_off(grid, claim.built)
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
        traits=traits,
    )


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
    surfaces = [(each, surface) for each in seen for surface in each.surfaces]
    identities = {item.id for item in car.book.items if item.identification}
    events = {item.id for item in car.book.items if not item.home}
    structure, paper, panel = (
        [
            (each, surface)
            for each, surface in surfaces
            if each.piece.kind is kind
            and (kind is PieceKind.PAPER or each.piece.assembly == bearer)
        ]
        for kind in (PieceKind.STRUCTURE, PieceKind.PAPER, PieceKind.PANEL)
    )
    is_dated = any(
        date.item in events and _names_the_car(surface, numbers, identities)
        for _, surface in paper
        for date in surface.dates
    )
    seen_how = {surface.how for _, surface in surfaces if not surface.is_silent}
    return Traits(
        bears_number=any(
            fld.says in identities
            for _, surface in structure
            for mark in surface.marks
            for fld in mark.fields
        ),
        claim_may_be_read_off=bool(car.casefile.claim.built) and not is_dated,
        has_panels=any(not surface.is_silent for _, surface in panel),
        has_pictures=Seen.PHOTOGRAPH in seen_how,
        has_words=Seen.TOLD in seen_how,
        is_sold=any(each.piece.sold_in_service is SoldInService.YES for each, _ in structure),
    )


def _names_the_car(
    surface: SurfaceSeen, numbers: dict[str, NumberItem], identities: set[str]
) -> bool:
    """Does it show no number but the claimed one?"""
    shown = [each for each in surface.numbers if each.item in identities and each.status == READ]
    records = [(numbers[each.item].records, each.slot) for each in shown]
    return all(record is not None and record[slot].hit > 1.0 for record, slot in records)


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


def _cores(car: CarMarks, seen: tuple[PieceSeen, ...], grid: Grid, bearer: str) -> Iterator[Core]:
    stages = tuple(day for each in seen if is_structure(each, bearer) for day in each.dates)
    for assembly in car.book.assemblies_for(car.context):
        own = [each for each in seen if each.piece.assembly == assembly.id]
        if assembly.id == bearer or not own:
            continue
        fitted = tuple(each for each in own if each.piece.kind is PieceKind.FITTED)
        on = tuple(each for each in own if each.piece.kind is PieceKind.PANEL)
        # A second bearer of the identity is weighed as what it is: a body, a frame.
        core = next((each for each in own if each.piece.kind in WHOLE), None)
        core = core or _bare(assembly, own[0])
        stamped = {day.item for day in core.main.dates}
        is_named = any(
            day.item in stamped
            for each in seen
            if each.piece.kind in (PieceKind.PLATE, PieceKind.PAPER)
            for day in each.dates
        )
        found = core_days(car, grid, core, fitted, stages)
        yield Core(
            piece=core, kind=assembly.kind, fitted=fitted, panels=on, days=found, is_named=is_named
        )


def _bare(assembly: Assembly, like: PieceSeen) -> PieceSeen:
    """A core on which no mark stands, known by what is fitted to it alone."""
    piece = replace(like.piece, id=assembly.id, name=assembly.name, kind=PieceKind.CORE)
    return PieceSeen(piece, (replace(like.main, id=assembly.id, marks=(), numbers=(), codes=(),
                                     dates=(), look=None),))  # fmt: skip


def with_piece(known: Noted, changed: PieceSeen) -> Noted:
    """The same with something else noted of one piece."""
    seen = tuple(changed if p.piece.id == changed.piece.id else p for p in known.seen)
    own = {changed.piece.id, changed.piece.assembly}
    cores = tuple(
        core
        if core.piece.piece.id not in own
        else next(
            each
            for each in _cores(known.car, seen, known.grid, known.bearer)
            if each.piece.piece.id == core.piece.piece.id
        )
        for core in known.cores
    )
    return replace(known, seen=seen, cores=cores)


def network_of(known: Noted, rates: RateValues) -> Network:
    """The factors of the car under these rates."""
    scene = scene_of(known, rates)
    sheets = sheets_of(scene, known)
    cells = {piece: cells_of(piece, terms()) for piece, terms in _all_terms(scene, known, sheets)}
    items = configured(known.items, known.ties, rates)
    bonds = bonds_of(known, rates, cells, sheets)
    return network_with(
        rates.draws, prior_of(scene), cells, items=known.items, configured=items, bonds=bonds
    )


def scene_of(known: Noted, rates: RateValues) -> Scene:
    """What all terms are made from."""
    return Scene(
        car=known.car,
        rates=rates,
        pieces=known.seen,
        numbers=known.numbers,
        items=known.items,
        grid=known.grid,
        bearer=known.bearer,
        traits=known.traits,
    )


def sheets_of(scene: Scene, known: Noted) -> dict[str, PlateOrPaper]:
    """The plates and papers of which something was noted."""
    found = {}
    for seen in known.seen:
        if seen.piece.kind in (PieceKind.PLATE, PieceKind.PAPER) and not seen.is_silent:
            if seen not in scene.kept:
                scene.kept[seen] = sheet_of(scene, seen)
            found[seen.piece.id] = scene.kept[seen]
    return found


def terms_of(scene: Scene, known: Noted, sheets: dict[str, PlateOrPaper], piece: str) -> list[Term]:
    """The terms of one piece; of one of which nothing was noted, a single one that says nothing."""
    found = dict(_all_terms(scene, known, sheets)).get(piece)
    return [Term(prior=ONE, weight=ONE)] if found is None else found()


def prior_of(scene: Scene) -> Array:
    """That of the car's own variables."""
    return prior_of_car(scene.rates, scene.traits, can_be_joined(scene))


def is_structure(seen: PieceSeen, bearer: str) -> bool:
    """Is it the structure of the first bearer of the identity?"""
    return seen.piece.kind is PieceKind.STRUCTURE and seen.piece.assembly == bearer


def can_be_joined(scene: Scene) -> bool:
    """Was a number noted on more than one surface of the structure that bears it?"""
    structures = [each for each in scene.pieces if is_structure(each, scene.bearer)]
    bearing = [s for each in structures for s in each.surfaces if scene.bears_identity(s)]
    return sum(bool(surface.numbers) for surface in bearing) > 1


def bonds_of(
    known: Noted, rates: RateValues, cells: dict[str, Cells], sheets: dict[str, PlateOrPaper]
) -> tuple[Factor, ...]:
    """What binds the cells of pieces: days, numbers, and papers that name a stamp."""
    bound = list(cells.values())
    bonds = day_factors(bound, known.grid)
    for item in known.numbers.values():
        number = number_factor(item, bound, home_of(known, item.id))
        if number is not None:
            bonds.append(squeezed(number.table, number.axes))
    for core, sheet, stamp, named in ties_of(known, sheets):
        bonds.append(_tie(known, rates, (cells[core], cells[sheet]), stamp, named))
    return tuple(bonds)


def _all_terms(
    scene: Scene, known: Noted, sheets: dict[str, PlateOrPaper]
) -> Iterator[tuple[str, Callable[[], list[Term]]]]:
    """Each piece that is weighed, and what gives its terms."""
    for core in known.cores:
        yield core.piece.piece.id, partial(cores.core_terms, scene, core)
    for seen in known.seen:
        piece = seen.piece
        if is_structure(seen, known.bearer):
            yield piece.id, partial(structure_terms, scene, seen)
        elif seen.is_silent:
            continue
        elif piece.kind in (PieceKind.PLATE, PieceKind.PAPER):
            yield piece.id, partial(plates.sheet_terms, scene, sheets[piece.id])
        elif piece.kind is PieceKind.PANEL and piece.assembly == known.bearer:
            yield piece.id, partial(panels.panel_terms, scene, seen)


def home_of(known: Noted, item_id: str) -> str:
    """The core whose own number it is, if it is one."""
    item = known.car.book.item(item_id)
    return item.home if item is not None else ""


def ties_of(
    known: Noted, sheets: dict[str, PlateOrPaper]
) -> Iterator[tuple[str, str, DateSeen, DateSeen]]:
    """Each core and paper that names the day of its stamp, with the stamp and what is named."""
    for sheet_id, sheet in sheets.items():
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
    same = max(same, float(named.floor)) * (1 - PAPER_SLIP) + PAPER_SLIP * days.flat(named)
    link = days.link_to_car(known.car.book, known.car.context, named.item, False)
    assert link is not None
    curve = days.curve(known.grid, (days.DatedLink(named, link),))
    ratio = same / float(curve[known.grid.own] @ known.grid.prior)
    copied = rates["struck.record"].reshape(-1)
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


PAPER_SLIP = 0.005
"""Days copied wrongly onto a paper: one in 200."""
