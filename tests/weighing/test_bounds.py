"""The bounds hold what follows when the assumed rows are wrong by a factor of 3 in odds."""

from collections import Counter
from functools import cache

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.examples import tried_on
from tests.weighing.cars import saloon, weighed_with_bounds
from tests.weighing.changed import every_case, network_of
from tests.weighing.few_rows import bounded, corners, ln_lrs, pairs_of, with_rows
from tests.weighing.test_brute_force import CARS
from tests.weighing.tiny import TINY_BOOK, Prepared, prepared
from tests.worked.opened import opinion_of
from witnessmark.weighing import Question
from witnessmark.weighing.bounds import Bounded
from witnessmark.weighing.rows import FACTOR

LN10 = float(np.log(10.0))
SLACK_LOG10 = 0.01
"""What a search may miss: a hundredth of an order of magnitude."""
TRIED = 5
"""Rows that move at once where every vertex is tried."""

IN_MINUTES = {"clean", "no-papers", "altered"}
"""The demonstration cars that take longest."""

CASES = [
    pytest.param(name, marks=pytest.mark.prove) if name in IN_MINUTES else name
    for name in (*every_case(), *CARS)
]


def made_ready(name: str) -> Prepared:
    """The network of a demonstration car or of a tiny one."""
    if name in CARS:
        return prepared(CARS[name], TINY_BOOK)
    return network_of(every_case()[name])


@cache
def bounds_of_case(name: str) -> Bounded:
    """The bounds of all its questions, every assumed row moving."""
    return bounded(made_ready(name))


@cache
def rows_by_use(name: str, pair: int) -> tuple[list[str], list[str]]:
    """The rows that stand in one distribution, and those that stand in several, the ones
    that move this pair most first."""
    ready = made_ready(name)
    network = ready.calculator.network
    used: Counter[int] = Counter()
    for table in network.tables:
        distributions = table.row_index.reshape(-1, table.shape[-1])
        used.update(row for each in distributions for row in set(each.tolist()) - {-1})
    slope = ready.calculator.ratios(ready.calculator.ones(pair + 1), pairs_of(ready)[: pair + 1])
    order = np.argsort(-np.abs(slope.row_slope[pair]), kind="stable")
    rows = [(network.values.rows[k].id, used[k]) for k in order.tolist() if used[k]]
    return [row for row, count in rows if count == 1], [row for row, count in rows if count > 1]


@pytest.mark.parametrize("name", CASES)
def test_the_bounds_enclose_the_base(name):
    found = bounds_of_case(name)
    assert (found.least <= found.base).all()
    assert (found.base <= found.most).all()
    assert (found.least < found.most).any()


@pytest.mark.parametrize("name", CASES)
def test_identity_moves_one_way_with_a_row_that_stands_once(name):
    """Both sides are linear in its weight over one common sum, so their ratio is monotone."""
    ready = made_ready(name)
    once, _ = rows_by_use(name, 0)
    index = ready.calculator.network.values.index()
    steps = np.linspace(-1.0, 1.0, 9)
    scale = ready.calculator.ones(len(once) * len(steps))
    for k, row in enumerate(once):
        scale[k * len(steps) : (k + 1) * len(steps), index[row]] = FACTOR**steps
    swept = ln_lrs(ready, scale)[:, 0].reshape(len(once), len(steps))
    assert once
    for row, values in zip(once, swept, strict=True):
        moves = np.diff(values)
        assert (moves >= -1e-9).all() or (moves <= 1e-9).all(), row


@pytest.mark.parametrize("name", CASES)
def test_for_identity_such_rows_need_only_their_vertices_and_these_are_found(name):
    """All 2^R vertices against the search; with the base as a third level nothing is added."""
    once, _ = rows_by_use(name, 0)
    free = tuple(once[:TRIED])
    ready = with_rows(made_ready(name), free)
    found = bounded(ready)
    vertices = ln_lrs(ready, corners(ready, free, (-1.0, 1.0)))[:, 0]
    grid = ln_lrs(ready, corners(ready, free, (-1.0, 0.0, 1.0)))[:, 0]
    assert [grid.min(), grid.max()] == pytest.approx([vertices.min(), vertices.max()], abs=1e-9)
    assert [found.least[0], found.most[0]] == pytest.approx(
        [vertices.min(), vertices.max()], abs=1e-9
    )


