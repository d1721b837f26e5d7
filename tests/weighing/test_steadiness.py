"""Bands: sensitivity to all rates together, the same on every machine and for every new row."""

import numpy as np
import pytest

from tests.weighing.cars import SALOON
from witnessmark.weighing import Asked, Steadiness, rate_rows, rate_values, steadiness
from witnessmark.weighing.rates import SPREAD, times_odds

DRAWS = 64


@pytest.fixture(scope="module")
def saloon() -> Steadiness:
    return steadiness(SALOON.marks(), DRAWS)


def test_every_examined_answer_has_a_band_about_it(saloon):
    """The LR integrated over the draws lies near the band, and the rows that lead are named."""
    assert {each.question for each in saloon.answers} >= {Asked.IDENTITY, Asked.PLATE, Asked.ITEM}
    for each in saloon.answers:
        assert each.log10_lr_low <= each.log10_lr_high
        assert each.log10_lr_low - 0.5 <= each.log10_lr <= each.log10_lr_high + 0.5
        assert 0 <= each.turned <= DRAWS
        assert each.leading
        assert len(each.leading[0].curve) > 5


def test_the_end_nearer_1_decides_the_word(saloon):
    """It is never further from 1 than the LR, and 0 where the band holds 1."""
    for each in saloon.answers:
        assert abs(each.log10_lr_nearer) <= abs(each.log10_lr) + 1e-12
        if each.log10_lr_low < 0.0 < each.log10_lr_high:
            assert each.log10_lr_nearer == 0.0


def test_the_same_draws_give_the_same_bands(saloon):
    """Nothing is drawn by chance."""
    assert steadiness(SALOON.marks(), DRAWS) == saloon


def test_nine_rates_in_ten_lie_within_a_factor_of_three():
    """Of odds, about the value of the row; rows of one family and sign lean the same way."""
    drawn = rate_values((), 512)
    odds = np.abs(drawn.shifts["core.struck.suited"])
    assert np.mean(odds <= np.log(3.0)) == pytest.approx(0.9, abs=0.02)
    assert pytest.approx(np.log(3.0) / 1.645) == SPREAD
    struck = [row.id for row in rate_rows() if row.family == "struck" and row.sign == -1]
    one, other = (drawn.shifts[row] for row in struck[:2])
    assert np.corrcoef(one, other)[0, 1] == pytest.approx(0.5, abs=0.15)


def test_every_row_has_a_reason_and_looks_stay_probabilities():
    """Plain words, a reason, a sign; and the three outcomes of a look sum to 1 in every draw."""
    for row in rate_rows():
        assert row.plain
        assert row.reason
    drawn = rate_values((), 512)
    for row in rate_rows():
        if row.id.endswith(".doubtful"):
            other = row.id.replace(".doubtful", ".disturbed")
            assert float((drawn[row.id] + drawn[other]).max()) < 1.0


def test_a_look_moved_to_its_end_stays_a_probability():
    """Its other outcome gives way, and what is left keeps its shares; any other row moves alone."""
    base = rate_values()
    moved = times_odds(base, "look.crude.disturbed", 100.0)
    doubtful, disturbed = moved["look.crude.doubtful"], moved["look.crude.disturbed"]
    assert doubtful + disturbed < 1.0
    assert doubtful / (1.0 - doubtful - disturbed) == pytest.approx(0.30 / 0.10)
    assert set(times_odds(base, "skilled", 100.0)) == {"skilled"}
