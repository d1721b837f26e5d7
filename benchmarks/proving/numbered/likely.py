"""How probable what was seen of each piece is, for every way in which it may have come to be.

Axes of a table: code of the claimed car (C), how early or late it was in line (S), the other
car (N); a size of 1 where nothing hangs on it.
"""

from functools import cache

import numpy as np
from numpy.typing import NDArray

from benchmarks.proving.factory import before
from benchmarks.proving.numbered import maker as m
from benchmarks.proving.numbered.records import SUITS_CODE, Claim
from benchmarks.proving.numbered.seen import ONE, Seen
from benchmarks.proving.numbered.stories import (
    ALONE,
    BARE,
    COPIED,
    EXCHANGE,
    GROUND,
    THIRD,
    Story,
    Way,
    X,
    Y,
    not_as_claimed,
)
from benchmarks.proving.numbered.visit import Sighting, looks_of, seam_shares
from benchmarks.proving.visit import GONE, TELLS, TELLS_BY_PHOTOGRAPH
from benchmarks.proving.world import World

Array = NDArray[np.float64]


class Likely:
    """The likelihoods of one car and one sighting, kept as they are asked for."""

    def __init__(self, maker: m.Maker, world: World, claim: Claim, seen: Sighting, seed: int):
        self.maker, self.world, self.claim, self.seen = maker, world, claim, seen
        self.of = Seen(maker, claim, seen, seed)
        packages = maker.values.get("package", {"": ""})
        self.codes = [
            (package, code) for package in packages for code in maker.types.get(package, {"": 1.0})
        ]
        """What the claimed car's package and engine code can have been, in the order of axis C."""
        self.claimed = next(iter(packages))
        self.engine = cache(self._engine)
        self.core = cache(self._core)
        self.place = cache(self._place)
        self._at = cache(self._looks)
        self.colours = cache(self._colours)

    def look(self, way: Way, story: Story) -> float:
        """P(how every place of a piece looked | way, story)."""
        product = 1.0
        for mark, what, state in way.places:
            product *= self._at(mark, what, state, story.skill, story.restored)
        return product

    def _looks(self, mark: str, what: str, state: int, skill: int, restored: int) -> float:
        product = 1.0
        seen = self.seen.looks.get(mark)
        if seen is not None:
            kind, photograph = seen
            tells = TELLS_BY_PHOTOGRAPH if photograph else TELLS
            product = float(looks_of(self.world, what, state, skill, restored) @ tells[:, kind])
        if mark in self.seen.seams:
            product *= float(seam_shares(state, skill)[self.seen.seams[mark]])
        return product

    def _place(self, mark: str, what: str) -> Array:
        """P(what was seen of a number's place | what stands there), (1, 1, N or 1)."""
        if what == GROUND:
            at_all = mark not in self.seen.marks and mark not in self.seen.absent
            return np.full((1, 1, 1), float(at_all))
        there = self.of.bare(mark, what != BARE)
        numbers = self.of.numbers(mark)
        if what in (X, COPIED):
            there *= float(numbers[self.of.place])
        elif what == THIRD:
            there *= float(numbers.mean())
        return there * numbers[None, None, :] if what == Y else np.full((1, 1, 1), there)

    def _of_origin(self, origin: str, by_done: Array, numbers: Array | None) -> Array:
        """P(what shows a core's own days, and its own number where that is shown)."""
        if origin in ("first", "suited"):
            days = self.of.claimed(by_done)[None, :, None]
            if numbers is None:
                return days
            own = numbers[self.of.place] if origin == "first" else numbers.mean()
            return days * float(own)
        days = self.of.any_car(by_done)
        days = days if numbers is None else days * numbers
        return days[None, None, :] if origin == "other" else np.full((1, 1, 1), days.mean())

    def _core(self, core: str, origin: str, what: str) -> Array:
        there = self.of.bare(core, what != BARE)
        if there == 0.0 or what == BARE:
            return np.full((1, 1, 1), there)
        form = None if core == "body" else self.maker.marks[core].fields[0].says
        wait = m.BOXED if core == "gearbox" else m.AXLED
        days = ONE if form is None else before(self.of.on_day(core, form), wait)
        numbers = None if core == "axle" else self.of.numbers(core)
        if what == COPIED:
            assert numbers is not None
            return there * float(numbers[self.of.place]) * self._of_origin(origin, days, None)
        return there * self._of_origin(origin, days, numbers)

    def has(self, mark: str) -> bool:
        """Does this maker have such a mark?"""
        return mark in self.maker.marks

    # ------------------------------------------------------------------------ engine

    def _engine(self, origin: str, what: str, paper: str) -> Array:
        """P(what was seen of block, stamp and booklet | whence, what stands there, whose)."""
        seen, there = self.of, self._stamp_there(what)
        is_read = "booklet" in seen.seen.marks
        if there == 0.0 or is_read == (paper == "none"):
            return np.zeros((1, 1, 1))
        # Three days of assembly: this core's own, the claimed car's, one struck to fit.
        chains = {"own": ONE, "mine": ONE, "made": ONE}
        shows_own = what in (X, Y, THIRD)
        stamp = "own" if shows_own or (what == COPIED and origin in ("first", "suited")) else "made"
        if shows_own or what == COPIED:
            chains[stamp] = chains[stamp] * seen.on_day("engine", "pad")
        if paper in (X, COPIED):
            named = stamp if shows_own or what == COPIED else "made"
            if paper == X:
                named = "own" if origin == "first" else "mine"
            chains[named] = chains[named] * seen.on_day("booklet", "pad")
        found = self._block(origin, chains["own"], seen.numbers("engine") if shows_own else None)
        if what in (COPIED, ALONE):
            found = found * float(seen.numbers("engine")[seen.place])
        for apart in ("mine", "made"):
            found = found * seen.claimed(before(chains[apart], m.ASSEMBLED))[None, :, None]
        found = found * self._serials(origin, what, paper)
        return there * found * self._types(origin, what, paper) * self._booklet(paper)

    def _block(self, origin: str, own: Array, numbers: Array | None) -> Array:
        """P(castings, and what shows this core's own day and number | whence)."""
        seen = self.of
        if origin in ("new", "exchange"):
            head = seen.later(seen.on_day("head", "casting")) if self.has("head") else 1.0
            found: Array = (seen.later(seen.on_day("cast", "casting")) * head)[None, :, None]
            return found
        return self._of_origin(origin, before(own * seen.cast_back, m.ASSEMBLED), numbers)

    def _stamp_there(self, what: str) -> float:
        """P(that characters, none, or ground metal were found at the engine's place | what is
        there); an exchange number and a number alone are told apart at once."""
        seen = self.of.seen
        if "exchange" in seen.marks:
            return float(what == EXCHANGE)
        if "engine" in seen.ground:
            return float(what == GROUND)
        if "engine" in seen.absent:
            return 1.0 if what == BARE else 0.0 if what == GROUND else GONE
        if "engine" not in seen.marks:
            return 1.0
        read = (cell for f in seen.marks["engine"].fields for place in f.cells for cell in place)
        is_short = bool(self.maker.types) and what == ALONE
        fits = what not in (GROUND, BARE, EXCHANGE) and ("_" in set(read)) == is_short
        return 1.0 - GONE if fits else 0.0

    def _types(self, origin: str, what: str, paper: str) -> Array:
        """P(what was read of the engine's type | the claimed car's code), (C, 1, 1)."""
        if not self.maker.types:
            return np.ones((1, 1, 1))
        mine = ["booklet"] if paper == X else []
        copies = ["booklet"] if paper == COPIED else []
        shows = what in (X, Y, THIRD, COPIED)
        by_code = np.ones(len(self.codes))
        if origin == "first" and what == X:
            shown = ["engine", *mine, *copies]
            by_code *= [self._reads(shown, code) for _, code in self.codes]
        else:
            by_code *= [self._reads(mine, code) for _, code in self.codes]
            stamped = ["engine", *copies] if shows else []
            if what == COPIED:
                by_code *= self.any_type(stamped, {self.claimed: 1.0})
            elif shows and origin == "suited":
                plain = list(self.maker.types)[-1]
                suits = {self.claimed: SUITS_CODE, plain: 1.0 - SUITS_CODE}
                by_code *= self.any_type(stamped, suits)
            elif shows:
                by_code *= self.any_type(stamped, self.liked("package"))
            if copies and not shows:
                by_code *= self.any_type(copies, {self.claimed: 1.0})
        if paper == THIRD:
            by_code *= self.any_type(["booklet"], self.liked("package"))
        return by_code[:, None, None]

    def _serials(self, origin: str, what: str, paper: str) -> float:
        """P(what was read of engines' own numbers | whose stands where); each any number."""
        mine = "own" if origin == "first" else "mine"
        whose = {"stray": ["booklet"] if paper == THIRD else []}
        named = "own" if what in (X, Y, THIRD) else mine if what in (COPIED, ALONE) else ""
        if named:
            whose.setdefault(named, []).append("engine")
        if paper in (X, COPIED):
            copies = named if what in (X, Y, THIRD, COPIED) else mine
            whose.setdefault(mine if paper == X else copies, []).append("booklet")
        read = (
            np.prod([self.of.serials(m) for m in marks], axis=0)
            for marks in whose.values()
            if marks
        )
        return float(np.prod([each.mean() for each in read]))

    def _reads(self, marks: list[str], code: str) -> float:
        return float(np.prod([self.of.text(mark, "type", code) for mark in marks]))

    def any_type(self, marks: list[str], packages: dict[str, float]) -> float:
        """P(the type on these marks | the package of any car, by these shares)."""
        return sum(
            share * of_code * self._reads(marks, code)
            for package, share in packages.items()
            for code, of_code in self.maker.types[package].items()
        )

    def liked(self, item: str) -> dict[str, float]:
        """How many cars have each value of an item."""
        return dict(zip(self.maker.values[item], self.maker.liking[item], strict=True))

    def _booklet(self, paper: str) -> float:
        """P(number and day of delivery of the booklet | whose it is); a stranger's day too."""
        if paper == "none":
            return 1.0
        seen = self.of
        numbers = seen.numbers("booklet")
        delivered = after(seen.on_day("booklet", "delivered", "written"), m.DELIVERED)
        if paper in (X, COPIED):
            return float(numbers[seen.place] * delivered[self.claim.built])
        named = before(seen.on_day("booklet", "pad"), m.ASSEMBLED)
        return float((numbers * seen.any_car(named * after(delivered, m.STOOD))).mean())

    # ----------------------------------------------------------------------- colours

    def _colours(self, item: str, marks: tuple[str, ...], differs: float, only: bool) -> float:
        """P(what these marks show of the claimed car's colour), it as claimed only or not."""
        values, claimed = self.liked(item), self.claim.values[item]
        left = 1.0 - values[claimed]
        found = 0.0
        for value, share in values.items():
            weight = 1.0 - differs if value == claimed else differs * share / left
            if value == claimed or not only:
                found += weight * self.reads_colour(item, marks, value)
        return found

    def reads_colour(self, item: str, marks: tuple[str, ...], value: str) -> float:
        """P(what these marks show | this colour on all of them)."""
        code = self.maker.values[item][value]
        return float(np.prod([self.of.text(mark, item, code) for mark in marks]))

    def any_colour(self, item: str, mark: str) -> float:
        """P(what a mark shows | any car's colour)."""
        liked = self.liked(item)
        return sum(share * self.reads_colour(item, (mark,), v) for v, share in liked.items())

    def differing(self, story: Story) -> Array:
        """P(package and code of the claimed car | story), in the order of axis C."""
        if not self.maker.types:
            return np.ones(1)
        differs, liked = not_as_claimed(story)["package"], self.liked("package")
        left = 1.0 - liked[self.claimed]
        return np.array([
            (1.0 - differs if package == self.claimed else differs * liked[package] / left)
            * self.maker.types[package][code]
            for package, code in self.codes
        ])  # fmt: skip


def after(likely: Array, by: Array) -> Array:
    """P(read | an earlier day) from P(read | the day itself), (days,)."""
    found: Array = before(likely[::-1], by)[::-1]
    return found
