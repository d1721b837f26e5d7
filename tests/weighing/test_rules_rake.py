"""Items that a rule binds: each is as claimed as often as by itself, at any draw of the rates."""

import numpy as np
import pytest

from tests.worked.situations.document import book_of, casefile
from tests.worked.situations.standard import STANDARD
from witnessmark.examination import car_marks
from witnessmark.weighing import rate_values
from witnessmark.weighing.network.build import noted
from witnessmark.weighing.network.ties import configured

PART = 0.02


@pytest.mark.parametrize("name", ["camaro", "numbered"])
def test_no_rule_makes_an_item_oftener_or_seldomer_as_claimed(name: str) -> None:
    """Without raking the bound items of these cars were four times too seldom another."""
    known = noted(car_marks(casefile(STANDARD[name]), book_of(STANDARD[name].book)))
    assert known.ties
    found = configured(known.items, known.ties, rate_values(draws=64))
    for item, prior in found.priors.items():
        before = found.before[item]
        other, wanted = 1.0 - before[..., 0], 1.0 - prior[..., 0]
        assert np.abs(other / wanted - 1.0).max() < PART, item
        assert np.allclose(before.sum(axis=-1), 1.0)
