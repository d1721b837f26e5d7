"""A reading in which two marks were typed together: a stamp with the serial beside it.

An engine pad bears the stamp of assembly and, behind or before it, the car's number; who
copies the pad copies both. What stands beside the one mark and has the form of another
mark of the same part is read as that one.
"""

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import Mark
from witnessmark.decoding.records import Beside
from witnessmark.reading import Reading, parse_reading
from witnessmark.reading.layout import STRAINED

LEAST_CELLS = 3
"""Characters of which another mark is made out at least."""


def beside(reading: Reading, book: CodeBook, mark: Mark) -> Beside | None:
    """The other mark that was typed before or behind this one, or None."""
    for text in _texts_around(reading):
        found = _other_mark(text, reading, book, mark)
        if found is not None:
            return found
    return None


def _other_mark(text: str, reading: Reading, book: CodeBook, mark: Mark) -> Beside | None:
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


def _texts_around(reading: Reading) -> tuple[str, ...]:
    """What was typed before or behind the mark and belongs to no field of it; without a blank
    between the two, what is left over at an end."""
    layout = reading.layout
    own = [c.column for placed in layout.placed for c in placed.cells if c.column]
    if not own:
        return ()
    columns = sorted(cell.column for cell in (*layout.around, *layout.unread))
    behind = [column for column in columns if column > max(own)]
    before = [column for column in columns if column < min(own)]
    found = [each for each in (behind, before) if len(each) >= LEAST_CELLS]
    return tuple(reading.as_typed[each[0] - 1 : each[-1]] for each in found)


def _of_the_same_part(book: CodeBook, mark: Mark) -> list[Mark]:
    """Other marks of the same place, then those of the same assembly."""
    others = [each for each in book.marks if each.id != mark.id]
    same_site = [each for each in others if mark.site and each.site == mark.site]
    same_part = [each for each in others if mark.assembly and each.assembly == mark.assembly]
    return [*same_site, *(each for each in same_part if each not in same_site)]
