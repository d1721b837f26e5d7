"""The catalogue of sentences, which stands below all rooms: see `witnessmark.catalogue`."""

from witnessmark.catalogue import (
    ENGLISH,
    ENGLISH_CATALOGUE,
    Catalogue,
    ForeignField,
    NoCatalogue,
    as_said,
    counted,
    fields_of,
    language,
    marked,
    parse_catalogue,
    read_catalogue,
    said,
    speaking,
    spoken,
)

__all__ = [
    "ENGLISH",
    "ENGLISH_CATALOGUE",
    "Catalogue",
    "ForeignField",
    "NoCatalogue",
    "as_said",
    "counted",
    "fields_of",
    "language",
    "marked",
    "parse_catalogue",
    "read_catalogue",
    "said",
    "speaking",
    "spoken",
]
