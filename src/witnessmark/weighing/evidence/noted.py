"""What was seen of each piece, surface by surface, in the form in which it is weighed.

Numbers are the likelihoods of FieldSeen's places (never the cells again), codes those of its
codes by value, dates those of its days; looks, absence and removal are of a whole surface.
What rests on memory is left out: it explains but carries no weight.
"""

from dataclasses import dataclass
from enum import StrEnum

from witnessmark.casefile.records import LookClass, Seen
from witnessmark.codebook.marks import Mark
from witnessmark.codebook.pieces import Piece
from witnessmark.weighing.arrays import Array, Days


class NumberIs(StrEnum):
    """Whether a number was read, was never struck (nothing is there) or was taken off (ground,
    skimmed)."""

    READ = "read"
    ABSENT = "absent"
    REMOVED = "removed"


READ, ABSENT, REMOVED = NumberIs
UNLISTED = "not listed"


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class NumberSeen:
    """What one mark shows of one number.

    `rows` is P(seen at each place | character), shape (places, alphabet). `always`: this works
    always struck the mark. `is_bare`: told as removed, since nothing stands at a place that
    looks disturbed.
    """

    item: str
    mark: str
    status: NumberIs
    rows: Array
    always: bool
    is_again: bool = False
    is_bare: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class CodeSeen:
    """P(what was seen of a code | value), for a claimed item.

    `by_number`: a number says it, of which the likelihood is weighed already wherever it is not
    asked for the item itself.
    """

    item: str
    mark: str
    values: dict[str, float]
    by_number: bool = False

    def joined(self, other: "CodeSeen") -> "CodeSeen":
        """The same code shown by two marks: a value that one does not list is none of its own."""
        rest, mine = other.values[UNLISTED], self.values[UNLISTED]
        values = {
            value: self.values.get(value, mine) * other.values.get(value, rest)
            for value in dict.fromkeys((*self.values, *other.values))
        }
        return CodeSeen(self.item, self.mark, values, self.by_number and other.by_number)


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class DateSeen:
    """P(what was seen of a date | day): the days that matter (ordinals), each with its
    likelihood; `floor` is that of any other day. `window`: days over which such a date lies
    where it has nothing to do with the car."""

    item: str
    mark: str
    field: str
    name: str
    days: Days
    likelihood: Array
    floor: float
    is_cast: bool
    is_again: bool = False
    window: float = 1186.0


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class SurfaceSeen:
    """All that was seen on one surface. `how`: the best way in which anybody read
    it, `look_how` that in which somebody saw how it looks;
    `is_again`: it was read again after something did not fit. `is_gone`: nothing of a plate is
    there. `is_seamed`: were signs of cutting and joining seen about a structure's mark;
    `fixings`: how what holds a plate looks, where `look` is that of the plate itself.
    `bears_identity`: a mark of it bears the identification number. `has_signs`: of a piece that
    the works number again: what they leave beside a mark looks as theirs, and the metal does
    not."""

    id: str
    marks: tuple[Mark, ...]
    bears_identity: bool = False
    numbers: tuple[NumberSeen, ...] = ()
    codes: tuple[CodeSeen, ...] = ()
    dates: tuple[DateSeen, ...] = ()
    look: LookClass | None = None
    look_how: Seen = Seen.IN_PERSON
    how: Seen = Seen.IN_PERSON
    is_again: bool = False
    is_gone: bool = False
    is_seamed: bool | None = None
    fixings: LookClass | None = None
    has_signs: bool = False

    @property
    def is_silent(self) -> bool:
        """Was nothing noted of it?"""
        return not (
            self.numbers
            or self.codes
            or self.dates
            or self.look is not None
            or self.is_gone
            or self.is_seamed is not None
            or self.fixings is not None
        )


@dataclass(frozen=True, slots=True, eq=False)
class PieceSeen:
    """One piece with what was seen of it, the surface that bears its number first."""

    piece: Piece
    surfaces: tuple[SurfaceSeen, ...]

    @property
    def main(self) -> SurfaceSeen:
        """The surface that may have been struck again: the one with a number, else the first."""
        return self.surfaces[0]

    @property
    def is_silent(self) -> bool:
        """Was nothing noted of it?"""
        return all(surface.is_silent for surface in self.surfaces)

    @property
    def numbers(self) -> tuple[NumberSeen, ...]:
        """All numbers that it shows."""
        return tuple(number for surface in self.surfaces for number in surface.numbers)

    @property
    def codes(self) -> tuple[CodeSeen, ...]:
        """All claimed codes that it shows."""
        return tuple(code for surface in self.surfaces for code in surface.codes)

    @property
    def dates(self) -> tuple[DateSeen, ...]:
        """All dates that it shows."""
        return tuple(day for surface in self.surfaces for day in surface.dates)
