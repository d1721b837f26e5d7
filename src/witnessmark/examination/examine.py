"""Walks the rooms in order: decode, compare, weigh, and an Opinion at the end."""

from witnessmark.agreement import compare
from witnessmark.agreement.car import marks_of_car
from witnessmark.agreement.look_class import disturbed_places
from witnessmark.agreement.own_days import with_own_days
from witnessmark.agreement.records import CarMarks
from witnessmark.casefile.records import Casefile
from witnessmark.catalogue import for_any_page
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.records import CarContext
from witnessmark.examination.book_words import book_names, claimed_context, in_book_words
from witnessmark.examination.disclosure import declared_marks, declared_questions, disclosures
from witnessmark.examination.limits import limitations
from witnessmark.examination.looks import looks_left
from witnessmark.examination.records import BookVersion, Opinion
from witnessmark.examination.sites import site_outcomes
from witnessmark.reading import rates_of_case
from witnessmark.weighing import Answer, Steadiness, answer, steadiness, weighed

DRAWS = 512
"""Draws of all assumed rates together, by which steadiness is told."""


def car_context(casefile: Casefile, book: CodeBook) -> CarContext:
    """What the claim gives about the car: year, model, works and coachbuilder."""
    return claimed_context(casefile.claim, book)


def car_marks(casefile: Casefile, book: CodeBook) -> CarMarks:
    """The case, the book and the decoded marks together: what the rules and the weighing read."""
    rates = rates_of_case(casefile.circumstances.overrides)
    return marks_of_car(casefile, book, car_context(casefile, book), rates)


def marks_of(opinion: Opinion, book: CodeBook) -> CarMarks:
    """The marks of an examined car as they were compared and weighed; nothing is decoded again."""
    case = opinion.casefile
    rates = rates_of_case(case.circumstances.overrides)
    return CarMarks(
        casefile=case,
        book=book,
        context=opinion.context,
        decodings=opinion.decodings,
        rates=rates,
        title=opinion.title,
    )


def quick_answer(casefile: Casefile, book: CodeBook) -> Answer:
    """What does not fit and the ratios alone, in one pass; no bands, reasons or looks."""
    car = car_marks(in_book_words(casefile, book), book)
    return answer(car, compare(car), with_contributions=False, with_next_looks=False)


def steadiness_alone(casefile: Casefile, book: CodeBook) -> Steadiness:
    """How far the answers rest on assumed rates, and nothing else of an Opinion."""
    return steadiness(car_marks(in_book_words(casefile, book), book), DRAWS)


@for_any_page()
def examine(
    casefile: Casefile,
    book: CodeBook,
    version: BookVersion,
    beside: tuple[BookVersion, ...] = (),
    *,
    steady: bool = True,
    at_once: bool = False,
) -> Opinion:
    """From a case and its code book to an Opinion: decode, compare, weigh.

    `beside` are the versions of the further books that were joined to the maker's. Without
    `steady` the Opinion does not say how far its answers rest on assumed rates. `at_once`: the
    same ratios, without what each thing does to them and without what is left to look at, which
    take longest, for whoever asks for those next.
    """
    casefile = in_book_words(casefile, book)
    car = car_marks(casefile, book)
    findings = compare(car)
    found = answer(car, findings, with_contributions=not at_once, with_next_looks=not at_once)
    steadied = steadiness(car, DRAWS) if steady else None
    conclusions = weighed(found, steadied, casefile.circumstances)
    sites, disclosed = site_outcomes(car), disclosures(car, found, conclusions)
    return Opinion(
        casefile=casefile,
        book=version,
        context=car.context,
        sites=sites,
        decodings=with_own_days(car),
        findings=findings,
        answer=found,
        steadiness=steadied,
        disturbed=disturbed_places(car),
        looks=() if at_once else looks_left(car, found),
        disclosure=disclosed,
        declared=declared_marks(car, disclosed),
        declared_questions=declared_questions(car, disclosed, conclusions),
        limitations=limitations(car, sites),
        problems=tuple(problem for decoding in car.decodings for problem in decoding.problems),
        names=book_names(car),
        beside=beside,
        title=car.title,
        is_at_once=at_once,
    )
