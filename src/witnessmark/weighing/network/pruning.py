"""What a network is asked at base rates, the plan of what counts for that, and its draws summed
by such a plan."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from witnessmark.weighing.arrays import Array, Which
from witnessmark.weighing.network.kept import Keeping, counting_pairs
from witnessmark.weighing.network.leaves import Entries, Leaves, Marginal
from witnessmark.weighing.network.network import Network
from witnessmark.weighing.network.questions import Question, Sides
from witnessmark.weighing.network.sums import Relative, Sums

LOST, LESS = 2e-3, 4.0
"""Most of any side that is left out, at base rates, at first; and how many times less then."""
MOST_OF_ALL = 0.2
"""A side with more than this of everything loses no more than everything does, so many times."""
AT_ONCE = 32
"""Draws that are summed together."""


@dataclass(frozen=True, slots=True, eq=False)
class SumPlan:
    """What is summed: the steps, the entries of every table they begin with, and the marginals
    that are asked for."""

    sums: Sums
    entries: tuple[Entries, ...]
    marginals: tuple[Marginal, ...]


@dataclass(frozen=True, slots=True, eq=False)
class AskedAlong:
    """A question with the axis along which it looks, and its sides at base rates."""

    question: Question
    axis: str
    sides: Sides


class Pruning:
    """What counts for what a network is asked. `whole` is the plan of all that has a share which
    counts at all; of each side a little is lost, and less where that is too much."""

    def __init__(self, network: Network, asked: Sequence[AskedAlong]) -> None:
        """`network` of one draw."""
        leaves = Leaves(network)
        marginals = [leaves.marginal(each.axis, each.sides.first.size) for each in asked]
        both = [(marginal, each.sides) for marginal, each in zip(marginals, asked, strict=True)]
        keeping = Keeping(network, both)
        sums = keeping.sums([each.table for each in marginals])
        entries = tuple(each.entries for each in keeping.tables[: len(leaves)])
        self.whole = SumPlan(sums, entries, tuple(dict.fromkeys(marginals)))
        self.questions = tuple(each.question for each in asked)
        self._marginals = dict(zip(self.questions, marginals, strict=True))
        self._sides = _sides(both)
        self._lost = np.append(np.full(len(self._sides), LOST), LOST * MOST_OF_ALL)
        self._leaves = self._columns(leaves)
        self._values: list[Relative] = []

    def _columns(self, leaves: Leaves) -> list[Array | None]:
        """The tables to begin with, a column for each side: the table in which it stands has
        there the side's states alone. The last column is that of everything."""
        sums, entries = self.whole.sums, self.whole.entries
        found: list[Array | None] = [None] * len(sums.leaves)
        for column, (marginal, which) in enumerate(self._sides):
            table, base = marginal.table, sums.leaves[marginal.table]
            wide = found[table]
            if wide is None:
                found[table] = wide = np.repeat(base[:, None], len(self._sides) + 1, axis=1)
            if marginal.item:
                parts = leaves.by_state(marginal, entries[table])
                wide[:, column] = np.concatenate(parts, axis=1)[:, which].sum(axis=1)
            else:
                wide[:, column] *= which[entries[table].along(marginal.axis)]
        return found

    def lose_less(self, sides: Iterable[tuple[Question, Which]]) -> None:
        """Of these sides too much was lost; of one that has much of everything, of that."""
        own = [(marginal, which.tobytes()) for marginal, which in self._sides]
        asked = {(self._marginals[question], which.tobytes()) for question, which in sides}
        places = {own.index(each) if each in own else len(own) for each in asked}
        self._lost[list(places)] /= LESS

    def plan(self) -> SumPlan:
        """The plan without what may be lost."""
        # Late: by now the whole tables of the network need not be held any more.
        self._values = self._values or self.whole.sums.forward(self._leaves)
        pairs = counting_pairs(self.whole.sums, self._values, self._lost)
        sums, left = self.whole.sums.thinned(pairs)
        entries = (each.only(k) for each, k in zip(self.whole.entries, left, strict=True))
        return SumPlan(sums, tuple(entries), self.whole.marginals)


def _sides(asked: Iterable[tuple[Marginal, Sides]]) -> list[tuple[Marginal, Which]]:
    """The sides that have little of everything, each once."""
    found: dict[tuple[Marginal, bytes], Which] = {}
    for marginal, side in asked:
        joint = side.joint[0]
        for which in (side.first, side.second):
            if 0.0 < joint[which].sum() < MOST_OF_ALL * joint.sum():
                found[marginal, which.tobytes()] = which
    return [(marginal, which) for (marginal, _), which in found.items()]


def drawn(plan: SumPlan, network: Network) -> Network:
    """The network with its draws summed by the plan, along all that it asks for."""
    leaves, sums, entries = Leaves(network), plan.sums, plan.entries
    tables = [leaves.at(table, each) for table, each in enumerate(entries)]
    joints = {each: np.zeros((network.draws, each.states)) for each in plan.marginals}
    alone = {m: leaves.by_state(m, entries[m.table]) for m in joints if m.item}
    whole = {m: _by_state(plan, m) for m in joints if not m.item}
    for first in range(0, network.draws, AT_ONCE):
        part = slice(first, first + AT_ONCE)
        values = sums.forward([None if v is None else v[:, part] for v in tables])
        outside = sums.backward(values)
        for marginal, joint in joints.items():
            around = outside[marginal.table]
            assert around is not None
            if marginal.item:
                base = sums.outside[marginal.table][:, None] * around
                each = [(value[:, part] * base).sum(axis=0) for value in alone[marginal]]
                joint[part] = np.stack(each, axis=1)
            else:
                value = values[marginal.table]
                joint[part] = (whole[marginal] @ (around if value is None else value * around)).T
    made: dict[object, Any] = {
        ("along", marginal.axis): joint for marginal, joint in joints.items()
    }
    return replace(network, made=made)


def _by_state(plan: SumPlan, marginal: Marginal) -> Array:
    """What each entry of a table has of each state at base rates, shape (states, entries)."""
    table = marginal.table
    base = plan.sums.leaves[table] * plan.sums.outside[table]
    at = plan.entries[table].along(marginal.axis)
    return np.where(at == np.arange(marginal.states)[:, None], base, 0.0)
