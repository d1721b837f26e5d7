"""Nothing is made after its car: a casting is late or it is not, however late it is."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest

from tests.weighing.cars import CAMARO, lr
from tests.weighing.noted_otherwise import CASTING, TRIED, cast_on, complete, marks_of, ratios
from tests.worked.situations.standard import STANDARD
from witnessmark.weighing import Asked
from witnessmark.weighing.evidence.days import grid_of, within

SOFT_END = 40
"""Days after a claimed day within which the car may still have been completed."""
LATE = (SOFT_END, 400, 3650, 30 * 365, 60 * 365)
LEVEL = 1.05


def core_cast(name: str, assembly: str, *after: int) -> float:
    """The LR of a core whose casting date reads as any of so many days after the car."""
    change = cast_on(assembly, *(complete(name) + each for each in after))
    return ratios(name, change)[Asked.CORE, assembly]


@pytest.mark.parametrize(("name", "assembly"), TRIED.items())
def test_the_later_a_casting_the_less_it_is_a_first_cores_until_it_is_level(
    name: str, assembly: str
) -> None:
    """Whatever else ties it."""
    before, *late = (core_cast(name, assembly, each) for each in (-60, *LATE))
    for sooner, later in pairwise(late):
        assert later <= LEVEL * sooner
    assert late[-1] < before / 3.0
    assert late[-1] == pytest.approx(late[-2], rel=1e-3)


@pytest.mark.parametrize("name", ["mustang", "jaguar", "frame"])
def test_a_year_that_may_be_one_in_time_is_no_late_one(name: str) -> None:
    """A doubtful figure: the day before the car and one ten years later read alike."""
    doubtful = core_cast(name, "engine", -40, 3612)
    assert doubtful > 0.8 * core_cast(name, "engine", -40)


@pytest.mark.parametrize("name", TRIED)
def test_a_far_day_is_weighed_where_it_is_likelier_than_all_in_time(name: str) -> None:
    """And left out where one in time reads as well."""
    known = marks_of(name)
    grid = grid_of(known.book, known.context, STANDARD[name].built)
    days = np.array([complete(name) - 40, complete(name) + 60 * 365])

    def kept(in_time: float, far: float) -> list[int]:
        seen = replace(CASTING, days=days, likelihood=np.array([in_time, far]))
        return list(within(grid, seen).days)

    assert kept(0.05, 1.0) == list(days)
    assert kept(1.0, 0.05) == kept(1.0, 1.0) == [days[0]]


def test_a_clear_year_is_late_whichever_it_is() -> None:
    """1972 is one figure from 1969, and nearer to it than to nothing: once it stood at 17 for."""
    found = {
        code: lr(CAMARO.but({"block_cast_date": code}), Asked.CORE, "engine")
        for code in ("A289", "C159", "A281", "A282")
    }
    assert found.pop("A289") > 10
    assert max(found.values()) < 1 / 9
    assert found["A282"] < 1.5 * found["A281"]
