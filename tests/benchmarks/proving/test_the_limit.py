"""The exact answer is exact: silent where nothing was seen, counted right where it can be."""

from dataclasses import replace

import numpy as np
import pytest

from benchmarks.proving.cases import OwnNumbers
from benchmarks.proving.factory import Factory, demo_book
from benchmarks.proving.limit import Limit, make_bank
from benchmarks.proving.reading import DIGITS, likelihood
from benchmarks.proving.seen_likelihood import Parts, mask_of
from benchmarks.proving.visit import SeenField, SeenMark, Sighting
from benchmarks.proving.world import PLAIN

FACTORY = Factory(demo_book(), 1)
CAR, _ = OwnNumbers(PLAIN, 5).drawn(0)
BANK = make_bank(PLAIN, "early", 70_000, np.random.default_rng(3))
NOTHING = Sighting({}, frozenset(), {}, {})
CLEAR = (0.01, 0.02, 0.03)


def seen(column: str, *fields: tuple[str, str], by_hand: bool = False) -> Sighting:
    """One mark read, each field as its text: one reader, one character a cell."""
    read = tuple(SeenField(name, DIGITS, tuple((c,) for c in text)) for name, text in fields)
    mark = SeenMark(read, CLEAR, by_hand, "clear", False, 1)
    return replace(NOTHING, marks={column: mark})


def test_where_nothing_was_seen_every_ratio_is_one():
    """But for one thing: that no paper came with the car is seen too, and whoever deceives
    brings papers more often."""
    world = replace(PLAIN, made_paper=(0.004,) * 4)
    bank = make_bank(world, "early", 420_000, np.random.default_rng(3))
    ratios = Limit(bank, FACTORY, CAR, NOTHING).log10_ratios()
    assert {"identity", "engine", "gearbox", "axle", "body", "plate"} <= ratios.keys()
    assert list(ratios.values()) == pytest.approx([0.0] * len(ratios), abs=0.03)


def test_a_donors_number_is_counted_number_by_number():
    """P(what was read | a donor's chassis number), summed by hand over the series."""
    parts = Parts(FACTORY, CAR.claim, seen("frame", ("chassis", "5?0017")))
    found = parts.of("chassis", mask_of("chassis", "frame"), False)
    for k, (series_place, _) in enumerate(FACTORY.kin):
        series = FACTORY.series[series_place]
        by_hand = np.mean(
            [
                np.prod(
                    [
                        likelihood((cell,), DIGITS, CLEAR, False)[int(figure)]
                        for cell, figure in zip("5?0017", f"{number:06}", strict=True)
                    ]
                )
                for number in range(series.first, series.last + 1)
            ]
        )
        assert found[k] == pytest.approx(by_hand, rel=1e-9)


def test_a_clear_number_that_is_not_the_claimed_one_speaks_against_the_frame():
    other = "540001" if CAR.claim.number != 540001 else "540002"
    claimed = f"{CAR.claim.number:06}"
    against = Limit(BANK, FACTORY, CAR, seen("frame", ("chassis", other))).log10_ratios()
    agrees = Limit(BANK, FACTORY, CAR, seen("frame", ("chassis", claimed))).log10_ratios()
    assert against["identity"] < -2.0
    assert agrees["identity"] > 0.3


def test_what_two_places_say_apart_is_what_they_say_together_of_two_donors():
    """Gearbox and axle of unrelated donors: the axle says nothing of the gearbox."""
    gear = ("gear", "22041"), ("gear_day", "155")
    alone = Limit(BANK, FACTORY, CAR, seen("gear", *gear)).log10_ratios()
    other = seen("axle", ("axle", "34001"), ("axle_day", "2700")).marks
    both = replace(NOTHING, marks=seen("gear", *gear).marks | other)
    together = Limit(BANK, FACTORY, CAR, both).log10_ratios()
    assert together["axle"] < -0.5
    assert abs(together["gearbox"] - alone["gearbox"]) < 1.0
