"""All showings of an item on the marks of a car, and what the claim says of it.

Marks and fields come in the order of the book, never in that of entry, and the
readings of one mark are pooled, so that who typed first changes nothing.
"""

from dataclasses import dataclass, replace

from witnessmark.agreement.placing import certain_places, places
from witnessmark.agreement.records import CarMarks
from witnessmark.agreement.showing import CLAIM, CodeValue, DateValue, Showing
from witnessmark.codebook.marks import Field, Mark
from witnessmark.codebook.records import Basis, Citation, Item, ItemKind
from witnessmark.dates import PartialDate
from witnessmark.decoding.align import UNTYPED_COLUMN
from witnessmark.decoding.records import Decoding, FieldCells, FieldMeaning
from witnessmark.reading import SILENT

BUILD_DATE = Item("build_date", "build date", ItemKind.DATE)
"""The car's own build date, where the book does not name the item itself."""

UNNAMED = 1e-9
"""Share of a code that one reading does not name at all, when two readings are pooled."""

_STATED = Citation(Basis.COMMON_PRACTICE, "")


def showings(car: CarMarks, item_id: str) -> tuple[Showing, ...]:
    """Every showing of one item on the marks that were read, in the order of the book."""
    item = car.book.item(item_id)
    if item is None:
        return ()
    found = (
        _showing(mark, field, item, car.of(mark.id))
        for mark in car.book.marks
        for field in mark.fields
        if field.says == item_id
    )
    return tuple(showing for showing in found if showing is not None)


def shown_on(car: CarMarks, mark: Mark) -> tuple[Showing, ...]:
    """Every item that one mark shows, in the order of its fields."""
    decodings = car.of(mark.id)
    found = (
        _showing(mark, field, item, decodings)
        for field in mark.fields
        if (item := car.book.item(field.says)) is not None
    )
    return tuple(showing for showing in found if showing is not None)


def claimed(car: CarMarks, item_id: str) -> Showing | None:
    """What the claim says of an item, or None if it says nothing.

    A claimed value that the book does not know, a number of another length or
    with foreign characters, and a date that is none give a showing that is not
    read: it can be named and not compared.
    """
    claim = car.casefile.claim
    item = car.book.item(item_id) or (BUILD_DATE if item_id == BUILD_DATE.id else None)
    text = claim.items.get(item_id, "")
    if item_id == BUILD_DATE.id and claim.built is not None:
        text = claim.built
    if item is None or not text.strip():
        return None
    parts = {
        ItemKind.NUMBER: _claimed_number,
        ItemKind.CODE: _claimed_code,
        ItemKind.DATE: _claimed_date,
    }
    return parts[item.kind](car, item, text.strip())


def bare(number: str) -> str:
    """A number as it is compared: capitals, without blanks, hyphens, dots and strokes.

    >>> bare("10 55-12")
    '105512'
    """
    return "".join(c for c in number.upper() if c not in " -.–/\t")


def _said(item: Item, text: str) -> Showing:
    return Showing(CLAIM, "claim", None, item.id, item.name, "", item, text, _STATED)


def _claimed_number(_: CarMarks, item: Item, text: str) -> Showing:
    number = bare(text)
    said = _said(item, number)
    fits = item.length in (0, len(number)) and set(number) <= set(item.alphabet)
    return replace(said, places=certain_places(number, item), is_whole=True) if fits else said


def _claimed_code(car: CarMarks, item: Item, text: str) -> Showing:
    value = "-".join(text.lower().split())
    said = _said(item, value)
    meaning = _known_meaning(car, item, value)
    if not meaning:
        return said
    return replace(said, values=(CodeValue("", value, meaning, 1.0, True, _STATED),))


def _known_meaning(car: CarMarks, item: Item, value: str) -> str:
    """What a canonical value of this item means in the book; empty where it knows none such."""
    book = car.book
    fields = [f for mark in book.marks for f in mark.fields if f.says == item.id]
    tables = {field.table for field in fields if field.table}
    named = [works.name for works in book.works if (works.role, works.id) == (item.id, value)]
    if item.id == "model":
        named += [model.name for model in book.models if model.id == value]
    named += [row.meaning for row in book.codes if row.table in tables and row.value == value]
    named += [f.empty.meaning for f in fields if f.empty is not None and f.empty.value == value]
    return next((name or value for name in named), "")


def _claimed_date(_: CarMarks, item: Item, text: str) -> Showing:
    said = _said(item, text)
    try:
        span = PartialDate.parse(text).span()
    except ValueError:
        return said
    return replace(said, dates=(DateValue("", span, 1.0, _STATED),))


