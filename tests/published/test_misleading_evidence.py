"""How often a ratio may mislead: cars drawn from the model, weighed by it.

P(LR at least x | second proposition true) is at most 1/x: National Institute of
Justice, "Are low LRs reliable?",
https://nij.ojp.gov/library/publications/are-low-lrs-reliable
"""

from functools import cache
from math import sqrt

import numpy as np
import pytest

from tests.published.cars_drawn import drawing
from tests.weighing.tiny import TINY_BOOK, prepared
from witnessmark.weighing.questions import log10_ratio

CARS = 300
OWN, NOT_OWN = 0, 1


@cache
def ratios(bearer: int) -> np.ndarray:
    """LR of identity for cars whose bearer is own, or is not."""
    draws = drawing(seed=20_260 + bearer)
    found = []
    for _ in range(CARS):
        ready = prepared(draws.case(bearer), TINY_BOOK)
        ones = ready.calculator.ones(1)
        joints, prior = ready.calculator.run(ones), ready.calculator.prior(ones)
        found.append(float(log10_ratio(joints, prior, ready.asked[0])[0]))
    return 10.0 ** np.array(found)


@pytest.mark.parametrize("x", [1.5, 2, 5, 10, 30, 100])
def test_cars_that_are_not_own_reach_x_no_oftener_than_one_in_x(x):
    error = sqrt(1.0 / x * (1.0 - 1.0 / x) / CARS)
    assert (ratios(NOT_OWN) >= x).mean() <= 1.0 / x + 3.0 * error


@pytest.mark.parametrize("x", [1.5, 2, 5, 10, 30, 100])
def test_own_cars_fall_to_one_over_x_no_oftener_than_one_in_x(x):
    error = sqrt(1.0 / x * (1.0 - 1.0 / x) / CARS)
    assert (ratios(OWN) <= 1.0 / x).mean() <= 1.0 / x + 3.0 * error


def test_the_ratios_do_tell_the_two_apart():
    """Else the bounds above would hold of a model that says nothing."""
    assert np.median(ratios(OWN)) > 3.0
    assert np.median(ratios(NOT_OWN)) < 1.0


def test_both_kinds_of_car_tell_of_the_same_overlap():
    """The mean of sqrt(LR) over cars not own and of 1/sqrt(LR) over own cars are one sum:
    that of sqrt(P(findings | own) P(findings | not own)). A model wrong about either
    kind gives two."""
    first, second = ratios(OWN) ** -0.5, ratios(NOT_OWN) ** 0.5
    error = sqrt(first.var() / CARS + second.var() / CARS)
    assert abs(first.mean() - second.mean()) <= 4.0 * error
    assert error < 0.1
