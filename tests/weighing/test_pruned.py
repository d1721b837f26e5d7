"""Draws are summed over what counts alone: on every standard car, and on small cars drawn from
them, the answers are those of the sum over everything."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.examples import tried_on
from tests.weighing.cars import SALOON
from tests.worked.situations import car as change
from tests.worked.situations.document import book_of, casefile
from tests.worked.situations.standard import STANDARD
from witnessmark.agreement import CarMarks
from witnessmark.examination import car_marks
from witnessmark.weighing import rate_values
from witnessmark.weighing.network import factors, pruned
from witnessmark.weighing.network.build import network_of, noted
from witnessmark.weighing.network.pruned import APART, LOST, Pruned
from witnessmark.weighing.network.questions import Question, questions_of, sides
from witnessmark.weighing.pieces.noted_car import Noted

DRAWS = 512
SMALL = ("frame", "coachbuilt", "order", "no-numbers", "labels")
MOST_APART = 0.03
"""Of log10 LR, at any draw: at those where a band ends it is at most `APART`."""


def marks_of(name: str, *changes: change.Change) -> CarMarks:
    car = STANDARD[name].but(*changes)
    return car_marks(casefile(car), book_of(car.book))


def asked_of(known: Noted) -> list[Question]:
    return [each for each in questions_of(known) if each.is_examined]


def greatest_apart(known: Noted, places: list[int]) -> float:
    """The greatest difference in log10 LR of any question at these draws of the rates."""
    rates = rate_values((), DRAWS).at(np.array(places))
    asked = asked_of(known)
    summed = Pruned(known, rate_values(), asked)
    summed.try_on(rates)
    assert summed.apart_log10 <= APART
    found, exact = summed.sides(rates), network_of(known, rates)
    apart = [0.0]
    for question in asked:
        side = sides(exact, known, question)
        if side is not None:
            difference = side.log10_by_draw() - found[question].log10_by_draw()
            apart.append(float(np.abs(difference).max()))
    return max(apart)


LONG = ("camaro", "numbered")
"""Cars that take longest: `make test` has another of the one's kind, and of the other's book."""


@pytest.mark.parametrize(
    "name",
    [
        pytest.param(name, marks=pytest.mark.prove if name in LONG else ())
        for name in (*STANDARD, "saloon")
    ],
)
def test_the_draws_of_a_standard_car_are_those_of_the_exact_sum(name):
    """Of every question, at two draws."""
    marks = SALOON.marks() if name == "saloon" else marks_of(name)
    assert greatest_apart(noted(marks), [171, 511]) <= MOST_APART


def test_an_item_that_cannot_stand_beside_the_others_is_summed_alone(monkeypatch):
    """Where all states of items together would be too many, as on a card with many codes."""
    monkeypatch.setattr(factors, "MOST_STATES", 2)
    known = noted(marks_of("mustang"))
    assert network_of(known, rate_values()).axes.agreed
    assert greatest_apart(known, [0, 511]) <= MOST_APART


@tried_on(60, few=8)
@given(st.data())
def test_the_draws_of_any_small_car_are_those_of_the_exact_sum(data):
    """Marks not read, or read again, another car's number on some, worn ones."""
    name = data.draw(st.sampled_from(SMALL))
    some = st.lists(st.sampled_from(sorted(STANDARD[name].readings)), max_size=3, unique=True)
    changes = (change.of_another, change.again, change.worn, change.unseen)
    marks_read = marks_of(name, *(each(*chosen) for each in changes if (chosen := data.draw(some))))
    draws = data.draw(st.lists(st.integers(0, DRAWS - 1), min_size=2, max_size=4, unique=True))
    assert greatest_apart(noted(marks_read), draws) <= MOST_APART


@pytest.mark.parametrize("name", SMALL)
def test_of_no_side_more_is_left_out_than_is_said(name):
    """Under base rates, and never added: every side keeps all but a share of `LOST`."""
    known = noted(marks_of(name))
    found = Pruned(known, rate_values(), asked_of(known)).sides(rate_values())
    exact = network_of(known, rate_values())
    for question, side in found.items():
        whole = sides(exact, known, question)
        assert whole is not None
        for which in (side.first, side.second):
            kept = side.joint[0, which].sum() / whole.joint[0, which].sum()
            assert 1.0 - 1.1 * LOST <= kept <= 1.0 + 1e-5, question


def test_where_an_answer_is_moved_too_far_less_is_left_out(monkeypatch):
    """Until it is not, or nothing more can be done; how far it was moved is told."""
    known = noted(marks_of("frame"))
    rates = rate_values((), 64)
    one = Pruned(known, rate_values(), asked_of(known))
    one.try_on(rates)
    monkeypatch.setattr(pruned, "APART", one.apart_log10 / 10)
    other = Pruned(known, rate_values(), asked_of(known))
    other.try_on(rates)
    assert 0.0 < other.apart_log10 <= one.apart_log10 / 10
