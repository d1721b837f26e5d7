"""Every expected site and how it ended; where nothing was noted it was not looked for.

A place at which anything was read or looked at is seen; of its marks those that nobody entered
are told by name. A mark with an entry of its own has an outcome of its own, after that of its
place.
"""

from collections.abc import Iterator

from witnessmark.agreement.records import CarMarks
from witnessmark.casefile.records import Casefile, SiteSeen, SiteState
from witnessmark.casefile.site_entries import UNSEEN
from witnessmark.catalogue import as_said, marked
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import Mark
from witnessmark.codebook.names import is_instead
from witnessmark.codebook.qualified import further_book
from witnessmark.codebook.records import CarContext
from witnessmark.examination.place_records import PlaceOutcome, SiteOutcome, places_of

UNNAMED = marked("The case does not say; taken as not looked for.")
UNNAMED_BUT_SEEN = marked("The case does not list the place, but something was noted there.")
UNENTERED = marked("The place was looked at, and nothing was noted of this mark.")


def site_outcomes(car: CarMarks) -> tuple[SiteOutcome, ...]:
    """The sites of the marks this car should carry and those that speak of a piece without
    marks, in the book's order, then others noted."""
    return outcomes_noted(car.casefile, car.book, car.context)


def places_noted(
    casefile: Casefile, book: CodeBook, context: CarContext
) -> tuple[PlaceOutcome, ...]:
    """The same place by place, without a decoding; the case in its book's words."""
    return places_of(outcomes_noted(casefile, book, context))


def outcomes_noted(
    casefile: Casefile, book: CodeBook, context: CarContext
) -> tuple[SiteOutcome, ...]:
    """What is noted of each place, and of each mark that is told apart."""
    noted = dict.fromkeys(visit.site for visit in casefile.sites)
    places = _Places(casefile, book, context)
    expected: dict[str, list[Mark]] = {}
    for mark in book.marks_for(context):
        if mark.site:
            expected.setdefault(mark.site, []).append(mark)
    for site in book.sites:
        if site.piece and site.applies.covers(context):
            expected.setdefault(site.id, [])
    order = list(dict.fromkeys(site.id for site in book.sites))
    # What a further book has places for is looked at by choice: nothing hangs on it.
    asked_for = {s for s in expected if not further_book(s)} | set(noted) | places.seen
    wanted = [s for s in order if s in asked_for]
    return tuple(
        outcome
        for site_id in (*wanted, *(s for s in noted if s not in order))
        for outcome in places.ended(site_id, tuple(expected.get(site_id, ())))
    )


class _Places:
    """How the places of one case ended."""

    def __init__(self, casefile: Casefile, book: CodeBook, context: CarContext) -> None:
        self.entries, self.book, self.context = casefile.sites, book, context
        self.read: dict[str, list[Mark]] = {}
        for mark in map(book.mark, dict.fromkeys(each.mark for each in casefile.readings)):
            if mark is not None and mark.site:
                self.read.setdefault(mark.site, []).append(mark)
        self.looked = {look.site for look in casefile.looks}

    @property
    def seen(self) -> set[str]:
        """The sites at which a mark was read or a look noted."""
        return self.looked | set(self.read)

    def ended(self, site_id: str, marks: tuple[Mark, ...]) -> Iterator[SiteOutcome]:
        """How one place ended, then each of its marks that is told by itself."""
        entries = [visit for visit in self.entries if visit.site == site_id]
        own = {visit.mark: visit for visit in entries if visit.mark}
        visit = next((each for each in entries if not each.mark), None)
        rest = tuple(mark for mark in marks if mark.id not in own)
        is_seen = site_id in self.seen or any(e.state not in UNSEEN for e in own.values())
        apart = self._apart(site_id, rest, visit, own) if is_seen else ()
        asked = rest
        if further_book(site_id):  # of these only what was read is spoken of
            asked = tuple(mark for mark in rest if mark in self.read.get(site_id, ()))
        whole = tuple(mark.id for mark in asked if mark not in apart)
        is_unseen = visit is not None and visit.state in UNSEEN
        # Of a place that was seen only those marks are unseen that nobody entered.
        is_whole = visit is not None or bool(whole) or not own
        if is_whole and not (is_seen and is_unseen):
            now = visit or (_BUT_SEEN if is_seen else _SILENT)
            yield self._outcome(site_id, now, whole, is_noted=visit is not None)
        for mark in apart:
            now = visit if visit is not None and is_unseen else _UNENTERED
            yield self._outcome(site_id, now, (mark.id,), of=mark.id, is_noted=is_unseen)
        expected = {mark.id for mark in marks}
        for mark_id, each in own.items():
            of_car = (mark_id,) if mark_id in expected else ()
            yield self._outcome(site_id, each, of_car, of=mark_id)

    def _apart(
        self,
        site_id: str,
        rest: tuple[Mark, ...],
        visit: SiteSeen | None,
        own: dict[str, SiteSeen],
    ) -> tuple[Mark, ...]:
        """The marks of a place that was seen of which nobody entered anything, of those of which
        a car has one the first; none where an entry says how all of them ended."""
        is_told = visit is not None and visit.state not in (*UNSEEN, SiteState.READ)
        if further_book(site_id) or is_told:
            return ()
        named = (self.book.mark(each) for each in own)
        known = [*self.read.get(site_id, ()), *(each for each in named if each is not None)]
        found: list[Mark] = []
        for mark in rest:
            if not any(mark is each or is_instead(mark, each) for each in (*known, *found)):
                found.append(mark)
        return tuple(found)

    def _outcome(
        self,
        site_id: str,
        now: SiteSeen,
        marks: tuple[str, ...],
        *,
        of: str = "",
        is_noted: bool = True,
    ) -> SiteOutcome:
        site = self.book.site(site_id, self.context) or self.book.site(site_id)
        mark = self.book.mark(of)
        return SiteOutcome(
            site=site_id,
            name=site.name if site else site_id,
            where=site.where if site else "",
            state=now.state,
            reason=now.reason if is_noted else as_said(now.reason),
            marks=marks,
            is_noted=is_noted,
            attachment=now.attachment,
            mark=mark.name if mark else of,
        )


_SILENT = SiteSeen(site="", state=SiteState.NOT_LOOKED_FOR, reason=UNNAMED)
_BUT_SEEN = SiteSeen(site="", state=SiteState.READ, reason=UNNAMED_BUT_SEEN)
_UNENTERED = SiteSeen(site="", state=SiteState.NOT_LOOKED_FOR, reason=UNENTERED)
