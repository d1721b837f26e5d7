"""What a book knows of days: which comes before which, runs of building, dated cars."""

from datetime import date
from typing import Any

from witnessmark.codebook.conditions import Condition, conditions
from witnessmark.codebook.records import WHOSE, Applies, CarRow
from witnessmark.documents.entries import Entry
from witnessmark.documents.row import dated as partial_date
from witnessmark.documents.row import (
    day,
    free_text,
    identifier,
    number,
    together,
    year,
)

MOST_DAYS = 36525


class Lag(CarRow, called="lags.csv"):
    """Days by which one date comes before another.

    Fewer than 0 where the "earlier" date, a planned one say, may fall behind the other.
    """

    id: str = identifier("Its id.")
    earlier: str = identifier("The item of the earlier date.", of="item")
    later: str = identifier("The item of the later date.", of="item")
    least_days: int = number("Fewest days between; below 0: after.", -MOST_DAYS, MOST_DAYS)
    usual_days: int = number("Usual days between.", -MOST_DAYS, MOST_DAYS)
    most_days: int = number("Most days between.", -MOST_DAYS, MOST_DAYS)


def _of_its_year(entry: Entry, ground: Any) -> Applies:
    """The model year is the one year for which a run holds."""
    model_year = entry.number_or("model_year", ground.first_year)
    works, models = frozenset(entry.texts("works")), frozenset(entry.texts("models"))
    return Applies(model_year, model_year, works, models)


class Run(CarRow, called="runs.csv"):
    """When the cars of a model year were built.

    Its model year is the only year of `applies`; one model year may have several
    runs, counted from different starts.
    """

    id: str = identifier("Its id.", names="run")
    model_year = year("The model year.")
    first_day = day("The first day.")
    last_day = day("The last day.")
    meaning: str = free_text("What the run is.")
    applies: Applies = together(_of_its_year, WHOSE)
    first: date
    last: date

    @staticmethod
    def settle(made: dict[str, Any], entry: Entry, ground: Any) -> None:
        """Without a sound day it lasts as the calendar year does."""
        model_year = entry.number_or("model_year", ground.first_year)
        made["first"] = entry.day("first_day") or date(model_year, 1, 1)
        made["last"] = entry.day("last_day") or date(model_year, 12, 31)


class Point(CarRow, called="points.csv"):
    """Known cars, or ranges of numbers, tied to a date as exactly as it is known."""

    id: str = identifier("Its id.")
    item: str = identifier("The item that is numbered.", of="item")
    first: str = free_text("The first number, as written.", default="")
    last: str = free_text("The last number, as written.", default="")
    dated: str = free_text("What the date is: scheduled, built, sold.")
    date_first: str = partial_date("The first date.", default="")
    date_last: str = partial_date("The last date.", default="")
    date_code: str = free_text("The date as the car bears it.", default="")
    also: tuple[Condition, ...] = conditions("Items of the same mark with the values it holds for.")
    meaning: str = free_text("What is known, in words.")

    def holds(self, number: str) -> bool:
        """Does this number of the same length lie in the range?"""
        last = self.last or self.first
        return len(self.first) == len(number) == len(last) and self.first <= number <= last
