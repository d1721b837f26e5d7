"""What shares out a whole shares out no more and no less, whatever the rates."""

import numpy as np
import pytest

from tests.worked.situations.document import book_of, casefile
from tests.worked.situations.standard import STANDARD
from witnessmark.examination import car_marks
from witnessmark.weighing import rate_values
from witnessmark.weighing.network.build import network_of, noted
from witnessmark.weighing.network.factors import way_axis

DRAWS = 128


@pytest.mark.parametrize("name", ["mustang", "sprint", "order", "labels"])
def test_the_ways_of_every_piece_are_certain_together_in_every_draw(name: str) -> None:
    """P(car's own variables) and P(way | car) sum to 1, so that no draw favours a side for
    having more than all of it."""
    car = STANDARD[name]
    known = noted(car_marks(casefile(car), book_of(car.book)))
    network = network_of(known, rate_values((), DRAWS))
    whole = network.prior.reshape(DRAWS, -1).sum(axis=1)
    assert whole == pytest.approx(np.ones(DRAWS), rel=1e-12)
    for piece, ways in network.ways.items():
        assert ways.axes[-1] == way_axis(piece)
        total = ways.table.sum(axis=-1)
        assert np.abs(total - 1.0).max() < 1e-12, piece
    assert len(network.ways) > 3
