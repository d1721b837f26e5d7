"""What a second examiner may see: places, photographs, their own entries, and nothing else.

Everything is made of a case from which all other readings, looks, states, papers and titles are
taken away first; so no page, title, file name or text beside a picture can tell of them.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime

from django.http import Http404

from witnessmark.casefile import Casefile, ExhibitEntry, SiteSeen, SiteState, Title
from witnessmark.examination import in_book_words
from witnessmark.plan import SitePlan
from witnessmark.reading import Cell, CellKind, parse_reading
from witnessmark.store import people
from witnessmark.web.evidence.cards import photos_at
from witnessmark.web.evidence.forms import Whose, me_of, my_names
from witnessmark.web.evidence.walk import marks_at
from witnessmark.web.shared.desk import Bench, bench_of
from witnessmark.web.shared.saving import now
from witnessmark.wording.amounts import capital
from witnessmark.wording.case_words import signer_name

KIND = "second"
_DONE = "second reading done"

DIFFERS, SAME, ALONE = "differs", "nothing differs that both read", "nobody else read it"


@dataclass(frozen=True, slots=True, kw_only=True)
class Blind:
    """A pass that is open, and the case as its bearer may see it."""

    token: str
    own: people.PassKnown
    bench: Bench
    """With everything in it: never given to a page before they are done."""
    shown: Bench
    """The case as it is shown."""
    is_done: bool

    @property
    def whose(self) -> Whose:
        """How their entries are signed."""
        return Whose(by=me_of(self.own.for_whom, self.bench.casefile), again=True)

    @property
    def sites(self) -> tuple[SitePlan, ...]:
        """The places in walking order."""
        return self.shown.places


def opened(token: str) -> Blind:
    """What this token opens. Http404 where it opens nothing, or no longer."""
    found = people.pass_of(token, KIND, now())
    if found is None:
        raise Http404
    bench = bench_of(found.case)
    if not bench.has_book:
        raise Http404
    case = blinded(bench.casefile, found.for_whom)
    shown = replace(bench, on=replace(bench.on, casefile=case, faults=()))
    is_done = done_at(found.id) is not None
    return Blind(token=token, own=found, bench=bench, shown=shown, is_done=is_done)


def blinded(case: Casefile, name: str) -> Casefile:
    """The case without anything that was read, seen or said, but what this person entered blind."""
    mine = my_names(name, case)
    return replace(
        case,
        title="",
        readings=tuple(each for each in case.readings if each.by in mine and each.again),
        looks=tuple(each for each in case.looks if each.by in mine and each.again),
        sites=tuple(
            SiteSeen(site=each, state=SiteState.NOT_LOOKED_FOR)
            for each in dict.fromkeys(e.site for e in case.sites)
        ),
        papers=(),
        title_paper=Title(),
    )


def has_read(case: Casefile, name: str) -> bool:
    """Has this person read or looked at anything of the car already?"""
    mine = my_names(name, case)
    read, looked = (each.by for each in case.readings), (each.by for each in case.looks)
    return not mine.isdisjoint((*read, *looked))


def done_at(pass_id: int) -> datetime | None:
    """When the bearer said that they were done."""
    found = people.setting(f"{_DONE} {pass_id}")
    return datetime.fromisoformat(found) if isinstance(found, str) else None


def say_done(pass_id: int) -> None:
    """The bearer is done: what they entered stands, and they may see the rest."""
    people.put_setting(f"{_DONE} {pass_id}", now().isoformat())


def photos_of(blind: Blind, site: SitePlan) -> tuple[tuple[int, ExhibitEntry], ...]:
    """The photographs of a place by their numbers; none that shows a paper."""
    marks = (mark.id for group in marks_at(blind.bench, site) for mark in group)
    found = photos_at(blind.bench, site.row.id, marks)
    papers = {x for e in blind.bench.casefile.papers for x in e.exhibits}
    papers |= set(blind.bench.casefile.title_paper.exhibits)
    return tuple((each.number, each.entry) for each in found if each.entry.id not in papers)


@dataclass(frozen=True, slots=True)
class ReadTwice:
    """A mark that was read blind, and how others read it."""

    mark: str
    own: str
    others: tuple[tuple[str, str], ...]
    word: str


def differences(case: Bench, whose: Whose) -> Iterator[ReadTwice]:
    """Each mark that they read, beside what the others read there."""
    readings = in_book_words(case.casefile, case.book).readings
    for own in readings:
        mark = case.book.mark(own.mark)
        if (own.by, own.again) != (whose.by, whose.again) or mark is None:
            continue
        others = [e for e in readings if e.mark == own.mark and e.by != own.by]
        cells = parse_reading(own.text, mark).cells
        apart = [_are_apart(cells, parse_reading(each.text, mark).cells) for each in others]
        word = DIFFERS if any(apart) else SAME if others else ALONE
        yield ReadTwice(
            capital(mark.name),
            own.text,
            tuple((signer_name(e.by, case.casefile) or "somebody", e.text) for e in others),
            word,
        )


def _are_apart(one: tuple[Cell, ...], other: tuple[Cell, ...]) -> bool:
    """Does a place that both could read say something else, or is one longer? Readings with an
    unknown number of lost places are not set beside each other place by place."""
    if any(each.kind is CellKind.GAP for each in (*one, *other)):
        return False
    if len(one) != len(other):
        return True
    read = ((a, b) for a, b in zip(one, other, strict=True) if {a.kind, b.kind} <= _READ)
    return any(not set(a.sign()) & set(b.sign()) - set("[]") for a, b in read)


_READ = {CellKind.CLEAR, CellKind.ONE_OF, CellKind.NEVER_STRUCK}
