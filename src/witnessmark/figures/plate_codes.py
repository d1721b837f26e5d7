"""What stands in each field of a mark and what it says, in words, ready to be drawn."""

from dataclasses import dataclass

from witnessmark.catalogue import counted, either, said
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import Field, Mark
from witnessmark.dates import DateSpan
from witnessmark.decoding.put_together import fields_in_order
from witnessmark.decoding.records import UNTYPED_COLUMN, Decoding, FieldCells, FieldMeaning
from witnessmark.decoding.unexplained import FOREIGN, NO_DATE
from witnessmark.reading import SILENT
from witnessmark.reading.records import CellKind
from witnessmark.wording import date_text, share_text

SURE = 0.99
"""A meaning with at least this share is told without it."""

ALL_TOLD = 0.95
"""Listed alternatives that hold this much of everything stand for the whole."""

NEARLY_TOLD = 0.9
"""Where they hold this much, a field with one meaning among them is told without a share."""

LEAST_SHOWN = 0.01
OTHERS_SHOWN = 3
SPANS_SHOWN = 3


@dataclass(frozen=True, slots=True)
class PlateCode:
    """One field of a mark, by its id: its number in the drawing, what was read and what it says.

    `row` and `column` are those of its window; `read` is the text in the signs of the
    notation, empty where nothing was noted; `says` are the lines of the explanation, the
    likeliest meaning first.
    """

    field: str
    number: int
    row: int
    column: int
    name: str
    heading: str
    before: str
    read: str
    says: tuple[str, ...]
    is_empty: bool
    is_listed: bool


def plate_codes(mark: Mark, decoding: Decoding, book: CodeBook) -> tuple[PlateCode, ...]:
    """The fields of a mark in reading order, numbered from 1."""
    cells_of = {cells.field: cells for cells in decoding.field_cells}
    return tuple(
        _code(number, field, cells_of.get(field.id), decoding, book)
        for number, field in enumerate(fields_in_order(book, mark), 1)
    )


def _code(
    number: int, field: Field, cells: FieldCells | None, decoding: Decoding, book: CodeBook
) -> PlateCode:
    read = _as_read(cells, decoding)
    shares = _shares(field, decoding)
    return PlateCode(
        field=field.id,
        number=number,
        row=field.row,
        column=field.column,
        name=field.name,
        heading=field.heading,
        before=field.before.strip(),
        read=read,
        says=(*_says(field, cells, read, shares, book), *_foreign(field, decoding)),
        is_empty=cells is not None and cells.is_empty,
        is_listed=not shares or shares[0][0].listed,
    )


def _as_read(cells: FieldCells | None, decoding: Decoding) -> str:
    """The places that were typed, in the signs of the notation; places lost as one sign."""
    if cells is None:
        return ""
    gaps = {cell.column: cell for cell in decoding.reading.cells if cell.kind is CellKind.GAP}
    signs: dict[int, str] = {}
    for cell in cells.cells:
        if cell.column != UNTYPED_COLUMN:
            signs[cell.column] = gaps.get(cell.column, cell).sign()
    return "".join(signs.values())


def _shares(field: Field, decoding: Decoding) -> list[tuple[FieldMeaning, float]]:
    """The meanings of one field with their shares, the likeliest first: of everything, or of
    what the alternatives list where that is nearly everything."""
    shares: dict[FieldMeaning, float] = {}
    for alternative in decoding.alternatives:
        for meaning in alternative.fields:
            if meaning.field == field.id:
                shares[meaning] = shares.get(meaning, 0.0) + alternative.share
    listed = sum(shares.values())
    whole = listed if listed >= ALL_TOLD else 1.0
    ordered = sorted(shares.items(), key=lambda each: -each[1])
    return [(meaning, share / whole) for meaning, share in ordered]


def _says(
    field: Field,
    cells: FieldCells | None,
    read: str,
    shares: list[tuple[FieldMeaning, float]],
    book: CodeBook,
) -> tuple[str, ...]:
    """The lines of the explanation."""
    if cells is not None and cells.is_empty:
        if field.empty is None:
            return (said("left empty"),)
        return (said("left empty: {meaning}", meaning=field.empty.meaning),)
    if not read:
        if cells is not None and field.optional and not cells.missing:
            return (said("nothing is here; the book says that it may be left out"),)
        return (said("nothing was noted here"),)
    lines = _meaning_lines(field, cells, read, shares, book)
    missing = cells.missing if cells is not None else 0
    if missing:
        lines.append(counted("{number} place is missing", "{number} places are missing", missing))
    return tuple(lines)


