"""Sums over what is kept alone: products of pairs of entries, added up by whose they are.

A plan is a row of steps, each from two tables to one. All is relative to base rates: a value is
how many times what it is there, so that single precision is enough for ratios of 10^50, and
what does not depend on the draws (None) is 1 everywhere. Forward gives every table; backward
the sum of all else at each entry of the tables asked for, as `Tree.outside` does for whole ones.
"""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_array

from witnessmark.weighing.arrays import Array, Places, Which

type Relative = NDArray[np.float32] | None

AT_ONCE = 2048
"""Pairs that are multiplied together: what stays near the processor."""


@dataclass(frozen=True, slots=True, eq=False)
class Adding:
    """Pairs of entries, in the order of the entry that they add up to. `first`: where the pairs
    of each of these begin, and where the last ones end; `weights`: what each pair has of it."""

    one: Places
    other: Places
    first: Places
    weights: NDArray[np.float32]
    made: dict[str, list[tuple[slice, slice, csr_array]]] = field(default_factory=dict)

    def of(self, one: Relative, other: Relative) -> Relative:
        """The sums of the products, shape (entries, draws)."""
        if one is None and other is None:
            return None
        if one is None or other is None:
            at, varying = (self.one, one) if one is not None else (self.other, other)
            assert varying is not None
            if "whole" not in self.made:
                shape = (self.first.size - 1, varying.shape[0])
                adding = csr_array((self.weights, at, self.first), shape)
                self.made["whole"] = [(slice(None), slice(None), adding)]
            whole: NDArray[np.float32] = self.made["whole"][0][2] @ varying
            return whole
        found = np.empty((self.first.size - 1, one.shape[1]), np.float32)
        for pairs, entries, adding in self._parts():
            products = np.take(one, self.one[pairs], axis=0, mode="clip")
            products *= np.take(other, self.other[pairs], axis=0, mode="clip")
            found[entries] = adding @ products
        return found

    def _parts(self) -> list[tuple[slice, slice, csr_array]]:
        if "parts" not in self.made:
            self.made["parts"] = parts = []
            start, size = 0, self.first.size - 1
            while start < size:
                end = int(np.searchsorted(self.first, self.first[start] + AT_ONCE, "right")) - 1
                end = min(max(end, start + 1), size)
                pairs = slice(int(self.first[start]), int(self.first[end]))
                first = self.first[start : end + 1] - self.first[start]
                count = int(first[-1])
                adding = csr_array(
                    (self.weights[pairs], np.arange(count), first), (end - start, count)
                )
                parts.append((pairs, slice(start, end), adding))
                start = end
        return self.made["parts"]


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Step:
    """Two tables to one: which tables, and which of their entries meet in which entry of it."""

    one: int
    other: int
    to: int
    at_one: Places
    at_other: Places
    at: Places