def _showing(
    mark: Mark, field: Field, item: Item, decodings: tuple[Decoding, ...]
) -> Showing | None:
    """One field of one mark, or None where nothing of it was typed."""
    if len(decodings) > 1:
        decodings = tuple(sorted(decodings, key=lambda d: (d.reading.as_typed, repr(d.reading))))
    read = [
        (decoding, cells)
        for decoding in decodings
        for cells in decoding.field_cells
        if cells.field == field.id and _text(cells)
    ]
    if not read:
        return None
    texts = dict.fromkeys(_text(cells) for _, cells in read)
    showing = Showing(
        mark=mark.id,
        name=mark.name,
        kind=mark.kind,
        field=field.id,
        field_name=field.name,
        table=field.table,
        item=item,
        shown=" / ".join(texts),
        citation=mark.citation,
        is_empty=all(cells.is_empty for _, cells in read),
        is_whole=field.part == "all",
    )
    if showing.is_empty:
        return _left_empty(showing, field)
    if item.kind is ItemKind.NUMBER:
        placed = places(((d.reading, cells) for d, cells in read), mark, field, item)
        lacks = 0 if placed else max(cells.missing for _, cells in read)
        return replace(showing, places=placed, lacks=lacks)
    return _decoded(showing, [d for d, cells in read if not _says_nothing(cells)])


def _text(cells: FieldCells) -> str:
    """The field as typed; empty where nothing of it was."""
    return "".join(cell.sign() for cell in cells.cells if cell.column != UNTYPED_COLUMN)


def _says_nothing(cells: FieldCells) -> bool:
    """Is no character of the field readable? Then its codes are only the book's own."""
    return all(cell.kind in SILENT for cell in cells.cells)


def _left_empty(showing: Showing, field: Field) -> Showing:
    """An empty field says the value that the book gives for it, if it gives one."""
    empty = field.empty
    if empty is None or not empty.value:
        return showing
    value = CodeValue("", empty.value, empty.meaning, 1.0, True, empty.citation)
    return replace(showing, values=(value,))


@dataclass(frozen=True, slots=True)
class _Meant:
    """One meaning of a field and its share after all readings are pooled."""

    meaning: FieldMeaning
    share: float


def _decoded(showing: Showing, decodings: list[Decoding]) -> Showing:
    """The showing with the values or the days that its readings may mean."""
    meant = _pooled(decodings, showing.field)
    if showing.item.kind is ItemKind.CODE:
        return replace(showing, values=tuple(_value(each) for each in meant))
    placeholders = [m.meaning.meaning for m in meant if m.meaning.placeholder and m.share >= 0.5]
    days = tuple(day for each in meant for day in _days(each))
    return replace(showing, dates=days, placeholder=placeholders[0] if placeholders else "")


def _pooled(decodings: list[Decoding], field: str) -> tuple[_Meant, ...]:
    """Every meaning of one field, the likeliest first.

    Several readings of one mark are multiplied meaning by meaning and brought back
    to a sum of 1; one reading keeps its shares, and what they leave is unexplained.
    """
    each = [_meanings(decoding, field) for decoding in decodings]
    named = sorted({meaning for meanings in each for meaning in meanings}, key=_order)
    meant = []
    for meaning in named:
        share = 1.0
        for meanings in each:
            share *= meanings.get(meaning, UNNAMED)
        meant.append(_Meant(meaning, share))
    total = sum(each.share for each in meant) if len(decodings) > 1 else 1.0
    if total > 0:
        meant = [_Meant(m.meaning, m.share / total) for m in meant]
    return tuple(sorted(meant, key=lambda m: (-m.share, _order(m.meaning))))


def _order(meaning: FieldMeaning) -> tuple[str, str]:
    return meaning.code, meaning.value


def _meanings(decoding: Decoding, field: str) -> dict[FieldMeaning, float]:
    """The meanings of a field in one decoding, the shares of their alternatives summed."""
    found: dict[FieldMeaning, float] = {}
    for alternative in decoding.alternatives:
        for meaning in alternative.fields:
            if meaning.field == field:
                found[meaning] = found.get(meaning, 0.0) + alternative.share
    return found


def _value(meant: _Meant) -> CodeValue:
    m = meant.meaning
    value = m.value if m.listed else m.code
    return CodeValue(m.code, value, m.meaning, meant.share, m.listed, Citation(m.basis, m.source))


def _days(meant: _Meant) -> tuple[DateValue, ...]:
    """The spans of one code, its share dealt out evenly among them."""
    m = meant.meaning
    citation = Citation(m.basis, m.source)
    return tuple(DateValue(m.code, span, meant.share / len(m.spans), citation) for span in m.spans)
