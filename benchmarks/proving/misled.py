"""What the report shows of the cars about which the tool is most wrong."""

from dataclasses import dataclass

import numpy as np

from benchmarks.proving.cases import ground_of
from benchmarks.proving.run import Answered, pairs
from benchmarks.proving.summary import ITEMS
from benchmarks.proving.tool import moved_rows, question_of, wrong_book
from benchmarks.proving.world import World
from witnessmark.casefile import case_from
from witnessmark.examination.examine import car_marks
from witnessmark.weighing import steadiness

WRONG = 2.0
"""log10 LR beyond which a ratio on the wrong side is strongly misleading."""


@dataclass(frozen=True, slots=True)
class Misled:
    """One strongly misled case as a report would show it."""

    world: str
    number: int
    kind: str
    question: str
    log10_lr: float
    low: float
    high: float
    leading: str
    limit: float

    @property
    def bounds_hold(self) -> bool:
        """Do the bounds reach the right side, or even?"""
        return self.low <= 0.0 <= self.high


def most_misled(
    world: World, seed: int, answers: list[Answered], most: int, draws: int
) -> list[Misled]:
    """The strongly misled cases of a world, those met most often first; with so many draws
    their bands as well."""
    found = []
    for question in ("identity", "engine", "body", *ITEMS):
        for answer in pairs(answers, question):
            ratio = answer.tool.ratios[question]
            if abs(ratio) > WRONG and (ratio > 0) != answer.truth[question]:
                found.append((answer.weight, question, answer))
    found.sort(key=lambda each: -each[0])
    return [_shown(world, seed, question, a, draws) for _, question, a in found[:most]]


def _shown(world: World, seed: int, question: str, answer: Answered, draws: int) -> Misled:
    low = high = float("nan")
    leading = ""
    if draws:
        ground = ground_of(world, seed)
        document = ground.case(answer.number).document
        book = ground.book if world.book == "as shipped" else wrong_book(seed)
        if world.rows == "off by three":
            moved = moved_rows(np.random.default_rng([seed, 5, answer.number]))
            document["circumstances"] = {
                "overrides": [
                    {"row": row, "value": value, "reason": "moved for a trial"}
                    for row, value in moved.items()
                ]
            }
        car = car_marks(case_from(document), book)
        steady = next(
            s for s in steadiness(car, draws).answers
            if question_of(s.question, s.about) == question
        )  # fmt: skip
        low, high = steady.log10_lr_low, steady.log10_lr_high
        leading = steady.leading[0].row if steady.leading else ""
    limit = answer.limit[question] if answer.limit else float("nan")
    # As the report says it: the rows of a trial reach it as overrides, each by itself.
    return Misled(
        world.name, answer.number, answer.kind, question, answer.tool.ratios[question],
        low, high, leading, float(np.clip(limit, -9, 9)),
    )  # fmt: skip
