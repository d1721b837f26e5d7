"""What one field may say: each meaning with its share, and the cars for which it is listed."""

from dataclasses import dataclass

from witnessmark.catalogue import as_said, in_a_row, marked, said
from witnessmark.codebook import (
    IN_FULL,
    Applies,
    Basis,
    CarContext,
    Citation,
    CodeBook,
    Field,
    HowMade,
    Mark,
    Series,
)
from witnessmark.decoding.conditions import conditions_told
from witnessmark.decoding.rates import RATES_SOURCE
from witnessmark.decoding.records import ANY_CARS, UNTYPED_COLUMN, FieldCells, FieldMeaning
from witnessmark.reading import (
    Cell,
    CellKind,
    Reading,
    ReadingRates,
    observation_of,
    place_likelihood,
)

NOT_LISTED = marked("not listed")
CANNOT_BE_READ = marked("cannot be read")
FEW = 3
"""Series that are told as possible, at most."""

IN_NO_SERIES = marked("not in any series that the book lists for such a car")


@dataclass(frozen=True, slots=True, kw_only=True)
class DecodingRequest:
    """What is decoded, and against what; `is_supposed` where nobody typed it so."""

    reading: Reading
    book: CodeBook
    mark: Mark
    context: CarContext
    rates: ReadingRates
    is_supposed: bool = False

    def place(self, cell: Cell, alphabet: str) -> tuple[float, ...]:
        """P(this cell | t) for each character t of the alphabet."""
        by_hand = self.mark.how_made is HowMade.STRUCK_BY_HAND
        observation = observation_of(self.reading, cell)
        return place_likelihood((observation,), alphabet, by_hand, self.rates)


@dataclass(frozen=True)
class FieldOption:
    """One meaning of a field, with its share of all that the field may say.

    `applies`: the cars for which its row is listed.
    """

    share: float
    meaning: FieldMeaning
    applies: Applies = ANY_CARS


def written(cells: tuple[Cell, ...]) -> str:
    """The cells in the notation."""
    return "".join([cell.sign() for cell in cells])


def as_typed(cells: tuple[Cell, ...]) -> str:
    """The cells that were typed, in the notation."""
    return "".join([cell.sign() for cell in cells if cell.column != UNTYPED_COLUMN])


def not_listed(field: Field, cells: tuple[Cell, ...]) -> FieldMeaning:
    """The meaning of a field whose code the book does not have."""
    return FieldMeaning(
        field=field.id,
        code=as_typed(cells) or written(cells),
        says=field.says,
        value="",
        meaning=as_said(NOT_LISTED),
        basis=Basis.ASSUMED,
        source=RATES_SOURCE,
        listed=False,
    )


def empty_option(field: Field, cells: tuple[Cell, ...], mark: Mark) -> FieldOption:
    """A field that was left empty: what the book says that this says."""
    empty = field.empty
    citation = empty.citation if empty else mark.citation
    return FieldOption(
        1.0,
        FieldMeaning(
            field=field.id,
            code=written(cells) or "_",
            says=field.says,
            value=empty.value if empty else "",
            meaning=empty.meaning if empty else said("left empty"),
            basis=citation.basis,
            source=citation.source,
        ),
    )


def unreadable_option(field: Field, cells: tuple[Cell, ...], mark: Mark) -> FieldOption:
    """A field of which no character can be read: it may say anything, so it says nothing."""
    meaning = FieldMeaning(
        field=field.id,
        code=written(cells),
        says=field.says,
        value="",
        meaning=as_said(CANNOT_BE_READ),
        basis=mark.citation.basis,
        source=mark.citation.source,
    )
    return FieldOption(1.0, meaning)


def number_option(
    book: CodeBook,
    mark: Mark,
    field: Field,
    cells: FieldCells,
    rows: tuple[Series, ...] | None,
    known: tuple[Series, ...],
) -> FieldOption:
    """Free characters: one value, with the signs of the notation where it is unsure.

    `rows` are the series that such a number can lie in for the cars in question, None where
    the book lists none for them; `known` those of them of which every condition holds.
    """
    item = book.item(field.says)
    name = item.name if item else field.name
    # Where a place lacks nobody knows which: the value is what was typed and no more.
    value = as_typed(cells.cells) if cells.missing else written(cells.cells)
    citation: Citation = mark.citation
    if field.part != IN_FULL:
        name = part_of(name, field.part)
    elif rows and not cells.missing and not rows[0].is_open:
        told = [rows[0].meaning] if known else [_if_it_holds(book, row) for row in rows[:FEW]]
        name, citation = in_a_row((name, in_a_row(told, "; ")), ": "), rows[0].citation
    elif rows == () and not cells.missing:
        name = in_a_row((name, as_said(IN_NO_SERIES)), ": ")
    meaning = FieldMeaning(
        field=field.id,
        code=as_typed(cells.cells),
        says=field.says,
        value=value,
        meaning=name,
        basis=citation.basis,
        source=citation.source,
    )
    return FieldOption(1.0, meaning)


def _if_it_holds(book: CodeBook, row: Series) -> str:
    """A series that the number is of only where something holds that was not read."""
    return said(
        "{meaning}, with {condition}", meaning=row.meaning, condition=conditions_told(book, row)
    )


def is_clear(cells: tuple[Cell, ...]) -> bool:
    """Was every place read as one character?"""
    return all(cell.kind is CellKind.CLEAR for cell in cells)


def part_of(item: str, part: str) -> str:
    """A part of a number by the number's name: "chassis number, last 4"."""
    which, _, count = part.partition(" ")
    if which == "last":
        return said("{item}, last {count}", item=item, count=count)
    if which == "first":
        return said("{item}, first {count}", item=item, count=count)
    return f"{item}, {part}"
