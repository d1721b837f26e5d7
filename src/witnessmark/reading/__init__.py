"""What the eye saw: transcripts with their doubt kept, and how far they may be trusted.

`parse_reading` turns what an examiner typed into cells; `place_likelihood` says
how probable what was seen at a place is for each character that may be meant.
This room knows a mark's alphabets and lengths, never which code is likely.
"""

from witnessmark.reading.confusion import Confusion, shipped_confusion
from witnessmark.reading.likelihood import SILENT, Observation, observation_of, place_likelihood
from witnessmark.reading.notation import parse_as, parse_reading
from witnessmark.reading.rates import (
    MOVABLE_ROWS,
    ReadingRate,
    rate_rows,
    rates_of_case,
    rates_with,
    shipped_rates,
)
from witnessmark.reading.records import Cell, CellKind, Change, Reading, ReadingRates

__all__ = [
    "MOVABLE_ROWS",
    "SILENT",
    "Cell",
    "CellKind",
    "Change",
    "Confusion",
    "Observation",
    "Reading",
    "ReadingRate",
    "ReadingRates",
    "observation_of",
    "parse_as",
    "parse_reading",
    "place_likelihood",
    "rate_rows",
    "rates_of_case",
    "rates_with",
    "shipped_confusion",
    "shipped_rates",
]
