"""Plates, ledger and sheet together: they share the car's colours, its code and body number."""

from collections.abc import Iterator
from itertools import product

import numpy as np
from numpy.typing import NDArray

from benchmarks.proving.numbered import maker as m
from benchmarks.proving.numbered.likely import Likely, after
from benchmarks.proving.numbered.records import COPIES_BODY
from benchmarks.proving.numbered.stories import (
    BARE,
    COPIED,
    THIRD,
    Story,
    Ways,
    X,
    Y,
    not_as_claimed,
    paper_shares,
)

Array = NDArray[np.float64]

PLATED = (X, COPIED, Y, BARE)
PAPERED = ("none", X, COPIED, THIRD)
EVERY = (PLATED, PLATED, PAPERED, PAPERED)
STATES = tuple(product(*EVERY))
"""Of number plate, body plate, ledger and sheet."""
COLOURED = ("plate", "ledger", "sheet")


class Plates:
    """What was seen of plates and papers, for every state of the four together."""

    def __init__(self, likely: Likely) -> None:
        self.likely = likely
        self.items: tuple[str, ...] = tuple(
            item for item in ("paint", "trim") if item in likely.maker.values
        )
        shape = (len(STATES), len(likely.codes), len(m.SHIFTS))
        self.base: Array = np.zeros(shape)
        """P(what was seen but colours | state, code, shift); of another car's plates their
        number and week are left to `by_other`."""
        for k, state in enumerate(STATES):
            self.base[k] = self._base(*state)
        self.shown = [
            tuple(mark for mark, each in zip(COLOURED, (p, ledger, s), strict=True) if each == X)
            for p, _, ledger, s in STATES
        ]
        other = self.likely.of.any_car(self.likely.of.plan_back) if likely.has("tag") else 1.0
        self.is_other = [
            np.array([(state[0] == Y, state[1] == Y) == each for state in STATES])
            for each in product((False, True), repeat=2)
        ]
        self.by_other = {"plate": likely.of.numbers("plate"), "tag": other}

    # ---------------------------------------------------------------------- one state

    def _base(self, plate: str, tag: str, ledger: str, sheet: str) -> Array:
        likely, of = self.likely, self.likely.of
        maker, seen = likely.maker, likely.seen
        table = np.ones((len(likely.codes), len(m.SHIFTS)))
        if not likely.has("tag") and tag != BARE:
            return 0.0 * table
        if any(
            self._missing(paper, state) for paper, state in (("ledger", ledger), ("sheet", sheet))
        ):
            return 0.0 * table
        table *= of.bare("plate", plate != BARE)
        if plate in (X, COPIED):
            table *= of.numbers("plate")[of.place]
        if likely.has("tag"):
            table *= of.bare("tag", tag != BARE)
            if tag in (X, COPIED):
                table *= of.claimed(of.plan_back)
            packages = maker.values["package"]
            read = {p: of.text("tag", "package", code) for p, code in packages.items()}
            if tag == X:
                table *= np.array([read[package] for package, _ in likely.codes])[:, None]
            elif tag == COPIED:
                table *= read[likely.claimed]
            elif tag == Y:
                table *= sum(s * read[p] for p, s in likely.liked("package").items())
            table *= self._bodies(tag, sheet)
        if ledger == X:
            table *= (
                of.numbers("ledger")[of.place] * of.on_day("ledger", "written")[likely.claim.built]
            )
        elif ledger == THIRD:
            dated = of.any_car(after(of.on_day("ledger", "written"), m.STOOD))
            table *= float((of.numbers("ledger") * dated).mean())
        if sheet == X:
            table *= np.array([of.text("sheet", "type", code) for _, code in likely.codes])[:, None]
        elif sheet in (COPIED, THIRD):
            of_package = {likely.claimed: 1.0} if sheet == COPIED else likely.liked("package")
            table *= likely.any_type(["sheet"], of_package)
        for item in self.items:
            claimed = likely.claim.values[item]
            for mark, state in zip(COLOURED, (plate, ledger, sheet), strict=True):
                if mark not in seen.marks or of.field(mark, item) is None:
                    continue
                if state == COPIED:
                    table *= likely.reads_colour(item, (mark,), claimed)
                elif state in (Y, THIRD):
                    table *= likely.any_colour(item, mark)
        return table

    def _missing(self, paper: str, state: str) -> bool:
        return (paper in self.likely.seen.marks) == (state == "none")

    def _bodies(self, tag: str, sheet: str) -> float:
        """P(both body numbers | whose): one number, or two."""
        one, other = (self.likely.of.bodies(mark) for mark in ("tag", "sheet"))
        alike, apart = float((one * other).mean()), float(one.mean() * other.mean())
        if tag == BARE or sheet == "none":
            return apart
        if sheet == COPIED:
            return alike
        if sheet == X:
            share = {X: 1.0, COPIED: COPIES_BODY}.get(tag, 0.0)
            return share * alike + (1.0 - share) * apart
        return apart

    # ---------------------------------------------------------------------- one story

    def of(self, story: Story, tables: dict[str, Ways]) -> "PlatesOf":
        """The same under one story."""
        return PlatesOf(self, story, tables)


