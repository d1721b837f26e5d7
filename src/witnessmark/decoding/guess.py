"""Which books and marks a text found on a car could belong to, and what speaks for each.

A mark is the likelier the better its form and its codes foresee the text. What a text says for a
mark is counted in bits against any letters and figures: log2 of P(text | this mark) over
P(text | any of 36 signs at each place). Of a code that is listed it is one of as many as are
listed there, of a date one of its days, of a number one of those in the series that the book
has for it, or any of its figures where it has none. This ranks; it
weighs nothing of a car.
"""

from collections.abc import Hashable, Iterable, Iterator
from dataclasses import dataclass, replace
from math import log2

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import DatePart, Field, Mark
from witnessmark.codebook.records import IN_FULL
from witnessmark.decoding.by_its_book import decode
from witnessmark.decoding.mark_meant import of_another_car
from witnessmark.decoding.put_together import fields_said
from witnessmark.decoding.records import UNTYPED_COLUMN, Decoding, FieldCells, FieldMeaning
from witnessmark.reading import parse_reading
from witnessmark.reading.layout import STRAINED
from witnessmark.reading.records import CellKind

ANY_LENGTH = log2(20)
"""Bits of so many characters and no other: texts on a car have one to twenty. Assumed."""

ANY_SIGN = log2(36)
"""Bits of one letter or figure where nothing is known."""

UNLISTED = 0.02
"""P(a code is none of those listed): lists leave gaps. Assumed; it only ranks."""

AMISS = log2(100)
"""Bits that a place too many, or a field too few, costs. Assumed; it only ranks."""

WORDS = 12
"""Letters beyond all that its fields hold which may have been typed with a mark: its name, a
label. A longer text is none of it."""

UNREAD = "?~"
"""The signs that each stand for a place, which a mark must have."""

LEAST = 6.0
"""Bits below which a mark is not told: many other texts would fit it as well."""

WAYS = {
    DatePart.DAY: 31,
    DatePart.MONTH: 12,
    DatePart.MONTH_LETTER: 12,
    DatePart.YEAR_DIGIT: 10,
    DatePart.YEAR_TWO: 30,
    DatePart.YEAR_FOUR: 30,
    DatePart.WEEK: 53,
    DatePart.WEEK_LETTER: 5,
    DatePart.DAY_COUNT: 3650,
    DatePart.LITERAL: 1,
}
"""So many values each part of a date can have, about."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Guess:
    """What the text could be: one mark of a book, or several that would read it alike.

    `bits` is what speaks for it; `decoding` is that of the first of `marks`, `speaks` its fields
    in which the text means something, `against` the names of those that it leaves empty or
    gives a code that is not listed.
    """

    book: CodeBook
    marks: tuple[Mark, ...]
    decoding: Decoding
    bits: float
    speaks: tuple[FieldMeaning, ...]
    against: tuple[str, ...]


def guess(books: Iterable[CodeBook], text: str) -> tuple[Guess, ...]:
    """All that the text could be by these books, the likeliest first; empty where nothing
    speaks for any mark of theirs."""
    if not any(map(str.isalnum, text)):
        return ()  # places that nobody could read speak for nothing
    found: dict[Hashable, Guess] = {}
    for each in (each for book in books for mark in book.marks for each in _of(book, mark, text)):
        meant = tuple((said.code, said.value, said.basis) for said in each.speaks)
        key = (each.book.id, meant, each.against, round(each.bits, 3))
        before = found.get(key)
        found[key] = each if before is None else replace(before, marks=before.marks + each.marks)
    return tuple(sorted(found.values(), key=lambda each: -each.bits))


def _of(book: CodeBook, mark: Mark, text: str) -> Iterator[Guess]:
    """What the text would be as this mark; nothing where too little speaks for it."""
    most = sum(max(field.widths) + len(field.before) for field in mark.fields)
    if sum(sign.isalnum() or sign in UNREAD for sign in text) > most + WORDS:
        return
    reading = parse_reading(text, mark)
    if reading.problems or not reading.cells or reading.layout.strain >= STRAINED:
        return
    decoding = decode(reading, book, mark)
    if decoding.is_unlike or not decoding.alternatives:
        return
    fields = {field.id: field for field in (*mark.fields, *fields_said(book, mark))}
    meanings = {each.field: each for each in decoding.alternatives[0].fields}
    wanting = [fields[each] for each in decoding.missing if not fields[each].optional]
    amiss = len(wanting) + len(decoding.unread) + of_another_car(mark, book, decoding)
    bits = ANY_LENGTH - AMISS * amiss
    for cells in decoding.field_cells:
        bits += _bits(book, fields[cells.field], cells, meanings.get(cells.field))
    if bits >= LEAST:
        unlisted = [fields[id].name for id, each in meanings.items() if not each.listed]
        yield Guess(
            book=book,
            marks=(mark,),
            decoding=decoding,
            bits=bits,
            speaks=tuple(each for each in meanings.values() if each.listed),
            against=(*unlisted, *(field.name for field in wanting)),
        )


def _bits(book: CodeBook, field: Field, cells: FieldCells, meaning: FieldMeaning | None) -> float:
    """What the characters of one field say for it; a place that was not read says nothing."""
    typed = [cell for cell in cells.cells if cell.column != UNTYPED_COLUMN]
    read = sum(cell.kind is CellKind.CLEAR for cell in typed)
    if not read:
        return 0.0
    whole = len(cells.cells)
    free = read * log2(max(len(field.alphabet), 2))
    if field.table:
        rows = {row.code for row in book.table(field.table) if len(row.code) == whole}
        listed = log2(max(len(rows), 1)) * read / whole - log2(1 - UNLISTED)
        is_listed = meaning is not None and meaning.listed
        expected = min(listed, free) if is_listed else free - log2(UNLISTED)
    elif field.date_form:
        ways = sum(log2(WAYS[token.part]) for token in field.tokens)
        is_dated = meaning is not None and meaning.listed
        expected = min(ways, free) if is_dated else free - log2(UNLISTED)
    elif read == whole and (numbers := _numbers(book, field)):
        text = "".join(cell.characters for cell in cells.cells)
        is_known = any(int(text) in each for each in numbers) if text.isdecimal() else False
        known = log2(sum(map(len, numbers))) - log2(1 - UNLISTED)
        expected = min(known, free) if is_known else free - log2(UNLISTED)
    else:
        expected = free
    return read * ANY_SIGN - expected - log2(len(field.widths))


def _numbers(book: CodeBook, field: Field) -> tuple[range, ...]:
    """The numbers that the book has for the item of this field, where it is written in full."""
    if field.part != IN_FULL:
        return ()
    rows = (row for row in book.series if row.item == field.says)
    return tuple(
        range(int(row.first), int(row.last) + 1)
        for row in rows
        if row.first.isdecimal() and row.last.isdecimal()
    )
