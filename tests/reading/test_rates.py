"""The tables of this room: every number has its reason and every pair its source."""

import pytest

from witnessmark.casefile import Legibility, Seen
from witnessmark.codebook import Basis
from witnessmark.reading import (
    MOVABLE_ROWS,
    rate_rows,
    rates_with,
    shipped_confusion,
    shipped_rates,
)
from witnessmark.reading.confusion import TURNED, confused_pairs, misread_shares


def test_every_rate_is_assumed_and_says_why():
    rows = rate_rows()
    assert len({row.id for row in rows}) == len(rows)
    assert {row.basis for row in rows} == {Basis.ASSUMED}
    assert [row.id for row in rows if len(row.reason) < 20] == []


def test_every_legibility_and_every_way_of_seeing_has_its_rate():
    rates = shipped_rates()
    assert [legibility for legibility, _ in rates.error] == list(Legibility)
    assert rates.seen_factor == (
        (Seen.IN_PERSON, 1.0),
        (Seen.PHOTOGRAPH, 1.5),
        (Seen.COPY, 2.0),
        (Seen.TOLD, 4.0),
    )


def values_of(rates):
    """The values of MOVABLE_ROWS by their rows."""
    errors = {f"reading.error.{legibility.value}": value for legibility, value in rates.error}
    return errors | {"reading.misstrike": rates.misstrike, "reading.shared": rates.shared}


@pytest.mark.parametrize("row", MOVABLE_ROWS)
def test_one_row_is_moved_and_no_other(row):
    moved = rates_with(shipped_rates(), row, 0.4321)
    assert values_of(moved) == values_of(shipped_rates()) | {row: 0.4321}


def test_a_row_that_is_none_and_a_value_that_is_no_probability_are_our_own_mistake():
    with pytest.raises(KeyError):
        rates_with(shipped_rates(), "reading.error.splendid", 0.5)
    with pytest.raises(ValueError, match="is a probability"):
        rates_with(shipped_rates(), "reading.shared", 1.5)


def test_every_confused_pair_has_a_basis_and_a_source_and_stands_once():
    pairs = confused_pairs()
    assert all(pair.source and pair.first != pair.second for pair in pairs)
    assert {pair.basis for pair in pairs} == {Basis.PUBLISHED, Basis.COMMON_PRACTICE}
    assert len({frozenset((p.first, p.second)) for p in pairs}) == len(pairs)


def test_a_character_has_one_shape_upside_down():
    turned = [c for p in confused_pairs() if p.weight_class == TURNED for c in (p.first, p.second)]
    assert len(set(turned)) == len(turned)
    assert shipped_confusion().turned["6"] == "9"


def test_the_misreadings_of_a_character_have_shares_that_sum_to_one():
    for place, row in enumerate(misread_shares("0123456789ABO", shipped_confusion())):
        assert row[place] == 0
        assert sum(row) == pytest.approx(1)
        assert all(share > 0 for other, share in enumerate(row) if other != place)
