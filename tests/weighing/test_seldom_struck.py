"""A mark that not every car bears, which is there and agrees, does not argue against the car."""

import pytest

from tests.weighing.noted_otherwise import TRIED, ratios, struck_always
from witnessmark.weighing import Asked

HAIR = 0.95
"""Five other cores in a hundred lack what a works always struck, and so speak for the first."""


@pytest.mark.parametrize("name", TRIED)
def test_what_agrees_counts_no_less_where_not_every_car_bears_it(name: str) -> None:
    """Plates and stamps as if the works had always struck them."""
    always, seldom = (ratios(name, struck_always(each)) for each in (True, False))
    for (asked, about), ratio in seldom.items():
        if asked in (Asked.PLATE, Asked.PAPER, Asked.STAMP, Asked.CORE):
            assert ratio > HAIR * always[asked, about], (asked, about)
        if asked in (Asked.PLATE, Asked.PAPER, Asked.STAMP, Asked.IDENTITY):
            assert ratio >= 1.0, (asked, about)
