"""Nothing is made after its car: a casting is late or it is not, however late it is."""

from itertools import pairwise

import pytest

from tests.weighing.cars import CAMARO, lr
from tests.weighing.noted_otherwise import TRIED, cast_on, complete, ratios
from witnessmark.weighing import Asked

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


def test_a_clear_year_is_late_whichever_it_is() -> None:
    """1972 is one figure from 1969, and nearer to it than to nothing: once it stood at 17 for."""
    found = {
        code: lr(CAMARO.but({"block_cast_date": code}), Asked.CORE, "engine")
        for code in ("A289", "C159", "A281", "A282")
    }
    assert found.pop("A289") > 10
    assert max(found.values()) < 1 / 9
    assert found["A282"] < 1.5 * found["A281"]
