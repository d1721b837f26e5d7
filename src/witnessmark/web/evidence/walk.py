"""The walk: every place in walking order, then the papers and the title, each with how it ended."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache

from django.urls import reverse
from django.utils.safestring import SafeString

from witnessmark.casefile import SiteState
from witnessmark.codebook import CodeBook, Mark
from witnessmark.codebook.names import is_instead
from witnessmark.figures.drawing import figure
from witnessmark.figures.place_markers import RADIUS, draw_marker
from witnessmark.plan import SitePlan
from witnessmark.plan.places import is_open
from witnessmark.web.shared.blocks import figure as drawn_figure
from witnessmark.web.shared.desk import Bench
from witnessmark.wording import term
from witnessmark.wording.amounts import capital

SIGNS_KEPT = 512
TITLE = "title"
"""The stop at the title paper."""
OTHERS = "papers"
"""The stop at papers that the book does not list."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WalkStop:
    """One stop of the walk: `key` is a site's id, a paper's mark, or one of the two above."""

    key: str
    number: int = 0
    name: str
    word: str
    address: str
    is_open: bool = False
    sign: str = ""
    misfits: int = 0


@dataclass(frozen=True, slots=True)
class WholeWalk:
    """All stops, and those before and behind the one where somebody stands."""

    places: tuple[WalkStop, ...]
    papers: tuple[WalkStop, ...]
    at: str = ""

    @property
    def stops(self) -> tuple[WalkStop, ...]:
        """Places and papers in their order."""
        return (*self.places, *self.papers)

    @property
    def open(self) -> int:
        """How many places nobody has been at."""
        return sum(each.is_open for each in self.places)

    @property
    def before(self) -> WalkStop | None:
        """The stop before this one."""
        return self._beside(-1)

    @property
    def behind(self) -> WalkStop | None:
        """The stop after this one."""
        return self._beside(1)

    def _beside(self, step: int) -> WalkStop | None:
        at = next((n for n, each in enumerate(self.stops) if each.key == self.at), None)
        if at is None or not 0 <= at + step < len(self.stops):
            return None
        return self.stops[at + step]


def walk_of(bench: Bench, at: str = "") -> WholeWalk:
    """The whole walk of a case; `at` is the stop where somebody stands."""
    misfits = _misfits_by_place(bench)
    places = tuple(
        WalkStop(
            key=each.row.id,
            number=each.number,
            name=capital(each.row.name),
            word=term(each.state),
            address=reverse("place", args=[bench.case, each.row.id]),
            is_open=is_open(each),
            sign=state_sign(each.state, str(each.number)),
            misfits=misfits.get(each.row.id, 0),
        )
        for each in bench.places
    )
    return WholeWalk(places, tuple(_papers(bench, misfits)), at)


def _papers(bench: Bench, misfits: dict[str, int]) -> Iterator[WalkStop]:
    case = bench.casefile
    for each in bench.plan.papers:
        yield WalkStop(
            key=each.id,
            name=capital(each.name),
            word=term(each.state),
            address=reverse("paper", args=[bench.case, each.id]),
            misfits=misfits.get(each.id, 0),
        )
    unlisted = sum(not each.mark for each in case.papers)
    yield WalkStop(key=OTHERS, name="Other papers", word=f"{unlisted} noted",
               address=reverse("other_papers", args=[bench.case]))  # fmt: skip
    yield WalkStop(key=TITLE, name="Title paper",
               word="noted" if case.title_paper.number else "not noted",
               address=reverse("title_paper", args=[bench.case]),
               misfits=misfits.get(TITLE, 0))  # fmt: skip


def _misfits_by_place(bench: Bench) -> dict[str, int]:
    """How many contradictions speak of each place or a mark there, or of a paper."""
    found: dict[str, int] = {}
    misfits = bench.answer.misfits if bench.answer else ()
    for each in (each for each in misfits if each.argues):
        marks = ((name, bench.book.mark(name)) for name in each.about)
        places = (mark.site or mark.id if mark is not None else name for name, mark in marks)
        for place in dict.fromkeys(places):
            found[place] = found.get(place, 0) + 1
    return found


@lru_cache(SIGNS_KEPT)
def state_sign(state: SiteState, number: str = "") -> SafeString:
    """The shape of a state as the drawing of the car has it, round its number."""
    side = 2 * RADIUS
    shape = figure("state", "", "", side, draw_marker(RADIUS, RADIUS, state, number), width=side)
    return drawn_figure(shape.svg, "")


def marks_at(bench: Bench, site: SitePlan) -> tuple[tuple[Mark, ...], ...]:
    """The marks of a place: those of which a car has one together, what was read of them first."""
    book, read = bench.book, {each.mark for each in bench.casefile.readings}
    planned_ids = [each for plan in site.marks for each in plan.ids]
    further = (m.id for m in book.marks if m.site == site.row.id and m.id in read)
    groups: list[list[Mark]] = []
    for mark in _marks(book, dict.fromkeys((*planned_ids, *further))):
        same = next((each for each in groups if any(is_instead(mark, m) for m in each)), None)
        if same is None:
            groups.append([mark])
        else:
            same.append(mark)
    return tuple(tuple(sorted(each, key=lambda one: one.id not in read)) for each in groups)


def _marks(book: CodeBook, ids: Iterable[str]) -> Iterator[Mark]:
    return (mark for each in ids if (mark := book.mark(each)) is not None)
