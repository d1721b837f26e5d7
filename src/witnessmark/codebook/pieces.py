"""Pieces: what is made and replaced as one, and on which of them each mark stands.

Questions are about pieces ("engine" is the block), and marks of one surface are struck,
ground or skimmed together. A book declares pieces where it knows more of them than its marks
tell; of all others `pieces_of` derives what it can from the assembly and the carrier of a mark,
how it was made and its site, so that a short book need not declare any.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import Carried, HowMade, Mark, MarkKind
from witnessmark.codebook.piece_records import (
    Piece,
    PieceKind,
    ServiceNumbers,
    SoldInService,
    Stage,
)
from witnessmark.codebook.records import (
    Assembly,
    AssemblyKind,
    CarContext,
    ItemKind,
    NumbersFollow,
)

__all__ = [
    "FITTED_WORDS",
    "Piece",
    "PieceKind",
    "PieceSurface",
    "Pieces",
    "ServiceNumbers",
    "Stage",
    "is_dated",
    "is_struck",
    "pieces_of",
]


@dataclass(frozen=True, slots=True)
class PieceSurface:
    """On which piece, and on which surface of it, a mark stands."""

    mark: str
    piece: str
    surface: str


@dataclass(frozen=True, slots=True)
class Pieces:
    """The pieces of a car, and where its marks stand.

    `bearers` are the assemblies that bear its identity, one or two. `numbers_follow`: what
    the order of the identification numbers follows, "build", "orders" or "unknown".
    """

    pieces: tuple[Piece, ...]
    standings: tuple[PieceSurface, ...]
    bearers: tuple[str, ...]
    numbers_follow: NumbersFollow

    def of_kind(self, kind: PieceKind) -> tuple[Piece, ...]:
        """The pieces of one kind, in the order of the book."""
        return tuple(piece for piece in self.pieces if piece.kind is kind)

    def marks_on(self, piece: str) -> tuple[PieceSurface, ...]:
        """Where the marks of one piece stand."""
        return tuple(each for each in self.standings if each.piece == piece)


FITTED_WORDS = frozenset(
    (
        *("head", "heads", "intake", "exhaust", "manifold", "carburettor", "carburetor"),
        *("pump", "distributor", "bell", "bellhousing", "generator", "alternator"),
        *("starter", "injector"),
    )
)
"""Trade words in the name of a place that is not part of the core, but fitted to it."""


MOST_CONTEXTS = 64
"""Kinds of car whose pieces are kept in the book; with one more, all are forgotten."""


def pieces_of(book: CodeBook, context: CarContext) -> Pieces:
    """The pieces of a car of this context, worked out once for a book."""
    known: dict[CarContext, Pieces] = vars(book).setdefault("kept: pieces", {})
    found = known.get(context)
    if found is None:
        found = _pieces_of(book, context)
        if len(known) >= MOST_CONTEXTS:
            known.clear()
        known[context] = found
    return found


def _pieces_of(book: CodeBook, context: CarContext) -> Pieces:
    """The pieces of a car of this context; a mark of a further book stands on none.

    A declared piece takes precedence over a derived one, both for the marks that name it and for
    those that name none and would be on a piece of its id, or on the structure or core of its
    assembly. One from memory carries no weight: its marks are treated as if it were not declared.
    A declared core is a piece of the car also where no mark stands on it.
    """
    assemblies = {each.id: each for each in book.assemblies_for(context)}
    bearers = tuple(each.id for each in assemblies.values() if each.identity_bearer)
    rows = [each for each in book.pieces if each.applies.covers(context)]
    declared = [each for each in rows if each.citation.basis.weighs]
    found: dict[str, Piece] = {}
    standings: list[PieceSurface] = []
    for mark in book.marks_for(context):
        if mark.book:
            continue
        derived = _derived(book, mark, assemblies)
        piece = _declared(declared, mark, derived) or derived
        found.setdefault(piece.id, _staged(piece, assemblies))
        standings.append(PieceSurface(mark.id, piece.id, mark.surface or mark.site or mark.id))
    whole = {each.assembly for each in found.values() if each.kind.is_whole}
    for piece in declared:
        if piece.kind is PieceKind.CORE and piece.assembly in assemblies.keys() - whole:
            found.setdefault(piece.id, _staged(piece, assemblies))
    follow = (item.numbers_follow for item in book.items if item.identification)
    numbers_follow = next(follow, NumbersFollow.UNKNOWN)
    return Pieces(tuple(found.values()), tuple(standings), bearers, numbers_follow)


def _declared(declared: list[Piece], mark: Mark, derived: Piece) -> Piece | None:
    """The declared piece on which a mark stands, or None."""
    if mark.piece:
        return next((each for each in declared if each.id == mark.piece), None)
    for each in declared:
        is_same_whole = derived.kind.is_whole and each.assembly == derived.assembly
        if each.kind is derived.kind and (is_same_whole or each.id == derived.id):
            return each
    return None


def _derived(book: CodeBook, mark: Mark, assemblies: dict[str, Assembly]) -> Piece:
    """The piece on which one mark stands, by what the book says of the mark."""
    kind = _kind_of(mark, assemblies)
    assembly = assemblies.get(mark.assembly)
    named = assembly.name if kind.is_whole and assembly is not None else _name(book, mark, kind)
    owner = mark.assembly if kind not in (PieceKind.PLATE, PieceKind.PAPER) or assembly else ""
    return Piece(
        id=mark.assembly if kind.is_whole else _part_id(mark, kind),
        name=named,
        kind=kind,
        assembly=owner,
        sold_in_service=SoldInService.NO if kind is PieceKind.STRUCTURE else SoldInService.UNKNOWN,
        service_numbers=ServiceNumbers.NEVER,
        stage=None,
        applies=mark.applies,
        citation=mark.citation,
    )


def _kind_of(mark: Mark, assemblies: dict[str, Assembly]) -> PieceKind:
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
        # A label is stuck on, and comes off: no part of the metal.
        return PieceKind.PLATE if mark.kind is MarkKind.LABEL else PieceKind.STRUCTURE
    return PieceKind.FITTED if set(_words(mark)) & FITTED_WORDS else PieceKind.CORE


def _words(mark: Mark) -> Iterator[str]:
    for text in (mark.site, mark.id):
        yield from text.replace("-", "_").split("_")


def _part_id(mark: Mark, kind: PieceKind) -> str:
    """Marks of one site of one kind stand on one part; papers and plates each on their own."""
    if kind in (PieceKind.PAPER, PieceKind.PLATE):
        return mark.id
    return f"{mark.assembly}:{mark.site or mark.id}"


def _name(book: CodeBook, mark: Mark, kind: PieceKind) -> str:
    site = book.site(mark.site) if kind in (PieceKind.PANEL, PieceKind.FITTED) else None
    return site.name if site is not None else mark.name


def _staged(piece: Piece, assemblies: dict[str, Assembly]) -> Piece:
    """The piece with the stage at which it joins the car: its own, else that of its assembly."""
    if piece.stage is not None:
        return piece
    if piece.kind is PieceKind.PAPER:
        return replace(piece, stage=Stage.DEALER)
    assembly = assemblies.get(piece.assembly)
    is_body = assembly is None or assembly.kind in (AssemblyKind.BODY, AssemblyKind.SHELL)
    return replace(piece, stage=Stage.BODY if is_body else Stage.CHASSIS)


def is_struck(mark: Mark) -> bool:
    """Was it struck into the metal, so that it can be struck again there?"""
    return mark.how_made in (HowMade.STRUCK_BY_HAND, HowMade.GANG_STRUCK) and (
        mark.kind is MarkKind.STAMPING
    )


def is_dated(book: CodeBook, mark: Mark) -> bool:
    """Does one of its fields say a date?"""
    items = (book.item(field.says) for field in mark.fields)
    return any(item is not None and item.kind is ItemKind.DATE for item in items)
