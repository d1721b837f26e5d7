"""The places of a case: those that the book has of the claimed car, and any other that was visited.

Counted once, so that every page and command says the same number of them.
"""

from collections.abc import Iterator

from witnessmark.casefile import Casefile, SiteState
from witnessmark.codebook import CodeBook
from witnessmark.examination import car_context, in_book_words
from witnessmark.examination.sites import places_noted
from witnessmark.plan.records import SitePlan, VisitPlan
from witnessmark.plan.visit import visit_plan


def planned(case: Casefile, book: CodeBook) -> VisitPlan:
    """What the book has of this car, with whatever was noted of it."""
    return visit_plan(case, book, (), None)


def places_of(case: Casefile, book: CodeBook, plan: VisitPlan) -> tuple[SitePlan, ...]:
    """The places of this car in walking order, then those at which something was noted that such
    a car is not expected to have."""
    sites = plan.sites
    known = {each.row.id for each in sites}
    return (*sites, *_unexpected(case, book, known, len(sites)))


def is_open(place: SitePlan) -> bool:
    """Has nobody been there?"""
    return place.state is SiteState.NOT_LOOKED_FOR


def _unexpected(case: Casefile, book: CodeBook, known: set[str], last: int) -> Iterator[SitePlan]:
    """Places that were visited though the claimed car would have none there."""
    worded = in_book_words(case, book)
    noted = places_noted(worded, book, car_context(case, book))
    further = (
        each for each in noted if each.site not in known and each.site in _visited(worded, book)
    )
    for number, each in enumerate(further, last + 1):
        row = book.site(each.site)
        if row is not None:
            yield SitePlan(number=number, row=row, state=each.state)


def _visited(case: Casefile, book: CodeBook) -> set[str]:
    marks = (book.mark(each.mark) for each in case.readings)
    return {
        *(each.site for each in case.sites),
        *(each.site for each in case.looks),
        *(each.site for each in marks if each is not None),
    }