def _meaning_lines(
    field: Field,
    cells: FieldCells | None,
    read: str,
    shares: list[tuple[FieldMeaning, float]],
    book: CodeBook,
) -> list[str]:
    """What was read, in words: the likeliest meaning, then those that it could also be."""
    if cells is not None and all(cell.kind in SILENT for cell in cells.cells):
        return [said("cannot be read")]
    if not shares:
        return [said("undecoded, which is no fault of the car")]
    told_share = sum(share for _, share in shares)
    is_sure = shares[0][1] >= SURE * told_share and told_share >= NEARLY_TOLD
    if is_sure:
        return [_words(field, shares[0][0], read, book)]
    all_told = told_share >= ALL_TOLD
    lines = []
    for place, (meaning, share) in enumerate(shares[: OTHERS_SHOWN + 1]):
        if place and share < LEAST_SHOWN:
            break
        text = _words(field, meaning, read, book)
        lines.append(_with_share(text, share_text(share), bool(place), all_told))
    left = sum(share >= LEAST_SHOWN for _, share in shares) - len(lines)
    if left > 0:
        lines.append(counted("and {number} other meaning", "and {number} other meanings", left))
    return lines


def _with_share(text: str, share: str, is_other: bool, is_all_told: bool) -> str:
    """A meaning and its share; "at least" where the decoding lists only the likeliest."""
    if is_other and is_all_told:
        return said("or {meaning} ({share})", meaning=text, share=share)
    if is_other:
        return said("or {meaning} (at least {share})", meaning=text, share=share)
    if is_all_told:
        return said("{meaning} ({share})", meaning=text, share=share)
    return said("{meaning} (at least {share})", meaning=text, share=share)


def _words(field: Field, meaning: FieldMeaning, read: str, book: CodeBook) -> str:
    """One meaning in words; its code before it where that is not what was read."""
    if not meaning.listed:
        return _unlisted(field)
    text = _own_words(field, meaning, book)
    code = meaning.code.strip()
    if field.table and code and code != read.strip():
        return said("{code}: {meaning}", code=code, meaning=text)
    return text


def _unlisted(field: Field) -> str:
    if field.date_form:
        return said("not listed: no date of this form")
    return said("not listed")


def _own_words(field: Field, meaning: FieldMeaning, book: CodeBook) -> str:
    if meaning.spans:
        return _days(meaning.spans)
    item = book.item(field.says)
    text = meaning.meaning
    for name in (field.name, item.name if item else field.name):
        if text == name:
            return said("a number, as it was read")
        text = text.removeprefix(f"{name}: ")
    return text or meaning.value


def _days(spans: tuple[DateSpan, ...]) -> str:
    """The days a date code may mean: all of a few, else how many and between which."""
    if len(spans) > SPANS_SHOWN:
        return said(
            "one of {number} dates from {first} to {last}",
            number=len(spans),
            first=date_text(min(span.first for span in spans)),
            last=date_text(max(span.last for span in spans)),
        )
    return either(map(_span, spans))


def _span(span: DateSpan) -> str:
    if span.first == span.last:
        return date_text(span.first)
    return said("{first} to {last}", first=date_text(span.first), last=date_text(span.last))


def _foreign(field: Field, decoding: Decoding) -> tuple[str, ...]:
    """Characters that were read there and that the field cannot have."""
    return tuple(
        said("“{text}” is not among the characters of this field", text=each.text)
        for each in decoding.unexplained
        if each.field == field.id and each.reason == FOREIGN
    )


def unread_lines(decoding: Decoding, names: dict[str, str]) -> tuple[tuple[str, str], ...]:
    """What has no meaning: the characters, and why each is drawn apart."""
    lines = []
    for each in decoding.unexplained:
        name = names.get(each.field, each.field)
        if each.reason == NO_DATE:
            why = said("{field}: no date of this form", field=name)
        elif each.reason == FOREIGN:
            why = said("{field}: not among the characters of this field", field=name)
        else:
            why = said("{field}: not listed by the book", field=name)
        lines.append((each.text, why))
    if decoding.unread:
        lines.append((decoding.unread, said("left over: no field of this mark explains it")))
    return tuple(lines)
