"""Runs worlds: draws cases, lets the tool and the limit answer, keeps all answers."""

import os
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from multiprocessing import get_context

import numpy as np
from numpy.typing import NDArray

from benchmarks.proving.cases import ERAS, document_of, draw_case
from benchmarks.proving.factory import Factory, demo_book
from benchmarks.proving.limit import Bank, Limit, make_bank
from benchmarks.proving.tool import Weighed, weigh_case, wrong_book
from benchmarks.proving.world import World

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Answered:
    """One case with all answers: the tool's, the limit's (None where not asked for), and
    the tool's identity ratio once every reachable place was looked at (None where the
    tool did not say that identity cannot be established)."""

    number: int
    era: str
    kind: int
    weight: float
    truth: dict[str, bool | None]
    tool: Weighed
    limit: dict[str, float] | None
    when_whole: float | None


@dataclass(frozen=True, slots=True)
class Job:
    """What is to be run of one world. `bank` is the number of lives counted for the limit,
    0 for no limit."""

    world: World
    seed: int
    first: int
    count: int
    bank: int


_state: dict[str, object] = {}


def run(job: Job, workers: int | None = None) -> list[Answered]:
    """Every case of a job, in order."""
    factory = Factory(demo_book(), job.seed)
    banks: dict[str, Bank] = {}
    if job.bank:
        rng = np.random.default_rng([job.seed, 99])
        banks = {era: make_bank(job.world, era, job.bank, rng) for era in ERAS}
    _state.update(job=job, factory=factory, banks=banks)
    numbers = range(job.first, job.first + job.count)
    count = workers or os.cpu_count() or 1
    if count == 1:
        return [_answer(number) for number in numbers]
    # The workers take the state of this one along: it is made once.
    with ProcessPoolExecutor(count, get_context("fork")) as pool:
        return list(pool.map(_answer, numbers, chunksize=max(1, job.count // (8 * count))))


def _answer(number: int) -> Answered:
    job, factory, banks = _state["job"], _state["factory"], _state["banks"]
    assert isinstance(job, Job)
    assert isinstance(factory, Factory)
    assert isinstance(banks, dict)
    case = draw_case(job.world, factory, job.seed, number)
    book = factory.book if job.world.book == "as shipped" else wrong_book(job.seed)
    rng = np.random.default_rng([job.seed, 5, number])
    tool = weigh_case(document_of(factory, case), book, job.world.rows, rng)
    when_whole = None
    if tool.cannot:
        whole = draw_case(job.world, factory, job.seed, number, whole=True)
        rng = np.random.default_rng([job.seed, 5, number])
        when_whole = weigh_case(document_of(factory, whole), book, job.world.rows, rng).ratios[
            "identity"
        ]
    limit = Limit(banks[case.era], factory, case.car, case.seen).log10_ratios() if banks else None
    return Answered(number, case.era, case.kind, case.weight, case.truth, tool, limit, when_whole)


def pairs(answers: list[Answered], question: str) -> Iterator[Answered]:
    """The cases of which a question was asked and has a truth."""
    for answer in answers:
        if answer.truth.get(question) is not None and question in answer.tool.ratios:
            yield answer
