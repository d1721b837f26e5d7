"""Pieces: what is made and replaced as one, and on which of them each mark stands.

Questions are about pieces ("engine" is the block), and marks of one surface are struck,
ground or skimmed together. Until a book declares its pieces, `pieces_of` derives them from
what the book has: the assembly and the carrier of a mark, how it was made, its site, and
what its fields say. What a book declares goes before what is derived.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import Carried, HowMade, Mark, MarkKind
from witnessmark.codebook.records import (
    Applies,
    Assembly,
    AssemblyKind,
    CarContext,
    Citation,
)


class PieceKind(StrEnum):
    """What a piece is, which decides how it may have come to the car."""

    STRUCTURE = "structure"
    PANEL = "panel"
    CORE = "core"
    FITTED = "fitted"
    PLATE = "plate"
    PAPER = "paper"


class ServiceNumbers(StrEnum):
    """Who numbered a piece that was supplied in service."""

    NEVER = "never"
    DEALER = "by dealer"
    WORKS = "by works"
    OFFICE = "by office"


class Stage(StrEnum):
    """When in the building of a car a piece came to it."""

    CHASSIS = "chassis"
    BODY = "body"
    DEALER = "dealer"


@dataclass(frozen=True, slots=True)
class Piece:
    """What is made and replaced as one.

    `assembly` is the one it belongs to, empty for plates and papers of the whole car.
    `sold_in_service`: yes, no or unknown.
    """

    id: str
    name: str
    kind: PieceKind
    assembly: str
    sold_in_service: str
    service_numbers: ServiceNumbers
    stage: Stage
    applies: Applies
    citation: Citation


@dataclass(frozen=True, slots=True)
class Standing:
    """On which piece, and on which surface of it, a mark stands."""

    mark: str
    piece: str
    surface: str


@dataclass(frozen=True, slots=True)
class Pieces:
    """The pieces of a car, and where its marks stand.

    `bearers` are the assemblies that bear its identity, one or two. `numbers_follow`: what
    the order of the identification numbers follows, "line", "order" or "unknown".
    """

    pieces: tuple[Piece, ...]
    standings: tuple[Standing, ...]
    bearers: tuple[str, ...]
    numbers_follow: str

    def marks_on(self, piece: str) -> tuple[Standing, ...]:
        """Where the marks of one piece stand."""
        return tuple(each for each in self.standings if each.piece == piece)


FITTED_WORDS = frozenset(
    {"head", "heads", "intake", "exhaust", "manifold", "carburettor", "pump", "distributor"}
    | {"bellhousing", "generator", "alternator", "starter", "injector"}
)
"""Trade words in the name of a place that is no part of the core, but fitted to it."""


def pieces_of(book: CodeBook, context: CarContext) -> Pieces:
    """The pieces of a car of this context; a mark of a further book stands on none."""
    assemblies = {each.id: each for each in book.assemblies_for(context)}
    bearers = tuple(each.id for each in assemblies.values() if each.identity_bearer)
    found: dict[str, Piece] = {}
    standings: list[Standing] = []
    for mark in book.marks_for(context):
        if mark.book:
            continue
        piece = _piece_of(book, mark, assemblies)
        found.setdefault(piece.id, piece)
        standings.append(Standing(mark.id, piece.id, mark.site or mark.id))
    return Pieces(tuple(found.values()), tuple(standings), bearers, _order(book))


def _order(book: CodeBook) -> str:
    return next((item.order for item in book.items if item.identification), "unknown")


def _piece_of(book: CodeBook, mark: Mark, assemblies: dict[str, Assembly]) -> Piece:
    """The piece on which one mark stands, by what the book says of the mark."""
    kind = _kind_of(book, mark, assemblies)
    assembly = assemblies.get(mark.assembly)
    whole = kind in (PieceKind.STRUCTURE, PieceKind.CORE)
    piece_id = mark.assembly if whole else _part_id(mark, kind)
    named = assembly.name if whole and assembly is not None else _part_name(book, mark, kind)
    owner = mark.assembly if kind not in (PieceKind.PLATE, PieceKind.PAPER) or assembly else ""
    return Piece(
        piece_id,
        named,
        kind,
        owner,
        "no" if kind is PieceKind.STRUCTURE else "unknown",
        ServiceNumbers.NEVER,
        _stage(kind, assembly),
        mark.applies,
        mark.citation,
    )


def _kind_of(book: CodeBook, mark: Mark, assemblies: dict[str, Assembly]) -> PieceKind:
    assembly = assemblies.get(mark.assembly)
    if mark.kind is MarkKind.PAPER:
        return PieceKind.PAPER
    if assembly is None:
        return PieceKind.PLATE
    if mark.carried in (Carried.PLATE, Carried.PAPER):
        return PieceKind.FITTED if not assembly.identity_bearer else PieceKind.PLATE
    if mark.carried is Carried.BOLTED_PANEL:
        return PieceKind.PANEL
    if assembly.identity_bearer:
        return PieceKind.STRUCTURE
    return PieceKind.FITTED if set(_words(mark)) & FITTED_WORDS else PieceKind.CORE


def _words(mark: Mark) -> Iterator[str]:
    for text in (mark.site, mark.id):
        yield from text.replace("-", "_").split("_")


def _part_id(mark: Mark, kind: PieceKind) -> str:
    """Marks of one site of one kind stand on one part; papers and plates each on their own."""
    if kind in (PieceKind.PAPER, PieceKind.PLATE):
        return mark.id
    return f"{mark.assembly}:{mark.site or mark.id}"


def _part_name(book: CodeBook, mark: Mark, kind: PieceKind) -> str:
    site = book.site(mark.site) if kind in (PieceKind.PANEL, PieceKind.FITTED) else None
    return site.name if site is not None else mark.name


def _stage(kind: PieceKind, assembly: Assembly | None) -> Stage:
    if kind is PieceKind.PAPER:
        return Stage.DEALER
    of_body = (AssemblyKind.BODY, AssemblyKind.SHELL)
    return Stage.BODY if assembly is None or assembly.kind in of_body else Stage.CHASSIS


def is_struck(mark: Mark) -> bool:
    """Was it struck into the metal, so that it can be struck again there?"""
    return mark.how_made in (HowMade.STRUCK_BY_HAND, HowMade.GANG_STRUCK) and (
        mark.kind is MarkKind.STAMPING
    )
