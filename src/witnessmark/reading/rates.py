"""The assumed rates of reading and striking, and where each comes from.

Every rate is a row of `tables/rates.csv` with its basis and its reason. The
weighing may move one row at a time (`rates_with`), the rooms above print what
they rest on (`rate_rows`).

>>> shipped_value("reading.misstrike")
0.001
"""

import csv
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from witnessmark.casefile.words import Legibility, Seen
from witnessmark.codebook import Basis
from witnessmark.reading.records import ReadingRates

if TYPE_CHECKING:
    from witnessmark.casefile.records import Override

TABLES = Path(__file__).with_name("tables")

ERROR_ROW = "reading.error."
SEEN_ROW = "reading.seen."
MISSTRIKE_ROW = "reading.misstrike"
SHARED_ROW = "reading.shared"

MOVABLE_ROWS = (*(ERROR_ROW + each.value for each in Legibility), MISSTRIKE_ROW, SHARED_ROW)
"""The rows that are probabilities and that `rates_with` may set to another value."""


@dataclass(frozen=True, slots=True)
class ReadingRate:
    """One assumed number of a table, with its basis and reason."""

    id: str
    value: float
    basis: Basis
    reason: str


def read_rate_rows(table: Path) -> tuple[ReadingRate, ...]:
    """The rows of a shipped table of rates with the columns id, value, basis, reason.

    A fault in it is our own mistake and raises ValueError or KeyError.
    """
    with table.open(encoding="utf-8", newline="") as lines:
        return tuple(
            ReadingRate(row["id"], float(row["value"]), Basis(row["basis"]), row["reason"])
            for row in csv.DictReader(lines)
        )


@cache
def rate_rows() -> tuple[ReadingRate, ...]:
    """All rows of reading/tables/rates.csv, as shipped."""
    return read_rate_rows(TABLES / "rates.csv")


def shipped_value(row_id: str) -> float:
    """The value of one shipped row; KeyError if there is none."""
    for row in rate_rows():
        if row.id == row_id:
            return row.value
    raise KeyError(row_id)


@cache
def shipped_rates() -> ReadingRates:
    """The rates as shipped."""
    return ReadingRates(
        error=tuple((each, shipped_value(ERROR_ROW + each.value)) for each in Legibility),
        seen_factor=tuple(
            (each, shipped_value(SEEN_ROW + each.value.replace(" ", "_"))) for each in Seen
        ),
        misstrike=shipped_value(MISSTRIKE_ROW),
        shared=shipped_value(SHARED_ROW),
    )


def rates_with(rates: ReadingRates, row_id: str, value: float) -> ReadingRates:
    """The same rates with one of MOVABLE_ROWS set to `value`, a probability.

    KeyError for another row, ValueError where the value is no probability.
    """
    if not 0.0 <= value <= 1.0:
        raise ValueError(f"{row_id} cannot be {value}: it is a probability")
    if row_id == MISSTRIKE_ROW:
        return replace(rates, misstrike=value)
    if row_id == SHARED_ROW:
        return replace(rates, shared=value)
    if row_id not in MOVABLE_ROWS:
        raise KeyError(row_id)
    error = tuple(
        (legibility, value if row_id == ERROR_ROW + legibility.value else was)
        for legibility, was in rates.error
    )
    return replace(rates, error=error)


def rates_of_case(overrides: "Iterable[Override]") -> ReadingRates | None:
    """The rates as a case overrides them; None where it overrides none of them."""
    rates = None
    for override in overrides:
        if override.row in MOVABLE_ROWS:
            rates = rates_with(rates or shipped_rates(), override.row, override.value)
    return rates
