"""The questions of a car for many draws of the rates, summed over what counts alone.

What counts is found once, at base rates (see `kept`), and tried on a few of the draws: where
any answer is farther from the sum over all that has a share than it may be, less is left out.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from witnessmark.weighing.second.build import Noted, network_of
from witnessmark.weighing.second.factors import Cells, ItemAxes, way_axis
from witnessmark.weighing.second.items import CodeItem
from witnessmark.weighing.second.kept import Keeping, counting_pairs
from witnessmark.weighing.second.leaves import Entries, Leaves, Marginal
from witnessmark.weighing.second.network import Network
from witnessmark.weighing.second.questions import Question, Sides, sides
from witnessmark.weighing.second.rates import RateValues
from witnessmark.weighing.second.sums import Places, Sums

Array = NDArray[np.float64]
type Which = NDArray[np.bool_]

LOST = 2e-3
"""Most of any side that is left out, at base rates."""
AT_ONCE = 32
"""Draws that are summed together."""


@dataclass(frozen=True, slots=True, eq=False)
class Plan:
    """What is summed: the steps, the entries of every table they begin with, and the marginals
    that are asked for."""

    sums: Sums
    entries: tuple[Entries, ...]
    marginals: tuple[Marginal, ...]


class Pruning:
    """What a network is asked at base rates, and the plans for its draws."""

    def __init__(self, network: Network, asked: Sequence[tuple[Question, str, Sides]]) -> None:
        """`network` of one draw; each question with its axis and its sides under that."""
        leaves = Leaves(network)
        marginals = [leaves.marginal(axis, side.first.size) for _, axis, side in asked]
        both = [(marginal, each[2]) for marginal, each in zip(marginals, asked, strict=True)]
        keeping = Keeping(network, both)
        sums = keeping.sums([each.table for each in marginals])
        entries = tuple(each.entries for each in keeping.tables[: len(leaves)])
        self.whole = Plan(sums, entries, tuple(dict.fromkeys(marginals)))
        self.questions = tuple(question for question, _, _ in asked)
        self._sides = _sides(both)
        self._values = sums.forward(self._columns(leaves))

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

    def plan(self, lost: float = LOST) -> Plan:
        """The plan without what no side has more than this share of, all together."""
        each_lost = np.append(np.full(len(self._sides), lost), lost * MOST_OF_ALL)
        pairs = counting_pairs(self.whole.sums, self._values, each_lost)
        sums, left = self.whole.sums.thinned(pairs)
        entries = (each.only(k) for each, k in zip(self.whole.entries, left, strict=True))
        return Plan(sums, tuple(entries), self.whole.marginals)


MOST_OF_ALL = 0.2
"""A side with more than this of everything loses no more than everything does, so many times."""


def _sides(asked: Iterable[tuple[Marginal, Sides]]) -> list[tuple[Marginal, Which]]:
    """The sides of which what is kept must be looked after, each once."""
    found: dict[tuple[Marginal, bytes], Which] = {}
    for marginal, side in asked:
        joint = side.joint[0]
        for which in (side.first, side.second):
            if 0.0 < joint[which].sum() < MOST_OF_ALL * joint.sum():
                found[marginal, which.tobytes()] = which
    return [(marginal, which) for (marginal, _), which in found.items()]


class _Like:
    """What a network is asked, answered along one axis or another."""

    def __init__(self, network: Network) -> None:
        self.network = network

    @property
    def draws(self) -> int:
        """How many draws of the rates there are."""
        return self.network.draws

    @property
    def prior(self) -> Array:
        """That of the car's own variables."""
        return self.network.prior

    @property
    def cells(self) -> dict[str, Cells]:
        """The cells of every piece."""
        return self.network.cells

    @property
    def items(self) -> dict[str, CodeItem]:
        """The claimed items that were read."""
        return self.network.items

    @property
    def axes(self) -> ItemAxes:
        """Which items stand by themselves."""
        return self.network.axes

    def of_structure(self) -> Array:
        """P(what was noted, and each state of the structure), shape (draws, states)."""
        return self.along("S")

    def of_ways(self, piece: str) -> tuple[Array, Array]:
        """P(what was noted, each way of a piece) and P(the way), each (draws, ways)."""
        return self.along(way_axis(piece)), self.network.before(piece)

    def of_item(self, item: str) -> Array:
        """P(what was noted, each state of an item), shape (draws, states)."""
        return self.along(f"item {item}")

    def along(self, axis: str) -> Array:
        """P(what was noted, and each state along an axis), shape (draws, states)."""
        raise NotImplementedError


