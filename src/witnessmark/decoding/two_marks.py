"""A reading in which two marks were typed together: a stamp with the serial beside it.

An engine pad bears the stamp of assembly and, behind or before it, the car's number; who
copies the pad copies both. What stands beside the one mark and has the form of another
mark of the same part is read as that one.
"""

from dataclasses import dataclass

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import Mark
from witnessmark.reading import Reading, parse_reading
from witnessmark.reading.layout import STRAINED

LEAST_CELLS = 3
"""Characters of which another mark is made out at least."""


@dataclass(frozen=True, slots=True)
class Beside:
    """Another mark that was typed with one, and its own reading."""

    mark: Mark
    reading: Reading


def beside(reading: Reading, book: CodeBook, mark: Mark) -> Beside | None:
    """The other mark that was typed before or behind this one, or None."""
    text = _text_around(reading)
    if text is None:
        return None
    for other in _of_the_same_part(book, mark):
        found = parse_reading(
            text,
            other,
            legibility=reading.legibility,
            orientation=reading.orientation,
            seen=reading.seen,
            by=reading.by,
            name=other.id,
        )
        is_whole = not any(p.missing for p in found.layout.placed if not p.field.optional)
        if is_whole and found.layout.strain < STRAINED and not found.problems:
            return Beside(other, found)
    return None


def _text_around(reading: Reading) -> str | None:
    """What was typed before or behind the mark and belongs to no field of it."""
    layout = reading.layout
    cells = sorted((*layout.around, *layout.unread), key=lambda cell: cell.column)
    own = [c.column for placed in layout.placed for c in placed.cells if c.column]
    if len(cells) < LEAST_CELLS or not own:
        return None
    behind = [cell.column for cell in cells if cell.column > max(own)]
    before = [cell.column for cell in cells if cell.column < min(own)]
    for columns in sorted((behind, before), key=len, reverse=True):
        if len(columns) >= LEAST_CELLS:
            return reading.as_typed[columns[0] - 1 : columns[-1]]
    return None


def _of_the_same_part(book: CodeBook, mark: Mark) -> list[Mark]:
    """Other marks of the same place, then those of the same assembly."""
    others = [each for each in book.marks if each.id != mark.id]
    same_site = [each for each in others if mark.site and each.site == mark.site]
    same_part = [each for each in others if mark.assembly and each.assembly == mark.assembly]
    return [*same_site, *(each for each in same_part if each not in same_site)]
