"""The demonstration cars opened, changed and examined: a case folder in, an Opinion out."""

from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path

from tests.examined import examined_once
from witnessmark.agreement import CarMarks, compare
from witnessmark.casefile import Casefile, SiteState, open_case
from witnessmark.codebook import CodeBook, find_book, open_book
from witnessmark.examination import BookVersion, Opinion, car_marks
from witnessmark.examination.sites import site_outcomes
from witnessmark.problem import render_all
from witnessmark.report import Outline, build_outline, report_text
from witnessmark.report.outline import build_annex
from witnessmark.weighing import Asked, Weighed, answer

DEMO = Path(__file__).resolve().parents[2] / "demo"
CARS = ("clean", "no-papers", "panel", "altered")
PRINTED = date(2026, 11, 25)

Key = tuple[Asked, str]
"""A question and what it is about."""


@cache
def book_and_version() -> tuple[CodeBook, BookVersion]:
    """The demonstration book and the version that an Opinion remembers."""
    folder = find_book("tarvane-1952-1961")
    assert folder is not None
    opened = open_book(folder)
    assert opened.book is not None, render_all(opened.problems)
    book = opened.book
    return book, BookVersion(book.id, book.title, book.version, opened.sha256)


@cache
def case_of(car: str) -> Casefile:
    """The case document of one of the four cars."""
    opened = open_case(DEMO / car)
    assert opened.casefile is not None, render_all(opened.problems)
    return opened.casefile


def examined(casefile: Casefile) -> Opinion:
    """The whole examination of a case by the demonstration book."""
    return examined_once(casefile, *book_and_version())


def unsteadied(casefile: Casefile) -> Opinion:
    """The same without how far it rests on assumed rates."""
    return examined_once(casefile, *book_and_version(), steady=False)


@cache
def marks_of(car: str) -> CarMarks:
    """The marks of one of the four cars, decoded and no more."""
    return car_marks(case_of(car), book_and_version()[0])


@cache
def opinion_of(car: str) -> Opinion:
    """The Opinion on one of the four cars."""
    return examined(case_of(car))


@cache
def outline_of(car: str) -> Outline:
    """The report on one of the four cars, in sentences and figures."""
    return build_outline(opinion_of(car), book_and_version()[0], PRINTED)


@cache
def annex_of(car: str) -> str:
    """What stands behind the report on one of the cars, as text."""
    return report_text(build_annex(opinion_of(car), book_and_version()[0], PRINTED))


@cache
def text_of(car: str) -> str:
    """The report on one of the four cars, as text."""
    return report_text(outline_of(car))


def conclusion(opinion: Opinion, question: Asked, about: str = "") -> Weighed:
    """The conclusion of one question."""
    return next(
        each for each in opinion.weighed if each.question is question and about in ("", each.about)
    )


def log10_lr(opinion: Opinion, question: Asked, about: str = "") -> float:
    """log10 LR of one question, at base rates and uncapped."""
    return conclusion(opinion, question, about).conclusion.log10_lr


def ratios(casefile: Casefile) -> dict[Key, float]:
    """log10 LR of every question at base rates and nothing else, uncapped."""
    car = car_marks(casefile, book_and_version()[0])
    found = answer(car, with_contributions=False, with_next_looks=False)
    return {(each.question, each.about): each.log10_lr for each in found.conclusions}


def unweighed(car: str, casefile: Casefile) -> Opinion:
    """The Opinion with everything renewed but the weighing: enough for findings and grid."""
    marks = car_marks(casefile, book_and_version()[0])
    return replace(
        opinion_of(car),
        casefile=casefile,
        context=marks.context,
        decodings=marks.decodings,
        findings=compare(marks),
        sites=site_outcomes(marks),
    )


def with_reading(casefile: Casefile, at: int, text: str) -> Casefile:
    """The case with the text of one reading typed otherwise."""
    readings = list(casefile.readings)
    readings[at] = replace(readings[at], text=text)
    return replace(casefile, readings=tuple(readings))


def with_look(casefile: Casefile, at: int, outcome: str) -> Casefile:
    """The case with another outcome of one look."""
    looks = list(casefile.looks)
    looks[at] = replace(looks[at], outcome=outcome)
    return replace(casefile, looks=tuple(looks))


def without_site(casefile: Casefile, site: str, state: SiteState | None) -> Casefile:
    """The case with nothing noted at a site, which has this state or is not listed at all."""
    book = book_and_version()[0]
    marks = {mark.id for mark in book.marks if mark.site == site}
    sites = [
        replace(seen, state=state, attachment="in place", reason="") if seen.site == site else seen
        for seen in casefile.sites
        if state is not None or seen.site != site
    ]
    update = {
        "sites": tuple(sites),
        "readings": tuple(r for r in casefile.readings if r.mark not in marks),
        "looks": tuple(look for look in casefile.looks if look.site != site),
    }
    return replace(casefile, **update)
