"""Pieces as a book declares them: what is made and replaced as one."""

from dataclasses import dataclass
from enum import StrEnum

from witnessmark.codebook.records import Applies, Citation

UNKNOWN = "unknown"
SOLD = ("yes", "no", UNKNOWN)
"""Was the piece sold in service?"""


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


@dataclass(frozen=True, slots=True)
class Piece:
    """What is made and replaced as one.

    `assembly` is the one it belongs to, empty for plates and papers of the whole car.
    `sold_in_service`: yes, no or unknown. `stage` is None where a book leaves it to the
    assembly.
    """

    id: str
    name: str
    kind: PieceKind
    assembly: str
    sold_in_service: str
    service_numbers: ServiceNumbers
    stage: Stage | None
    applies: Applies
    citation: Citation
