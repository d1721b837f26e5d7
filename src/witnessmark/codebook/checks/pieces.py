"""Pieces: of an assembly that can have them, one whole each, and marks that can stand on them."""

from collections.abc import Iterator
from itertools import combinations

from witnessmark.codebook.checks.problems_marks import (
    MarkOffPiece,
    NumberedNotSold,
    PartAfterCar,
    PieceOutsideBearer,
    PieceWithoutAssembly,
    SurfaceOfTwo,
    TwoWholes,
)
from witnessmark.codebook.checks.problems_rows import Gap
from witnessmark.codebook.draft import Draft
from witnessmark.codebook.marks import Mark, MarkKind
from witnessmark.codebook.piece_records import Piece, PieceKind, ServiceNumbers, SoldInService
from witnessmark.documents.entries import Placed
from witnessmark.problem import Problem

BUILD_DATE = "build_date"
MOST_PIECES = 200
"""A book with more structures and cores than any car has parts is compared for the first."""


def check_pieces(draft: Draft) -> Iterator[Problem]:
    """Every declared piece, and every mark that names a piece or a surface."""
    for piece in draft.pieces:
        yield from _check_piece(piece, draft)
    for check in (_check_wholes, _check_marks, _check_surfaces, _check_order):
        yield from check(draft)


def _check_piece(piece: Placed[Piece], draft: Draft) -> Iterator[Problem]:
    """Its assembly and its service, by its kind."""
    record, entry = piece.record, piece.entry
    if not entry.is_written("kind"):
        return
    needs = record.kind.is_whole or record.kind is PieceKind.PANEL
    if needs and not record.assembly and "assembly" not in entry.faulty:
        yield PieceWithoutAssembly(entry.source("assembly"), record.id, record.kind)
    owner = next((a.record for a in draft.assemblies if a.record.id == record.assembly), None)
    is_structure = record.kind is PieceKind.STRUCTURE
    if record.kind.is_whole and owner is not None and owner.identity_bearer != is_structure:
        source = entry.source("kind")
        yield PieceOutsideBearer(source, record.id, record.kind, owner.id, owner.identity_bearer)
    if (
        record.sold_in_service is SoldInService.NO
        and record.service_numbers is not ServiceNumbers.NEVER
    ):
        yield NumberedNotSold(entry.source("service_numbers"), record.id, record.service_numbers)


def _check_wholes(draft: Draft) -> Iterator[Problem]:
    """An assembly of a car has one structure or core."""
    wholes = [p for p in draft.pieces if p.record.kind.is_whole and p.record.assembly]
    for other, piece in combinations(wholes[:MOST_PIECES], 2):
        one, two = other.record, piece.record
        if one.assembly == two.assembly and draft.cars.meet(one.applies, two.applies):
            yield TwoWholes(piece.entry.source("id"), two.id, one.id, two.assembly)


def _check_marks(draft: Draft) -> Iterator[Problem]:
    """A mark stands on a piece of its own, which every car that the mark covers has."""
    pieces = {piece.record.id: piece.record for piece in draft.pieces}
    for mark in draft.marks:
        record, entry = mark.record, mark.entry
        piece = pieces.get(record.piece)
        if piece is None or not entry.is_written("kind"):
            continue
        reason = _unfit(record, piece)
        if reason:
            yield MarkOffPiece(entry.source("piece"), record.id, piece.id, reason)
        for left in draft.cars.left_out(record.applies, [piece.applies]):
            asked_by = f"the mark {record.id!r}"
            yield Gap(entry.source("piece"), f"the piece {piece.id!r}", asked_by, left)


def _unfit(mark: Mark, piece: Piece) -> str:
    """Why this mark cannot stand on this piece; empty where it can."""
    if (mark.kind is MarkKind.PAPER) != (piece.kind is PieceKind.PAPER):
        return f"a {mark.kind} on a {piece.kind}"
    if mark.assembly and mark.assembly != piece.assembly:
        return f"one is of {mark.assembly!r}, the other of {piece.assembly or 'no assembly'!r}"
    return ""


def _check_surfaces(draft: Draft) -> Iterator[Problem]:
    """A surface that is named belongs to one piece of a car."""
    named: dict[str, list[Placed[Mark]]] = {}
    for mark in draft.marks:
        if mark.record.surface:
            named.setdefault(mark.record.surface, []).append(mark)
    for surface, marks in named.items():
        first = marks[0].record
        for each in marks[1:]:
            record = each.record
            owners = {(m.piece, m.assembly) for m in (first, record)}
            if len(owners) > 1 and draft.cars.meet(first.applies, record.applies):
                source = each.entry.source("surface")
                yield SurfaceOfTwo(source, surface, record.id, first.id)


def _check_order(draft: Draft) -> Iterator[Problem]:
    """No part is made after its car. What a plate or a paper states is an event and may lie on
    either side of the day of building."""
    on_parts = {f.says for m in draft.marks if m.record.assembly for f in m.record.fields}
    for lag in draft.lags:
        record = lag.record
        is_of_part = record.earlier in on_parts and record.later == BUILD_DATE
        if is_of_part and record.least_days < 0 and lag.entry.is_written("least_days"):
            yield PartAfterCar(lag.entry.source("least_days"), record.earlier, -record.least_days)
