"""From answers to figures: every system scored on every question of a world."""

from dataclasses import dataclass

import numpy as np

from benchmarks.proving.limit import QUESTIONS
from benchmarks.proving.measures import (
    Interval,
    Scored,
    bootstrap,
    cllr,
    cllr_min,
    overall_misleading,
    reaching,
)
from benchmarks.proving.rivals import Rivals
from benchmarks.proving.run import Answered, pairs

TOOL, LIMIT = "the tool", "the limit"
DRAWS = 400
BEYOND = float(np.log10(3.0))
"""Where a likelihood ratio begins to say something: beyond 3 either way."""
ASKED_FOR = ("identity", "configuration", "engine")
"""The questions for which aims are set."""


@dataclass(frozen=True, slots=True)
class Scores:
    """One question in one world: every system's scores of the same cases."""

    question: str
    answers: list[Answered]
    systems: dict[str, Scored]

    def true_share(self) -> float:
        """How often the first proposition is true among the cars of the world."""
        scored = self.systems[TOOL]
        return float(scored.weight[scored.is_true].sum() / scored.weight.sum())

    def wrong(self, system: str, threshold: float) -> float:
        """The share of the world's cars with a ratio beyond a threshold on the wrong side."""
        return overall_misleading(self.systems[system], threshold, self.true_share())

    def right(self, system: str, threshold: float) -> float:
        """The mean over both classes of the share beyond a threshold on the right side."""
        found = reaching(self.systems[system], threshold)
        return (found.true + found.false) / 2.0

    def cost(self, system: str) -> float:
        """Cllr of a system."""
        return cllr(self.systems[system])


def scores_of(answers: list[Answered], learned: dict[str, Rivals]) -> dict[str, Scores]:
    """Every question of a world that both classes have cases of."""
    found = {}
    for question in QUESTIONS:
        asked = list(pairs(answers, question))
        true = np.array([bool(a.truth[question]) for a in asked])
        if len(asked) < 10 or true.all() or not true.any():
            continue
        weight = np.array([a.weight for a in asked])
        ratios = {TOOL: np.array([a.tool.ratios[question] for a in asked])}
        if all(a.limit is not None for a in asked):
            ratios[LIMIT] = np.array([a.limit[question] if a.limit else 0.0 for a in asked])
        if question in learned:
            ratios |= learned[question].log10_ratios(question, asked)
        scored = {name: Scored(each, true, weight) for name, each in ratios.items()}
        found[question] = Scores(question, asked, scored)
    return found


def interval(scored: Scored, measure: str = "cllr") -> Interval:
    """A measure with its bootstrap interval."""
    chosen = {"cllr": cllr, "cllr_min": cllr_min}[measure]
    return bootstrap(scored, chosen, DRAWS, np.random.default_rng(1))


@dataclass(frozen=True, slots=True)
class Established:
    """How often identity was said not to be establishable, and how often that was right."""

    said: int
    limit_agrees: float
    """Share of those in which the limit too stays within 3 either way."""
    stays: float
    """Share of those in which the tool stays within 3 once every reachable place was seen."""


def established(answers: list[Answered]) -> Established:
    """How right "cannot be established" was, weighed as the cars are met."""
    said = [a for a in answers if a.tool.cannot]
    if not said:
        return Established(0, float("nan"), float("nan"))
    weight = np.array([a.weight for a in said])
    within = np.array([a.limit is not None and abs(a.limit["identity"]) <= BEYOND for a in said])
    stays = np.array([a.when_whole is not None and abs(a.when_whole) <= BEYOND for a in said])
    return Established(
        len(said),
        float(np.average(within, weights=weight)),
        float(np.average(stays, weights=weight)),
    )
