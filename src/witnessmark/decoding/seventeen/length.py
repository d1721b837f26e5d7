"""A reading that has not 17 places: why it is not tested, and where its fault can be.

Where one character is missing or one too many, positions 9 and 10 tell much of where: in a
number under the United States rule the one has a check character, the other the code of a
year. Nothing is mended; places are named by their positions alone.
"""

from dataclasses import dataclass

from witnessmark.catalogue import counted, said
from witnessmark.decoding.align import Alignment
from witnessmark.decoding.options import DecodingRequest
from witnessmark.decoding.records import UNTYPED_COLUMN, Note, NoteKind
from witnessmark.decoding.seventeen.number import Vin, gaps_in, noted
from witnessmark.decoding.seventeen.rules import CHECK, LENGTH, YEAR, NumberRules
from witnessmark.decoding.seventeen.words import spans
from witnessmark.decoding.seventeen.year import by_the_seventh
from witnessmark.reading import Cell, CellKind


@dataclass(frozen=True, slots=True)
class MendedVin:
    """A number of 17 places as it would be were the character of this place the one that is
    missing, or the one too many."""

    place: int
    number: Vin


def ways_to_17(
    asked: DecodingRequest, alignment: Alignment, rules: NumberRules
) -> tuple[MendedVin, ...]:
    """Every way that positions 9 and 10 permit; none for a reading further from 17 places.

    The place of one too many is counted among the 18 that were typed.
    """
    cells = _typed(alignment)
    is_plain = not gaps_in(asked.reading) and not _was_left_empty(cells)
    if not is_plain or len(cells) not in (LENGTH - 1, LENGTH + 1):
        return ()
    missing = (Cell(CellKind.WORN, "", UNTYPED_COLUMN),) if len(cells) < LENGTH else ()
    behind = 1 - len(missing)
    ways = (
        MendedVin(at + 1, Vin(asked, rules, (*cells[:at], *missing, *cells[at + behind :])))
        for at in range(max(len(cells), LENGTH))
    )
    return tuple(
        way
        for way in ways
        if way.number.read(CHECK) in ("", *rules.digits)
        and way.number.read(YEAR) in ("", *rules.years)
    )


def seventh_of_ways(ways: tuple[MendedVin, ...]) -> str:
    """letter or digit in position 7, where all ways agree on it and it tells the cycle."""
    found = {way.number.seventh for way in ways}
    return found.pop() if len(found) == 1 else ""


def length_notes(
    asked: DecodingRequest, alignment: Alignment, rules: NumberRules
) -> tuple[Note, ...]:
    """Why the number is not tested, with where its fault can be and what position 7 says."""
    ways = ways_to_17(asked, alignment, rules)
    citation = rules.said("seventeen-from-1981", asked.mark.citation)
    sentence = f"{_why_not_tested(asked, alignment)} {_where(ways)}"
    notes = [noted(NoteKind.CHECK, sentence, citation)]
    if seventh := seventh_of_ways(ways):
        rule = rules.said("position-7-rule", asked.mark.citation)
        notes.append(noted(NoteKind.YEAR, by_the_seventh(seventh), rule))
    return tuple(notes)


def _why_not_tested(asked: DecodingRequest, alignment: Alignment) -> str:
    cells = _typed(alignment)
    if _was_left_empty(cells):
        reason = said("a place was never struck")
    elif gaps_in(asked.reading) > 1:
        reason = said(
            "places are lost in more than one stretch, and it is not known how many in each"
        )
    else:
        count = sum(cell.kind is not CellKind.GAP for cell in cells)
        reason = counted("{number} place was read", "{number} places were read", count)
    return said(
        "Not tested: the rule is for numbers of {length} characters, and {reason}.",
        length=LENGTH,
        reason=reason,
    )


def _where(ways: tuple[MendedVin, ...]) -> str:
    places = [way.place for way in ways]
    is_narrowed = 0 < len(places) < LENGTH
    if not is_narrowed or not all(way.number.is_north_american for way in ways):
        return said("An older number, or one for another market, may have another length.")
    if any(cell.column == UNTYPED_COLUMN for cell in ways[0].number.cells):
        return said(
            "Judging by the check character and the year code, which the United States "
            "rule puts in positions 9 and 10, the missing one belongs in position {places}.",
            places=spans(places),
        )
    return said(
        "Judging by the check character and the year code, which the United States rule "
        "puts in positions 9 and 10, the character too many is in place {places} of those "
        "typed.",
        places=spans(places),
    )


def _typed(alignment: Alignment) -> tuple[Cell, ...]:
    """The cells of the number that were typed, those that no field has among them."""
    cells = [cell for aligned in alignment.fields for cell in aligned.cells.cells]
    typed = [cell for cell in (*cells, *alignment.unread) if cell.column != UNTYPED_COLUMN]
    return tuple(sorted(typed, key=lambda cell: cell.column))


def _was_left_empty(cells: tuple[Cell, ...]) -> bool:
    return any(cell.kind is CellKind.NEVER_STRUCK for cell in cells)
