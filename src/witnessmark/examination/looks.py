"""What is left to look at: again what did not fit, then marks unread, places not looked at,
papers and sources beyond the car, in order of what they cost.

What a reading that stands and the answer of an awaited paper would do is the Answer's; what any
other look would do is not calculated.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import IntEnum

from witnessmark.agreement.records import CarMarks
from witnessmark.casefile.records import PaperState, SiteState
from witnessmark.casefile.site_entries import SiteEntries
from witnessmark.catalogue import said
from witnessmark.codebook.bearings import bearings_of, question_of
from witnessmark.codebook.marks import Mark, MarkKind
from witnessmark.codebook.pieces import PieceKind, Pieces, pieces_of
from witnessmark.codebook.site_records import Site
from witnessmark.examination.papers import HELD, paper_states
from witnessmark.examination.sites import site_outcomes
from witnessmark.weighing import Answer, Conclusion, capped

REACHED = (SiteState.READ, SiteState.FOUND_ILLEGIBLE, SiteState.ABSENT)
UNREACHED = (None, SiteState.NOT_LOOKED_FOR)
GONE = (PaperState.LOST, PaperState.REFUSED)
LOOK_MINUTES = 3
"""For a close look at a place already reached: a torch and a photograph (assumed)."""


LEAST_MOVED = 0.1
"""By how much, in log10, a reading again must move an answer to be told as moving it."""


class LookKind(IntEnum):
    """The kinds of look, in the order in which they are proposed."""

    AGAIN = 0
    READING = 1
    PLACE = 2
    PAPER = 3
    SOURCE = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class LookLeft:
    """One thing to look at, in words, with what it costs and the pieces that it speaks of.

    `is_reachable` False for what cannot be reached on this car or is not on it.
    """

    kind: LookKind
    target: str
    prompt: str
    pieces: tuple[str, ...]
    is_reachable: bool
    site: str = ""
    minutes: int = 0
    access_group: str = ""
    access_minutes: int = 0
    dismantling: str = ""
    caution: str = ""

    @property
    def cost(self) -> int:
        """Minutes with those of getting there."""
        return self.minutes + self.access_minutes


def looks_left(car: CarMarks, answer: Answer) -> tuple[LookLeft, ...]:
    """All looks that are left: those within reach first, by kind; of those to be taken again
    that first which moves an answer most, else by their minutes."""
    return tuple(sorted(_Left(car, answer).all(), key=lambda look: _order(look, answer)))


def in_time(looks: Iterable[LookLeft], minutes: int) -> tuple[LookLeft, ...]:
    """The looks within reach that fit into the minutes, one after the other; a place and a
    shared access are counted once."""
    taken: list[LookLeft] = []
    for look in looks:
        if look.is_reachable and look.site and minutes_of((*taken, look)) <= minutes:
            taken.append(look)
    return tuple(taken)


def minutes_of(looks: Iterable[LookLeft]) -> int:
    """Minutes for looks together."""
    return minutes_together(
        (each.site, each.minutes, each.access_group, each.access_minutes) for each in looks
    )


def minutes_together(places: Iterable[tuple[str, int, str, int]]) -> int:
    """Minutes for places, each by its id, its minutes, how it is reached and the minutes of that:
    a place once, a shared access once."""
    within: dict[str, int] = {}
    access: dict[str, int] = {}
    for place, minutes, group, access_minutes in places:
        group = group or f"access to {place}"
        within[place] = max(within.get(place, 0), minutes)
        access[group] = max(access.get(group, 0), access_minutes)
    return sum(within.values()) + sum(access.values())


def _order(look: LookLeft, answer: Answer) -> tuple[bool, LookKind, float, int]:
    moves = most_moved(look.target, answer) if look.kind is LookKind.AGAIN else None
    return not look.is_reachable, look.kind, -moves.by if moves else 0.0, look.cost


@dataclass(frozen=True, slots=True)
class Moved:
    """The conclusion that a reading moves most if it stands, and its log10 LR then."""

    conclusion: Conclusion
    log10_lr: float

    @property
    def by(self) -> float:
        """By how much the log10 LR, as capped, is moved."""
        return abs(capped(self.log10_lr) - capped(self.conclusion.log10_lr))

    @property
    def is_told(self) -> bool:
        """Is it moved by more than a quarter, so that a page of two figures shows it?"""
        return self.by > LEAST_MOVED


def most_moved(mark: str, answer: Answer) -> Moved | None:
    """What reading a mark again does most, if it reads so again; None where that is not known."""
    found = [
        Moved(conclusion, outcome.log10_lr)
        for each in answer.next_looks
        if each.about == mark
        if (conclusion := answer.conclusion(each.question, each.of)) is not None
        for outcome in each.outcomes[:1]
    ]
    return max(found, key=lambda each: each.by, default=None)


class _Left:
    """Finds what is left of one case."""

    def __init__(self, car: CarMarks, answer: Answer) -> None:
        self.car = car
        self.pieces: Pieces = pieces_of(car.book, car.context)
        self.on = {each.mark: each.piece for each in self.pieces.standings}
        self.entries = SiteEntries(car.casefile.sites)
        self.papers = paper_states(car.casefile, car.decodings)
        self.unentered = {
            mark
            for each in site_outcomes(car)
            if each.mark and each.state is SiteState.NOT_LOOKED_FOR
            for mark in each.marks
        }
        self.contradicted = {each.about for each in answer.next_looks}

    def all(self) -> Iterator[LookLeft]:
        """Every look, in no order."""
        marks = [mark for mark in self.car.book.marks_for(self.car.context) if not mark.book]
        for mark in marks:
            if self.car.of(mark.id):
                if mark.id in self.contradicted:
                    yield self._again(mark)
            elif mark.kind is MarkKind.PAPER:
                yield from self._paper(mark)
            elif self._state(mark) not in REACHED:
                yield self._reading(mark)
        yield from self._places(marks)
        yield from self._sources()

    def _state(self, mark: Mark) -> SiteState | None:
        """How it ended by what was entered; a place that was read does not say it of a mark of
        which nothing was noted."""
        if mark.id in self.unentered:
            return SiteState.NOT_LOOKED_FOR
        entry = self.entries.of(mark.site, mark.id)
        return entry.state if entry is not None else None

    def _again(self, mark: Mark) -> LookLeft:
        prompt = said("Read the {mark} again, by another examiner and in raking light",
                      mark=mark.name)  # fmt: skip
        is_shut = self._state(mark) is SiteState.NOT_ACCESSIBLE
        return self._at(
            LookKind.AGAIN,
            mark.id,
            prompt,
            marks=(mark,),
            is_reachable=not is_shut,
            site_id=mark.site,
        )

    def _reading(self, mark: Mark) -> LookLeft:
        prompt = said("Read the {mark}", mark=mark.name)
        within = self._state(mark) in UNREACHED
        return self._at(
            LookKind.READING, mark.id, prompt, marks=(mark,), is_reachable=within, site_id=mark.site
        )

    def _paper(self, mark: Mark) -> Iterator[LookLeft]:
        if self.papers.get(mark.id) not in GONE:
            prompt = said("Obtain and read the {paper}", paper=mark.name)
            yield self._at(
                LookKind.PAPER, mark.id, prompt, marks=(mark,), is_reachable=False, site_id=""
            )

    def _places(self, marks: list[Mark]) -> Iterator[LookLeft]:
        """Places at which nobody noted how the metal looks."""
        looked = {look.site for look in self.car.casefile.looks}
        by_site: dict[str, tuple[Mark, ...]] = {}
        for mark in marks:
            if mark.site:
                by_site[mark.site] = (*by_site.get(mark.site, ()), mark)
        for bare in self.car.book.sites:
            if bare.piece:
                by_site.setdefault(bare.id, ())
        for site_id, there in by_site.items():
            site = self.car.book.site(site_id, self.car.context)
            state = self.entries.state(site_id)
            if site is None or site_id in looked or state is SiteState.ABSENT:
                continue
            within = state in (*REACHED, *UNREACHED)
            yield self._at(
                LookKind.PLACE,
                site_id,
                _to_look_at(site),
                marks=there,
                is_reachable=within,
                site_id=site_id,
            )

    def _sources(self) -> Iterator[LookLeft]:
        """Archives and laboratories that the book names, those not yet asked in vain."""
        in_vain = {name for p in self.car.casefile.papers for name in p.asked_in_vain}
        for each in self.car.book.settlements:
            if not each.applies.covers(self.car.context) or each.id in in_vain:
                continue
            if not self._is_held(each.speaks_of):
                prompt = f"{each.name}: {each.how}"
                yield LookLeft(
                    kind=LookKind.SOURCE,
                    target=each.id,
                    prompt=prompt,
                    pieces=self._settled_by(each.speaks_of),
                    is_reachable=False,
                    minutes=each.minutes,
                )

    def _at(
        self,
        kind: LookKind,
        target: str,
        prompt: str,
        marks: tuple[Mark, ...],
        is_reachable: bool,
        site_id: str,
    ) -> LookLeft:
        site = self.car.book.site(site_id, self.car.context) if site_id else None
        pieces = tuple(dict.fromkeys(self._spoken_of(mark) for mark in marks))
        if site is not None and not marks:
            pieces = (question_of(self.pieces, site.piece),)
        if site is None:
            return LookLeft(
                kind=kind,
                target=target,
                prompt=prompt,
                pieces=pieces,
                is_reachable=is_reachable and bool(site_id),
                site=site_id,
            )
        known = kind is LookKind.PLACE and self.entries.state(site_id) in REACHED
        return LookLeft(
            kind=kind,
            target=target,
            prompt=prompt,
            pieces=pieces,
            is_reachable=is_reachable,
            site=site_id,
            minutes=LOOK_MINUTES if known else site.minutes,
            access_group=site.access_group,
            access_minutes=site.access_minutes,
            dismantling=site.dismantling,
            caution=site.caution,
        )

    def _is_held(self, speaks_of: str) -> bool:
        """Is it a paper that lies before us? What stands on metal a source may read otherwise."""
        mark = self.car.book.mark(speaks_of)
        is_paper = mark is not None and mark.kind is MarkKind.PAPER
        return is_paper and self.papers.get(speaks_of) in HELD

    def _settled_by(self, speaks_of: str) -> tuple[str, ...]:
        """The questions of which a source speaks that reads this mark, or looks at this part."""
        mark = self.car.book.mark(speaks_of)
        if mark is not None and mark.kind is MarkKind.PAPER:
            bearings = bearings_of(self.car.book, self.pieces, mark)
            return tuple(dict.fromkeys((mark.id, *(each.question for each in bearings))))
        return (question_of(self.pieces, self.on.get(speaks_of, speaks_of)),)

    def _spoken_of(self, mark: Mark) -> str:
        """The question that a mark bears on: that of its piece, of its assembly where it is
        fitted to a core, of the identity where it stands on the structure or a panel of it."""
        piece = next((p for p in self.pieces.pieces if p.id == self.on.get(mark.id)), None)
        if piece is None:
            return mark.id
        is_own = piece.kind in (PieceKind.PLATE, PieceKind.PAPER, PieceKind.CORE)
        return piece.id if is_own else piece.assembly or piece.id


def _to_look_at(site: Site) -> str:
    if not site.look_at:
        return said("Look closely at the {place}", place=site.name)
    return said("Look closely at the {place} and note how these are: {features}",
                place=site.name, features=site.look_at)  # fmt: skip
