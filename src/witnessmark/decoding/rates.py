"""The assumed shares that decoding rests on: rows of tables/rates.csv, each with its reason."""

from functools import cache
from pathlib import Path

from witnessmark.reading import ReadingRate, read_rate_rows

NOT_LISTED_ROW = "decoding.not_listed"
NEAR_ROW = "decoding.not_listed_near"
OUTSIDE_ROW = "decoding.outside"
OUT_OF_SERIES_ROW = "decoding.out_of_series"
CLEAR_STAYS_ROW = "decoding.clear_stays"

RATES_SOURCE = "assumed share, row decoding.not_listed"


@cache
def rate_rows() -> tuple[ReadingRate, ...]:
    """All rows of decoding/tables/rates.csv, as shipped."""
    return read_rate_rows(Path(__file__).with_name("tables") / "rates.csv")


@cache
def shipped_value(row_id: str) -> float:
    """The value of one row; KeyError if there is none."""
    return {row.id: row.value for row in rate_rows()}[row_id]
