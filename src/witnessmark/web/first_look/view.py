"""First look: a book, two or three marks, and whether they belong together. Nothing is kept."""

from threading import BoundedSemaphore
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from witnessmark.agreement.records import Outcome
from witnessmark.answers.compared import compared
from witnessmark.answers.compared_page import in_full, in_short, of_each_reading
from witnessmark.answers.searched import (
    MOST_GUESSES,
    guessed_because,
    guessed_in_short,
    guessed_marks,
)
from witnessmark.catalogue import as_said
from witnessmark.codebook import CarContext, CodeBook
from witnessmark.decoding.guess import guess
from witnessmark.entry.first_look import CarTyped, car_typed
from witnessmark.web.first_look.form import (
    LONGEST_TYPED,
    MOST_ROWS,
    MarkRow,
    car_of,
    choices,
    rows_of,
    with_problems,
)
from witnessmark.web.shared.shelf import on_shelf, shelf
from witnessmark.wording import cautions, referrals
from witnessmark.wording.cautions import NUMBERS_IN_FULL
from witnessmark.wording.first_look import FIRST_LOOK_LIMITS

AT_ONCE = 2
"""Looks of people without an account that are worked on at once: the others wait, so that whoever
works here does not."""
SECONDS_WAITED = 10

_TURNS = BoundedSemaphore(AT_ONCE)


def page(request: HttpRequest) -> HttpResponse:
    """The books; with a book its form; sent with its form the answer as well."""
    if request.method != "POST" or _is_in(request):
        return _page(request)
    if not _TURNS.acquire(timeout=SECONDS_WAITED):
        return render(request, "first_look/busy.html", status=503)
    try:
        return _page(request)
    finally:
        _TURNS.release()


def _page(request: HttpRequest) -> HttpResponse:
    given = request.POST if request.method == "POST" else request.GET
    name = given.get("book", "")
    return _marks(request, name) if name else _which_book(request)


def what_to_do(request: HttpRequest) -> HttpResponse:
    """What to do, and what not, where something looks altered or stolen."""
    given = {
        "referrals": referrals(),
        "cautions": [each for each in cautions() if each.sentence != as_said(NUMBERS_IN_FULL)],
    }
    return render(request, "first_look/what_to_do.html", given)


def _is_in(request: HttpRequest) -> bool:
    """Whoever has no account sees the shipped books alone."""
    return getattr(request, "person", None) is not None


def _which_book(request: HttpRequest) -> HttpResponse:
    """All books, and what a typed text could be."""
    books = shelf(own=_is_in(request))
    text = request.POST.get("text", "").strip()
    given: dict[str, Any] = {"books": books, "text": text, "most": LONGEST_TYPED}
    if len(text) > LONGEST_TYPED:
        return render(request, "first_look/books.html", given | {"is_long": True}, status=422)
    if text:
        found = guess([each.book for each in books], text)
        told = (
            {"book": e.book.id, "mark": e.marks[0].name, "marks": guessed_marks(e),
             "because": guessed_because(e)}
            for e in found[:MOST_GUESSES]
        )  # fmt: skip
        in_words = guessed_in_short(found) if found else ""
        given |= {"guesses": tuple(told), "told": in_words, "is_asked": True}
    return render(request, "first_look/books.html", given)


def _marks(request: HttpRequest, name: str) -> HttpResponse:
    """The form, and where it was sent what came of it."""
    shelved, asks = on_shelf(name, own=_is_in(request)), request.POST
    car, rows = car_of(asks, shelved.book), rows_of(asks, is_more="more" in asks)
    given: dict[str, Any] = {
        "shelved": shelved,
        "car": car,
        "rows": rows,
        "places": choices(shelved.book, car.context),
        "can_more": len(rows) < MOST_ROWS,
        "is_compared": "compare" in asks,
    }
    if "compare" not in asks:
        return render(request, "first_look/marks.html", given)
    is_enough = sum(each.is_typed for each in rows) > 1
    typed, rows = _typed(shelved.book, car.context, rows)
    given |= {"rows": rows, "is_too_few": not is_enough}
    if car.problems or not is_enough or any(each.problems for each in rows):
        return render(request, "first_look/marks.html", given, status=422)
    return render(request, "first_look/marks.html", given | _answer(typed))


def _typed(
    book: CodeBook, given: CarContext, rows: tuple[MarkRow, ...]
) -> tuple[CarTyped, tuple[MarkRow, ...]]:
    """The car, and the lines with what is wrong with each."""
    typed = [each for each in rows if each.is_typed and each.name and not each.is_too_long]
    found = car_typed(book, given, [each.as_typed() for each in typed])
    wrong = dict(zip((each.number for each in typed), found.problems, strict=True))
    return found, tuple(with_problems(each, wrong.get(each.number, ())) for each in rows)


def _answer(typed: CarTyped) -> dict[str, Any]:
    """What came of the comparison, for the page."""
    found = compared(typed.car)
    differs = any(each.outcome is Outcome.DIFFER for each in found.findings)
    return {
        "answer": found.answer,
        "differs": differs,
        "each": of_each_reading(found),
        "short": tuple(each for each in in_short(found) if each.blocks),
        "full": tuple(in_full(found)),
        "number": len(found.findings),
        "limits": tuple(map(as_said, FIRST_LOOK_LIMITS)),
    }
