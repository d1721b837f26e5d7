"""A case on the bench: one revision read, with its books, and what the rooms below say of it.

Everything is worked out once for each text and its books and kept for a while; nothing that is
kept depends on who asks.
"""

from dataclasses import dataclass, replace
from enum import StrEnum
from functools import lru_cache

from django.http import Http404

from witnessmark import store
from witnessmark.casefile import Casefile, CaseParsed, parse_casefile
from witnessmark.catalogue import spoken
from witnessmark.codebook import CodeBook
from witnessmark.entry import BooksOpened, Lack, books_of, lacking, versions_of
from witnessmark.examination import Opinion, check_case, examine, quick_answer
from witnessmark.plan import SitePlan, VisitPlan
from witnessmark.plan.places import is_open, places_of, planned
from witnessmark.problem import Problem
from witnessmark.web.shared import books
from witnessmark.web.shared.page import RevisionUnreadError
from witnessmark.web.shared.way import WayStep, way_of
from witnessmark.weighing import Answer
from witnessmark.weighing.kept_alike import Latest
from witnessmark.wording import misfit_sentence, misfits_beside, stop_sentence

CASES_KEPT = 48
"""Texts of cases whose answers are kept, the latest used ones."""


@dataclass(frozen=True, slots=True)
class OnBench:
    """A text of a case read with its books: what depends on nothing else.

    `faults` are what the book says against it; such a case is not examined.
    """

    opened: CaseParsed
    casefile: Casefile
    books: BooksOpened | None
    faults: tuple[Problem, ...]

    @property
    def book(self) -> CodeBook:
        """The maker's book, joined with those beside it."""
        assert self.books is not None, "a page asks whether there are faults first"
        return self.books.book


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """One revision of a case as every page about it is handed it."""

    kept: store.KeptRevision
    on: OnBench

    @property
    def case(self) -> str:
        """The id of the case."""
        return self.kept.case

    @property
    def number(self) -> int:
        """Which revision this is."""
        return self.kept.number

    @property
    def casefile(self) -> Casefile:
        """The case as it was typed."""
        return self.on.casefile

    @property
    def book(self) -> CodeBook:
        """Its book with those beside it."""
        return self.on.book

    @property
    def has_book(self) -> bool:
        """Whether its books could be opened."""
        return self.on.books is not None

    @property
    def faults(self) -> tuple[Problem, ...]:
        """What cannot be read by its book."""
        return self.on.faults

    @property
    def title(self) -> str:
        """What people call the case."""
        return self.casefile.title or self.case

    @property
    def book_title(self) -> str:
        """The book's title; its name where it cannot be opened."""
        return self.book.title if self.has_book else self.casefile.book

    @property
    def answer(self) -> Answer | None:
        """What does not fit and the ratios; None for a case with faults."""
        return None if self.faults else _answer(self.kept.text, books.state())

    @property
    def at_once(self) -> Opinion | None:
        """The Opinion with the same ratios, but without what each thing does to them and without
        the looks that are left, unless these are worked out already."""
        if self.faults:
            return None
        whole = _whole(self.kept.text, books.state())
        return whole or _opinion(self.kept.text, books.state(), Depth.AT_ONCE)

    @property
    def opinion(self) -> Opinion | None:
        """The Opinion without how far it rests on assumptions: a second or more the first time, so
        asked for behind the page; None for a case with faults."""
        return None if self.faults else _opinion(self.kept.text, books.state(), Depth.WHOLE)

    @property
    def steady(self) -> Opinion | None:
        """The whole Opinion: seconds the first time, so asked for behind the page."""
        return None if self.faults else _opinion(self.kept.text, books.state(), Depth.STEADY)

    @property
    def misfits(self) -> tuple[str, ...]:
        """What does not fit, in sentences; what stops everything else first."""
        found = self.answer
        return (
            ()
            if found is None
            else _MISFITS.ask((self.kept.text, books.state(), spoken()), lambda: _misfits(found))
        )

    @property
    def only_told(self) -> tuple[str, ...]:
        """What differs and was declared so, or is known from memory alone, in sentences."""
        told = misfits_beside(self.answer) if self.answer else ()
        return tuple(misfit_sentence(each) for each in told if not each.argues)

    @property
    def way(self) -> tuple[WayStep, ...]:
        """The steps of the case, with what is open on each."""
        return way_of(self.case, {"evidence": self.open_places, "story": len(self.misfits)})

    @property
    def worst(self) -> str:
        """What fits least, in a sentence."""
        return next(iter(self.misfits), "")

    @property
    def open_places(self) -> int:
        """How many places nobody has been at yet."""
        return sum(map(is_open, self.places))

    @property
    def places(self) -> tuple[SitePlan, ...]:
        """All places in walking order; none where the book cannot be opened."""
        return _planned(self.kept.text, books.state())[1] if self.has_book else ()

    @property
    def lacks(self) -> tuple[Lack, ...]:
        """What is missing for a report that somebody else can use; the book can be opened."""
        return lacking(self.casefile, self.on.opened.places, self.book)

    @property
    def plan(self) -> VisitPlan:
        """What is to be looked at, without a time for it; the book can be opened."""
        return _planned(self.kept.text, books.state())[0]


