"""What was read of date codes, in the form in which it is weighed: a likelihood for each day.

The likelihood itself is worked out once, in decoding (days_seen.py); a code that is a
placeholder, or can be one, is left out here: it takes weight away and never adds any.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from witnessmark.agreement.records import CarMarks
from witnessmark.codebook.marks import Field, Mark
from witnessmark.codebook.records import CarContext, Run
from witnessmark.decoding.days_seen import days_seen
from witnessmark.decoding.records import Decoding

Array = NDArray[np.float64]
Index = NDArray[np.intp]


@dataclass(frozen=True, slots=True)
class DaysRead:
    """P(what was read | day) for the days of production from `first` on, shape (days,)."""

    first: int
    likelihood: Array

    def mean_between(self, low: Index, high: Index) -> Array:
        """The mean likelihood of the days of production from low to high (ordinals)."""
        sums = np.concatenate([[0.0], np.cumsum(self.likelihood)])
        a = np.clip(low - self.first, 0, self.likelihood.size).astype(np.intp)
        b = np.clip(high - self.first + 1, 0, self.likelihood.size).astype(np.intp)
        found: Array = (sums[b] - sums[a]) / np.maximum(b - a, 1)
        return found


def days_read(car: CarMarks, mark: Mark, fld: Field) -> DaysRead | None:
    """What was read of a date field; None if nothing was, or a code that is no date."""
    seen = car.seen(mark, fld)
    if seen is None or _is_placeholder(car.of(mark.id), fld.id):
        return None
    days = days_seen(car.book, mark, fld, seen, _runs_of(car, mark))
    return None if days is None else DaysRead(days.first, np.array(days.likelihood))


def _is_placeholder(decodings: tuple[Decoding, ...], field_id: str) -> bool:
    """Can everybody's best readings be a code that stands where a date should and is none?"""
    return all(
        any(
            meaning.placeholder
            for alternative in decoding.alternatives[:2]
            for meaning in alternative.fields
            if meaning.field == field_id
        )
        for decoding in decodings
    )


def _runs_of(car: CarMarks, mark: Mark) -> tuple[Run, ...]:
    """The runs that this mark may speak of: those of the car that it names itself, if it does."""
    named = {each.of_car for each in car.of(mark.id)}
    year = named.pop().model_year if len(named) == 1 else None
    return car.book.runs_for(CarContext(year)) if year is not None else car.book.runs
