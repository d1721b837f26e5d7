"""A reduced run of the proving ground: figures must lie where the long run said they do.

benchmarks/proving/intervals.csv holds the figures of the plain world with their 95 %
intervals, written by the run that docs/proving.md shows. Fewer cases spread wider, by the
root of how many fewer. The seed is fixed: the same code gives the same figures.
"""

import csv
from dataclasses import replace
from functools import cache
from math import sqrt
from pathlib import Path

import numpy as np
import pytest

from benchmarks.proving import page
from benchmarks.proving.evidence import Found, Run, WorldFound
from benchmarks.proving.measures import cllr
from benchmarks.proving.run import Answered, Job, run
from benchmarks.proving.summary import LIMIT, TOOL, Scores, scores_of, silence
from benchmarks.proving.world import PLAIN

INTERVALS = Path(page.__file__).with_name("intervals.csv")
CASES = 90
WIDER = 1.6
"""The interval of a reduced run is this much wider than its share of the cases makes it."""


@cache
def answers() -> tuple[Answered, ...]:
    """The reduced run."""
    return tuple(run(Job(PLAIN, 1, 0, CASES, 140_000), workers=1))


@cache
def scores() -> dict[str, Scores]:
    return scores_of(list(answers()), {})


ASKED_FOR = ("identity", "engine", "configuration")


def told() -> dict[tuple[str, str], dict[str, float]]:
    """The figures of the long run, in the plain world of cars with numbers of their own."""
    with INTERVALS.open(encoding="utf-8", newline="") as stream:
        return {
            (row["question"], row["measure"]): {
                name: float(row[name]) for name in ("cases", "value", "low", "high")
            }
            for row in csv.DictReader(stream)
            if row["world"] == PLAIN.name
        }


def interval(question: str, measure: str) -> tuple[float, float]:
    """Where a figure of the reduced run must lie."""
    long = told()[question, measure]
    wider = WIDER * max(1.0, sqrt(long["cases"] / len(scores()[question].answers)))
    low = long["value"] - wider * (long["value"] - long["low"])
    return low, long["value"] + wider * (long["high"] - long["value"])


@pytest.mark.parametrize("question", ASKED_FOR)
@pytest.mark.parametrize("system", [TOOL, LIMIT])
def test_the_cost_lies_in_its_interval(question, system):
    low, high = interval(question, f"cllr {'tool' if system == TOOL else 'limit'}")
    assert low <= scores()[question].cost(system) <= high


@pytest.mark.parametrize("question", ASKED_FOR)
def test_a_tool_that_knew_nothing_or_the_wrong_way_round_would_fall_out_of_it(question):
    """So that the test above can fail."""
    scored = scores()[question].systems[TOOL]
    _, high = interval(question, "cllr tool")
    assert cllr(replace(scored, log10_lr=-scored.log10_lr)) > high


@pytest.mark.parametrize("question", ASKED_FOR)
def test_nobody_is_better_than_the_limit_and_few_are_strongly_misled(question):
    found = scores()[question]
    assert found.cost(LIMIT) < found.cost(TOOL)
    assert found.wrong(TOOL, 100) < 0.02


def test_the_tool_says_when_it_cannot_be_established():
    """And the exact answer then mostly says as little."""
    found = silence(list(answers()))
    assert found.said > 0
    assert found.limit_agrees > 0.4


def test_the_same_seed_gives_the_same_answers():
    again = run(Job(PLAIN, 1, 0, 3, 0), workers=1)
    for one, other in zip(again, answers(), strict=False):
        assert one.tool.ratios == other.tool.ratios
        assert np.array_equal(one.tool.features, other.tool.features)


def test_the_page_is_whole(tmp_path):
    """Every section has its table, and no figure is missing."""
    found = Found(
        Run(1, CASES, 0, 140_000), [WorldFound(PLAIN, list(answers()), scores(), [], 1.0)]
    )
    text = page.page_of(found, tmp_path)
    for heading in ("The figures", "Against the aims", "Story by story", "does not show"):
        assert heading in text
    assert (tmp_path / "proving" / "tippett-identity.svg").exists()
    assert "nan" not in text
    assert "| plain | identity |" in page.table_of(found)
