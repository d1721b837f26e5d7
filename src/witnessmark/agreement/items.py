"""All showings of an item on the marks of a car, and what the claim says of it.

Marks and fields come in the order of the book, never in that of entry, and the
readings of one mark are pooled, so that who typed first changes nothing.
"""

from dataclasses import dataclass, replace

from witnessmark.agreement.of_car import own_first, own_words
from witnessmark.agreement.records import CarMarks
from witnessmark.agreement.showing import (
    CLAIM,
    TITLE,
    CodeValue,
    DateValue,
    Showing,
    certain_places,
)
from witnessmark.agreement.values import code_values, date_values
from witnessmark.catalogue import as_said, marked, said
from witnessmark.codebook import (
    IN_FULL,
    MODEL,
    Applies,
    Basis,
    CarContext,
    Citation,
    CodeBook,
    Field,
    Item,
    ItemKind,
    Mark,
    MarkKind,
)
from witnessmark.dates import PartialDate
from witnessmark.decoding import (
    Decoding,
    FieldSeen,
    as_written,
    bare,
    cars_given,
    fields_said,
    pooled,
)
from witnessmark.decoding.options import as_typed
from witnessmark.decoding.records import UNTYPED_COLUMN
from witnessmark.reading import AsRead, Cell, kept_beside

BUILD_DATE = Item(id="build_date", name=marked("build date"), kind=ItemKind.DATE)
"""The car's own build date, where the book does not name the item itself."""

_STATED = Citation(Basis.COMMON_PRACTICE, "")


def showings(car: CarMarks, item_id: str) -> tuple[Showing, ...]:
    """Every showing of one item on the marks that were read, in the order of the book."""
    return tuple(showing for showing in all_showings(car) if showing.item.id == item_id)


def shown_on(car: CarMarks, mark_id: str) -> tuple[Showing, ...]:
    """Every item that one mark shows, in the order of its fields."""
    return tuple(showing for showing in all_showings(car) if showing.mark == mark_id)


def said_of(car: CarMarks, item_id: str) -> tuple[Showing, ...]:
    """The same of one item, and what is claimed of it."""
    return (*showings(car, item_id), *each_claimed(car, item_id))


