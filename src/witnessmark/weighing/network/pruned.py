"""The questions of a car for many draws of the rates, summed over what counts alone.

What counts is found once, at base rates (see `kept`), and tried on a few of the draws: where
any answer is farther from the sum over all that has a share than it may be, less is left out.
"""

from collections.abc import Iterable, Iterator

import numpy as np

from witnessmark.weighing.arrays import Places, Which
from witnessmark.weighing.network.build import network_of
from witnessmark.weighing.network.network import Network
from witnessmark.weighing.network.pruning import AskedAlong, Pruning, SumPlan, drawn
from witnessmark.weighing.network.questions import TINY, Question, Sides, axis_of, sides
from witnessmark.weighing.pieces.noted_car import Noted
from witnessmark.weighing.rates import RateValues

APART, TRIES = 0.005, 6
"""Most that the log10 LR of a draw at which a band ends may be apart from that over all that
has a share, and how often less is left out where it is more."""
ENDS = (0.05, 0.95)


class Pruned:
    """The questions of a car for any draws, with how far what was left out moved the answers
    at the draws where their bands end: `apart_log10`."""

    def __init__(self, known: Noted, base: RateValues, asked: Iterable[Question]) -> None:
        """`base`: the rates themselves, one draw."""
        self._known = known
        self._by_item = _prunings(known, network_of(known, base), asked)
        self._questions = {item: each.questions for item, each in self._by_item.items()}
        self._plans = {item: each.plan() for item, each in self._by_item.items()}
        self.apart_log10 = 0.0

    def sides(self, rates: RateValues) -> dict[Question, Sides]:
        """Both sides of every question."""
        return self._sides(self._plans, network_of(self._known, rates))

    def try_on(self, rates: RateValues) -> None:
        """Leave out less of what is moved too far, until no answer is. Once: what it needs is
        then let go."""
        if not self._by_item:
            return
        network = network_of(self._known, rates)
        found = self._sides(self._plans, network)
        ends = _ends(found)
        whole_plans = {item: each.whole for item, each in self._by_item.items()}
        whole = self._sides(whole_plans, network_of(self._known, rates.at(ends)))
        self.apart_log10 = _apart(found, whole, ends)
        for _ in range(TRIES):
            if self.apart_log10 <= APART:
                break
            for item, pruning in self._by_item.items():
                moved = list(_moved(pruning.questions, found, whole, ends))
                if moved:
                    pruning.lose_less(moved)
                    self._plans[item] = pruning.plan()
            found = self._sides(self._plans, network)
            self.apart_log10 = _apart(found, whole, ends)
        self._by_item.clear()

    def _sides(self, plans: dict[str, SumPlan], network: Network) -> dict[Question, Sides]:
        found: dict[Question, Sides] = {}
        for item, plan in plans.items():
            one = drawn(plan, network.asking(item) if item else network)
            for question in self._questions[item]:
                side = sides(one, self._known, question)
                assert side is not None
                found[question] = side
        return found


def _prunings(known: Noted, network: Network, asked: Iterable[Question]) -> dict[str, Pruning]:
    """What counts for these questions; apart for each item that cannot stand by itself beside
    the others."""
    groups: dict[str, list[AskedAlong]] = {}
    for question in asked:
        side, axis = sides(network, known, question), axis_of(known, question)
        if side is not None:
            item = axis.removeprefix("item ")
            group = item if item in network.axes.agreed else ""
            groups.setdefault(group, []).append(AskedAlong(question, axis, side))
    return {
        item: Pruning(network.asking(item) if item else network, group)
        for item, group in groups.items()
    }


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


def _moved(
    questions: Iterable[Question],
    found: dict[Question, Sides],
    whole: dict[Question, Sides],
    ends: Places,
) -> Iterator[tuple[Question, Which]]:
    """The sides that alone are moved by half of what an answer may be."""
    for question in questions:
        one, other = found[question], whole[question]
        for which in (one.first, one.second):
            joints = (each[:, which].sum(axis=1) for each in (one.joint[ends], other.joint))
            kept, all_of_it = (np.log10(np.maximum(each, TINY)) for each in joints)
            if np.abs(kept - all_of_it).max() > APART / 2.0:
                yield question, which
