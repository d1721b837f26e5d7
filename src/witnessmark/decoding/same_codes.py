"""Clear readings with the same codes mean the same but for their serial number.

What a number adds is in which series of the book it lies and between which known cars:
two numbers between the same neighbours are one case. So the decoding of a clear reading
is kept by its codes and that place, and the next one is the same with its own number.
"""

from bisect import bisect_right
from collections.abc import Callable, Hashable
from dataclasses import replace

from witnessmark.casefile.words import Legibility, Orientation, Seen
from witnessmark.catalogue import spoken
from witnessmark.codebook import CodeBook, Mark
from witnessmark.decoding.align import AlignedField, Alignment
from witnessmark.decoding.kept import Kept, kept
from witnessmark.decoding.options import as_typed, written
from witnessmark.decoding.records import (
    UNTYPED_COLUMN,
    Alternative,
    Decoding,
    FieldCells,
    FieldMeaning,
)
from witnessmark.reading import STRAINED, Reading

DECODINGS_KEPT = 4000
"""Decodings of one mark that are kept; with one more, all are forgotten."""

_USUAL = (Legibility.CLEAR, Orientation.UPRIGHT, Seen.IN_PERSON)


def same_codes(reading: Reading, book: CodeBook, mark: Mark, alignment: Alignment) -> Hashable:
    """What tells the decoding of this reading from others but for its number; None where it is
    not clear throughout, or a rule for whole numbers asks for every character."""
    layout = reading.layout
    if reading.problems or mark.number_rules or alignment.unread:
        return None
    if not layout.is_cut and (layout.strain or layout.around or layout.unread or layout.spelt):
        return None
    texts: list[Hashable] = []
    for aligned in alignment.fields:
        if not layout.is_cut and not isinstance(aligned.key, str):
            return None
        texts.append(place_among_named(book, aligned) if aligned.is_number else aligned.key)
    return tuple(texts), layout.strain >= STRAINED, how_read(reading), spoken()


def how_read(reading: Reading) -> Hashable:
    """How a reading was made, as what is asked again and again: 0 for clear and in person."""
    how = (reading.legibility, reading.orientation, reading.seen)
    return 0 if how == _USUAL else how


def place_among_named(book: CodeBook, aligned: AlignedField) -> Hashable:
    """The length of a number, and between which numbers that the book names it lies; the cells
    themselves where it is not clear."""
    number = aligned.key
    if not isinstance(number, str):
        return number
    says, length = aligned.field.says, len(number)
    named = kept(book, "named numbers", (says, length), lambda: _named(book, says, length))
    return length, bisect_right(named, number)


def _named(book: CodeBook, item: str, length: int) -> list[str]:
    """Every number of this length at which a series or a known car begins, and behind which one
    ends, in order."""
    ends = [
        end for row in book.series if row.item == item for end in (row.first, f"{row.last}\x00")
    ]
    for point in book.points:
        if point.item == item and point.first:
            ends += [point.first, f"{point.first}\x00", f"{point.last or point.first}\x00"]
    return sorted(end for end in set(ends) if len(end.rstrip("\x00")) == length)


def kept_decoding(
    book: CodeBook,
    mark: str,
    question: Hashable,
    reading: Reading,
    alignment: Alignment,
    answer: Callable[[], Decoding],
) -> Decoding:
    """The kept decoding of the same codes with this reading's own number and places.

    Where a code has no meaning the number may have a part in why (an exchange across their
    border would mend it), and each is decoded by itself.
    """
    answers: Kept[Decoding] = kept(book, "decodings", mark, lambda: Kept(DECODINGS_KEPT))
    known = answers.ask(question, answer)
    if known.reading is reading:
        return known
    if known.slip is not None or known.unexplained:
        return answer()
    cells = tuple([aligned.cells for aligned in alignment.fields])
    numbers = {
        aligned.field.id: _number(aligned) for aligned in alignment.fields if aligned.is_number
    }
    return _with_numbers(known, reading, cells, numbers)


def _number(aligned: AlignedField) -> tuple[str, str]:
    """A number as it was typed, and with the leading noughts that it was typed without."""
    cells, key = aligned.cells.cells, aligned.key
    if isinstance(key, str) and cells and cells[0].column != UNTYPED_COLUMN:
        return key, key
    return as_typed(cells), written(cells)


def _with_numbers(
    known: Decoding,
    reading: Reading,
    cells: tuple[FieldCells, ...],
    numbers: dict[str, tuple[str, str]],
) -> Decoding:
    renewed: dict[FieldMeaning, FieldMeaning] = {}

    def meaning(old: FieldMeaning) -> FieldMeaning:
        number = numbers.get(old.field)
        if number is None or number == (old.code, old.value):
            return old
        code, value = number
        found = renewed.get(old)
        if found is None:
            found = renewed[old] = FieldMeaning(
                field=old.field,
                code=code,
                says=old.says,
                value=value,
                meaning=old.meaning,
                basis=old.basis,
                source=old.source,
            )
        return found

    alternatives = tuple(
        [
            Alternative(each.share, tuple([meaning(old) for old in each.fields]))
            for each in known.alternatives
        ]
    )
    return replace(
        known,
        reading=reading,
        alternatives=alternatives,
        deciding_column=_column(known, cells),
        field_cells=cells,
        slip=None,
        beside=None,
    )


def _column(known: Decoding, cells: tuple[FieldCells, ...]) -> int | None:
    """The place that decides, where it now stands in the text: by its field and not by its
    place among all cells, for a number may be typed with fewer noughts and words beside it."""
    if known.deciding_column is None:
        return None
    pairs = (
        (old, new)
        for own, now in zip(known.field_cells, cells, strict=True)
        for old, new in zip(own.cells, now.cells, strict=True)
    )
    return next((new.column for old, new in pairs if old.column == known.deciding_column), None)
