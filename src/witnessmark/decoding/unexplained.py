"""Characters that were read in a field and that the book does not explain there.

Nothing is dropped: a code that no row lists, a character that the field cannot
have and a date that is none are shown as unread, beside what no field explains.
"""

from witnessmark.catalogue import as_said, marked
from witnessmark.decoding.align import AlignedField
from witnessmark.decoding.code_options import is_foreign
from witnessmark.decoding.options import FieldOption, written
from witnessmark.decoding.records import UNTYPED_COLUMN, Unexplained
from witnessmark.reading import Cell

NOT_LISTED = marked("not listed by the book")
NO_DATE = marked("no date of this form")
FOREIGN = marked("not among the characters of this field")


def unexplained_in(
    aligned: AlignedField, options: tuple[FieldOption, ...]
) -> tuple[Unexplained, ...]:
    """What stands in one field without a meaning, by its likeliest option."""
    typed = tuple(cell for cell in aligned.cells.cells if cell.column != UNTYPED_COLUMN)
    if not typed or aligned.cells.is_empty:
        return ()
    if options and not options[0].meaning.listed:
        reason = NO_DATE if aligned.field.date_form else NOT_LISTED
        return (_unexplained(aligned, typed, reason),)
    foreign = tuple(cell for cell in typed if is_foreign(cell, aligned.field.alphabet))
    return tuple(_unexplained(aligned, (cell,), FOREIGN) for cell in foreign)


def _unexplained(aligned: AlignedField, cells: tuple[Cell, ...], reason: str) -> Unexplained:
    return Unexplained(aligned.field.id, written(cells), cells[0].column, as_said(reason))
