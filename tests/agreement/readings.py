"""A car of a shipped book of which nothing is known but what was typed."""

from tests.published.books import CHEVROLET, FORD, JAGUAR, TARVANE, VOLKSWAGEN, opened
from witnessmark.agreement import CarMarks
from witnessmark.agreement.car import marks_of_car
from witnessmark.casefile import Casefile, Claim, MarkReading, Paper, Title
from witnessmark.codebook import CarContext, CodeBook

__all__ = ["CHEVROLET", "FORD", "JAGUAR", "TARVANE", "VOLKSWAGEN", "car_read"]


def car_read(
    book_id: str,
    *pairs: str,
    title: str = "",
    context: CarContext | None = None,
    claim: dict[str, str] | None = None,
    built: str | None = None,
    papers: tuple[Paper, ...] = (),
    of_book: CodeBook | None = None,
) -> CarMarks:
    """The marks of a car: `car_read(TARVANE, "frame_number=2 582063")`."""
    readings = tuple(
        MarkReading(mark=mark, text=text) for mark, text in (p.split("=", 1) for p in pairs)
    )
    case = Casefile(
        id="car",
        book=book_id,
        readings=readings,
        title_paper=Title(number=title),
        claim=Claim(items=claim or {}, built=built),
        papers=papers,
    )
    return marks_of_car(case, of_book or opened(book_id), context or CarContext())