class Sums:
    """A plan: the tables it begins with, by their values at base rates, the steps in their order,
    and which tables are asked for. The last table is the sum of everything, of one entry."""

    def __init__(
        self, leaves: Sequence[Array], sizes: Sequence[int], steps: Sequence[Step],
        asked: Collection[int],
    ) -> None:  # fmt: skip
        """`sizes`: how many entries every table has."""
        self.leaves, self.sizes, self.steps = tuple(leaves), tuple(sizes), tuple(steps)
        self._asked = frozenset(asked)
        self._adding: dict[tuple[int, str], Adding] = {}

    @cached_property
    def values(self) -> list[Array]:
        """The values of every table at base rates."""
        found = list(self.leaves)
        for step in self.steps:
            products = found[step.one][step.at_one] * found[step.other][step.at_other]
            found.append(np.bincount(step.at, products, self.sizes[step.to]))
        return found

    @cached_property
    def outside(self) -> dict[int, Array]:
        """The sum of all else at every entry at base rates."""
        found = {len(self.sizes) - 1: np.ones(1)}
        for step in reversed(self.steps):
            around = found[step.to][step.at]
            for table, at, other, there in (
                (step.one, step.at_one, step.other, step.at_other),
                (step.other, step.at_other, step.one, step.at_one),
            ):
                products = self.values[other][there] * around
                found[table] = np.bincount(at, products, self.sizes[table])
        return found

    def forward(self, leaves: Sequence[Array | None]) -> list[Relative]:
        """Every table, from the values of those it begins with, shape (entries, draws)."""
        found: list[Relative] = [
            None if each is None else np.divide(each, base[:, None]).astype(np.float32)
            for each, base in zip(leaves, self.leaves, strict=True)
        ]
        for place, step in enumerate(self.steps):
            found.append(self._to(place).of(found[step.one], found[step.other]))
        return found

    def backward(
        self, values: Sequence[Relative], wanted: Collection[int] = ()
    ) -> dict[int, Relative]:
        """The sum of all else at the entries of the tables asked for and of those between, or of
        those `wanted`."""
        wanted = wanted or self._between
        found: dict[int, Relative] = {len(values) - 1: None}
        for place in range(len(self.steps) - 1, -1, -1):
            step = self.steps[place]
            if step.one in wanted:
                back = self._back(place, "one")
                found[step.one] = back.of(values[step.other], found[step.to])
            if step.other in wanted:
                back = self._back(place, "other")
                found[step.other] = back.of(values[step.one], found[step.to])
        return found

    @cached_property
    def _between(self) -> Collection[int]:
        found = set(self._asked)
        for step in self.steps:
            if step.one in found or step.other in found:
                found.add(step.to)
        return found

    def _to(self, place: int) -> Adding:
        """The sums of a step onward."""
        if (place, "to") not in self._adding:
            step, values = self.steps[place], self.values
            weights = values[step.one][step.at_one] * values[step.other][step.at_other]
            pair = (step.at_one, step.at_other)
            self._adding[place, "to"] = adding(*pair, step.at, weights, values[step.to])
        return self._adding[place, "to"]

    def _back(self, place: int, which: str) -> Adding:
        """The sums of a step backward, to one of its tables."""
        if (place, which) not in self._adding:
            step, outside = self.steps[place], self.outside
            table, at, other, there = (
                (step.one, step.at_one, step.other, step.at_other)
                if which == "one"
                else (step.other, step.at_other, step.one, step.at_one)
            )
            weights = self.values[other][there] * outside[step.to][step.at]
            self._adding[place, which] = adding(there, step.at, at, weights, outside[table])
        return self._adding[place, which]

    def thinned(self, kept: Sequence[Which]) -> tuple["Sums", list[Places]]:
        """The plan with these pairs of each step alone, and which entries are left of each table
        it begins with."""
        needed = [np.zeros(size, bool) for size in self.sizes]
        needed[-1][:] = True
        pairs: list[Which] = []
        for step, keep in zip(reversed(self.steps), reversed(kept), strict=True):
            keep = keep & needed[step.to][step.at]
            needed[step.one][step.at_one[keep]] = True
            needed[step.other][step.at_other[keep]] = True
            pairs.append(keep)
        new = [np.cumsum(each) - 1 for each in needed]
        steps = [
            Step(
                one=step.one,
                other=step.other,
                to=step.to,
                at_one=new[step.one][step.at_one[keep]],
                at_other=new[step.other][step.at_other[keep]],
                at=new[step.to][step.at[keep]],
            )
            for step, keep in zip(self.steps, reversed(pairs), strict=True)
        ]
        left = [np.flatnonzero(each) for each in needed[: len(self.leaves)]]
        leaves = [each[places] for each, places in zip(self.leaves, left, strict=True)]
        return Sums(leaves, [int(each.sum()) for each in needed], steps, self._asked), left


def adding(one: Places, other: Places, to: Places, weights: Array, whole: Array) -> Adding:
    """Pairs that add up to these entries, each with its weight, of which `whole` is the sum."""
    order = np.argsort(to, kind="stable")
    first = np.concatenate([[0], np.cumsum(np.bincount(to, minlength=whole.size))])
    shares = np.divide(weights, whole[to], out=np.zeros_like(weights), where=whole[to] > 0.0)
    return Adding(one[order], other[order], first, shares[order].astype(np.float32))
