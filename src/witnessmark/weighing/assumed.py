"""Every assumed row by which a car is weighed: those of this room and the rates of reading."""

from dataclasses import dataclass
from functools import cache

from witnessmark.catalogue import marked
from witnessmark.codebook.records import Basis
from witnessmark.reading import MOVABLE_ROWS
from witnessmark.reading import rate_rows as reading_rows
from witnessmark.weighing.rates import other_outcome, rate_rows

READING_PLAIN = {
    "reading.error.clear": marked("characters called clear that are read wrongly"),
    "reading.error.worn": marked("characters on a worn mark that are read wrongly"),
    "reading.error.poor": marked("characters on a poor mark that are read wrongly"),
    "reading.misstrike": marked("characters struck by hand that are others than meant"),
    "reading.shared": marked("misreadings that two examiners have in common"),
}


@dataclass(frozen=True, slots=True)
class Assumed:
    """One assumed number, in plain words, with its basis and reason."""

    id: str
    value: float
    basis: Basis
    plain: str
    reason: str

    @property
    def is_share(self) -> bool:
        """Is it a share, and not how many times more often something happens?"""
        return self.value < 1.0

    @property
    def beside(self) -> str:
        """The other row of the same look, with which it leaves something for places that look as
        made; none of any other row."""
        return other_outcome(self.id)


@cache
def assumed_rows() -> tuple[Assumed, ...]:
    """Every row that a case may give another value, in the order of the tables."""
    own = (Assumed(row.id, row.value, row.basis, row.plain, row.reason) for row in rate_rows())
    reading = (
        Assumed(row.id, row.value, row.basis, READING_PLAIN[row.id], row.reason)
        for row in reading_rows()
        if row.id in MOVABLE_ROWS
    )
    return (*own, *reading)
