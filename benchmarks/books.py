"""How fast each shipped book opens, and how long it takes to decode 100,000 clear numbers.

Opening is set against the same parsers alone reading the same files into plain lists and
mappings: no record, no check, no place. Decoding is set against the naive decoding of
`benchmarks.decoding`, on the number of each book that has the most codes. Both are counted
in processor time, opening as the best run of several, for other work on the machine can
only add to it.
"""

import csv
import time
from pathlib import Path

import tomli

from benchmarks.decoding import decoded, naive_of
from benchmarks.drawn import well_formed
from benchmarks.figure import Aim, Figure, in_turn, timed
from benchmarks.scale import Scale
from witnessmark.codebook import CodeBook, Mark, open_book, shipped_books

DRAWN = 2_000
"""Different numbers at most; with more to decode they come again."""
OPENED = 15
"""Times each book is opened, in turn with the bare reading."""
LOAD_AIM = Aim("under", 30)
"""Milliseconds of processor time that a shipped book may take to open."""
NUMBERS_AIM = Aim("under", 5)
"""Seconds of processor time that 100,000 clear numbers may take."""


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
    plates = well_formed(book, _most_codes(book), min(count, DRAWN))
    naive = naive_of(plates[0].mark, book)
    typed = [plates[k % len(plates)] for k in range(count)]
    clock = time.process_time
    [own] = timed(lambda: [decoded(p.mark, p.text, book) for p in typed], 1, 0, clock)
    [simple] = timed(lambda: [naive.decoded(p.text) for p in typed], 1, 0, clock)
    return Figure(
        f"100,000 clear numbers by {book.id}",
        own / count * 100,
        "s",
        count,
        ratio=own / simple,
        ratio_to=f"a regular expression ({simple / count * 100:.2f} s)",
        aim=NUMBERS_AIM,
        note=f"{plates[0].mark.name}: one meaning there, no doubt, years, dates or problems",
    )


def _most_codes(book: CodeBook) -> Mark:
    """The mark of one line and one length that has the most codes; of any length where none is
    of one."""

    def wanted(mark: Mark) -> tuple[bool, int]:
        is_fixed = all(len(f.widths) == 1 and not f.optional for f in mark.fields)
        return is_fixed, sum(bool(field.table) for field in mark.fields)

    return max((mark for mark in book.marks if not mark.windows), key=wanted)


def _read_plainly(folder: Path) -> object:
    texts = [path.read_text("utf-8") for path in sorted((folder / "tables").glob("*.csv"))]
    top = tomli.loads((folder / "book.toml").read_text("utf-8"))
    return top, [list(csv.reader(text.splitlines())) for text in texts]
