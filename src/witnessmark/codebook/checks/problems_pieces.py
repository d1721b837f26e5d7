"""Problems of pieces: what is made and replaced as one, and the marks that stand on it."""

from witnessmark.problem import Problem


class PieceWithoutAssembly(Problem):
    """A structure, core or panel of no assembly."""

    piece: str
    kind: str
    says = "the piece {piece!r} is a {kind} and belongs to no assembly"
    wants = "the assembly it belongs to"


class PieceOutsideBearer(Problem):
    """A structure of an assembly that bears no identity, or the core of one that does."""

    piece: str
    kind: str
    assembly: str
    is_bearer: bool
    wants = "kind structure for an identity bearer, core for any other assembly"

    @property
    def says(self) -> str:
        """Which of the two."""
        if self.is_bearer:
            return "{piece!r} is a {kind}, and {assembly!r} bears the identity"
        return "{piece!r} is a {kind}, and {assembly!r} does not bear the identity"


class TwoWholes(Problem):
    """Two structures or cores of one assembly of the same cars."""

    piece: str
    other: str
    assembly: str
    says = "{piece!r} and {other!r} are both the main piece of {assembly!r}"
    wants = "one structure or core for each assembly of a car; a piece on it is of kind fitted"


class NumberedNotSold(Problem):
    """A piece that was not sold in service, and that somebody numbered there."""

    piece: str
    numbers: str
    says = "{piece!r} was not sold in service, and was numbered there {numbers}"
    wants = 'service_numbers = "never", or sold_in_service "yes" or "unknown"'


class MarkOffPiece(Problem):
    """A mark that stands on a piece of another assembly or of another kind than its own."""

    mark: str
    piece: str
    reason: str
    says = "the mark {mark!r} cannot stand on the piece {piece!r}: {reason}"
    wants = "a piece of the mark's own assembly, and a paper for a paper alone"


class SurfaceOfTwo(Problem):
    """One surface on two pieces: it would be struck, ground or skimmed on both at once."""

    surface: str
    mark: str
    other: str
    says = "the surface {surface!r} bears {mark!r} and, on another piece, {other!r}"
    wants = "a surface that belongs to one piece"


class PartAfterCar(Problem):
    """A lag by which a part could be dated after the car that it is part of."""

    item: str
    days: int
    says = "{item!r} is on a part, which cannot be made {days} days after its car"
    wants = "least_days of 0 or more; only what a plate or paper states may follow the car"
