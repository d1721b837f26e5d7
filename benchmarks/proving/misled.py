"""What the report shows of the cars about which the tool is most wrong."""

from dataclasses import dataclass

import numpy as np

from benchmarks.proving.cases import document_of, draw_case
from benchmarks.proving.factory import Factory
from benchmarks.proving.run import Answered, pairs
from benchmarks.proving.summary import ASKED_FOR
from benchmarks.proving.tool import row_factors, wrong_book
from benchmarks.proving.world import KINDS, World
from witnessmark.casefile import Casefile
from witnessmark.examination.examine import car_marks
from witnessmark.weighing import Asked, Steady, steadiness
from witnessmark.weighing.second.rates import rate_rows

DRAWS = 64
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
    world: World, factory: Factory, seed: int, answers: list[Answered], most: int
) -> list[Misled]:
    """The strongly misled cases of a world, those met most often first."""
    found = []
    for question in ASKED_FOR:
        for answer in pairs(answers, question):
            ratio = answer.tool.ratios[question]
            if abs(ratio) > WRONG and (ratio > 0) != answer.truth[question]:
                found.append((answer.weight, question, answer))
    found.sort(key=lambda each: -each[0])
    return [_shown(world, factory, seed, question, a) for _, question, a in found[:most]]


def _shown(world: World, factory: Factory, seed: int, question: str, answer: Answered) -> Misled:
    case = draw_case(world, factory, seed, answer.number)
    book = factory.book if world.book == "as shipped" else wrong_book(seed)
    document = document_of(factory, case)
    if world.rows == "off by three":
        document["circumstances"] = {"overrides": _moved_rows(seed, answer.number)}
    car = car_marks(Casefile.model_validate(document), book)
    steady = next(s for s in steadiness(car, DRAWS).answers if _is_about(s, question))
    leading = steady.leading[0].row if steady.leading else ""
    limit = answer.limit[question] if answer.limit else float("nan")
    # As the report says it: the rows of a trial reach it as overrides, each by itself.
    return Misled(
        world.name, answer.number, KINDS[answer.kind], question, answer.tool.ratios[question],
        steady.log10_lr_low, steady.log10_lr_high, leading, float(np.clip(limit, -9, 9)),
    )  # fmt: skip


def _moved_rows(seed: int, number: int) -> list[dict[str, object]]:
    """The assumed rows as the tool was given them for this car."""
    rows = [row for row in rate_rows() if row.value < 1.0]
    factors = row_factors(len(rows), np.random.default_rng([seed, 5, number]))
    moved = []
    for row, factor in zip(rows, factors.tolist(), strict=True):
        odds = row.value / (1.0 - row.value) * factor
        moved.append({"row": row.id, "value": odds / (1.0 + odds), "reason": "moved for a trial"})
    return moved


def _is_about(steady: Steady, question: str) -> bool:
    if question == "identity":
        return steady.question is Asked.IDENTITY
    if question == "configuration":
        return (steady.question, steady.about) == (Asked.ITEM, "model")
    return steady.question is not Asked.STAMP and steady.about == question
