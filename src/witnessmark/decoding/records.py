"""A decoding: all meanings of a reading that fit the code book, in order."""

from collections.abc import Hashable
from dataclasses import dataclass
from dataclasses import field as declared
from enum import StrEnum

from witnessmark.codebook import Applies, Basis, CarContext, Mark
from witnessmark.dates import DateSpan
from witnessmark.problem import Problem
from witnessmark.reading import (
    WORKING,
    Cell,
    CellKind,
    Observation,
    Reading,
    ReadingRates,
    place_likelihood,
)

NOT_SAID = CarContext()
ANY_CARS = Applies(0, 9999)
"""Listed for no cars in particular."""

UNTYPED_COLUMN = 0
"""The column of a cell that stands nowhere in the typed text."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldMeaning:
    """What one field says in one alternative.

    `code` is the text as it stands; `value` the canonical value (the number
    itself for free digits); `spans` the days a date code may mean, each with
    equal share, those of the car's own years where it has any, and `other_spans` the rest.
    `listed` is False where the book has no such code, and then
    `meaning` is "not listed". `basis` and `source` are those of the row; `plain` is its
    meaning without the years, works and models for which it is listed.
    """

    field: str
    code: str
    says: str
    value: str
    meaning: str
    basis: Basis
    source: str
    listed: bool = True
    placeholder: bool = False
    spans: tuple[DateSpan, ...] = ()
    other_spans: tuple[DateSpan, ...] = ()
    plain: str = declared(default="", compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Unexplained:
    """Characters that stand in a field and that the book does not explain there.

    `column` is the place of the first of them in the typed text; `reason` says why.
    """

    field: str
    text: str
    column: int
    reason: str


class NoteKind(StrEnum):
    """What the rules of a whole number speak of."""

    CHECK = "check"
    YEAR = "year"
    STRUCTURE = "structure"
    MAKER = "maker"
    REGION = "region"


@dataclass(frozen=True, slots=True)
class Note:
    """What the rules of a whole number say of it."""

    kind: NoteKind
    sentence: str
    basis: Basis
    source: str


class SlipKind(StrEnum):
    """In what a text does not fit the form of its mark."""

    SHORT = "short"
    LONG = "long"
    EXCHANGED = "exchanged"
    LETTER = "letter"
    UNLIKE = "unlike"


@dataclass(frozen=True, slots=True)
class Slip:
    """What does not fit the form of a mark, in one sentence, with the form that was expected.

    `column` is the place in the typed text, None where nobody can say; `others` are marks of
    the book whose form it has.
    """

    kind: SlipKind
    sentence: str
    expected: str
    column: int | None
    others: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Beside:
    """Another mark that was typed together with one: its reading, and what is left as the
    reading of the first."""

    mark: Mark
    reading: Reading
    own: Reading


@dataclass(frozen=True, slots=True)
class Alternative:
    """One of the meanings, with its share of all that the reading allows."""

    share: float
    fields: tuple[FieldMeaning, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldCells:
    """The cells that belong to one field: what the weighing reads.

    `missing` counts places that the field should have and the reading lacks;
    such a field's cells are filled with worn cells for weighing, never invented.
    `is_empty` is True where the field was visibly never struck; `is_unsure` where a place
    lacks in another field beside it, and may be one of its own. `lost` of the cells, from
    `lost_at` on, stand for a typed …. `name` is set for a number of which the mark's own fields
    are parts, with other names.
    """

    field: str
    says: str
    part: str
    cells: tuple[Cell, ...]
    missing: int = 0
    is_empty: bool = False
    is_unsure: bool = False
    lost: int = 0
    lost_at: int = 0
    name: str = ""

    @property
    def lacks(self) -> int:
        """Characters that it lacks, or may lack, at no known place."""
        return self.missing or int(self.is_unsure)

    @property
    def key(self) -> Hashable:
        """Equal for cells that say the same: their text where all are clear and none apart."""
        cells = self.cells
        is_whole = not (self.missing or self.is_unsure or self.is_empty or self.lost)
        is_clear = is_whole and {cell.kind for cell in cells} <= _CLEAR
        if is_clear and not any(cell.apart for cell in cells[1:]):
            return "".join([cell.characters for cell in cells])
        signs = tuple([(cell.sign(), cell.apart if at else 0) for at, cell in enumerate(cells)])
        return (signs, self.missing, self.is_unsure, self.is_empty, self.lost, self.lost_at)


_FLAT = 1e-9
_CLEAR = frozenset({CellKind.CLEAR})


@dataclass(frozen=True, slots=True)
class PlaceSeen:
    """One place of a number or code.

    `from_end` counts from the last place of the whole number, which is 0, so
    that "last 4" and "all" meet. `likelihood` is P(all that was seen here | t
    meant) for each t of the field's alphabet; `signs` is what was seen.
    """

    from_end: int
    signs: str
    likelihood: tuple[float, ...]
    seen: tuple[Observation, ...] = declared(default=(), compare=False, repr=False)

    @property
    def is_read(self) -> bool:
        """Does it say anything about the character? A worn place does not."""
        return max(self.likelihood) - min(self.likelihood) > _FLAT * max(self.likelihood)

    @property
    def kinds(self) -> tuple[CellKind, ...]:
        """What kind of cell each examiner noted here."""
        return tuple(each.cell.kind for each in self.seen)


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldSeen:
    """All that was seen of one field of one mark.

    `alphabet` is that of the likelihoods: of a number the item's, of a code that of every
    field with its table. `codes` and `unlisted` are those of a code table, `runs` the
    ways to count the cells of a code or date (usually one). `lacks` counts characters
    that were not typed at no known place; `is_open`: nothing of it could be read.
    """

    mark: str
    field: str
    says: str
    alphabet: str
    by_hand: bool
    places: tuple[PlaceSeen, ...] = ()
    codes: tuple[tuple[str, float], ...] = ()
    unlisted: float = 1.0
    is_empty: bool = False
    is_open: bool = False
    lacks: int = 0
    readings: tuple["CellsSeen", ...] = declared(default=(), compare=False, repr=False)

    def under(self, place: PlaceSeen, rates: ReadingRates) -> tuple[float, ...]:
        """The likelihood of one of its places under other rates of reading."""
        return place_likelihood(place.seen, self.alphabet, self.by_hand, rates)


@dataclass(frozen=True, slots=True)
class CellsSeen:
    """The cells that one field has in one reading, and how that was read."""

    reading: Reading
    cells: FieldCells

    @property
    def key(self) -> Hashable:
        """Equal for two that say the same."""
        reading = self.reading
        return (self.cells.key, reading.legibility, reading.orientation, reading.seen)


@dataclass(frozen=True, slots=True, kw_only=True)
class Decoding:
    """Ranked meanings of one reading; `alternatives` may be empty (undecoded).

    `not_listed_share` is the share of the reading's probability that no listed
    code explains; `unread` the leftover characters that no field explains;
    `unexplained` the characters that stand in a field without a meaning there;
    `missing` names fields with no or too few characters; `deciding_column` is
    the place of the typed text that decides between the first two alternatives;
    `notes` is what the rules of the whole number say of it. `of_car` is what the mark
    itself surely says of its car's year, works and model, `cars` those for which the first
    alternative is read. `slip` says what does not
    fit the form of the mark, `beside` which other mark was typed together with it.
    """

    book: str
    mark: str
    reading: Reading
    alternatives: tuple[Alternative, ...]
    not_listed_share: float
    unread: str
    missing: tuple[str, ...]
    deciding_column: int | None
    field_cells: tuple[FieldCells, ...]
    problems: tuple[Problem, ...] = ()
    unexplained: tuple[Unexplained, ...] = ()
    notes: tuple[Note, ...] = ()
    of_car: CarContext = NOT_SAID
    cars: Applies = ANY_CARS
    slip: Slip | None = None
    beside: Beside | None = declared(default=None, metadata=WORKING)

    @property
    def is_unlike(self) -> bool:
        """Is what was typed nothing like this mark, so that no share has a meaning?"""
        return self.slip is not None and self.slip.kind is SlipKind.UNLIKE


def illegible_marks(decodings: tuple[Decoding, ...]) -> tuple[str, ...]:
    """The ids of marks that were found and of which nobody made out a character."""
    legible = {each.mark for each in decodings if not each.reading.is_illegible}
    return tuple(dict.fromkeys(each.mark for each in decodings if each.mark not in legible))
