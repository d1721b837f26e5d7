"""Figures are written so that they never say more than the weighing gave."""

import doctest
import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.wording import (
    Toward,
    amounts,
    lr_text,
    minutes_text,
    odds_text,
    share_text,
)
from witnessmark.wording.amounts import cut_odds_text, factor_rate_text, rate_text
from witnessmark.wording.conclusions import factor_text

LOGS = st.floats(-6, 6)


def read_back(text: str) -> float:
    """The ratio that a reader takes from the page."""
    text = text.replace(",", "")
    return 1 / float(text[2:]) if text.startswith("1/") else float(text)


@given(LOGS)
def test_a_printed_ratio_is_within_a_tenth_of_the_ratio_and_never_further_from_one(log10_lr):
    printed = math.log10(read_back(lr_text(log10_lr)))
    assert abs(printed) <= abs(log10_lr) + 1e-9
    assert abs(printed - log10_lr) <= math.log10(1.1) + 1e-9


@given(LOGS)
def test_a_printed_bound_encloses_the_bound(log10_lr):
    low = math.log10(read_back(lr_text(log10_lr, Toward.DOWN)))
    high = math.log10(read_back(lr_text(log10_lr, Toward.UP)))
    assert low <= log10_lr + 1e-9
    assert high >= log10_lr - 1e-9
    assert max(log10_lr - low, high - log10_lr) <= math.log10(1.1) + 1e-9


@given(LOGS)
def test_a_ratio_turned_round_is_printed_turned_round(log10_lr):
    upright, turned = lr_text(abs(log10_lr)), lr_text(-abs(log10_lr))
    assert turned == ("1" if upright == "1" else f"1/{upright}")


@pytest.mark.parametrize(
    ("ratio", "text"),
    [
        (1, "1"),
        (1.5, "1.5"),
        (9.97, "9.9"),
        (30, "30"),
        (149.9, "140"),
        (150, "150"),
        (10_000, "10,000"),
        (1 / 150, "1/150"),
        (0.5, "1/2"),
        (1 / 1.05, "1"),
    ],
)
def test_a_ratio_has_two_significant_figures_and_is_cut_toward_one(ratio, text):
    assert lr_text(math.log10(ratio)) == text


@given(st.floats(1e-9, 1e9))
def test_odds_read_back_within_a_twentieth(odds):
    first, second = (float(part.replace(",", "")) for part in odds_text(odds).split(" to "))
    assert first / second == pytest.approx(odds, rel=0.06)


@given(st.floats(0, 1))
def test_a_share_is_said_to_be_nothing_or_all_only_if_it_is(share):
    text = share_text(share)
    assert (text == "0 %") == (share == 0)
    assert (text == "100 %") == (share == 1)


@given(st.integers(0, 10_000))
def test_minutes_and_hours_add_up(minutes):
    words = minutes_text(minutes).split()
    units = {"minute": 1, "minutes": 1, "min": 1, "h": 60}
    pairs = zip(words[::2], words[1::2], strict=True)
    assert sum(int(n) * units[unit] for n, unit in pairs) == minutes


def test_the_examples_of_the_module_hold():
    assert doctest.testmod(amounts).failed == 0


@pytest.mark.parametrize(
    ("odds", "text"),
    [(699.64, "690 to 1"), (700.0, "700 to 1"), (729.6, "720 to 1"), (1 / 699.64, "1 to 690")],
)
def test_posterior_odds_are_cut_toward_even_and_never_rounded_up(odds: float, text: str) -> None:
    assert cut_odds_text(odds) == text


@given(st.floats(-6, 6))
def test_no_factor_is_written_as_a_power_of_ten(log10_factor):
    """Whatever somebody states instead of an assumed rate, and whatever turns an answer."""
    factor = 10.0**log10_factor
    for text, figures in ((factor_rate_text(factor), 3), (f"× {factor_text(factor)}", 2)):
        assert re.fullmatch(r"× \d{1,3}(,\d{3})*(\.\d+)?", text)
        read = float(text[2:].replace(",", ""))
        meant = factor if figures == 3 else max(factor, 1 / factor)
        assert read == pytest.approx(meant, rel=0.51 * 10 ** (1 - figures))


def test_a_thousand_is_written_out():
    assert (rate_text(1000.0), rate_text(12_345.0)) == ("× 1,000", "× 12,300")
    assert (factor_text(0.01), factor_text(99.96)) == ("100", "100")
