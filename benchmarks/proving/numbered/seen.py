"""How probable what was read is, field by field, for everything that can stand there."""

from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from benchmarks.proving.days import N_DAYS, codes
from benchmarks.proving.factory import before, digits_of
from benchmarks.proving.numbered import maker as m
from benchmarks.proving.numbered.maker import Maker
from benchmarks.proving.numbered.records import Claim
from benchmarks.proving.numbered.visit import Sighting
from benchmarks.proving.reading import likelihood
from benchmarks.proving.visit import GONE, SeenField, SeenMark

Array = NDArray[np.float64]
ONE = np.ones(N_DAYS)


class Seen:
    """The likelihoods of one sighting."""

    def __init__(self, maker: Maker, claim: Claim, seen: Sighting, seed: int) -> None:
        self.maker, self.claim, self.seen = maker, claim, seen
        self.days = maker.done(seed)[:, None] + m.SHIFTS
        """The days on which every number may have been done, (cars, shifts)."""
        self.place = int(np.searchsorted(maker.numbers, claim.number))
        stood = claim.built - self.days[self.place]
        inside = (stood >= 0) & (stood < len(m.STOOD))
        share = m.SHIFT_SHARE * np.where(inside, m.STOOD[np.where(inside, stood, 0)], 0.0)
        self.shift_share: Array = share / share.sum()
        """P(shift of the claimed car | its number, its day of despatch), (shifts,)."""
        self._kept: dict[tuple[str, str], Array] = {}

    def field(self, mark: str, says: str) -> tuple[SeenMark, SeenField] | None:
        """A field that was read, or None; of one left blank, that it is blank is told apart."""
        read = self.seen.marks.get(mark)
        if read is None:
            return None
        field = next((f for f in read.fields if f.name == says), None)
        if field is None or any("_" in cells for cells in field.cells):
            return None
        return read, field

    def text(self, mark: str, says: str, text: str) -> float:
        """P(what was read | this text was meant); 1 where nothing was read."""
        found = self.field(mark, says)
        if found is None:
            return 1.0
        read, seen = found
        product = 1.0
        for character, cells in zip(text, seen.cells, strict=True):
            vector = likelihood(cells, seen.alphabet, read.how, read.by_hand)
            product *= float(vector[seen.alphabet.index(character)])
        return product

    def always(self, mark: str) -> float:
        """P(what was read of what never varies): alike whoever struck it, but for a year."""
        spec = self.maker.marks[mark]
        product = 1.0
        for field in spec.fields:
            if field.always:
                product *= self.text(mark, field.says, field.always)
        return product

    def numbers(self, mark: str) -> Array:
        """P(what was read of the car's number | number), shape (cars,); a year beside it too."""
        found = self.field(mark, "number")
        product = np.ones(len(self.maker.numbers))
        if found is None:
            return product
        read, seen = found
        digits = digits_of(self.maker.numbers, 6)[:, 6 - len(seen.cells) :]
        for place, cells in enumerate(seen.cells):
            product *= likelihood(cells, seen.alphabet, read.how, read.by_hand)[digits[:, place]]
        if self.field(mark, "year") is not None:
            for year in np.unique(self.maker.years):
                product[self.maker.years == year] *= self.text(mark, "year", str(year)[2:])
        return product

    def bodies(self, mark: str) -> Array:
        """P(what was read | body number), shape (bodies,)."""
        return self._of_any(mark, "body", m.BODIES)

    def serials(self, mark: str) -> Array:
        """P(what was read | the engine's own number), shape (serials,)."""
        return self._of_any(mark, "serial", m.SERIALS)

    def _of_any(self, mark: str, says: str, numbers: m.Index) -> Array:
        """P(what was read of a field | number), shape (numbers,)."""
        found = self.field(mark, says)
        product = np.ones(len(numbers))
        if found is None:
            return product
        read, seen = found
        digits = digits_of(numbers, len(seen.cells))
        for place, cells in enumerate(seen.cells):
            product *= likelihood(cells, seen.alphabet, read.how, read.by_hand)[digits[:, place]]
        return product

    def on_day(self, mark: str, says: str, form: str = "") -> Array:
        """P(what was read of a date | day), shape (days,)."""
        key = (mark, says)
        if key in self._kept:
            return self._kept[key]
        found = self.field(mark, says)
        product = np.ones(N_DAYS)
        if found is not None:
            read, seen = found
            written = codes(form or says)
            order = np.array(sorted(seen.alphabet))
            places = [seen.alphabet.index(c) for c in order]
            for place, cells in enumerate(seen.cells):
                vector = likelihood(cells, seen.alphabet, read.how, read.by_hand)[places]
                product *= vector[np.searchsorted(order, written[:, place])]
        self._kept[key] = product
        return product

    def any_car(self, by_done: Array) -> Array:
        """P(read | number), over when each was done, from P(read | day done); (cars,)."""
        found: Array = by_done[self.days] @ m.SHIFT_SHARE
        return found

    def claimed(self, by_done: Array) -> Array:
        """P(read | shift of the claimed car), shape (shifts,)."""
        found: Array = by_done[self.days[self.place]]
        return found

    def later(self, by_day: Array) -> Array:
        """P(read | shift) of a day long after the car was done, (shifts,)."""
        least, most = m.NEW_DAYS
        sums = np.concatenate([[0.0], np.cumsum(by_day)])
        done = self.days[self.place]
        found: Array = (sums[done + most] - sums[done + least]) / (most - least)
        return found

    @cached_property
    def cast_back(self) -> Array:
        """P(what was read on block and on a head that stayed | day of assembly), (days,)."""
        return before(self.on_day("cast", "casting"), m.POURED) * self._head

    @cached_property
    def _head(self) -> Array:
        read = self.on_day("head", "casting") if "head" in self.maker.marks else ONE
        back = before(read, m.HEAD_POURED)
        other = float(self.any_car(before(back, m.ASSEMBLED)).mean())
        found: Array = m.HEAD_KEPT * back + (1.0 - m.HEAD_KEPT) * other
        return found

    @cached_property
    def plan_back(self) -> Array:
        """P(the planned week that was read | day done), (days,)."""
        offset, planned = m.PLANNED
        moved = before(self.on_day("tag", "plan"), planned)
        return np.concatenate([moved[offset:], np.full(offset, moved[-1])])

    def bare(self, mark: str, is_struck: bool) -> float:
        """P(whether characters were found | whether any were struck); 1 where nobody looked."""
        if mark in self.seen.absent:
            return GONE if is_struck else 1.0
        if mark in self.seen.ground:
            return 0.0
        if mark in self.seen.marks:
            return 1.0 - GONE if is_struck else 0.0
        return 1.0
