"""Every expected site and how it ended; what the case does not name was not looked for."""

from witnessmark.agreement.records import CarMarks
from witnessmark.casefile.records import SiteState
from witnessmark.examination.records import SiteOutcome


def site_outcomes(car: CarMarks) -> tuple[SiteOutcome, ...]:
    """The sites of the marks this car should carry, in the book's order, then others noted."""
    noted = {visit.site: visit for visit in car.casefile.sites}
    expected: dict[str, list[str]] = {}
    for mark in car.book.marks_for(car.context):
        if mark.site:
            expected.setdefault(mark.site, []).append(mark.id)
    order = list(dict.fromkeys(site.id for site in car.book.sites))
    wanted = [s for s in order if s in expected or s in noted]
    found = []
    for site_id in (*wanted, *(s for s in noted if s not in order)):
        site = car.book.site(site_id, car.context) or car.book.site(site_id)
        visit = noted.get(site_id)
        found.append(
            SiteOutcome(
                site_id,
                site.name if site else site_id,
                site.where if site else "",
                visit.state if visit else SiteState.NOT_LOOKED_FOR,
                visit.reason if visit else "The case does not say; taken as not looked for.",
                tuple(expected.get(site_id, ())),
                visit is not None,
            )
        )
    return tuple(found)