class Noting(_Like):
    """A network that notes along which axis it was asked last."""

    axis = ""

    def along(self, axis: str) -> Array:
        """As the network says."""
        self.axis = axis
        if axis == "S":
            return self.network.of_structure()
        piece = next((each for each in self.cells if way_axis(each) == axis), None)
        if piece is not None:
            return self.network.of_ways(piece)[0]
        return self.network.of_item(axis.removeprefix("item "))


class Drawn(_Like):
    """A network whose draws are summed by a plan."""

    def __init__(self, network: Network, joints: Mapping[str, Array]) -> None:
        super().__init__(network)
        self._joints = joints

    def along(self, axis: str) -> Array:
        """As it was summed."""
        return self._joints[axis]


def drawn(plan: Plan, network: Network) -> Drawn:
    """The network's draws, summed by the plan."""
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
    return Drawn(network, {marginal.axis: joint for marginal, joint in joints.items()})


def _by_state(plan: Plan, marginal: Marginal) -> Array:
    """What each entry of a table has of each state at base rates, shape (states, entries)."""
    table = marginal.table
    base = plan.sums.leaves[table] * plan.sums.outside[table]
    at = plan.entries[table].along(marginal.axis)
    found: Array = np.where(at == np.arange(marginal.states)[:, None], base, 0.0)
    return found


APART, LESS, TRIES = 0.005, 4.0, 5
"""Most that the log10 LR of a draw at which a band ends may be apart from that over all that
has a share; so many times less is left out where it is more, and how often that is tried."""
ENDS = (0.05, 0.95)


class Pruned:
    """The questions of a car for any draws, with how far what was left out moved the answers
    at the draws where their bands end: `apart_log10`."""

    def __init__(self, known: Noted, base: RateValues, asked: Iterable[Question]) -> None:
        """`base`: the rates themselves, one draw."""
        network = network_of(known, base)
        self._known = known
        groups: dict[str, list[tuple[Question, str, Sides]]] = {}
        noting = Noting(network)
        for question in asked:
            side = sides(noting, known, question)
            if side is not None:
                # An item that cannot stand by itself beside the others is summed alone.
                item = noting.axis.removeprefix("item ")
                group = item if item in network.axes.agreed else ""
                groups.setdefault(group, []).append((question, noting.axis, side))
        self._by_item = {
            item: Pruning(network.asking(item) if item else network, group)
            for item, group in groups.items()
        }
        self._lost = LOST
        self._plans = self._made()
        self.apart_log10 = 0.0

    def _made(self) -> dict[str, Plan]:
        return {item: each.plan(self._lost) for item, each in self._by_item.items()}

    def sides(self, rates: RateValues) -> dict[Question, Sides]:
        """Both sides of every question."""
        return self._sides(self._plans, network_of(self._known, rates))

    def try_on(self, rates: RateValues) -> None:
        """Leave out less, until no answer is moved too far by it."""
        if not self._plans:
            return
        network = network_of(self._known, rates)
        found = self._sides(self._plans, network)
        ends = _ends(found)
        whole_plans = {item: each.whole for item, each in self._by_item.items()}
        whole = self._sides(whole_plans, network_of(self._known, rates.at(ends)))
        for _ in range(TRIES):
            self.apart_log10 = _apart(found, whole, ends)
            if self.apart_log10 <= APART:
                break
            self._lost /= LESS
            self._plans = self._made()
            found = self._sides(self._plans, network)

    def _sides(self, plans: dict[str, Plan], network: Network) -> dict[Question, Sides]:
        found: dict[Question, Sides] = {}
        for item, plan in plans.items():
            one = drawn(plan, network.asking(item) if item else network)
            for question in self._by_item[item].questions:
                side = sides(one, self._known, question)
                assert side is not None
                found[question] = side
        return found


def _ends(found: dict[Question, Sides]) -> Places:
    """The draws at which the bands of the answers end."""
    by_draw = (each.log10_by_draw() for each in found.values())
    order = [np.argsort(each, kind="stable") for each in by_draw]
    places = {int(each[round(end * (each.size - 1))]) for each in order for end in ENDS}
    return np.array(sorted(places))


def _apart(found: dict[Question, Sides], whole: dict[Question, Sides], ends: Places) -> float:
    """The greatest difference in log10 LR of any answer at these draws."""
    apart = (
        np.abs(side.log10_by_draw()[ends] - whole[question].log10_by_draw()).max()
        for question, side in found.items()
    )
    return max(map(float, apart), default=0.0)
