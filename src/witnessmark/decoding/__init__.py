"""What a reading would mean: a reading and a code book give ranked meanings.

`decode` puts the cells into the fields of the mark, multiplies what was seen at
each place with the book's tables, and gives the alternatives in order, the
share that no listed code explains, what is left over and what is missing.
"""

from witnessmark.decoding.by_its_book import decode, decode_many
from witnessmark.decoding.rates import rate_rows
from witnessmark.decoding.records import (
    Alternative,
    Decoding,
    FieldCells,
    FieldMeaning,
    FieldSeen,
    PlaceSeen,
)
from witnessmark.decoding.render import render_decoding
from witnessmark.decoding.seen import pooled

__all__ = [
    "Alternative",
    "Decoding",
    "FieldCells",
    "FieldMeaning",
    "FieldSeen",
    "PlaceSeen",
    "decode",
    "decode_many",
    "pooled",
    "rate_rows",
    "render_decoding",
]
