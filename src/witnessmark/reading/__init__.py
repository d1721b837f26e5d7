"""What the eye saw: transcripts with their doubt kept, and how far they may be trusted.

`parse_reading` turns what an examiner typed into cells; `place_likelihood` says
how probable what was seen at a place is for each character that may be meant.
This room knows a mark's alphabets and lengths, never which code is likely.
"""

from witnessmark.reading.alphabet import FOREIGN, misfit, plain
from witnessmark.reading.as_read import AsRead
from witnessmark.reading.confusion import Confusion, shipped_confusion
from witnessmark.reading.kept import kept_beside
from witnessmark.reading.layout import STRAINED
from witnessmark.reading.likelihood import SILENT, Observation, observation_of, place_likelihood
from witnessmark.reading.notation import parse_as, parse_reading
from witnessmark.reading.rates import (
    MOVABLE_ROWS,
    ReadingRate,
    rate_rows,
    rates_of_case,
    rates_with,
    read_rate_rows,
    shipped_rates,
)
from witnessmark.reading.records import (
    WORKING,
    Cell,
    CellKind,
    Change,
    Layout,
    PlacedCells,
    Reading,
    ReadingRates,
)

__all__ = [
    "FOREIGN",
    "MOVABLE_ROWS",
    "SILENT",
    "STRAINED",
    "WORKING",
    "AsRead",
    "Cell",
    "CellKind",
    "Change",
    "Confusion",
    "Layout",
    "Observation",
    "PlacedCells",
    "Reading",
    "ReadingRate",
    "ReadingRates",
    "kept_beside",
    "misfit",
    "observation_of",
    "parse_as",
    "parse_reading",
    "place_likelihood",
    "plain",
    "rate_rows",
    "rates_of_case",
    "rates_with",
    "read_rate_rows",
    "shipped_confusion",
    "shipped_rates",
]
