"""Each law of the weighing on the standard car of every book."""

import pytest

from tests.worked.situations.law import Law
from tests.worked.situations.law_by_car import measured
from tests.worked.situations.laws import LAWS
from tests.worked.situations.not_yet import LAWS_NOT_YET
from tests.worked.situations.standard import STANDARD


def _asked(law: Law, car: str) -> object:
    is_open = (law.number, law.of.__name__, car) in LAWS_NOT_YET
    marks = [pytest.mark.xfail(reason="does not hold yet", strict=False)] if is_open else []
    return pytest.param(law, car, marks=marks, id=f"{law.number}-{law.of.__name__}-{car}")


@pytest.mark.prove
@pytest.mark.parametrize(("law", "car"), [_asked(law, car) for law in LAWS for car in STANDARD])
def test_a_law_holds_on_a_standard_car(law: Law, car: str) -> None:
    found = measured(law, car)
    if not found:
        pytest.skip(law.otherwise)
    assert [each for each in found if not each.holds] == []
