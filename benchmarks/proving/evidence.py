"""All that one run of the proving ground found: every world's scores, and the checks of it."""

from collections.abc import Callable
from dataclasses import dataclass, field
from time import perf_counter

import numpy as np

from benchmarks.proving.cases import ERAS, OwnNumbers
from benchmarks.proving.limit import Limit
from benchmarks.proving.misled import Misled, most_misled
from benchmarks.proving.rivals import Rivals, learn
from benchmarks.proving.run import Answered, Job, run
from benchmarks.proving.summary import Scores, scores_of
from benchmarks.proving.world import World, plain_of

TRAINING_FROM = 1_000_000
"""Numbers of the cases that the rivals learn from: nobody is scored on them."""
MISLED_SHOWN = 4


@dataclass(frozen=True)
class Run:
    """What a run is to be: its seed, cases of every world, cases for the rivals to learn
    from, lives counted for the limit; cases of every world whose bands are drawn, and draws."""

    seed: int
    cases: int
    training: int
    bank: int
    bands: int = 0
    draws: int = 0


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
    """Run every world in turn; the rivals learn once for each maker, in its plain world."""
    learned: dict[str, dict[str, Rivals]] = {}
    found = Found(asked)
    for world in worlds:
        if asked.training and world.maker not in learned:
            say(f"the rivals learn from {asked.training} cases of {plain_of(world).name}")
            taught = run(Job(plain_of(world), asked.seed, TRAINING_FROM, asked.training, 0))
            questions = {question for answer in taught for question in answer.tool.ratios}
            learned[world.maker] = {
                q: each for q in sorted(questions) if (each := learn(q, taught))
            }
        begun = perf_counter()
        job = Job(world, asked.seed, 0, asked.cases, asked.bank, asked.bands, asked.draws)
        answers = run(job)
        took = perf_counter() - begun
        misled = most_misled(world, asked.seed, answers, MISLED_SHOWN, asked.draws)
        say(f"{world.name}: {asked.cases} cases in {took:.0f} s")
        scores = scores_of(answers, learned.get(world.maker, {}))
        found.worlds.append(WorldFound(world, answers, scores, misled, took))
    if worlds[0].maker == "own numbers" and asked.bank:
        found.bank_error.update(bank_error(worlds[0], asked))
    return found


def bank_error(world: World, asked: Run, cases: int = 24) -> dict[str, float]:
    """How far the limit's answers from two banks differ, root mean square in log10 LR."""
    differences: dict[str, list[float]] = {}
    grounds = [
        OwnNumbers(world, asked.seed, asked.bank),
        OwnNumbers(world, asked.seed + 1, asked.bank),
    ]
    for number in range(2_000_000, 2_000_000 + cases):
        car, seen = grounds[0].drawn(number)
        era = ERAS[number % len(ERAS)]
        one, other = (
            Limit(each.banks[era], grounds[0].factory, car, seen).log10_ratios() for each in grounds
        )
        for question, ratio in one.items():
            apart = np.clip(ratio, -4, 4) - np.clip(other[question], -4, 4)
            differences.setdefault(question, []).append(float(apart))
    return {q: float(np.sqrt(np.mean(np.square(d)))) for q, d in differences.items() if d}
