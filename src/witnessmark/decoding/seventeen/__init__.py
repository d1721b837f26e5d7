"""What the rule of seventeen characters says of a whole number.

A field alone cannot say this: whether the check digit agrees, which of two
cycles the year code is of, whether letters and digits stand where the rule has
them. Everything is read from the tables of the code book; nothing here says
that a number is wrong, and nothing here ever writes one out.

Two entry points, both silent for a mark without these rules: `notes_on` gives
the notes of a reading, `year_options` weighs the years of the year code by what
position 7 says of them.
"""

from witnessmark.codebook import MODEL_YEAR, SEVENTEEN
from witnessmark.decoding.align import AlignedField, Alignment
from witnessmark.decoding.options import DecodingRequest, FieldOption
from witnessmark.decoding.records import Note
from witnessmark.decoding.seventeen.check_digit import check_notes
from witnessmark.decoding.seventeen.length import length_notes, seventh_of_ways, ways_to_17
from witnessmark.decoding.seventeen.maker import maker_notes
from witnessmark.decoding.seventeen.number import number_of
from witnessmark.decoding.seventeen.rules import rules_of
from witnessmark.decoding.seventeen.structure import structure_notes
from witnessmark.decoding.seventeen.year import said_of_the_cycle, weighed_years, year_notes

__all__ = ["notes_on", "year_options"]


def notes_on(asked: DecodingRequest, alignment: Alignment) -> tuple[Note, ...]:
    """What the rules of the whole number say of this reading.

    None for a mark that has no such rules, nor where nothing was read. A reading
    that is no whole number of 17 places is told why it is not tested.
    """
    rules = rules_of(asked.book) if asked.mark.number_rules == SEVENTEEN else None
    if rules is None or not any(cell.characters for cell in asked.reading.cells):
        return ()
    number = number_of(asked, alignment, rules)
    if number is None:
        return length_notes(asked, alignment, rules)
    return (
        *check_notes(number),
        *year_notes(number),
        *structure_notes(number),
        *maker_notes(number),
    )


def year_options(
    asked: DecodingRequest,
    alignment: Alignment,
    aligned: AlignedField,
    options: tuple[FieldOption, ...],
) -> tuple[FieldOption, ...]:
    """The options of one field; those of the year code as position 7 has them.

    Every other field, and every mark without these rules, keeps its options as
    they are. The share of a code stays what it was: what one of its years loses
    by position 7 goes to the other.
    """
    if asked.mark.number_rules != SEVENTEEN or aligned.field.says != MODEL_YEAR:
        return options
    rules = rules_of(asked.book)
    if rules is None:
        return options
    number = number_of(asked, alignment, rules)
    if number is not None:
        return weighed_years(options, *said_of_the_cycle(number))
    return weighed_years(options, seventh_of_ways(ways_to_17(asked, alignment, rules)), 1.0)
