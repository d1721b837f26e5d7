"""When a car with this number was built, as far as known cars bracket it.

Where numbers followed the line, a car numbered after a known one was not built long before
it. Where they did not, only the first number of a block tells: what is numbered from there
on was numbered later.
"""

from datetime import timedelta

from witnessmark.codebook import Applies, CodeBook, NumbersFollow, Point
from witnessmark.dates import DateSpan, PartialDate
from witnessmark.decoding.conditions import Said, holding
from witnessmark.decoding.date_options import days_of
from witnessmark.decoding.hypotheses import meet
from witnessmark.decoding.kept import kept
from witnessmark.reading import Cell

FIRST = "first"
"""What a point says that is the first of a block of numbers."""

OVERTAKING = timedelta(days=31)
"""How far cars of a line may have overtaken each other, at most."""


def days_by_number(
    book: CodeBook, item_id: str, cells: tuple[Cell, ...], cars: Applies, said_of: Said
) -> DateSpan | None:
    """The days between which such a car was built; None where no known car brackets it.

    `said_of`: what the codes beside the number say.
    """
    points = kept(book, "points", item_id, lambda: _points(book, item_id))
    if not points or not cells:
        return None
    low = "".join([min(cell.characters, default="0") for cell in cells])
    high = "".join([max(cell.characters, default="9") for cell in cells])
    known = holding(points, said_of)
    of_cars = [p for p in known if len(p.first) == len(low) and meet(p.applies, cars)]
    after = [_day(p.date_first).first for p in of_cars if p.first <= low and p.date_first]
    before = [
        _day(p.date_last or p.date_first).last
        for p in of_cars
        if high < (p.first if p.dated == FIRST else p.last or p.first)
        and (p.date_last or p.date_first)
    ]
    if not after and not before:
        return None
    built = days_of(book, cars)
    first = max([built.first, *(day - OVERTAKING for day in after)])
    last = min([built.last, *(day + OVERTAKING for day in before)])
    return DateSpan(first, last) if first <= last else None


def _points(book: CodeBook, item_id: str) -> tuple[Point, ...]:
    """The known cars that bracket numbers of this item."""
    item = book.item(item_id)
    in_line = item is not None and item.numbers_follow is NumbersFollow.BUILD
    return tuple(
        point
        for point in book.points
        if point.item == item_id
        and point.first
        and point.citation.basis.weighs
        and (in_line or point.dated == FIRST)
    )


def _day(text: str) -> DateSpan:
    return PartialDate.parse(text).span()
