"""A decoding: all meanings of a reading that fit the code book, in order."""

from dataclasses import dataclass

from witnessmark.codebook.records import Basis
from witnessmark.dates import DateSpan
from witnessmark.problem import Problem
from witnessmark.reading.records import Cell, Reading


@dataclass(frozen=True, slots=True)
class FieldMeaning:
    """What one field says in one alternative.

    `code` is the text as it stands; `value` the canonical value (the number
    itself for free digits); `spans` the days a date code may mean, each with
    equal share. `listed` is False where the book has no such code, and then
    `meaning` is "not listed". `basis` and `source` are those of the row.
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


@dataclass(frozen=True, slots=True)
class Unexplained:
    """Characters that stand in a field and that the book does not explain there.

    `column` is the place of the first of them in the typed text; `reason` says why.
    """

    field: str
    text: str
    column: int
    reason: str


@dataclass(frozen=True, slots=True)
class Note:
    """What the rules of a whole number say of it: `kind` is check, year, structure, maker,
    region, swap or candidates."""

    kind: str
    sentence: str
    basis: Basis
    source: str


@dataclass(frozen=True, slots=True)
class Alternative:
    """One of the meanings, with its share of all that the reading allows."""

    share: float
    fields: tuple[FieldMeaning, ...]


@dataclass(frozen=True, slots=True)
class FieldCells:
    """The cells that belong to one field: what the weighing reads.

    `missing` counts places that the field should have and the reading lacks;
    such a field's cells are filled with worn cells for weighing, never invented.
    `is_empty` is True where the field was visibly never struck.
    """

    field: str
    says: str
    part: str
    cells: tuple[Cell, ...]
    missing: int = 0
    is_empty: bool = False


@dataclass(frozen=True, slots=True)
class Decoding:
    """Ranked meanings of one reading; `alternatives` may be empty (undecoded).

    `not_listed_share` is the share of the reading's probability that no listed
    code explains; `unread` the leftover characters that no field explains;
    `unexplained` the characters that stand in a field without a meaning there;
    `missing` names fields with no or too few characters; `deciding_column` is
    the place of the typed text that decides between the first two alternatives;
    `notes` is what the rules of the whole number say of it.
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


def illegible_marks(decodings: tuple[Decoding, ...]) -> tuple[str, ...]:
    """The ids of marks that were found and of which nobody made out a character."""
    legible = {each.mark for each in decodings if not each.reading.is_illegible}
    return tuple(dict.fromkeys(each.mark for each in decodings if each.mark not in legible))
