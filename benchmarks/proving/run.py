"""Runs worlds: draws cases, lets the tool and the limit answer, keeps all answers."""

import os
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from multiprocessing import get_context

import numpy as np

from benchmarks.proving.cases import Ground, OwnNumbers, ground_of
from benchmarks.proving.tool import Weighed, weigh_case, wrong_book
from benchmarks.proving.world import World


@dataclass(frozen=True, slots=True)
class Answered:
    """One case with all answers: the tool's, the limit's (None where not asked for)."""

    number: int
    kind: str
    weight: float
    truth: dict[str, bool | None]
    tool: Weighed
    limit: dict[str, float] | None


@dataclass(frozen=True, slots=True)
class Job:
    """What is to be run of one world. `bank` is the number of lives counted for the limit, 0
    for no limit; of the first `bands` cases the bands are drawn too, with so many draws."""

    world: World
    seed: int
    first: int
    count: int
    bank: int
    bands: int = 0
    draws: int = 0


_state: dict[str, object] = {}


def run(job: Job, workers: int | None = None) -> list[Answered]:
    """Every case of a job, in order."""
    ground = ground_of(job.world, job.seed, job.bank)
    if job.bank and isinstance(ground, OwnNumbers):
        assert ground.banks  # counted once, before there are workers
    _state.update(job=job, ground=ground)
    numbers = range(job.first, job.first + job.count)
    count = workers or os.cpu_count() or 1
    if count == 1:
        return [_answer(number) for number in numbers]
    # The workers take the state of this one along: it is made once.
    with ProcessPoolExecutor(count, get_context("fork")) as pool:
        return list(pool.map(_answer, numbers, chunksize=max(1, job.count // (8 * count))))


def _answer(number: int) -> Answered:
    job, ground = _state["job"], _state["ground"]
    assert isinstance(job, Job)
    case = _ground(ground).case(number)
    book = _ground(ground).book if job.world.book == "as shipped" else wrong_book(job.seed)
    rng = np.random.default_rng([job.seed, 5, number])
    draws = job.draws if number < job.bands else 0
    tool = weigh_case(case.document, book, job.world.rows, rng, draws)
    limit = case.exact() if job.bank else None
    return Answered(number, case.kind, case.weight, case.truth, tool, limit)


def _ground(kept: object) -> Ground:
    return kept  # type: ignore[return-value]


def pairs(answers: list[Answered], question: str) -> Iterator[Answered]:
    """The cases of which a question was asked of all and has a truth."""
    for answer in answers:
        if answer.truth.get(question) is None or question not in answer.tool.ratios:
            continue
        if answer.limit is None or question in answer.limit:
            yield answer
