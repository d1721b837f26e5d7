"""A reading in which two marks were typed together: a stamp with the serial beside it.

An engine pad bears the stamp of assembly and, behind or before it, the car's number; who
copies the pad copies both. What stands beside the one mark and has the form of another
mark of the same part is read as that one.
"""

from dataclasses import replace

from witnessmark.codebook import CodeBook, Mark
from witnessmark.decoding.records import Beside
from witnessmark.reading import STRAINED, Reading, parse_as

RUN_TOGETHER, MOST_TOGETHER = 5.0, 40
"""From this strain on, and up to this length, a text is cut in two to see whether it is two."""

LEAST_CELLS = 3
"""Characters of which another mark is made out at least."""


def beside(reading: Reading, book: CodeBook, mark: Mark) -> Beside | None:
    """The other mark that was typed before or behind this one, or None."""
    if _fits(reading) or reading.problems:
        return None
    for start, end in _stretches_around(reading):
        found = _parted(reading, book, mark, start, end)
        if found is not None:
            return found
    return _run_together(reading, book, mark)


def _fits(reading: Reading) -> bool:
    layout = reading.layout
    return layout.strain < STRAINED and not (layout.around or layout.unread)


def _is_whole(reading: Reading) -> bool:
    """Does a text fit a mark as it stands, with nothing missing?"""
    return reading.layout.is_complete and _fits(reading) and not reading.problems


def _stretches_around(reading: Reading) -> list[tuple[int, int]]:
    """Where, as places of the text, something stands before or behind the mark that belongs to
    no field of it."""
    layout = reading.layout
    own = [c.column for placed in layout.placed for c in placed.cells if c.column]
    if not own:
        return []
    columns = sorted(cell.column for cell in (*layout.around, *layout.unread))
    behind = [column for column in columns if column > max(own)]
    before = [column for column in columns if column < min(own)]
    found = [each for each in (behind, before) if len(each) >= LEAST_CELLS]
    return [(each[0] - 1, each[-1]) for each in found]


def _run_together(reading: Reading, book: CodeBook, mark: Mark) -> Beside | None:
    """Two marks typed without a blank between them: each way to cut them in two."""
    text = reading.as_typed
    if reading.layout.strain < RUN_TOGETHER or not text.isalnum() or len(text) > MOST_TOGETHER:
        return None
    for cut in range(LEAST_CELLS, len(text) - LEAST_CELLS + 1):
        for start, end in ((cut, len(text)), (0, cut)):
            found = _parted(reading, book, mark, start, end)
            if found is not None:
                return found
    return None


def _parted(reading: Reading, book: CodeBook, mark: Mark, start: int, end: int) -> Beside | None:
    """The text with one stretch read as another mark, where the rest is whole by itself."""
    text = reading.as_typed
    own = _again(reading, mark, text[:start] + " " * (end - start) + text[end:])
    if not _is_whole(own):
        return None
    for other in _of_the_same_part(book, mark):
        found = _again(reading, other, " " * start + text[start:end])
        if _is_whole(found):
            return Beside(other, replace(found, as_typed=text[start:end]), own)
    return None


def _again(reading: Reading, mark: Mark, text: str) -> Reading:
    """A part of the same text as a reading of this mark, each character at its own column."""
    return replace(parse_as(text, mark, reading), as_typed=reading.as_typed)


def _of_the_same_part(book: CodeBook, mark: Mark) -> list[Mark]:
    """Other marks of the same place, then those of the same assembly."""
    others = [each for each in book.marks if each.id != mark.id]
    same_site = [each for each in others if mark.site and each.site == mark.site]
    same_part = [each for each in others if mark.assembly and each.assembly == mark.assembly]
    return [*same_site, *(each for each in same_part if each not in same_site)]