class PlatesOf:
    """Plates and papers under one story: P(state, what was seen of it), by code and shift."""

    def __init__(self, plates: Plates, story: Story, tables: dict[str, Ways]) -> None:
        self.plates, self.story = plates, story
        likely = plates.likely
        self.states = [self._plated(tables, "plate"), self._plated(tables, "tag")]
        self.before_seen = [self._plated(tables, name, False) for name in ("plate", "tag")]
        self.papers = [
            paper_shares(story, likely.world, paper) if likely.has(paper) else {"none": 1.0}
            for paper in ("ledger", "sheet")
        ]
        self.weight: Array = self._share()[:, None, None] * plates.base
        self.weight *= likely.differing(story)[:, None] * likely.of.shift_share
        self.differs = not_as_claimed(story)
        self.colour = {item: self._colour(item, False) for item in plates.items}

    def _plated(
        self, tables: dict[str, Ways], plate: str, is_seen: bool = True
    ) -> dict[str, float]:
        found = dict.fromkeys(PLATED, 0.0)
        if plate not in tables:
            return {BARE: 1.0}
        for way, share in tables[plate].items():
            look = self.plates.likely.look(way, self.story) if is_seen else 1.0
            found[way.places[0][1]] += share * look
        return found

    def _share(self) -> Array:
        """P(state, how its places look), in the order of STATES."""
        product: Array = np.ones(1)
        for of, names in zip((*self.states, *self.papers), EVERY, strict=True):
            product = np.multiply.outer(product, [of.get(each, 0.0) for each in names]).ravel()
        return product

    def _colour(self, item: str, only: bool) -> Array:
        colours, differs = self.plates.likely.colours, self.differs[item]
        return np.array([colours(item, marks, differs, only) for marks in self.plates.shown])

    # ------------------------------------------------------------------------- sums

    def _by_state(self, joint: Array) -> Array:
        """All together but colours, shape (states, C), from the pieces' joint (C, S, N)."""
        cars = joint.shape[2]
        plate, tag = self.plates.by_other["plate"], self.plates.by_other["tag"]
        summed = {
            (p, t): (joint * (plate if p else 1.0) * (tag if t else 1.0)).sum(axis=2) / cars
            for p in (False, True)
            for t in (False, True)
        }
        each = np.stack([summed[p == Y, t == Y] for p, t, *_ in STATES])
        found: Array = (self.weight * each).sum(axis=2)
        return found

    def _whole(self, but: str = "") -> Array:
        product = np.ones(len(STATES))
        for item, table in self.colour.items():
            if item != but:
                product = product * table
        return product

    def field(self) -> Array:
        """P(plates, papers, code, shift, other car | story), shape (C, S, N): what the joint
        of the pieces is summed against."""
        plate: Array = np.asarray(self.plates.by_other["plate"])
        tag = self.plates.by_other["tag"]
        weight = self._whole()[:, None, None] * self.weight / len(self.plates.likely.maker.numbers)
        found: Array = np.zeros((1, 1, 1))
        each = zip(product((False, True), repeat=2), self.plates.is_other, strict=True)
        for (p, t), chosen in each:
            part = weight[chosen].sum(axis=0)[:, :, None]
            found = found + part * (plate if p else 1.0) * (tag if t else 1.0)
        return np.broadcast_to(found, (*self.weight.shape[1:], len(plate)))

    def sides(self, joint: Array) -> Iterator[tuple[str, Array, Array]]:
        """Questions about plates, papers and items: P(seen, side) and P(side), each (2,)."""
        by_state = self._by_state(joint)
        by_code, whole = by_state.sum(axis=1), self._whole()
        likely = self.plates.likely
        mass = by_code * whole
        for place, name in enumerate(("plate", "tag", "ledger", "sheet")):
            if name not in likely.seen.marks:
                continue
            mine = np.array([state[place] == X for state in STATES])
            other = np.array([state[place] in (COPIED, Y, THIRD) for state in STATES])
            before = (*self.before_seen, *self.papers)[place]
            false = sum(before.get(each, 0.0) for each in (COPIED, Y, THIRD))
            yield (
                name,
                np.array([mass[mine].sum(), mass[other].sum()]),
                np.array([before[X], false]),
            )
        for item in self.plates.items:
            right = by_code @ (self._whole(item) * self._colour(item, True))
            differs = self.differs[item]
            sides = np.array([right, mass.sum() - right])
            yield item, sides, np.array([1.0 - differs, differs])
        if likely.maker.types:
            claimed = np.array([package == likely.claimed for package, _ in likely.codes])
            by = whole @ by_state
            differs = self.differs["package"]
            for name in ("package", "engine_type"):
                sides = np.array([by[claimed].sum(), by[~claimed].sum()])
                yield name, sides, np.array([1.0 - differs, differs])
