"""The case document of a car, as somebody would write it, and the case that it opens as."""

import json
from functools import cache
from pathlib import Path

from tests.worked.situations.car import Car
from witnessmark.casefile import FORMAT, FORMAT_VERSION, Casefile, parse_casefile
from witnessmark.codebook import CodeBook, MarkKind, find_book, open_book
from witnessmark.examination import check_case
from witnessmark.problem import render_all

BOOKS = Path(__file__).parent / "books"


@cache
def book_of(book_id: str) -> CodeBook:
    """A shipped book, or one of the small ones kept here."""
    here = BOOKS / book_id
    folder = here if here.is_dir() else find_book(book_id)
    assert folder is not None, book_id
    opened = open_book(folder)
    assert opened.book is not None, render_all(opened.problems)
    assert not opened.problems, render_all(opened.problems)
    return opened.book


def sites_seen(car: Car) -> tuple[str, ...]:
    """The sites at which something was read, in the order of the readings."""
    marks = (book_of(car.book).mark(mark) for mark in car.readings)
    return tuple(dict.fromkeys(mark.site for mark in marks if mark is not None and mark.site))


def document(car: Car) -> str:
    """The case as its document would be written."""
    seen = sites_seen(car)
    states = dict.fromkeys(seen, "read") | dict(car.sites)
    at = {site: "factory" for site in seen if states[site] == "read"}
    surfaces = {(site, "surface"): look for site, look in at.items()} | dict(car.looks)
    marks = {mark.id: mark for mark in book_of(car.book).marks}
    in_hand = {
        mark: "in hand" for mark in car.readings if marks[mark].kind is MarkKind.PAPER
    } | dict(car.papers)
    return json.dumps(
        {
            "format": FORMAT,
            "format_version": FORMAT_VERSION,
            "id": "tried",
            "book": car.book,
            "claim": {
                "made_by": "the seller",
                "items": dict(car.claim),
                "built": car.built or None,
                "statements": [dict(each) for each in car.statements],
            },
            "sites": [{"site": site, "state": state} for site, state in states.items()],
            "readings": [
                {
                    "mark": mark,
                    "text": each.text.format_map({**car.values, **each.own}),
                    "by": "examiner",
                    **each.beside,
                }
                for mark, typed in car.readings.items()
                for each in typed
            ],
            "looks": [
                {"site": site, "feature": feature, "outcome": outcome, "by": "examiner"}
                for (site, feature), outcome in surfaces.items()
                if site in at
            ],
            "papers": [{"mark": mark, "state": state} for mark, state in in_hand.items()],
            "title_paper": {"number": car.title},
        }
    )


def casefile(car: Car) -> Casefile:
    """The case, opened as a user's would be; it has no problem, or this fails with its text."""
    return _opened(document(car), car.book)


@cache
def _opened(text: str, book_id: str) -> Casefile:
    parsed = parse_casefile(text, "case.json")
    assert parsed.casefile is not None, render_all(parsed.problems)
    beside = check_case(parsed.casefile, parsed.places, book_of(book_id))
    problems = (*parsed.problems, *beside)
    assert not problems, render_all(problems)
    return parsed.casefile
