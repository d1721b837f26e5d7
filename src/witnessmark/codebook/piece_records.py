"""Pieces as a book declares them: what is made and replaced as one."""

from enum import StrEnum

from witnessmark.codebook.records import UNKNOWN, CarRow
from witnessmark.documents.row import free_text, identifier, word


class SoldInService(StrEnum):
    """Was the piece sold, to take the place of the first one?"""

    YES = "yes"
    NO = "no"
    UNKNOWN = UNKNOWN


class PieceKind(StrEnum):
    """What a piece is, which decides how it may have come to the car."""

    STRUCTURE = "structure"
    PANEL = "panel"
    CORE = "core"
    FITTED = "fitted"
    PLATE = "plate"
    PAPER = "paper"

    @property
    def is_whole(self) -> bool:
        """Is it that of which an assembly has one, and which its question is about?"""
        return self in (PieceKind.STRUCTURE, PieceKind.CORE)


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


class Piece(CarRow, called="a piece"):
    """What is made and replaced as one: a block, a door, a plate, a paper.

    `stage` is None where a book leaves it to the assembly.
    """

    id: str = identifier("Its id, which marks name under `piece`.", names="piece")
    name: str = free_text("What it is called in sentences: engine block.")
    kind: PieceKind = word("What kind of piece it is.", PieceKind, instead=PieceKind.FITTED)
    assembly: str = identifier(
        "The assembly it belongs to; empty for plates and papers.", of="assembly", default=""
    )
    sold_in_service: SoldInService = word(
        "Was it sold in service, to take the place of the first one?",
        SoldInService,
        default=SoldInService.UNKNOWN,
    )
    service_numbers: ServiceNumbers = word(
        "Who struck the car's number on one that was supplied in service.",
        ServiceNumbers,
        default=ServiceNumbers.NEVER,
    )
    stage: Stage | None = word(
        "When in the building of a car it came to it; by its assembly where empty.",
        ("", *Stage),
        default="",
        read=lambda stage: Stage(stage) if stage else None,
    )