def bench_of(case: str, number: int | None = None) -> Bench:
    """The case as it stands, or one revision of it. Http404 where there is none."""
    try:
        kept = store.head(case) if number is None else store.revision(case, number)
    except store.NotKeptError as fault:
        raise Http404 from fault
    return bench_at(kept)


def bench_at(kept: store.KeptRevision) -> Bench:
    """This revision of a case. RevisionUnreadError where it says what none can."""
    return Bench(kept=kept, on=on_bench(kept.text))


def on_bench(text: str) -> OnBench:
    """A text of a case read with its books as they are now."""
    return _on_bench(text, books.state())


@lru_cache(CASES_KEPT)
def _on_bench(text: str, books_state: str) -> OnBench:
    opened = parse_casefile(text, "case.json")
    casefile = opened.casefile
    if casefile is None:
        raise RevisionUnreadError(opened.problems[0].sentence())
    found = books_of(
        casefile, opened.places, books.folder_for(casefile), known=books.known(books_state)
    )
    if not isinstance(found, BooksOpened):
        return OnBench(opened, casefile, None, (*opened.problems, *found))
    faults = (*opened.problems, *check_case(casefile, opened.places, found.book))
    return OnBench(opened, casefile, found, faults)


@lru_cache(CASES_KEPT)
def _planned(text: str, books_state: str) -> tuple[VisitPlan, tuple[SitePlan, ...]]:
    on = _on_bench(text, books_state)
    plan = planned(on.casefile, on.book)
    return plan, places_of(on.casefile, on.book, plan)


class Depth(StrEnum):
    """How much of an Opinion is asked for."""

    AT_ONCE = "at once"
    WHOLE = "whole"
    STEADY = "steady"


_MISFITS: Latest[tuple[str, ...]] = Latest(CASES_KEPT)
_ANSWERS: Latest[Answer] = Latest(CASES_KEPT)
_OPINIONS: Latest[Opinion] = Latest(CASES_KEPT)


def _answer(text: str, books_state: str) -> Answer:
    """The quick answer, or that of an Opinion which is there: the two say the same."""
    there = (_OPINIONS.known((text, books_state, each)) for each in Depth)
    found = next((each for each in there if each is not None), None)
    if found is not None:
        return found.answer
    on = _on_bench(text, books_state)
    return _ANSWERS.ask((text, books_state), lambda: quick_answer(on.casefile, on.book))


def _misfits(answer: Answer) -> tuple[str, ...]:
    stop = stop_sentence(answer.stops)
    beside = (misfit_sentence(each) for each in misfits_beside(answer) if each.argues)
    return (*((stop,) if stop else ()), *beside)


def _whole(text: str, books_state: str) -> Opinion | None:
    """The whole Opinion where it is there."""
    return _OPINIONS.known((text, books_state, Depth.WHOLE))


def _opinion(text: str, books_state: str, depth: Depth) -> Opinion:
    return _OPINIONS.ask((text, books_state, depth), lambda: _examined(text, books_state, depth))


def _examined(text: str, books_state: str, depth: Depth) -> Opinion:
    on = _on_bench(text, books_state)
    assert on.books is not None, "a case without a book has faults"
    version, beside = versions_of(on.books)
    return examine(
        on.casefile,
        on.book,
        version,
        beside,
        steady=depth is Depth.STEADY,
        at_once=depth is Depth.AT_ONCE,
    )


def with_minutes(bench: Bench, minutes: int | None) -> Casefile:
    """The case as if so many minutes were left for further looks."""
    assignment = replace(bench.casefile.assignment, minutes_available=minutes)
    return replace(bench.casefile, assignment=assignment)