@kept_beside
def all_showings(car: CarMarks) -> tuple[Showing, ...]:
    """All showings of a car, made once for all rules; none of what is another thing's mark."""
    found = (
        _showing(car, mark, field, item)
        for mark in car.book.marks
        if not car.book.is_of_another_thing(mark, car.context)
        for field in fields_said(car.book, mark)
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
    item = car.book.item(item_id) or (build_date_item() if item_id == BUILD_DATE.id else None)
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


def each_claimed(car: CarMarks, item_id: str) -> tuple[Showing, ...]:
    """What is claimed of an item, each value of one of which a car has several by itself."""
    item = car.book.item(item_id)
    if item is None or not item.many:
        claim = claimed(car, item_id)
        return () if claim is None else (claim,)
    return tuple(
        _claimed_code(car, item, value)
        for value in car.casefile.claim.items.get(item_id, "").split()
    )


def build_date_item() -> Item:
    """`BUILD_DATE` with its name in the language of the page."""
    return replace(BUILD_DATE, name=as_said(BUILD_DATE.name))


def _as_claimed(item: Item, text: str) -> Showing:
    shown = AsRead(text, mark=CLAIM, field=item.id, item=item.id)
    return Showing(
        mark=CLAIM,
        name="claim",
        kind=None,
        field=item.id,
        field_name=item.name,
        table="",
        item=item,
        shown=shown,
        citation=_STATED,
        width=len(text),
    )


def _claimed_number(car: CarMarks, item: Item, text: str) -> Showing:
    number = bare(text)
    shown = _as_claimed(item, as_written(car.book, item, number, car.context))
    fits = item.length in (0, len(number)) and set(number) <= set(item.alphabet)
    return replace(shown, places=certain_places(number, item), is_whole=True) if fits else shown


def _claimed_code(car: CarMarks, item: Item, text: str) -> Showing:
    value = "-".join(text.lower().split())
    shown = _as_claimed(item, value)
    meaning = _known_meaning(car, item, value)
    if not meaning:
        return shown
    return replace(
        shown,
        values=(
            CodeValue(
                code="", value=value, meaning=meaning, share=1.0, is_listed=True, citation=_STATED
            ),
        ),
    )


def _known_meaning(car: CarMarks, item: Item, value: str) -> str:
    """What a canonical value of this item means in the book, on such a car before any other;
    empty where it knows none such."""
    book = car.book
    fields = [f for mark in book.marks for f in mark.fields if f.says == item.id]
    tables = {field.table for field in fields if field.table}
    named = [works.name for works in book.works if (works.role, works.id) == (item.id, value)]
    if item.id == MODEL:
        named += [model.name for model in book.models if model.id == value]
    rows = [row for row in book.codes if row.table in tables and row.value == value]
    named += [row.meaning for row in sorted(rows, key=lambda r: not r.applies.covers(car.context))]
    named += [f.empty.meaning for f in fields if f.empty is not None and f.empty.value == value]
    return next((name or value for name in named), "")


def _claimed_date(_: CarMarks, item: Item, text: str) -> Showing:
    shown = _as_claimed(item, text)
    try:
        span = PartialDate.parse(text).span()
    except ValueError:
        return shown
    return replace(shown, dates=(DateValue("", span, 1.0, _STATED),))


def shown_on_title(car: CarMarks) -> tuple[Showing, ...]:
    """Every item that a whole number on the title shows, in the order of its fields; none
    where it is the bare number."""
    mark = car.book.mark(car.title.mark) if car.title is not None else None
    if car.title is None or mark is None:
        return ()
    known = own_first(car.book, car.known, own_words(car.title))
    asked = _Asked(car.book, mark, known, cars_given(car.book, known), (car.title,))
    seen = {field: each for (_, field), each in pooled(car.book, (car.title,), car.rates).items()}
    found = []
    for field in fields_said(car.book, mark):
        item = car.book.item(field.says)
        if field.id in seen and item is not None:
            found.append(_as_seen(asked, field, item, seen[field.id]))
    name = said("title")
    kind = MarkKind.PAPER
    return tuple(replace(each, mark=TITLE, name=name, kind=kind) for each in found if each)


def _showing(car: CarMarks, mark: Mark, field: Field, item: Item) -> Showing | None:
    """One field of one mark, or None where nothing of it was typed."""
    seen = car.seen(mark, field)
    if seen is None:
        return None
    known, cars = car.known_of(mark.id), car.cars_of(mark.id)
    return _as_seen(_Asked(car.book, mark, known, cars, car.of(mark.id)), field, item, seen)


@dataclass(frozen=True, slots=True)
class _Asked:
    """A mark, and for which cars what stands on it is looked up."""

    book: CodeBook
    mark: Mark
    known: CarContext
    cars: Applies
    decodings: tuple[Decoding, ...]


def _as_seen(asked: _Asked, field: Field, item: Item, seen: FieldSeen) -> Showing | None:
    """What was seen of one field as a showing; None where nothing of it was typed."""
    book, mark = asked.book, asked.mark
    texts = sorted(filter(None, (as_typed(each.cells.cells) for each in seen.readings)))
    if not texts:
        return None
    showing = Showing(
        mark=mark.id,
        name=mark.name,
        kind=mark.kind,
        field=field.id,
        field_name=field.name,
        table=field.table,
        item=item,
        shown=AsRead(
            " / ".join(dict.fromkeys(texts)),
            mark=mark.id,
            field=field.id,
            item=item.id,
            part=field.part,
        ),
        citation=mark.citation,
        is_empty=seen.is_empty,
        is_whole=field.part == IN_FULL and item.kind is ItemKind.NUMBER,
        width=max(_typed(each.cells.cells) for each in seen.readings),
    )
    if showing.is_empty:
        return _left_empty(showing, field)
    if item.kind is ItemKind.NUMBER:
        return replace(showing, places=seen.places, lacks=seen.lacks)
    if seen.is_open or seen.lacks:
        return replace(showing, lacks=seen.lacks)
    if field.table:
        values = code_values(seen, book, mark, field=field, known=asked.known, cars=asked.cars)
        return replace(showing, values=values, places=seen.places)
    if field.date_form:
        meant = date_values(
            seen, book, mark, field=field, cars=asked.cars, decodings=asked.decodings
        )
        return replace(showing, dates=meant.days, placeholder=meant.placeholder)
    return showing


def _typed(cells: tuple[Cell, ...]) -> int:
    return sum(cell.column != UNTYPED_COLUMN for cell in cells)


def _left_empty(showing: Showing, field: Field) -> Showing:
    """An empty field says the value that the book gives for it, if it gives one."""
    empty = field.empty
    if empty is None or not empty.value:
        return showing
    value = CodeValue(
        code="",
        value=empty.value,
        meaning=empty.meaning,
        share=1.0,
        is_listed=True,
        citation=empty.citation,
    )
    return replace(showing, values=(value,))
