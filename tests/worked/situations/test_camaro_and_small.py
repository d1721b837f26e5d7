"""Situations and laws on whole cars; two files, so that two processes share the cars."""

import pytest

from tests.worked.situations.asked import laws_on, of_law, of_situation, situations_on
from tests.worked.situations.law import Law
from tests.worked.situations.situation import Situation
from tests.worked.situations.whole_cars import hold, hold_pages, in_time, named

CARS = ("camaro", "beetle", "jaguar", "frame", "pan", "coachbuilt", "order", "no-numbers", "labels")


@pytest.mark.parametrize(("situation", "car"), situations_on(*CARS), ids=named)
def test_a_situation_is_answered_as_an_inspector_would(situation: Situation, car: str) -> None:
    hold(of_situation(situation, car))


@pytest.mark.parametrize(("law", "car"), in_time(laws_on(*CARS)), ids=named)
def test_a_law_holds_on_a_standard_car(law: Law, car: str) -> None:
    hold(of_law(law, car))


@pytest.mark.parametrize(("_", "car"), in_time(("pages", car) for car in CARS), ids=named)
def test_the_pages_say_what_a_car_is_answered(_: str, car: str) -> None:
    hold_pages(car)
