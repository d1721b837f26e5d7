"""The exact answer of somebody who knows every rate and curve of this world.

Nothing is counted in a sample: the stories, the ways of every piece, the states of plates and
papers, the claimed car's code and place in line and the other car's number are all summed.
"""

from collections.abc import Callable, Iterator

import numpy as np
from numpy.typing import NDArray

from benchmarks.proving.numbered import maker as m
from benchmarks.proving.numbered.likely import Likely
from benchmarks.proving.numbered.plated import Plates
from benchmarks.proving.numbered.records import Claim, pieces_of
from benchmarks.proving.numbered.stories import (
    ALONE,
    COPIED,
    OWN,
    THIRD,
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
Side = Callable[[Way, str], bool]
Adding = Callable[[str, float, float], None]

TINY = 1e-300


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
        mass: dict[str, Array] = {}
        prior: dict[str, Array] = {}

        def add(to: dict[str, Array], question: str, true: float, false: float) -> None:
            to[question] = to.get(question, np.zeros(2)) + np.array([true, false])

        for story, share in stories_of(self.world).items():
            self._add(story, share, lambda *each: add(mass, *each), lambda *each: add(prior, *each))
        found = {}
        for question, sides in mass.items():
            if prior[question].min() > 0.0:
                logs = np.log10(np.maximum(sides, TINY)) - np.log10(prior[question])
                found[question] = float(logs[0] - logs[1])
        return found

    def _add(
        self,
        story: Story,
        share: float,
        mass: Adding,
        prior: Adding,
    ) -> None:
        """What one story gives to every question."""
        tables = pieces_of(story, self.maker)
        booklet = paper_shares(story, self.world, "booklet") if self.likely.has("booklet") else {}
        whole = {
            piece: self._piece(story, piece, ways, booklet, lambda way, paper: True)
            for piece, ways in tables.items()
            if piece not in ("plate", "tag")
        }
        plates = self.plates.of(story, tables)
        total = share * plates.total(self._joint(whole))
        own = story.kind in OWN
        mass("identity", total * own, total * (not own))
        prior("identity", share * own, share * (not own))
        joint = self._joint(whole)
        for question, piece, *both in self._asked_of_pieces():
            sides, shares = [], []
            for side in both:
                part = self._piece(story, piece, tables[piece], booklet, side)
                sides.append(share * plates.total(self._joint(whole | {piece: part})))
                shares.append(share * _share_of(tables[piece], booklet, side))
            mass(question, *sides)
            prior(question, *shares)
        for question, likely, before_seen in plates.sides(joint):
            mass(question, *(share * likely))
            prior(question, *(share * before_seen))

    def _asked_of_pieces(self) -> Iterator[tuple[str, str, Side, Side]]:
        for core in self.maker.cores:
            yield (
                core, core, lambda way, paper: way.origin == "first",
                lambda way, paper: way.origin != "first",
            )  # fmt: skip
        shown = (X, COPIED, ALONE)
        yield (
            "stamp of engine", "engine",
            lambda way, paper: way.places[0][1:] == (X, 0),
            lambda way, paper: way.places[0][1] in shown and way.places[0][1:] != (X, 0),
        )  # fmt: skip
        if "booklet" in self.seen.marks:
            yield (
                "booklet", "engine", lambda way, paper: paper == X,
                lambda way, paper: paper in (COPIED, THIRD),
            )  # fmt: skip

    # ------------------------------------------------------------------------ pieces

    def _joint(self, pieces: dict[str, Array]) -> Array:
        """All pieces together, shape (C, S, N)."""
        product = np.ones((len(self.likely.codes), len(m.SHIFTS), len(self.maker.numbers)))
        for each in pieces.values():
            product *= each
        return product

    def _piece(
        self,
        story: Story,
        piece: str,
        ways: Ways,
        booklet: dict[str, float],
        wanted: Side,
    ) -> Array:
        """P(what was seen of a piece | story), over the ways that are wanted; (C, S, N)."""
        found = np.zeros((len(self.likely.codes), 1, 1))
        papers = booklet if piece == "engine" and booklet else {"none": 1.0}
        for way, share in ways.items():
            look = self.likely.look(way, story)
            if look == 0.0:
                continue
            for paper, of_paper in papers.items():
                if not wanted(way, paper) or of_paper == 0.0:
                    continue
                if piece == "engine":
                    likely = self.likely.engine(way.origin, way.places[0][1], paper)
                elif piece == "structure":
                    likely = np.ones((1, 1, 1))
                    for mark, what, _ in way.places:
                        likely = likely * self.likely.place(mark, what)
                else:
                    likely = self.likely.core(piece, way.origin, way.places[0][1])
                found = found + share * of_paper * look * likely
        return found


def _share_of(ways: Ways, booklet: dict[str, float], side: Side) -> float:
    """How often a side is so, whatever is seen."""
    papers = booklet or {"none": 1.0}
    return sum(
        each * of_paper
        for way, each in ways.items()
        for paper, of_paper in papers.items()
        if side(way, paper)
    )
