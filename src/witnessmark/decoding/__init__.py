"""What a reading would mean: a reading and a code book give ranked meanings.

`decode` puts the cells into the fields of the mark, multiplies what was seen at
each place with the book's tables, and gives the alternatives in order, the
share that no listed code explains, what is left over and what is missing.
"""

from witnessmark.decoding.by_its_book import decode, decode_many
from witnessmark.decoding.date_options import joined_dates, span_meant, spans_meant
from witnessmark.decoding.decode import completed
from witnessmark.decoding.hypotheses import cars_given, items_named, meet, says_of_car
from witnessmark.decoding.kept import table_rows
from witnessmark.decoding.mark_meant import marks_meant
from witnessmark.decoding.number_meant import (
    as_written,
    bare,
    bears_whole,
    forms_of,
    number_meant,
)
from witnessmark.decoding.put_together import fields_said
from witnessmark.decoding.rates import rate_rows
from witnessmark.decoding.records import (
    Alternative,
    Decoding,
    FieldCells,
    FieldMeaning,
    FieldSeen,
    PlaceSeen,
    SlipKind,
)
from witnessmark.decoding.render import render_decoding, words_around
from witnessmark.decoding.seen import pooled
from witnessmark.decoding.slips import expected_form

__all__ = [
    "Alternative",
    "Decoding",
    "FieldCells",
    "FieldMeaning",
    "FieldSeen",
    "PlaceSeen",
    "SlipKind",
    "as_written",
    "bare",
    "bears_whole",
    "cars_given",
    "completed",
    "decode",
    "decode_many",
    "expected_form",
    "fields_said",
    "forms_of",
    "items_named",
    "joined_dates",
    "marks_meant",
    "meet",
    "number_meant",
    "pooled",
    "rate_rows",
    "render_decoding",
    "says_of_car",
    "span_meant",
    "spans_meant",
    "table_rows",
    "words_around",
]
