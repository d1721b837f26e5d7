"""Nothing is made after its car: a casting is late or it is not, however late it is."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.examples import tried_on
from tests.weighing.cars import CAMARO, lr
from tests.weighing.noted_otherwise import cast_on, complete, ratios
from tests.worked.situations.standard import STANDARD
from witnessmark.weighing import Asked

SOFT_END = 40
"""Days after a claimed day within which the car may still have been completed."""
LEVEL = 1.05
CORES = [(name, core.assembly) for name, car in STANDARD.items() for core in car.cores]


def core_cast(name: str, assembly: str, *after: int) -> float:
    """The LR of a core whose casting date reads as any of so many days after the car."""
    change = cast_on(assembly, *(complete(name) + each for each in after))
    return ratios(name, change)[Asked.CORE, assembly]


@pytest.mark.parametrize(("name", "assembly"), CORES)
def test_the_later_a_casting_the_less_it_is_a_first_cores_until_it_is_level(
    name: str, assembly: str
) -> None:
    """On every book, shipped and synthetic, and on every core, whatever else ties it."""

    @tried_on(40, few=1, deadline=None, database=None)
    @given(st.lists(st.integers(SOFT_END, 25_000), min_size=2, max_size=2, unique=True))
    def falls(after: list[int]) -> None:
        late, later = (core_cast(name, assembly, each) for each in sorted(after))
        assert later <= LEVEL * late

    before = core_cast(name, assembly, -60)
    sixty_years = core_cast(name, assembly, 60 * 365)
    assert sixty_years < before / 3.0
    assert sixty_years == pytest.approx(core_cast(name, assembly, 30 * 365), rel=1e-3)
    falls()


@pytest.mark.parametrize("name", ["camaro", "mustang", "frame"])
def test_a_year_that_may_be_one_in_time_is_no_late_one(name: str) -> None:
    """A doubtful figure: the day before the car and one ten years later read alike."""
    doubtful = core_cast(name, "engine", -40, 3612)
    assert doubtful > 0.8 * core_cast(name, "engine", -40)


def test_a_clear_year_is_late_whichever_it_is() -> None:
    """1972 is one figure from 1969, and nearer to it than to nothing: once it stood at 17 for."""
    found = {
        code: lr(CAMARO.but({"block_cast_date": code}), Asked.CORE, "engine")
        for code in ("A289", "C159", "F150", "A281", "A282", "L152")
    }
    assert found.pop("A289") > 10
    assert max(found.values()) < 1 / 9
    assert found["A282"] < 1.5 * found["A281"]
