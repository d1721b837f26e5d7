"""What an entry brings with it: how a place ended once a mark of it was read or its metal looked
at, and at which entries a photograph is named.
"""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from witnessmark.casefile.records import (
    Casefile,
    LookSeen,
    MarkReading,
    Paper,
    SiteSeen,
    SiteState,
)
from witnessmark.casefile.site_entries import UNSEEN, SiteEntries
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import Mark
from witnessmark.codebook.names import is_instead
from witnessmark.codebook.records import CarContext
from witnessmark.examination.book_words import in_book_words
from witnessmark.examination.check import NEVER_STRUCK
from witnessmark.reading import parse_reading


def state_read(mark: Mark, text: str) -> SiteState:
    """How a mark ended of which this was read.

    Signs that say of every place that it was never struck make it absent.
    """
    if text.strip() and not set(text) - NEVER_STRUCK:
        return SiteState.ABSENT
    is_lost = parse_reading(text, mark).is_illegible
    return SiteState.FOUND_ILLEGIBLE if is_lost else SiteState.READ


def with_state(
    casefile: Casefile, book: CodeBook, context: CarContext, mark: Mark, state: SiteState
) -> Casefile:
    """The case with how this mark ended: said of its place where that speaks of no other mark
    that is open, else of the mark alone. Why a place was not reached holds no longer."""
    if not mark.site:
        return casefile
    entries = SiteEntries(casefile.sites)
    of = entries.of(mark.site, mark.id)
    if of is not None and (of.state is state or of.mark):
        return _with_site(casefile, of, state)
    others = [
        each
        for each in book.marks_for(context)
        if each.site == mark.site and not is_instead(each, mark)
    ]
    settled = {each.mark for each in casefile.sites if each.site == mark.site}
    settled |= {each.mark for each in casefile.readings}
    if all(each.id in settled for each in others):
        alone = [SiteSeen(site=mark.site, mark=each.id, state=state) for each in others]
        kept = tuple(each for each in casefile.sites if each not in alone)
        casefile = replace(casefile, sites=kept)  # the place now says it for all
        return _with_site(casefile, of or SiteSeen(site=mark.site, state=state), state)
    return _with_site(casefile, SiteSeen(site=mark.site, mark=mark.id, state=state), state)


def with_place_reached(casefile: Casefile, site: str) -> Casefile:
    """The case with a place as read at which a look was noted, if it was called unseen."""
    state = SiteEntries(casefile.sites).state(site)
    if state is not None and state not in UNSEEN:
        return casefile
    of = next((e for e in casefile.sites if e.site == site and not e.mark), None)
    return _with_site(casefile, of or SiteSeen(site=site, state=SiteState.READ), SiteState.READ)


def with_exhibit(
    casefile: Casefile, book: CodeBook, place: tuple[str, str], exhibit: str
) -> Casefile:
    """The case with an exhibit named at all that was noted of a place (its site, and the mark if
    one of several is meant), or of a paper (no site, and its mark)."""
    return _naming(casefile, book, place, lambda now: tuple(dict.fromkeys((*now, exhibit))))


def without_exhibit(
    casefile: Casefile, book: CodeBook, place: tuple[str, str], exhibit: str
) -> Casefile:
    """The case with an exhibit named at nothing that was noted of a place, or of a paper; it
    stays among those of the case."""
    return _naming(casefile, book, place, lambda now: tuple(e for e in now if e != exhibit))


def _naming(
    casefile: Casefile,
    book: CodeBook,
    place: tuple[str, str],
    named: Callable[[tuple[str, ...]], tuple[str, ...]],
) -> Casefile:
    """The case with other exhibits named at whatever was noted there."""
    site, mark = place
    marks = {mark} if mark else {each.id for each in book.marks if each.site == site}
    read = in_book_words(casefile, book)

    def shows(each: SiteSeen | MarkReading | LookSeen | Paper) -> bool:
        if isinstance(each, MarkReading | Paper):
            return each.mark in marks
        is_there = bool(site) and each.site == site
        return is_there and (isinstance(each, LookSeen) or each.mark in ("", *marks))

    changed: dict[str, Any] = {
        section: tuple(
            replace(typed, exhibits=named(typed.exhibits)) if shows(each) else typed
            for typed, each in zip(getattr(casefile, section), getattr(read, section), strict=True)
        )
        for section in ("sites", "readings", "looks", "papers")
    }
    return replace(casefile, **changed)


def _with_site(casefile: Casefile, entry: SiteSeen, state: SiteState) -> Casefile:
    """The case with this entry in such a state, at its place or as the last."""
    is_reached = entry.state in UNSEEN and state not in UNSEEN
    now = replace(entry, state=state, reason="" if is_reached else entry.reason)
    if entry not in casefile.sites:
        return replace(casefile, sites=(*casefile.sites, now))
    sites = tuple(now if each is entry or each == entry else each for each in casefile.sites)
    return replace(casefile, sites=sites)
