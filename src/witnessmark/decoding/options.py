"""What one field may say: each meaning with its share."""

from dataclasses import dataclass

from witnessmark.catalogue import as_said, marked, said
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import Field, HowMade, Mark
from witnessmark.codebook.records import Basis, CarContext, Citation, Series
from witnessmark.decoding.align import UNTYPED_COLUMN, AlignedField
from witnessmark.decoding.rates import RATES_SOURCE
from witnessmark.decoding.records import FieldMeaning
from witnessmark.reading import Cell, CellKind, Reading, ReadingRates, observation_of
from witnessmark.reading.likelihood import place_likelihood

NOT_LISTED = marked("not listed")
CANNOT_BE_READ = marked("cannot be read")


@dataclass(frozen=True, slots=True)
class Asked:
    """What is decoded, and against what."""

    reading: Reading
    book: CodeBook
    mark: Mark
    context: CarContext
    rates: ReadingRates

    def place(self, cell: Cell, alphabet: str) -> tuple[float, ...]:
        """P(this cell | t) for each character t of the alphabet."""
        by_hand = self.mark.how_made is HowMade.STRUCK_BY_HAND
        observation = observation_of(self.reading, cell)
        return place_likelihood((observation,), alphabet, by_hand, self.rates)


@dataclass(frozen=True, slots=True)
class FieldOption:
    """One meaning of a field, with its share of all that the field may say."""

    share: float
    meaning: FieldMeaning


def written(cells: tuple[Cell, ...]) -> str:
    """The cells in the notation."""
    return "".join(cell.sign() for cell in cells)


def not_listed(field: Field, cells: tuple[Cell, ...]) -> FieldMeaning:
    """The meaning of a field whose code the book does not have."""
    return FieldMeaning(
        field=field.id,
        code=written(cells),
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


def number_option(asked: Asked, aligned: AlignedField) -> FieldOption:
    """Free characters: one value, with the signs of the notation where it is unsure."""
    field, cells = aligned.field, aligned.cells.cells
    item = asked.book.item(field.says)
    name = item.name if item else field.name
    value = written(cells)
    typed = written(tuple(cell for cell in cells if cell.column != UNTYPED_COLUMN))
    citation: Citation = asked.mark.citation
    if field.part != "all":
        name = part_of(name, field.part)
    elif all(cell.kind is CellKind.CLEAR for cell in cells):
        series = series_of(asked.book, field.says, value, asked.context)
        if series is not None:
            name, citation = f"{name}: {series.meaning}", series.citation
    meaning = FieldMeaning(
        field=field.id,
        code=value if aligned.cells.missing else typed,
        says=field.says,
        value=value,
        meaning=name,
        basis=citation.basis,
        source=citation.source,
    )
    return FieldOption(1.0, meaning)


def part_of(item: str, part: str) -> str:
    """A part of a number by the number's name: "chassis number, last 4"."""
    which, _, count = part.partition(" ")
    if which == "last":
        return said("{item}, last {count}", item=item, count=count)
    if which == "first":
        return said("{item}, first {count}", item=item, count=count)
    return f"{item}, {part}"


def series_of(book: CodeBook, item: str, value: str, context: CarContext) -> Series | None:
    """The series of the book that holds this number on such a car; None where it has none."""
    return next(
        (
            series
            for series in book.series
            if series.item == item
            and len(series.first) == len(value) == len(series.last)
            and series.first <= value <= series.last
            and series.applies.covers(context)
        ),
        None,
    )