@pytest.mark.parametrize("name", CASES)
@pytest.mark.parametrize("kind", ["once", "several"])
def test_no_vertex_of_any_few_rows_lies_outside_the_bounds(name, kind):
    """All 3^R combinations of least, base and most, for every question and split."""
    once, several = rows_by_use(name, 0)
    free = tuple((once if kind == "once" else several)[:TRIED])
    ready = with_rows(made_ready(name), free)
    found = bounded(ready)
    grid = ln_lrs(ready, corners(ready, free, (-1.0, 0.0, 1.0)))
    below = (found.least - grid.min(axis=0)) / LN10
    above = (grid.max(axis=0) - found.most) / LN10
    assert below.max() <= SLACK_LOG10
    assert above.max() <= SLACK_LOG10


@given(st.sampled_from(list(every_case())), st.integers(0, 10_000))
@tried_on(20, few=3, derandomize=True)
def test_no_set_of_assumptions_within_the_factor_lies_outside_the_bounds(name, seed):
    """Every row at once anywhere between a third and three times its odds."""
    ready = made_ready(name)
    rng = np.random.default_rng(seed)
    spread = rng.uniform(-1.0, 1.0, (40, ready.calculator.n_rows))
    spread[20:] = np.sign(spread[20:])
    spread[:, ready.calculator.reading_rows()] = rng.choice([-1.0, 1.0])
    found, tried = bounds_of_case(name), ln_lrs(ready, FACTOR**spread)
    assert (tried >= found.least - SLACK_LOG10 * LN10).all()
    assert (tried <= found.most + SLACK_LOG10 * LN10).all()


@pytest.mark.parametrize("name", list(every_case()))
def test_one_row_moved_alone_stays_inside_the_bounds(name):
    """The assumptions shown beside a ratio never lead out of the bounds shown beside it."""
    weighing = weighed_with_bounds(saloon()) if name == "saloon" else opinion_of(name).weighing
    for conclusion in weighing.conclusions:
        low, high = conclusion.lr.log10_lr_low, conclusion.lr.log10_lr_high
        for assumption in conclusion.assumptions:
            for moved in (assumption.log10_lr_at_low, assumption.log10_lr_at_high):
                assert low - 1e-9 <= moved <= high + 1e-9, (conclusion.about, assumption.row)


@pytest.mark.parametrize("row", ["made.knows_claimed", "assembly.not_own.engine.none"])
def test_an_override_is_the_row_moved_to_that_value(row):
    """For a row against its only rest, setting 1/3 or 3 times its odds is scaling its weight."""
    ready = network_of(saloon())
    index = ready.calculator.network.values.index()
    value = ready.calculator.network.values.rows[index[row]].value
    for factor in (1.0 / FACTOR, FACTOR):
        odds = value / (1.0 - value) * factor
        stated = {"row": row, "value": odds / (1.0 + odds), "reason": "tried"}
        overridden = network_of(saloon(circumstances={"overrides": [stated]}))
        scale = ready.calculator.ones(1)
        scale[0, index[row]] = factor
        assert ln_lrs(overridden, overridden.calculator.ones(1)) == pytest.approx(
            ln_lrs(ready, scale), abs=1e-9
        )


def test_an_override_moves_the_ratio_its_bounds_and_is_named():
    """Careful renumbering taken as rare: agreement of all marks speaks louder for the car."""
    row = "deceit.not_own.skilled"
    stated = {"row": row, "value": 0.05, "reason": "Nobody then took that trouble."}
    before, after = (
        next(c for c in weighed_with_bounds(case).conclusions if c.question is Question.IDENTITY)
        for case in (saloon(), saloon(circumstances={"overrides": [stated]}))
    )
    assert after.lr.log10_lr > before.lr.log10_lr + 0.3
    assert after.lr.log10_lr_low > before.lr.log10_lr_low
    assert [a.overridden for a in after.assumptions if a.row == row] == [True]
    assert not any(a.overridden for a in before.assumptions)
