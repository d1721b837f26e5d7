"""A general-purpose library of likelihood ratios gives the same costs for the same cases."""

import math

import numpy as np
import pytest
from lir.data.models import LLRData
from lir.metrics import cllr as their_cllr
from lir.metrics import cllr_cal as their_cllr_cal
from lir.metrics import cllr_min as their_cllr_min

from benchmarks.proving.measures import Scored, cllr, cllr_cal, cllr_min


def drawn(seed: int, n: int, places: int | None) -> Scored:
    """Random cases of uneven classes, ratios rounded to a number of places for ties."""
    rng = np.random.default_rng(seed)
    truths = rng.random(n) < rng.uniform(0.1, 0.9)
    truths[:2] = True, False
    ratios = rng.normal(np.where(truths, 0.6, -0.6), rng.uniform(0.3, 4.0))
    return Scored(ratios if places is None else np.round(ratios, places), truths)


def theirs(scored: Scored) -> LLRData:
    """The library's own records of the same cases; its ratios are log10 too."""
    return LLRData(features=scored.log10_lr[:, None], hypothesis=scored.is_true.astype(int))


def assert_same_costs(scored: Scored) -> None:
    """All three costs, to 1e-9 bits."""
    cases = theirs(scored)
    assert cllr(scored) == pytest.approx(their_cllr(cases), abs=1e-9)
    assert cllr_min(scored) == pytest.approx(their_cllr_min(cases), abs=1e-9)
    assert cllr_cal(scored) == pytest.approx(their_cllr_cal(cases), abs=1e-9)


@pytest.mark.parametrize("n", [2, 3, 10, 100, 2000])
@pytest.mark.parametrize("places", [None, 1, 0])
@pytest.mark.parametrize("seed", range(6))
def test_costs_are_the_librarys(n, places, seed):
    """From no ties to nearly nothing but ties."""
    assert_same_costs(drawn(seed, n, places))


def test_costs_of_sets_that_sort_perfectly_or_not_at_all_are_the_librarys():
    truths = [True] * 4 + [False] * 3
    assert_same_costs(Scored([4.0, 3.0, 2.0, 1.0, -1.0, -2.0, -3.0], truths))
    assert_same_costs(Scored([-4.0, -3.0, -2.0, -1.0, 1.0, 2.0, 3.0], truths))
    assert_same_costs(Scored([0.0] * 7, truths))


def test_costs_with_infinite_ratios_on_the_right_side_are_the_librarys():
    scored = Scored([math.inf, 0.3, -0.2, -math.inf], [True, False, True, False])
    assert cllr(scored) == pytest.approx(their_cllr(theirs(scored)), abs=1e-9)
