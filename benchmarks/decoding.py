"""How many plates a second are decoded, beside a naive decoding by regular expression.

The naive one is written here over the same tables: one pattern for each mark,
the first row for each code. It reads clear characters only and gives one
meaning. It knows no doubt and no share, no second meaning, no year, model or
works, no date, no number's series, no problem with a place, and drops what does
not match; so it says what the tables cost, not what the job costs.

Plates of many windows are set against only cutting their text into fields, which any
decoding has to do first. All that is decoded here is well formed, or is such a text with
a part of its characters worn away or one of two.
"""

import gc
import re
import time
from collections.abc import Callable, Iterable
from dataclasses import dataclass

from benchmarks.cars import Car
from benchmarks.drawn import Drawn, NotDrawnError, well_formed
from benchmarks.figure import Aim, Figure
from benchmarks.scale import Scale
from witnessmark.codebook import CodeBook, Field, Mark, MarkKind, find_book, open_book
from witnessmark.decoding import decode
from witnessmark.reading import parse_reading

BOOKS = ("chevrolet-1964-1972", "ford-1964-1973", "tarvane-1952-1961")
"""The books whose plates have many windows."""

PLATES_AIM = Aim("over", 2_000)
SLOWEST_AIM = Aim("under", 20)
"""Plates of many windows a second, and milliseconds that any one reading may take."""


@dataclass(frozen=True, slots=True)
class Naive:
    """The pattern of one mark, and for each field the meaning of each code."""

    pattern: re.Pattern[str]
    meanings: dict[str, dict[str, str]]

    def decoded(self, text: str) -> dict[str, str] | None:
        """Field to meaning, or None where the plate does not match."""
        match = self.pattern.fullmatch(text)
        if match is None:
            return None
        found = match.groupdict("")
        return {name: self.meanings[name].get(code, code) for name, code in found.items()}


def measure(car: Car, scale: Scale) -> list[Figure]:
    """Clear plates and doubtful ones, by us; the clear ones, naively; plates of many windows
    of each book, and the slowest of many doubtful readings."""
    plates = drawn_plates(car.book, scale.plates)
    naive = {plate.mark.id: naive_of(plate.mark, car.book) for plate in plates}
    clear = _per_second(lambda p: decoded(p.mark, p.text, car.book), plates)
    doubtful = _per_second(lambda p: decoded(p.mark, p.doubtful, car.book), plates)
    simple = _per_second(lambda p: naive[p.mark.id].decoded(p.text), plates)
    beside = f"a regular expression ({simple:,.0f} plates/s)"
    count = len(plates)
    left_out = "clear characters, one meaning: no doubt, shares, years, dates, series or problems"
    ratio = clear / simple
    books = [opened(name) for name in BOOKS]
    return [
        Figure("decoding, clear plates", clear, "plates/s", count, ratio=ratio, ratio_to=beside),
        Figure("decoding, doubtful plates", doubtful, "plates/s", count),
        Figure("the naive decoding", simple, "plates/s", count, note=left_out),
        *(of_many_windows(book, scale.plates) for book in books),
        slowest(books, scale.doubtful),
    ]


def of_many_windows(book: CodeBook, count: int) -> Figure:
    """Well-formed plates of all marks of the book that have many windows."""
    marks = [mark for mark in book.marks if mark.windows and len(mark.windows_in_order()) > 1]
    plates = drawn_of(book, marks, count)
    own = _per_second(lambda p: decoded(p.mark, p.text, book), plates)
    cut = _per_second(lambda p: parse_reading(p.text, p.mark), plates)
    return Figure(
        f"plates of many windows by {book.id}",
        own,
        "plates/s",
        len(plates),
        ratio=own / cut,
        ratio_to=f"only cutting the text ({cut:,.0f} plates/s)",
        aim=PLATES_AIM,
    )


def slowest(books: Iterable[CodeBook], count: int) -> Figure:
    """The reading that takes longest of many doubtful ones, none of them read before."""
    found: list[tuple[float, float]] = []
    gc.collect()
    gc.freeze()  # What other measures left behind is not gone through meanwhile.
    for book in books:
        for each in drawn_of(book, list(book.marks), count):
            start = time.process_time()
            reading = parse_reading(each.doubtful, each.mark)
            cut = time.process_time()
            decode(reading, book, each.mark)
            found.append((time.process_time() - start, cut - start))
    gc.unfreeze()
    took, cut = max(found)
    return Figure(
        "the slowest doubtful reading",
        took * 1e3,
        "ms",
        len(found),
        ratio=took / max(cut, time.get_clock_info("process_time").resolution),
        ratio_to=f"only cutting its text ({cut * 1e3:.2f} ms)",
        aim=SLOWEST_AIM,
    )


def opened(name: str) -> CodeBook:
    """A shipped book by its name."""
    folder = find_book(name)
    found = open_book(folder).book if folder is not None else None
    assert found is not None, name
    return found


def decoded(mark: Mark, text: str, book: CodeBook) -> object:
    """One plate, from what was typed to its meanings."""
    return decode(parse_reading(text, mark), book, mark)


def _per_second(work: Callable[[Drawn], object], plates: list[Drawn]) -> float:
    for plate in plates[:20]:
        work(plate)
    start = time.process_time()
    for plate in plates:
        work(plate)
    return len(plates) / (time.process_time() - start)


def drawn_plates(book: CodeBook, count: int) -> list[Drawn]:
    """So many plates of the book's own marks, drawn from its tables; always the same ones."""
    marks = [mark for mark in book.marks if mark.kind is not MarkKind.PAPER]
    return drawn_of(book, marks, count)


def drawn_of(book: CodeBook, marks: list[Mark], count: int) -> list[Drawn]:
    """About so many plates, of each mark as many, in turn; none of a mark whose fields cannot be
    told apart."""
    found: list[tuple[Drawn, ...]] = []
    for mark in marks:
        try:
            found.append(well_formed(book, mark, max(1, count // len(marks))))
        except NotDrawnError:
            continue
    return [plate for plates in zip(*found, strict=True) for plate in plates]


def codes_of(field: Field, book: CodeBook) -> dict[str, str]:
    """Code to meaning; the first row of each code."""
    found: dict[str, str] = {}
    if field.table:
        for row in book.table(field.table):
            found.setdefault(row.code, row.meaning)
    return found


def naive_of(mark: Mark, book: CodeBook) -> Naive:
    """The naive decoding of one mark."""
    meanings = {field.id: codes_of(field, book) for field in mark.fields}
    windows = mark.windows_in_order() if mark.windows else (mark.fields,)
    lines = (" ?".join(_pattern(field, meanings[field.id]) for field in line) for line in windows)
    return Naive(re.compile(r"\|".join(lines)), meanings)


def _pattern(field: Field, codes: dict[str, str]) -> str:
    if codes:
        inside = "|".join(re.escape(code) for code in sorted(codes, key=len, reverse=True))
    else:
        widths = field.widths or (1,)
        inside = f"[{re.escape(field.alphabet)}]{{{min(widths)},{max(widths)}}}"
    return f"(?:{re.escape(field.before)}(?P<{field.id}>{inside})){'?' if field.optional else ''}"
