"""A place at which anything was seen is never one that was not: only its mark is missing.

Each document says so, of a car of every shipped book and of each kind of small book.
"""

from dataclasses import replace

import pytest

from tests.report.contradictions import contradictions
from tests.report.told import examined_quickly, texts, told_of
from tests.worked.situations.document import book_of, casefile
from tests.worked.situations.standard import EVERY, STANDARD
from witnessmark.casefile import Casefile, SiteSeen, SiteState
from witnessmark.codebook import CodeBook
from witnessmark.examination import car_context
from witnessmark.examination.sites import places_noted


def read_in_part(car: str) -> tuple[Casefile, CodeBook, str, str]:
    """The car with one mark of a place entered alone, or its metal where every place has one
    mark, as the pages enter it; the mark that is left, and its place."""
    book, case = book_of(STANDARD[car].book), casefile(STANDARD[car])
    sites = [mark.site for r in case.readings if (mark := book.mark(r.mark)) and mark.site]
    site = next((each for each in sites if sites.count(each) > 1), sites[0])
    there = [r for r in case.readings if (mark := book.mark(r.mark)) and mark.site == site]
    left = there[-1].mark
    own = [SiteSeen(site=site, mark=r.mark, state=SiteState.READ) for r in there[:-1]]
    state = SiteState.NOT_LOOKED_FOR if own else SiteState.READ
    entries = [SiteSeen(site=site, state=state), *own]
    changed = replace(
        case,
        sites=(*(each for each in case.sites if each.site != site), *entries),
        readings=tuple(each for each in case.readings if each.mark != left),
        looks=tuple(e for e in case.looks if e.site != site or not own),
    )
    return changed, book, left, site


@pytest.mark.parametrize("car", EVERY)
def test_a_place_of_which_a_mark_was_read_is_seen_and_lacks_the_other(car: str) -> None:
    case, book, left, site = read_in_part(car)
    noted = places_noted(case, book, car_context(case, book))
    place = next(each for each in noted if each.site == site)
    mark = book.mark(left)
    assert mark is not None
    assert place.state is SiteState.READ
    assert [each.mark for each in place.unseen] == [mark.name]


@pytest.mark.parametrize("car", ["mustang", "coachbuilt"])
def test_no_document_calls_such_a_place_unseen(car: str) -> None:
    case, book, left, _ = read_in_part(car)
    told = told_of(examined_quickly(case, book), book)
    mark = book.mark(left)
    assert mark is not None
    assert "Single marks at places seen: " in "\n".join(texts(told.front))
    assert f"{mark.name} (not looked for)" in "\n".join(texts(told.front))
    assert contradictions(told) == []
