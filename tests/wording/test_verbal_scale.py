"""The words for a ratio are those of the published scale, and never rounded up."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.codebook import Basis
from witnessmark.wording import Favours, scale_sentence, shipped_scale, verbal_equivalent


@pytest.mark.parametrize(
    ("ratio", "words"),
    [
        (2, "weak support"),
        (9.999, "weak support"),
        (10, "moderate support"),
        (99.99, "moderate support"),
        (100, "moderately strong support"),
        (1_000, "strong support"),
        (10_000, "very strong support"),
        (1_000_000, "extremely strong support"),
    ],
)
def test_a_band_holds_from_its_lower_edge(ratio, words):
    """University of Dundee, LR book, Table 5.3: "at least … but less than"."""
    assert verbal_equivalent(math.log10(ratio)).phrase() == f"{words} for the first proposition"
    assert verbal_equivalent(-math.log10(ratio)).phrase() == f"{words} for the second proposition"


@pytest.mark.parametrize("ratio", [1, 1.3, 1.99, 1 / 1.3, 1 / 1.99])
def test_between_one_half_and_two_neither_proposition_is_supported(ratio):
    said = verbal_equivalent(math.log10(ratio))
    assert said.favours is Favours.NEITHER
    assert said.phrase() == "the findings do not support one proposition over the other"


@given(st.floats(-8, 8))
def test_words_are_never_rounded_up(log10_lr):
    """The band that is named has been reached; the next has not."""
    bands = shipped_scale().bands
    said = verbal_equivalent(log10_lr)
    at = next(n for n, band in enumerate(bands) if band.words == said.words)
    assert bands[at].log10_lr_from <= abs(log10_lr)
    if at + 1 < len(bands):
        assert abs(log10_lr) < bands[at + 1].log10_lr_from


@given(st.floats(0, 8))
def test_turning_the_pair_round_turns_the_words_round(log10_lr):
    first, second = verbal_equivalent(log10_lr), verbal_equivalent(-log10_lr)
    assert first.words == second.words
    if first.favours is Favours.FIRST:
        assert second.favours is Favours.SECOND


def test_every_band_says_who_says_so():
    for band in shipped_scale().bands:
        assert band.citation.source
        assert band.citation.basis in (Basis.PUBLISHED, Basis.ASSUMED)
    assert "Dundee" in scale_sentence()
