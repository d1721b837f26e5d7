"""What the rule of seventeen characters says of a whole number.

A field alone cannot say this: whether the check digit agrees, which of two
cycles the year code is of, whether letters and digits stand where the rule has
them. Everything is read from the tables of the code book; nothing here says
that a number is wrong, and nothing here ever writes one out.

Two entry points, both silent for a mark without these rules: `notes_on` gives
the notes of a reading, `year_options` keeps of the meanings of the year code
those that position 7 allows.
"""

from witnessmark.codebook.format_toml import SEVENTEEN
from witnessmark.decoding.align import AlignedField, Alignment
from witnessmark.decoding.options import Asked, FieldOption
from witnessmark.decoding.records import Note
from witnessmark.decoding.seventeen.check_digit import check_notes
from witnessmark.decoding.seventeen.maker import maker_notes
from witnessmark.decoding.seventeen.number import Number, number_of, why_not_whole
from witnessmark.decoding.seventeen.region import region_notes
from witnessmark.decoding.seventeen.rules import rules_of
from witnessmark.decoding.seventeen.structure import structure_notes
from witnessmark.decoding.seventeen.year import kept_years, year_notes

__all__ = ["notes_on", "year_options"]


def notes_on(asked: Asked, alignment: Alignment) -> tuple[Note, ...]:
    """What the rules of the whole number say of this reading.

    None for a mark that has no such rules, nor where nothing was read. A reading
    that is no whole number of 17 places has one note, which says why it is not
    tested.
    """
    rules = rules_of(asked.book) if asked.mark.number_rules == SEVENTEEN else None
    if rules is None or not any(cell.characters for cell in asked.reading.cells):
        return ()
    number = number_of(asked, alignment, rules)
    if number is None:
        source = rules.said("seventeen-from-1981", asked.mark.citation)
        return (Note("check", why_not_whole(asked.reading), source.basis, source.source),)
    return (
        *check_notes(number),
        *year_notes(number),
        *structure_notes(number),
        *maker_notes(number),
        *region_notes(number),
    )


def year_options(
    asked: Asked,
    alignment: Alignment,
    aligned: AlignedField,
    options: tuple[FieldOption, ...],
) -> tuple[FieldOption, ...]:
    """The options of one field; of the year code only the years that position 7 allows.

    Every other field, and every mark without these rules, keeps its options as
    they are. The share of a code stays what it was: what is taken from a year
    that position 7 excludes goes to the other year of the same code.
    """
    if asked.mark.number_rules != SEVENTEEN or aligned.field.says != "model_year":
        return options
    rules = rules_of(asked.book)
    number: Number | None = number_of(asked, alignment, rules) if rules else None
    return kept_years(options, number)
