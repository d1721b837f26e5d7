"""Every expected site and how it ended; where nothing was noted it was not looked for."""

from witnessmark.agreement.records import CarMarks
from witnessmark.casefile.records import AttachmentSeen, SiteSeen, SiteState
from witnessmark.catalogue import as_said, marked
from witnessmark.codebook.qualified import further_book
from witnessmark.examination.records import SiteOutcome

UNNAMED = marked("The case does not say; taken as not looked for.")
UNNAMED_BUT_SEEN = marked("The case does not list the site, but something was noted there.")


def site_outcomes(car: CarMarks) -> tuple[SiteOutcome, ...]:
    """The sites of the marks this car should carry, in the book's order, then others noted."""
    noted = {visit.site: visit for visit in car.casefile.sites}
    seen = _seen(car)
    expected: dict[str, list[str]] = {}
    for mark in car.book.marks_for(car.context):
        if mark.site:
            expected.setdefault(mark.site, []).append(mark.id)
    order = list(dict.fromkeys(site.id for site in car.book.sites))
    # What a further book has places for is looked at by choice: nothing hangs on it.
    asked_for = {s for s in expected if not further_book(s)} | set(noted) | seen
    wanted = [s for s in order if s in asked_for]
    found = []
    for site_id in (*wanted, *(s for s in noted if s not in order)):
        site = car.book.site(site_id, car.context) or car.book.site(site_id)
        visit = noted.get(site_id)
        state, reason = _ended(visit, site_id in seen)
        found.append(
            SiteOutcome(
                site_id,
                site.name if site else site_id,
                site.where if site else "",
                state,
                reason,
                tuple(expected.get(site_id, ())),
                visit is not None,
                visit.attachment if visit else AttachmentSeen.IN_PLACE,
            )
        )
    return tuple(found)


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
