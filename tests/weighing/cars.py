"""A unit-bodied saloon of 1960 to be weighed: two panels, a plate, each change by name."""

from functools import cache
from typing import Any

from tests.examined import without_bounds
from witnessmark.agreement import compare
from witnessmark.casefile.records import Casefile
from witnessmark.codebook import find_book, open_book
from witnessmark.codebook.book import CodeBook
from witnessmark.examination import car_marks
from witnessmark.weighing import Conclusion, Question, Weighing, weigh

NUMBER = "600321"


@cache
def demonstration_book() -> CodeBook:
    """The demonstration book, opened once."""
    folder = find_book("tarvane-1952-1961")
    assert folder is not None
    book = open_book(folder).book
    assert book is not None
    return book


def saloon(
    wing: str | None = f"E {NUMBER}",
    seat: str | None = f"E {NUMBER}",
    plate: str | None = f"{NUMBER}|12|60|E|14950|C|11|L1|H",
    looks: dict[str, str] | None = None,
    claim: dict[str, str] | None = None,
    sites: list[dict[str, str]] | None = None,
    **extra: Any,
) -> Casefile:
    """The saloon with all its marks agreeing and looking factory, but for what is named.

    A reading of None was not made. `looks` maps a site to its look.
    """
    texts = {"shell_wing_number": wing, "shell_seat_number": seat, "plate_aluminium": plate}
    readings = [{"mark": mark, "text": text} for mark, text in texts.items() if text]
    at = {"inner_wing": wing, "seat_pan": seat, "scuttle": plate}
    looked = {site: "factory" for site, text in at.items() if text} | (looks or {})
    document = {
        "format": "witnessmark-case",
        "format_version": 2,
        "id": "saloon",
        "book": "tarvane-1952-1961",
        "claim": {
            "made_by": "the seller",
            "items": {
                "chassis_number": NUMBER,
                "model": "solent-saloon",
                "model_year": "1960",
                "works": "tarvane",
                "body_works": "ellery",
            }
            | (claim or {}),
        },
        "sites": sites or [],
        "readings": readings,
        "looks": [{"site": site, "outcome": look} for site, look in looked.items()],
        **extra,
    }
    return Casefile.model_validate(document)


def weighed(casefile: Casefile, book: CodeBook | None = None) -> Weighing:
    """The case weighed by the demonstration book, or another; its bounds are not looked for."""
    with without_bounds():
        return weighed_with_bounds(casefile, book)


def weighed_with_bounds(casefile: Casefile, book: CodeBook | None = None) -> Weighing:
    """The same with the bounds of every ratio."""
    car = car_marks(casefile, book or demonstration_book())
    return weigh(car, compare(car))


def conclusion(weighing: Weighing, question: Question, about: str = "") -> Conclusion:
    """The conclusion of one question."""
    return next(
        c
        for c in weighing.conclusions
        if c.question is question and (not about or c.about == about)
    )


def identity(casefile: Casefile) -> float:
    """log10 LR of the identity question."""
    return conclusion(weighed(casefile), Question.IDENTITY).lr.log10_lr
