"""Every number that is given is one: no answer, band or contribution is infinite."""

import math
from collections.abc import Iterator
from dataclasses import fields, is_dataclass

import pytest

from tests.weighing.cars import CAMARO, MUSTANG, SALOON, Car
from witnessmark.weighing import Asked, answer, steadiness

BARE = Car(CAMARO.book, {"sequence": "594718"}, {}, {})
CARS = {
    "nothing noted": BARE,
    "one number, no look": BARE.but({"partial_number_engine": "19N594718"}),
    "no looks": MUSTANG.but(looks=dict.fromkeys(MUSTANG.looks)),
    "unit body": SALOON,
    "another car's": SALOON.but({"shell_wing_number": "E 590108"}),
}


def numbers(of: object) -> Iterator[float]:
    """Every number within a record."""
    if isinstance(of, float):
        yield of
    elif isinstance(of, tuple):
        for each in of:
            yield from numbers(each)
    elif is_dataclass(of):
        for field in fields(of):
            yield from numbers(getattr(of, field.name))


@pytest.mark.parametrize("name", CARS)
def test_no_number_of_an_answer_or_its_steadiness_is_infinite(name):
    marks = CARS[name].marks()
    found = [*numbers(answer(marks)), *numbers(steadiness(marks, 32))]
    assert all(math.isfinite(each) for each in found)


def test_a_stamp_is_not_told_what_its_number_does_where_without_it_nothing_is_struck():
    """With that number alone on its surface there is no other side of the question."""
    stamp = answer(CARS["one number, no look"].marks()).conclusion(Asked.STAMP, "engine")
    assert stamp is not None
    assert all(each.kind != "number" for each in stamp.contributions)
