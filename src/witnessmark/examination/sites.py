"""Every expected site and how it ended; where nothing was noted it was not looked for.

A mark that has an entry of its own has an outcome of its own, after that of its place.
"""

from collections.abc import Iterator

from witnessmark.agreement.records import CarMarks
from witnessmark.casefile.records import AttachmentSeen, SiteSeen, SiteState
from witnessmark.catalogue import as_said, marked, said
from witnessmark.codebook.qualified import further_book
from witnessmark.examination.records import SiteOutcome

UNNAMED = marked("The case does not say; taken as not looked for.")
UNNAMED_BUT_SEEN = marked("The case does not list the site, but something was noted there.")


def site_outcomes(car: CarMarks) -> tuple[SiteOutcome, ...]:
    """The sites of the marks this car should carry and those that speak of a piece without
    marks, in the book's order, then others noted."""
    noted = dict.fromkeys(visit.site for visit in car.casefile.sites)
    seen = _seen(car)
    expected: dict[str, list[str]] = {}
    for mark in car.book.marks_for(car.context):
        if mark.site:
            expected.setdefault(mark.site, []).append(mark.id)
    for site in car.book.sites:
        if site.piece and site.applies.covers(car.context):
            expected.setdefault(site.id, [])
    order = list(dict.fromkeys(site.id for site in car.book.sites))
    # What a further book has places for is looked at by choice: nothing hangs on it.
    asked_for = {s for s in expected if not further_book(s)} | set(noted) | seen
    wanted = [s for s in order if s in asked_for]
    return tuple(
        outcome
        for site_id in (*wanted, *(s for s in noted if s not in order))
        for outcome in _outcomes(car, site_id, tuple(expected.get(site_id, ())), seen)
    )


def _outcomes(
    car: CarMarks, site_id: str, marks: tuple[str, ...], seen: set[str]
) -> Iterator[SiteOutcome]:
    """How one place ended, then each of its marks that the case speaks of by itself."""
    site = car.book.site(site_id, car.context) or car.book.site(site_id)
    name, where = (site.name, site.where) if site else (site_id, "")
    entries = [visit for visit in car.casefile.sites if visit.site == site_id]
    own = {visit.mark: visit for visit in entries if visit.mark}
    visit = next((each for each in entries if not each.mark), None)
    rest = tuple(mark for mark in marks if mark not in own)
    if visit or rest or not own:
        is_seen = any(car.of(mark) for mark in rest) if own else site_id in seen
        state, reason = _ended(visit, is_seen)
        attachment = visit.attachment if visit else AttachmentSeen.IN_PLACE
        is_noted = visit is not None
        yield SiteOutcome(
            site=site_id,
            name=name,
            where=where,
            state=state,
            reason=reason,
            marks=rest,
            is_noted=is_noted,
            attachment=attachment,
        )
    for mark_id, each in own.items():
        mark = car.book.mark(mark_id)
        told = said("{place}: {mark}", place=name, mark=mark.name if mark else mark_id)
        of_car = (mark_id,) if mark_id in marks else ()
        yield SiteOutcome(
            site=site_id,
            name=told,
            where=where,
            state=each.state,
            reason=each.reason,
            marks=of_car,
            is_noted=True,
            attachment=each.attachment,
        )


def _ended(visit: SiteSeen | None, is_seen: bool) -> tuple[SiteState, str]:
    """How a site ended and why, in the case's words where it says so."""
    if visit is not None:
        return visit.state, visit.reason
    if is_seen:
        return SiteState.READ, as_said(UNNAMED_BUT_SEEN)
    return SiteState.NOT_LOOKED_FOR, as_said(UNNAMED)


def _seen(car: CarMarks) -> set[str]:
    """The sites at which a mark was read or a look noted."""
    sites = {look.site for look in car.casefile.looks}
    for each in car.decodings:
        mark = car.book.mark(each.mark)
        if mark is not None and mark.site:
            sites.add(mark.site)
    return sites
