"""All that one run of the proving ground found: every world's scores, and the checks of it."""

from collections.abc import Callable
from dataclasses import dataclass, field
from time import perf_counter

import numpy as np

from benchmarks.proving.cases import draw_case
from benchmarks.proving.factory import Factory, demo_book
from benchmarks.proving.limit import QUESTIONS, Limit, make_bank
from benchmarks.proving.misled import Misled, most_misled
from benchmarks.proving.rivals import Rivals, learn
from benchmarks.proving.run import Answered, Job, run
from benchmarks.proving.summary import Scores, scores_of
from benchmarks.proving.world import PLAIN, World

TRAINING_FROM = 1_000_000
"""Numbers of the cases that the rivals learn from: nobody is scored on them."""
MISLED_SHOWN = 4


@dataclass(frozen=True)
class Run:
    """What a run is to be: its seed, cases of every world, cases for the rivals to learn
    from, lives counted for the limit."""

    seed: int
    cases: int
    training: int
    bank: int


@dataclass(frozen=True)
class WorldFound:
    """What a run found in one world."""

    world: World
    answers: list[Answered]
    scores: dict[str, Scores]
    misled: list[Misled]
    seconds: float


@dataclass(frozen=True)
class Found:
    """What a run found in all its worlds. `bank_error` is the root mean square difference
    in log10 LR between two banks, by question."""

    run: Run
    worlds: list[WorldFound] = field(default_factory=list)
    bank_error: dict[str, float] = field(default_factory=dict)

    def of(self, name: str) -> WorldFound:
        """What was found in the world of this name."""
        return next(w for w in self.worlds if w.world.name == name)


def run_worlds(worlds: tuple[World, ...], asked: Run, say: Callable[[str], None]) -> Found:
    """Run every world in turn."""
    learned: dict[str, Rivals] = {}
    if asked.training:
        say(f"the rivals learn from {asked.training} cases")
        taught = run(Job(PLAIN, asked.seed, TRAINING_FROM, asked.training, 0))
        learned = {question: learn(question, taught) for question in QUESTIONS}
    found = Found(asked)
    factory = Factory(demo_book(), asked.seed)
    for world in worlds:
        begun = perf_counter()
        answers = run(Job(world, asked.seed, 0, asked.cases, asked.bank))
        misled = most_misled(world, factory, asked.seed, answers, MISLED_SHOWN)
        took = perf_counter() - begun
        say(f"{world.name}: {asked.cases} cases in {took:.0f} s")
        found.worlds.append(WorldFound(world, answers, scores_of(answers, learned), misled, took))
    found.bank_error.update(bank_error(worlds[0], factory, asked))
    return found


def bank_error(world: World, factory: Factory, asked: Run, cases: int = 24) -> dict[str, float]:
    """How far the limit's answers from two banks differ, root mean square in log10 LR."""
    differences: dict[str, list[float]] = {question: [] for question in QUESTIONS}
    rng = np.random.default_rng([asked.seed, 42])
    for era in ("early", "tail", "unit"):
        banks = [make_bank(world, era, asked.bank, rng) for _ in range(2)]
        for number in range(2_000_000, 2_000_000 + cases):
            case = draw_case(world, factory, asked.seed, number)
            if case.era != era:
                continue
            one, other = (Limit(b, factory, case.car, case.seen).log10_ratios() for b in banks)
            for question, ratio in one.items():
                differences[question].append(
                    float(np.clip(ratio, -4, 4) - np.clip(other[question], -4, 4))
                )
    return {q: float(np.sqrt(np.mean(np.square(d)))) for q, d in differences.items() if d}
