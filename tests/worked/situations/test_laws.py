"""Each law of the weighing on the standard car of every book."""

import pytest

from tests.worked.situations import tried
from tests.worked.situations.law import Law
from tests.worked.situations.law_by_car import measured
from tests.worked.situations.laws import LAWS
from tests.worked.situations.standard import STANDARD


@pytest.mark.parametrize("car", STANDARD)
@pytest.mark.parametrize("law", LAWS, ids=lambda law: f"{law.number}-{law.of.__name__}")
def test_a_law_holds_on_a_standard_car(law: Law, car: str) -> None:
    pytest.importorskip(tried.WEIGHING)
    found = measured(law, car)
    if not found:
        pytest.skip(law.otherwise)
    assert [each for each in found if not each.holds] == []
