"""Standard cars weighed with what was noted of their pieces changed: what no book's marks write."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from functools import cache
from unittest.mock import patch

import numpy as np

from tests.worked.situations.document import book_of, casefile
from tests.worked.situations.standard import STANDARD
from witnessmark.agreement import CarMarks
from witnessmark.codebook.pieces import PieceKind
from witnessmark.dates import PartialDate
from witnessmark.examination import car_marks
from witnessmark.weighing import Asked, answer
from witnessmark.weighing.evidence.noted import DateSeen, PieceSeen, SurfaceSeen
from witnessmark.weighing.network import build

TRIED = {
    "camaro": "engine",
    "mustang": "gearbox",
    "beetle": "engine",
    "jaguar": "tub",
    "frame": "body",
    "order": "gearbox",
    "labels": "engine",
}
"""The cars of the four makers' books and of three other kinds of numbering, one core of each."""

type Change = Callable[[PieceSeen], PieceSeen]


@cache
def marks_of(name: str) -> CarMarks:
    """The marks of a standard car, decoded once."""
    car = STANDARD[name]
    return car_marks(casefile(car), book_of(car.book))


def ratios(name: str, change: Change) -> dict[tuple[Asked, str], float]:
    """The LR of every question about a standard car of whose pieces other things were noted."""
    with _noting(change):
        found = answer(marks_of(name), with_contributions=False, with_next_looks=False)
    return {(each.question, each.about): 10.0**each.log10_lr for each in found.conclusions}


@contextmanager
def _noting(change: Change) -> Iterator[None]:
    seen = build.pieces_seen
    with patch.object(build, "pieces_seen", lambda *of: tuple(map(change, seen(*of)))):
        yield


def struck_always(always: bool) -> Change:
    """Whether this works always struck them, for all marks of the book at once."""

    def of(surface: SurfaceSeen) -> SurfaceSeen:
        numbers = (replace(number, always=always) for number in surface.numbers)
        return replace(surface, numbers=tuple(numbers))

    return lambda piece: replace(piece, surfaces=tuple(map(of, piece.surfaces)))


def complete(name: str) -> int:
    """The day on which a standard car is claimed to have been complete at the latest."""
    return PartialDate.parse(STANDARD[name].built).span().last.toordinal()


def cast_on(assembly: str, *read_as: int) -> Change:
    """The core of an assembly bears a casting date that reads as any of these days, and hardly
    as any other, and no other date; of the book's own kind where it has one there."""

    def change(piece: PieceSeen) -> PieceSeen:
        if piece.piece.kind is not PieceKind.CORE or piece.piece.assembly != assembly:
            return piece
        cast = next((each for each in piece.dates if each.is_cast), CASTING)
        date = replace(
            cast, days=np.array(sorted(read_as)), likelihood=np.ones(len(read_as)), floor=1e-9
        )
        kept = tuple(replace(surface, dates=()) for surface in piece.surfaces)
        return replace(piece, surfaces=(*kept, SurfaceSeen(id="casting", marks=(), dates=(date,))))

    return change


CASTING = DateSeen(
    item="casting",
    mark="casting",
    field="day",
    name="casting date",
    days=np.array([0]),
    likelihood=np.ones(1),
    floor=0.0,
    is_cast=True,
)
