"""A wide network is summed a few cases at a time, and the answers are the same."""

import pytest

from tests.weighing.cars import saloon, weighed, weighed_with_bounds
from tests.weighing.test_brute_force import CARS
from tests.weighing.tiny import TINY_BOOK
from witnessmark.weighing import evaluate


def test_a_batch_in_parts_gives_what_the_whole_gives(monkeypatch):
    casefile = CARS["a unit body whose wing differs and whose plate looks disturbed"]
    whole = weighed_with_bounds(casefile, TINY_BOOK)
    monkeypatch.setattr(evaluate, "MOST_NUMBERS", 1)
    parts = weighed_with_bounds(casefile, TINY_BOOK)
    for one, other in zip(whole.conclusions, parts.conclusions, strict=True):
        for name in ("log10_lr", "log10_lr_low", "log10_lr_high"):
            assert getattr(one.lr, name) == pytest.approx(getattr(other.lr, name), abs=1e-9)
        assert [look.target for look in one.next_looks] == [
            look.target for look in other.next_looks
        ]
        assert [look.bits for look in one.next_looks] == pytest.approx(
            [look.bits for look in other.next_looks], abs=1e-9
        )


def test_the_parts_are_of_the_size_that_fits(monkeypatch):
    sizes = []
    whole = evaluate._evaluate

    def spied(network, batch, **how):
        widest = (network.full_plan if how["with_evidence"] else network.prior_plan).widest
        sizes.append((batch.size, widest))
        return whole(network, batch, **how)

    monkeypatch.setattr(evaluate, "_evaluate", spied)
    monkeypatch.setattr(evaluate, "MOST_NUMBERS", 2_000)
    weighed(saloon())
    assert len(sizes) > 1
    assert all(size == 1 or size * widest <= 2_000 for size, widest in sizes)
