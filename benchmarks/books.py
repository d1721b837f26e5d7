"""How fast each shipped book opens, and how many clear numbers a second it decodes.

Opening is set against the same parsers alone reading the same files into plain lists and
mappings: no record, no check, no place. Both are counted in processor time, the best run of
several, for other work on the machine can only add to it. Decoding is set against the naive
decoding of `benchmarks.decoding`, on the number or plate of each book that has the
most characters.
"""

import csv
import time
from pathlib import Path

import tomli

from benchmarks.decoding import Plate, decoded, drawn_plates, naive_of
from benchmarks.figure import Aim, Figure, in_turn, timed
from benchmarks.scale import Scale
from witnessmark.codebook import CodeBook, open_book, shipped_books

OPENED = 15
"""Times each book is opened, in turn with the bare reading."""
LOAD_AIM = Aim("under", 30)
"""Milliseconds of processor time that a shipped book may take to open."""


def measure(scale: Scale) -> list[Figure]:
    """Two figures a book: opening it, and decoding clear numbers by it."""
    found = []
    for folder in shipped_books():
        book = open_book(folder).book
        assert book is not None, folder.name
        found += [_opening(folder, book), _decoding(book, scale.numbers)]
    return found


def _opening(folder: Path, book: CodeBook) -> Figure:
    own, plain = in_turn(
        lambda: timed(lambda: open_book(folder), 1, 0, time.process_time)[0],
        lambda: timed(lambda: _read_plainly(folder), 1, 0, time.process_time)[0],
        OPENED,
    )
    return Figure(
        f"opening {book.id}",
        min(own),
        "ms",
        OPENED,
        min(own),
        max(own),
        min(own) / min(plain),
        f"tomli and csv alone ({min(plain):.1f} ms)",
        LOAD_AIM,
        "processor time of the best run; every row a record with its place, beside it the bare "
        "texts as lists and mappings",
    )


def _decoding(book: CodeBook, count: int) -> Figure:
    plates = _longest(drawn_plates(book, 40 * len(book.marks)))
    naive = naive_of(plates[0].mark, book)
    typed = [plates[k % len(plates)] for k in range(count)]
    [own] = timed(lambda: [decoded(p.mark, p.clear, book) for p in typed], 1, warm=0)
    [simple] = timed(lambda: [naive.decoded(p.clear) for p in typed], 1, warm=0)
    return Figure(
        f"clear numbers by {book.id}",
        count / own * 1e3,
        "numbers/s",
        count,
        ratio=simple / own,
        ratio_to=f"a regular expression ({count / simple * 1e3:,.0f} numbers/s)",
        note=f"{plates[0].mark.name}: one meaning there, no doubt, years, dates or problems",
    )


def _longest(plates: list[Plate]) -> list[Plate]:
    """The plates of the mark without windows that has the most characters."""
    whole = [plate for plate in plates if not plate.mark.windows] or plates
    most = max(whole, key=lambda plate: len(plate.clear)).mark
    return [plate for plate in whole if plate.mark is most]


def _read_plainly(folder: Path) -> object:
    texts = [path.read_text("utf-8") for path in sorted((folder / "tables").glob("*.csv"))]
    top = tomli.loads((folder / "book.toml").read_text("utf-8"))
    return top, [list(csv.reader(text.splitlines())) for text in texts]
