"""Sums over what is kept alone: products of pairs of entries, added up by whose they are.

A plan is a row of steps, each from one or two tables to one. Values stand entry by entry, the
draws side by side. Forward gives the sum of everything; backward, for every table that is
asked for, the sum of all else at each of its entries, as `Tree.outside` does for whole tables.
"""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_array

Array = NDArray[np.float64]
Places = NDArray[np.intp]

AT_ONCE = 1024
"""Pairs that are multiplied together: what stays near the processor."""


@dataclass(frozen=True, slots=True, eq=False)
class Adding:
    """Pairs of entries in the order of the entry that they add up to; `first`: where the pairs
    of each of these begin, and where the last ones end."""

    one: Places
    other: Places
    first: Places
    kept: list[tuple[slice, slice, csr_array]] = field(default_factory=list)
    weighted: list[tuple[Array, csr_array]] = field(default_factory=list)

    def of(self, one: Array, other: Array) -> Array:
        """The sums of the products, shape (entries, draws)."""
        if other.shape[1] == 1:
            return self._weighted(self.one, one, self.other, other)
        if one.shape[1] == 1:
            return self._weighted(self.other, other, self.one, one)
        found = np.empty((self.first.size - 1, one.shape[1]))
        for pairs, entries, adding in self._parts():
            products = np.take(one, self.one[pairs], axis=0, mode="clip")
            products *= np.take(other, self.other[pairs], axis=0, mode="clip")
            found[entries] = adding @ products
        return found

    def _weighted(self, at: Places, one: Array, at_fixed: Places, fixed: Array) -> Array:
        """The same where one of the two does not depend on the draws."""
        if not self.weighted or self.weighted[0][0] is not fixed:
            shape = (self.first.size - 1, one.shape[0])
            self.weighted[:] = [(fixed, csr_array((fixed[at_fixed, 0], at, self.first), shape))]
        found: Array = self.weighted[0][1] @ one
        return found

    def _parts(self) -> list[tuple[slice, slice, csr_array]]:
        if not self.kept:
            start, size = 0, self.first.size - 1
            while start < size:
                end = int(np.searchsorted(self.first, self.first[start] + AT_ONCE, "right")) - 1
                end = min(max(end, start + 1), size)
                first = self.first[start : end + 1] - self.first[start]
                count = int(first[-1])
                adding = csr_array((np.ones(count), np.arange(count), first), (end - start, count))
                pairs = slice(int(self.first[start]), int(self.first[end]))
                self.kept.append((pairs, slice(start, end), adding))
                start = end
        return self.kept


def adding(one: Places, other: Places, to: Places, size: int) -> Adding:
    """Pairs that add up to these entries, of so many."""
    order = np.argsort(to, kind="stable")
    first = np.concatenate([[0], np.cumsum(np.bincount(to, minlength=size))])
    return Adding(one[order], other[order], first)


@dataclass(frozen=True, slots=True, eq=False)
class Step:
    """Two tables to one: which tables, and which of their entries meet in which entry of it."""

    one: int
    other: int
    to: int
    at_one: Places
    at_other: Places
    at: Places


@dataclass(frozen=True, slots=True, eq=False)
class Sums:
    """A plan: how many entries each table has, the steps in their order, and which tables are
    asked for. The last table is the sum of everything, with one entry."""

    sizes: tuple[int, ...]
    steps: tuple[Step, ...]
    asked: frozenset[int]
    kept: dict[tuple[int, str], Adding] = field(default_factory=dict)

    def forward(self, leaves: Sequence[Array], before: Sequence[Array] = ()) -> list[Array]:
        """The values of every table; of those given, shape (entries, draws or 1). `before`:
        those of other draws, from which is taken what does not depend on these."""
        values = list(leaves)
        for place, step in enumerate(self.steps):
            one, other = values[step.one], values[step.other]
            is_fixed = one.shape[1] == other.shape[1] == 1
            if is_fixed and before:
                values.append(before[len(values)])
            else:
                values.append(self._adding(place, "to").of(one, other))
        return values

    def backward(self, values: Sequence[Array], every: bool = False) -> dict[int, Array]:
        """The sum of all else by entry, of the tables asked for and of those between (`every`:
        of all that are summed to)."""
        leaves = len(self.sizes) - len(self.steps)
        wanted = range(leaves, len(values)) if every else self._between()
        last = len(values) - 1
        found = {last: np.ones((1, 1))}
        for place in range(len(self.steps) - 1, -1, -1):
            step = self.steps[place]
            if step.one in wanted:
                add = self._adding(place, "one")
                found[step.one] = add.of(values[step.other], found[step.to])
            if step.other in wanted:
                add = self._adding(place, "other")
                found[step.other] = add.of(values[step.one], found[step.to])
        return found

    def _between(self) -> Collection[int]:
        found = set(self.asked)
        for step in self.steps:
            if step.one in found or step.other in found:
                found.add(step.to)
        return found

    def _adding(self, place: int, which: str) -> Adding:
        """The sums of a step: onward, or backward to one of its two tables."""
        if (place, which) not in self.kept:
            step = self.steps[place]
            if which == "to":
                found = adding(step.at_one, step.at_other, step.at, self.sizes[step.to])
            elif which == "one":
                found = adding(step.at_other, step.at, step.at_one, self.sizes[step.one])
            else:
                found = adding(step.at_one, step.at, step.at_other, self.sizes[step.other])
            self.kept[place, which] = found
        return self.kept[place, which]

    def thinned(self, kept: Sequence[NDArray[np.bool_]]) -> tuple["Sums", list[Places]]:
        """The plan with these pairs of each step alone, and which entries of each given table
        are left."""
        needed = [np.zeros(size, bool) for size in self.sizes]
        needed[-1][:] = True
        pairs: list[NDArray[np.bool_]] = []
        for step, keep in zip(reversed(self.steps), reversed(kept), strict=True):
            keep = keep & needed[step.to][step.at]
            needed[step.one][step.at_one[keep]] = True
            needed[step.other][step.at_other[keep]] = True
            pairs.append(keep)
        new = [np.cumsum(each) - 1 for each in needed]
        steps = tuple(
            Step(
                step.one,
                step.other,
                step.to,
                new[step.one][step.at_one[keep]],
                new[step.other][step.at_other[keep]],
                new[step.to][step.at[keep]],
            )
            for step, keep in zip(self.steps, reversed(pairs), strict=True)
        )
        leaves = len(self.sizes) - len(self.steps)
        sizes = tuple(int(each.sum()) for each in needed)
        return Sums(sizes, steps, self.asked), [np.flatnonzero(e) for e in needed[:leaves]]
