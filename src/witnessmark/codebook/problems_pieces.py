"""Problems of pieces: what is made and replaced as one, and the marks that stand on it."""

from dataclasses import dataclass
from typing import override

from witnessmark.problem import Problem


@dataclass(frozen=True, slots=True)
class PieceWithoutAssembly(Problem):
    """A structure, core or panel of no assembly."""

    piece: str
    kind: str

    @override
    def sentence(self) -> str:
        return f"the piece {self.piece!r} is a {self.kind} and belongs to no assembly"

    @override
    def expected(self) -> str:
        return "the assembly it belongs to"


@dataclass(frozen=True, slots=True)
class PieceOutsideBearer(Problem):
    """A structure of an assembly that bears no identity, or the core of one that does."""

    piece: str
    kind: str
    assembly: str
    is_bearer: bool

    @override
    def sentence(self) -> str:
        bears = "bears" if self.is_bearer else "does not bear"
        return f"{self.piece!r} is a {self.kind}, and {self.assembly!r} {bears} the identity"

    @override
    def expected(self) -> str:
        return "kind structure for an identity bearer, core for any other assembly"


@dataclass(frozen=True, slots=True)
class TwoWholes(Problem):
    """Two structures or cores of one assembly of the same cars."""

    piece: str
    other: str
    assembly: str

    @override
    def sentence(self) -> str:
        return f"{self.piece!r} and {self.other!r} are each what {self.assembly!r} is about"

    @override
    def expected(self) -> str:
        return "one structure or core for each assembly of a car; what is fitted to it is fitted"


@dataclass(frozen=True, slots=True)
class NumberedNotSold(Problem):
    """A piece that was not sold in service, and that somebody numbered there."""

    piece: str
    numbers: str

    @override
    def sentence(self) -> str:
        return f"{self.piece!r} was not sold in service, and was numbered there {self.numbers}"

    @override
    def expected(self) -> str:
        return 'service_numbers = "never", or sold_in_service "yes" or "unknown"'


@dataclass(frozen=True, slots=True)
class MarkOffPiece(Problem):
    """A mark that stands on a piece of another assembly or of another kind than its own."""

    mark: str
    piece: str
    reason: str

    @override
    def sentence(self) -> str:
        return f"the mark {self.mark!r} cannot stand on the piece {self.piece!r}: {self.reason}"

    @override
    def expected(self) -> str:
        return "a piece of the mark's own assembly, and a paper for a paper alone"


@dataclass(frozen=True, slots=True)
class SurfaceOfTwo(Problem):
    """One surface on two pieces: it would be struck, ground or skimmed on both at once."""

    surface: str
    mark: str
    other: str

    @override
    def sentence(self) -> str:
        marks = f"{self.mark!r} and, on another piece, {self.other!r}"
        return f"the surface {self.surface!r} bears {marks}"

    @override
    def expected(self) -> str:
        return "a surface that belongs to one piece"


@dataclass(frozen=True, slots=True)
class PartAfterCar(Problem):
    """A lag by which a part could be dated after the car that it is part of."""

    item: str
    days: int

    @override
    def sentence(self) -> str:
        made = f"cannot be made {self.days} days after its car"
        return f"{self.item!r} stands on a part, which {made}"

    @override
    def expected(self) -> str:
        return "least_days of 0 or more; only what a plate or paper states may follow the car"
