"""The exact answer of somebody who knows every rate and curve of this world.

Nothing is counted in a sample: the stories, the ways of every piece, the states of plates and
papers, the claimed car's code and place in line and the other car's number are all summed.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from benchmarks.proving.lives import SINCE
from benchmarks.proving.numbered import maker as m
from benchmarks.proving.numbered.likely import Likely
from benchmarks.proving.numbered.plated import Plates
from benchmarks.proving.numbered.records import Claim, pieces_of
from benchmarks.proving.numbered.stories import (
    ALONE,
    COPIED,
    OWN,
    Story,
    Way,
    Ways,
    X,
    paper_shares,
    stories_of,
)
from benchmarks.proving.numbered.visit import Sighting
from benchmarks.proving.world import World

Array = NDArray[np.float64]
Adding = Callable[[str, float, float], None]

TINY = 1e-300
NO_PAPER = {"none": 1.0}
NOTHING = np.zeros((1, 1, 1))


class Exact:
    """The exact answers for one car and one sighting."""

    def __init__(
        self, maker: m.Maker, world: World, claim: Claim, seen: Sighting, seed: int
    ) -> None:
        self.maker, self.world = maker, world
        self.likely = Likely(maker, world, claim, seen, seed)
        self.plates = Plates(self.likely)
        self.seen = seen

    # --------------------------------------------------------------------- questions

    def log10_ratios(self) -> dict[str, float]:
        """log10 LR of every question that can be asked of this car."""
        return {
            question: float(np.log10(max(true, TINY)) - np.log10(max(false, TINY)))
            for question, (true, false) in self.likelihoods().items()
        }

    def likelihoods(self) -> dict[str, tuple[float, float]]:
        """P(what was seen | each side) of every question that can be asked of this car."""
        mass: dict[str, Array] = {}
        prior: dict[str, Array] = {}

        def add(to: dict[str, Array], question: str, true: float, false: float) -> None:
            to[question] = to.get(question, np.zeros(2)) + np.array([true, false])

        for story, share in stories_of(self.world).items():
            self._add(story, share, lambda *each: add(mass, *each), lambda *each: add(prior, *each))
        found = {}
        for question, (true, false) in mass.items():
            of_true, of_false = prior[question]
            if min(of_true, of_false) > 0.0:
                found[question] = float(true / of_true), float(false / of_false)
        return found

    def _add(self, story: Story, share: float, mass: Adding, prior: Adding) -> None:
        """What one story gives to every question."""
        tables = pieces_of(story, self.maker)
        booklet = {"none": 1.0}
        if self.likely.has("booklet"):
            booklet = paper_shares(story, self.world, "booklet")
        groups = {
            piece: self._groups(story, piece, ways, booklet if piece == "engine" else NO_PAPER)
            for piece, ways in tables.items()
            if piece not in ("plate", "tag")
        }
        whole = {piece: sum(each.values(), NOTHING) for piece, each in groups.items()}
        plates = self.plates.of(story, tables)
        field = plates.field()
        joint = np.ones_like(field)
        for table in whole.values():
            joint = joint * table
        total, own = share * float((joint * field).sum()), story.kind in OWN
        mass("identity", total * own, total * (not own))
        prior("identity", share * own, share * (not own))
        for piece, each in groups.items():
            rest = field
            for name, table in whole.items():
                rest = rest if name == piece else rest * table
            sums = {kind: share * float((rest * table).sum()) for kind, table in each.items()}
            shares = _shares(tables[piece], booklet if piece == "engine" else NO_PAPER)
            for question, side in _asked_of(piece, "booklet" in self.seen.marks):
                for add, of in ((mass, sums), (prior, {k: share * v for k, v in shares.items()})):
                    sides = {True: 0.0, False: 0.0, None: 0.0}
                    for kind, value in of.items():
                        sides[side(kind)] += value
                    add(question, sides[True], sides[False])
        for question, likely, before_seen in plates.sides(joint):
            mass(question, *(share * likely))
            prior(question, *(share * before_seen))

    def _groups(
        self, story: Story, piece: str, ways: Ways, papers: dict[str, float]
    ) -> dict["Kind", Array]:
        """P(what was seen of a piece, ways of one kind | story), each (C, S, N) or less."""
        found: dict[Kind, Array] = {}
        for way, share in ways.items():
            look = share * self.likely.look(way, story)
            for paper, of_paper in papers.items():
                kind = _kind(way, paper)
                table = look * of_paper * self._way(piece, way, paper)
                found[kind] = found[kind] + table if kind in found else table
        return found

    def _way(self, piece: str, way: Way, paper: str) -> Array:
        """P(what was seen of a piece but its looks | way)."""
        what = way.places[0][1]
        if piece == "engine":
            return self.likely.engine(way.origin, what, paper)
        if piece != "structure":
            return self.likely.core(piece, way.origin, what)
        likely = np.ones((1, 1, 1))
        for mark, shown, _ in way.places:
            likely = likely * self.likely.place(mark, shown)
        return likely


@dataclass(frozen=True, slots=True)
class Kind:
    """Ways alike to every question: is the core the first one, was its stamp struck at the
    works for this car or later (None: neither), whose the booklet is."""

    is_first: bool
    is_struck_first: bool | None
    paper: str


def _kind(way: Way, paper: str) -> Kind:
    what, state = way.places[0][1:]
    struck = what == X and state == SINCE if what in (X, COPIED, ALONE) else None
    return Kind(way.origin == "first", struck, paper)


def _asked_of(piece: str, booklet: bool) -> Iterator[tuple[str, Callable[[Kind], bool | None]]]:
    """The questions about a piece, and on which side of each a kind stands."""
    if piece == "structure":
        return
    yield piece, lambda kind: kind.is_first
    if piece == "engine":
        yield "stamp of engine", lambda kind: kind.is_struck_first
        if booklet:
            yield "booklet", lambda kind: None if kind.paper == "none" else kind.paper == X


def _shares(ways: Ways, papers: dict[str, float]) -> dict[Kind, float]:
    """How often each kind is, whatever is seen."""
    found: dict[Kind, float] = {}
    for way, share in ways.items():
        for paper, of_paper in papers.items():
            kind = _kind(way, paper)
            found[kind] = found.get(kind, 0.0) + share * of_paper
    return found
