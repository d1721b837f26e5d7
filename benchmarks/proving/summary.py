"""From answers to figures: every system scored on every question of a world."""

from dataclasses import dataclass

import numpy as np

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
ITEMS = ("package", "engine_type", "paint", "trim", "axle_ratio")
"""The claimed items that can differ; `configuration` is the answers about all of them."""
ASKED_FOR = ("identity", "engine", "body", "configuration")
"""The questions for which aims are set."""
FEWEST = 10
"""Cases from which a question is scored."""


@dataclass(frozen=True, slots=True)
class Scores:
    """One question in one world: every system's scores of the same answers, and whose."""

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


def questions_in(answers: list[Answered]) -> list[str]:
    """Every question with a truth that was asked of some car, in the order of asking."""
    asked = (q for a in answers for q in a.tool.ratios if a.truth.get(q) is not None)
    return list(dict.fromkeys(asked))


def scores_of(answers: list[Answered], learned: dict[str, Rivals]) -> dict[str, Scores]:
    """Every question that both sides have cases of, and the claimed items together."""
    found = {}
    for question in questions_in(answers):
        asked = list(pairs(answers, question))
        scored = _scored(question, asked, learned)
        if _is_enough(scored[TOOL]):
            found[question] = Scores(question, asked, scored)
    of_items = [found[item] for item in ITEMS if item in found]
    if of_items:
        systems = set.intersection(*(set(each.systems) for each in of_items))
        together = {name: _together([s.systems[name] for s in of_items]) for name in systems}
        whose = [answer for each in of_items for answer in each.answers]
        found["configuration"] = Scores("configuration", whose, together)
    return found


def _is_enough(scored: Scored) -> bool:
    both = scored.is_true.any() and not scored.is_true.all()
    return len(scored.is_true) >= FEWEST and bool(both)


def _scored(question: str, asked: list[Answered], learned: dict[str, Rivals]) -> dict[str, Scored]:
    true = np.array([bool(a.truth[question]) for a in asked], dtype=bool)
    weight = np.array([a.weight for a in asked])
    ratios = {TOOL: np.array([a.tool.ratios[question] for a in asked])}
    if asked and all(a.limit is not None for a in asked):
        ratios[LIMIT] = np.array([a.limit[question] if a.limit else 0.0 for a in asked])
    if asked and question in learned:
        ratios |= learned[question].log10_ratios(question, asked)
    return {name: Scored(each, true, weight) for name, each in ratios.items()}


def _together(parts: list[Scored]) -> Scored:
    return Scored(
        np.concatenate([each.log10_lr for each in parts]),
        np.concatenate([each.is_true for each in parts]),
        np.concatenate([each.weight for each in parts]),
    )


def nearer_of(answers: list[Answered]) -> dict[str, Scored]:
    """By question the band's end nearer 1 of the cases whose bands were drawn."""
    found = {}
    for question in questions_in(answers):
        asked = [a for a in pairs(answers, question) if question in a.tool.nearer]
        if asked:
            true = np.array([bool(a.truth[question]) for a in asked], dtype=bool)
            ends = np.array([a.tool.nearer[question] for a in asked])
            found[question] = Scored(ends, true, np.array([a.weight for a in asked]))
    return found


def interval(scored: Scored, measure: str = "cllr") -> Interval:
    """A measure with its bootstrap interval."""
    chosen = {"cllr": cllr, "cllr_min": cllr_min}[measure]
    return bootstrap(scored, chosen, DRAWS, np.random.default_rng(1))


@dataclass(frozen=True, slots=True)
class Silence:
    """Items said not to be establishable: how many, and of how many of those the exact answer
    stays within 3 as well."""

    said: int
    asked: int
    limit_agrees: float


def silence(answers: list[Answered]) -> Silence:
    """How right "cannot be established" was, weighed as the cars are met."""
    within, weights, asked = [], [], 0
    for answer in answers:
        for item in ITEMS:
            if answer.truth.get(item) is None:
                continue
            asked += 1
            if item in answer.tool.silent and answer.limit is not None:
                within.append(abs(answer.limit[item]) <= BEYOND)
                weights.append(answer.weight)
    share = float(np.average(within, weights=weights)) if within else float("nan")
    return Silence(len(within), asked, share)
