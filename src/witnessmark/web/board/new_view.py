"""A new case: its book, what it is called, and the first things that are claimed."""

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import Final

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render

from witnessmark import store
from witnessmark.answers.book_values import ItemValue, item_values
from witnessmark.casefile import Examiner, render_casefile
from witnessmark.casefile.profile import examiner_of, parse_profile
from witnessmark.codebook import MODEL, MODEL_YEAR, CarContext, CodeBook, ItemKind
from witnessmark.entry import (
    CaseAsked,
    Entered,
    EnteredPair,
    begun,
    claimed_items,
    unknown_book,
)
from witnessmark.problem import Problem
from witnessmark.source import Source
from witnessmark.store import people
from witnessmark.web.board.offered import book_of, by_maker, could_be
from witnessmark.web.route import Who
from witnessmark.web.shared.saving import now, typed

LONGEST_NUMBER: Final = 60
_ODD = re.compile(r"[^a-z0-9]+")


@dataclass(slots=True)
class NewCase:
    """What stands in the form, and what is wrong with it, by field."""

    values: dict[str, str]
    problems: list[Problem] = field(default_factory=list)

    def wrong(self) -> dict[str, list[Problem]]:
        """The problems of each field."""
        found: dict[str, list[Problem]] = {}
        for each in self.problems:
            found.setdefault(each.source.name, []).append(each)
        return found


NAMES: Final = ("book", "id", "title", "model_year", "model", "number", "made_by", "client")


def page(request: HttpRequest) -> HttpResponse:
    """The form; sent, the case and the way to it, or the form again with what is wrong."""
    given = request.POST if request.method == "POST" else request.GET
    asked = NewCase({name: str(given.get(name, "")).strip() for name in NAMES})
    status = 200
    if request.method == "POST":
        case = _begin(request, asked)
        if case is not None:
            return redirect("claim", case)
        status = 422
    book = book_of(asked.values["book"])
    number = asked.values["number"][:LONGEST_NUMBER]
    more = {
        "values": asked.values,
        "wrong": asked.wrong(),
        "problems": asked.problems,
        "makers": by_maker(),
        "models": _models(book, asked.values["model_year"]),
        "could_be": could_be(number) if number and book is None else (),
        "proposed": proposed_id(asked.values["title"]),
    }
    return render(request, "board/new.html", more, status=status)


def models(request: HttpRequest) -> HttpResponse:
    """What hangs on the fields as they stand now: models of the book and year, the id that is
    proposed, and the books that a number could be of."""
    values = {name: request.GET.get(name, "").strip() for name in NAMES}
    book, number = book_of(values["book"]), values["number"][:LONGEST_NUMBER]
    more = {
        "values": values,
        "models": _models(book, values["model_year"]),
        "could_be": could_be(number) if number and book is None else (),
        "proposed": proposed_id(values["title"]),
        "swapped": True,
    }
    return render(request, "board/new_offered.html", more)


def _begin(request: HttpRequest, asked: NewCase) -> str | None:
    """The id of the case that was begun; None where something was wrong, which `asked` has."""
    values = asked.values
    book = book_of(values["book"])
    if book is None:
        asked.problems.append(unknown_book(Source("book"), values["book"]))
        return None
    pairs = tuple(_claims(book, request))
    items = claimed_items(book, pairs, asked.problems)
    own_id = values["id"] or proposed_id(values["title"])
    casefile = begun(
        book,
        CaseAsked(
            id=Entered(own_id, Source("id")),
            book=Entered(book.id, Source("book")),
            opened=now().date(),
            title=typed(request, "title"),
            made_by=typed(request, "made_by"),
            items=items,
            client=typed(request, "client"),
            examiners=_examiners(request.person),  # type: ignore[attr-defined]
        ),
    )
    if isinstance(casefile, tuple):
        asked.problems += casefile
    if asked.problems or isinstance(casefile, tuple):
        return None
    who = request.person  # type: ignore[attr-defined]
    try:
        kept = store.begin(render_casefile(casefile), who.name, "opened the case", now())
    except store.NotKeptError as fault:
        asked.problems += (_at(each, "id") for each in fault.problems)
        return None
    if who.role != Who.OWNER:
        people.let_in(who.id, kept.case)
    return kept.case


def _claims(book: CodeBook, request: HttpRequest) -> Iterator[EnteredPair]:
    """What was typed of the car, item by item."""
    number = next((each.id for each in book.items if each.identification), "")
    for name, item in (("model_year", MODEL_YEAR), ("model", MODEL), ("number", number)):
        given = typed(request, name)
        if str(given.value).strip() and item:
            yield EnteredPair(Entered(item, given.source), given)


def _examiners(person: people.PersonKnown) -> tuple[Examiner, ...]:
    """The examiner of the account's profile, where it has one."""
    profile = parse_profile(person.profile, "profile").profile if person.profile else None
    return (examiner_of(profile),) if profile else ()


def _at(problem: Problem, name: str) -> Problem:
    return replace(problem, source=Source(name))


def _models(book: CodeBook | None, year: str) -> tuple[ItemValue, ...]:
    """The models of the book in a year; of all its years where none is typed."""
    if book is None:
        return ()
    item = book.item(MODEL)
    is_year = year.isascii() and year.isdecimal()
    context = CarContext(int(year) if is_year else None, None, frozenset())
    if item is None or item.kind is not ItemKind.CODE:
        return ()
    return item_values(book, item, context)


def proposed_id(title: str) -> str:
    """A short name made of a title, which no case has yet.

    >>> from unittest.mock import patch
    >>> with patch("witnessmark.store.digests", return_value={}):
    ...     proposed_id("Solent Sprint, 1955 (Ö. Fenwick)")
    'solent-sprint-1955-o-fenwick'
    """
    plain = unicodedata.normalize("NFKD", title).encode("ascii", "ignore").decode()
    stem = _ODD.sub("-", plain.casefold()).strip("-")[:60].strip("-")
    if not stem:
        return ""
    names = [stem, *(f"{stem}-{count}" for count in range(2, 100))]
    taken = store.digests(names)
    return next((each for each in names if each not in taken), "")
