"""All readings of one car, each decoded once, by what is given and what its marks say.

Marks that bear the identification number are decoded first, in the order in which they are
heard of the car (of_car.py), and then the rest: a stamp that gives no year is read for the
year that the number plate names. A reading that holds two marks becomes two readings. First
look and examination both ask here, so that the same readings always give the same marks.
"""

from collections.abc import Iterator, Set
from dataclasses import dataclass

from witnessmark.agreement.of_car import LAST_RANK, WITH_PAPERS, rank, said_of_car
from witnessmark.agreement.records import CarMarks
from witnessmark.casefile import Casefile, MarkReading
from witnessmark.catalogue import spoken
from witnessmark.codebook import CarContext, CodeBook, Mark, MarkKind
from witnessmark.decoding import Decoding, SlipKind, bears_whole, decode
from witnessmark.decoding.kept import Kept
from witnessmark.decoding.two_marks import beside
from witnessmark.reading import (
    STRAINED,
    Reading,
    ReadingRates,
    kept_beside,
    parse_as,
    parse_reading,
)

OF_ITS_LENGTH = (SlipKind.LETTER, SlipKind.EXCHANGED)
"""Slips that leave every other character of a number at its place."""


@dataclass(frozen=True, slots=True)
class _Heard:
    """A reading with its place in the order of entry, and when its mark is heard."""

    at: tuple[int, int]
    rank: int
    mark: Mark
    reading: Reading


def marks_of_car(
    casefile: Casefile, book: CodeBook, given: CarContext, rates: ReadingRates | None = None
) -> CarMarks:
    """The marks of one case decoded, in the order of entry; a reading of a mark that the book
    does not know is left out."""
    waiting = list(_parsed(book, casefile.readings))
    found: list[tuple[tuple[int, int], Decoding]] = []
    known, title = given, None
    for place in range(LAST_RANK + 1):
        for each in waiting:
            if each.rank == place:
                found.append((each.at, _decoded(book, each, known, rates)))
        if place == WITH_PAPERS:
            read = {each.mark for each in casefile.readings}
            title = _title(casefile.title_paper.number, book, known, rates, read)
        known = said_of_car(book, given, (decoding for _, decoding in found), title).context
    decodings = tuple(decoding for _, decoding in sorted(found, key=lambda pair: pair[0]))
    return CarMarks(
        casefile=casefile, book=book, context=given, decodings=decodings, rates=rates, title=title
    )


MOST_READINGS = 512
"""Readings of one book that are kept as they were decoded last."""


@kept_beside
def _readings(_: CodeBook) -> Kept[Decoding]:
    return Kept(MOST_READINGS)


def _decoded(
    book: CodeBook, heard: _Heard, known: CarContext, rates: ReadingRates | None
) -> Decoding:
    """The reading decoded, or as it was before: whoever changes one reading of a car has all
    others decoded again for the same car."""
    question = (spoken(), heard.mark.id, heard.reading, known, rates)
    return _readings(book).ask(
        question, lambda: decode(heard.reading, book, heard.mark, known, rates)
    )


def _parsed(book: CodeBook, readings: tuple[MarkReading, ...]) -> Iterator[_Heard]:
    """Each reading, and behind one that holds two marks the other one."""
    typed: set[tuple[str, str, str]] = set()
    held: list[_Heard] = []
    for k, each in enumerate(readings):
        mark = book.mark(each.mark)
        if mark is None:
            continue
        reading = parse_as(each.text, mark, each)
        other = beside(reading, book, mark)
        reading = reading if other is None else other.own
        typed.add(_said(reading))
        yield _Heard((k, 0), rank(book, mark), mark, reading)
        if other is not None:
            # Its own text by itself, so that its places are those of what is shown of it.
            alone = parse_as(other.reading.as_typed, other.mark, each)
            held.append(_Heard((k, 1), rank(book, other.mark), other.mark, alone))
    # What the same person also typed by itself is one reading and not two.
    yield from (each for each in held if _said(each.reading) not in typed)


def _said(reading: Reading) -> tuple[str, str, str]:
    return (reading.mark, reading.by, reading.normalised)


def _title(
    text: str, book: CodeBook, known: CarContext, rates: ReadingRates | None, read: Set[str]
) -> Decoding | None:
    """The number on the title decoded as the car's identification mark, one that was `read`
    before others, where it is a whole number of several fields; None where it is the bare
    number, or fits no mark."""
    forms: dict[tuple[str, ...], tuple[Mark, Reading]] = {}
    of_car = {m.id: (m.id not in read, not m.applies.covers(known)) for m in book.marks}
    for mark in sorted(_identification_marks(book), key=lambda m: of_car[m.id]):
        form = tuple(f"{f.says} {f.table} {f.widths} {f.alphabet}" for f in mark.fields)
        if form not in forms and text.strip():
            forms[form] = (mark, parse_reading(text, mark, name="title"))
    as_long = (pair for pair in forms.values() if pair[1].layout.is_complete)
    by_strain = sorted(as_long, key=lambda pair: pair[1].layout.strain)
    whole = [p for p in by_strain if not p[1].problems and p[1].layout.strain < STRAINED]
    # With a slip in it the title still shows a whole number, whose other fields are compared.
    for mark, reading in whole[:1] or by_strain:
        decoding = decode(reading, book, mark, known, rates)
        if whole or (decoding.slip is not None and decoding.slip.kind in OF_ITS_LENGTH):
            return decoding
    return None


def _identification_marks(book: CodeBook) -> Iterator[Mark]:
    """The marks that bear the whole identification number beside other codes, on one line."""
    for mark in book.marks:
        if mark.windows or mark.book or mark.kind is MarkKind.PAPER or len(mark.fields) < 2:
            continue
        items = {book.item(field.says) for field in mark.fields}
        if any(i is not None and i.identification and bears_whole(book, mark, i) for i in items):
            yield mark
