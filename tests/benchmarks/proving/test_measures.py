"""The measures against values worked by hand, laws they must keep, and ratios known to be right."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchmarks.proving.measures import (
    Scored,
    bootstrap,
    bootstrap_difference,
    cllr,
    cllr_cal,
    cllr_min,
    misleading,
    overall_misleading,
    reaching,
    reliability,
    tippett,
    unseen_share,
)
from tests.examples import tried_on

INF = math.inf

FOUR = Scored([1.0, -0.5, 0.5, -2.0], [True, True, False, False])
"""Two true and two false cases; the middle two are the wrong way round."""


def calibrated(n: int, seed: int, d: float = 2.0) -> Scored:
    """Scores normal with unit spread, d apart: ln LR is normal round +-d^2/2 with spread d."""
    rng = np.random.default_rng(seed)
    truths = np.arange(n) % 2 == 0
    natural = rng.normal(np.where(truths, d * d / 2.0, -d * d / 2.0), d)
    return Scored(natural / math.log(10.0), truths)


ratio = st.one_of(st.sampled_from([-INF, -300.0, -1.0, 0.0, 1.0, 300.0, INF]), st.floats(-6.0, 6.0))
case = st.tuples(ratio, st.booleans(), st.integers(1, 4))


@st.composite
def scored_sets(draw: st.DrawFn, finite: bool = False) -> Scored:
    """Up to 20 cases with ties, both classes there, whole weights from 1 to 4."""
    of_both = [(draw(ratio), truth, draw(st.integers(1, 4))) for truth in (True, False)]
    cases = [*draw(st.lists(case, max_size=18)), *of_both]
    ratios, truths, weights = zip(*draw(st.permutations(cases)), strict=True)
    bounded = np.clip(ratios, -300.0, 300.0) if finite else np.array(ratios)
    return Scored(bounded, truths, weights)


def same(found: float, expected: float) -> bool:
    return found == expected or found == pytest.approx(expected, rel=1e-9, abs=1e-12)


# ------------------------------------------------------------------ by hand


def test_cllr_of_four_cases_is_what_the_formula_gives():
    costs_true = [math.log2(1 + 1 / 10), math.log2(1 + 10**0.5)]
    costs_false = [math.log2(1 + 10**0.5), math.log2(1 + 0.01)]
    expected = (sum(costs_true) / 2 + sum(costs_false) / 2) / 2
    assert cllr(FOUR) == pytest.approx(expected, rel=1e-12)


def test_the_two_cases_in_wrong_order_are_pooled_to_even_odds():
    """The outer two become certain and cost nothing, the middle two cost a bit each."""
    assert cllr_min(FOUR) == pytest.approx((1 / 2 + 1 / 2) / 2, rel=1e-12)
    assert cllr_cal(FOUR) == pytest.approx(cllr(FOUR) - 0.5, rel=1e-12)


def test_tied_cases_stay_together_and_weights_tell():
    """Three of four parts of the true class against all of the false: p = 3/7 in the tie."""
    tied = Scored([0.3, 0.3, 2.0], [True, False, True], [3.0, 5.0, 1.0])
    expected = (0.75 * math.log2(7 / 3) + math.log2(7 / 4)) / 2
    assert cllr_min(tied) == pytest.approx(expected, rel=1e-12)


def test_a_tool_that_always_says_one_costs_exactly_one_bit():
    silent = Scored(np.zeros(7), [True] * 3 + [False] * 4, [1.0, 2.0, 4.0, 0.5, 0.25, 8.0, 1.0])
    assert cllr(silent) == 1.0
    assert cllr_min(silent) == 1.0


def test_ratios_of_300_powers_of_ten_lose_no_precision():
    right = Scored([300.0, -300.0], [True, False])
    wrong = Scored([-300.0, 300.0], [True, False])
    assert 0.0 <= cllr(right) < 1e-80
    assert cllr(wrong) == pytest.approx(300.0 * math.log2(10.0), rel=1e-14)


def test_an_infinite_ratio_costs_nothing_where_right_and_all_where_wrong():
    assert cllr(Scored([INF, -INF], [True, False])) == 0.0
    assert cllr(Scored([INF, INF], [True, False])) == INF
    assert cllr_min(Scored([INF, INF], [True, False])) == 1.0
    weightless = Scored([INF, INF, -1.0], [True, False, False], [1.0, 0.0, 1.0])
    assert cllr(weightless) == pytest.approx(math.log2(1.1) / 2)


def test_misleading_shares_are_weighted_within_each_class_and_strict():
    scored = Scored(
        [-1.0, -1.01, 3.0, 1.0, 1.01, -2.0],
        [True, True, True, False, False, False],
        [1.0, 2.0, 5.0, 1.0, 3.0, 6.0],
    )
    assert misleading(scored, 10) == (2 / 8, 3 / 10)
    assert misleading(scored, 1) == (3 / 8, 4 / 10)
    assert misleading(scored, 1000) == (0.0, 0.0)
    assert overall_misleading(scored, 10, 0.9) == pytest.approx(0.9 * 2 / 8 + 0.1 * 3 / 10)
    assert reaching(scored, 10) == (5 / 8, 6 / 10)
    assert reaching(scored, 1000) == (0.0, 0.0)


def test_tippett_counts_the_cases_at_the_edge():
    true, false = tippett(FOUR, np.array([-INF, -2.0, -0.5, 0.0, 0.5, 1.0, 1.1]))
    assert true.tolist() == [1.0, 1.0, 1.0, 0.5, 0.5, 0.5, 0.0]
    assert false.tolist() == [1.0, 1.0, 0.5, 0.5, 0.5, 0.0, 0.0]


def test_a_class_without_cases_has_no_measure():
    alone = Scored([1.0, -2.0], [True, True])
    assert math.isnan(cllr(alone))
    assert math.isnan(cllr_min(alone))
    assert misleading(alone, 10).true == 0.5
    assert math.isnan(misleading(alone, 10).false)
    assert np.isnan(tippett(alone, np.array([0.0]))[1]).all()
    nobody = Scored([], [])
    assert math.isnan(cllr(nobody))
    assert math.isnan(misleading(nobody, 10).true)


@pytest.mark.parametrize(
    ("ratios", "truths", "weights"),
    [
        ([1.0], [True, False], 1.0),
        ([1.0], [True], [1.0, 2.0]),
        ([math.nan], [True], 1.0),
        ([1.0], [True], [-1.0]),
        ([1.0], [True], [INF]),
    ],
)
def test_a_set_that_makes_no_sense_is_refused(ratios, truths, weights):
    with pytest.raises(ValueError, match=r"weight|nan"):
        Scored(ratios, truths, weights)


def test_none_in_a_hundred_is_at_most_three_in_a_hundred():
    assert unseen_share(np.ones(100)) == pytest.approx(0.02996, abs=1e-5)
    assert unseen_share(np.array([1.0, 0.0])) == 1.0
    assert unseen_share(np.zeros(0)) == 1.0
    one_counts_most = unseen_share(np.array([100.0] + [1.0] * 99))
    assert one_counts_most > 0.5


# ------------------------------------------------------------------ laws


@given(scored_sets())
def test_recalibration_never_costs(scored):
    assert 0.0 <= cllr_min(scored) <= min(1.0, cllr(scored)) + 1e-12


@given(scored_sets(finite=True))
def test_a_change_that_keeps_the_order_keeps_discrimination(scored):
    """Ranks, and ranks stretched: strictly increasing changes of any kind."""
    ranks = np.unique(scored.log10_lr, return_inverse=True)[1].astype(float)
    for changed in (ranks, np.exp(ranks) - 40.0, 2.0 * scored.log10_lr):
        moved = Scored(changed, scored.is_true, scored.weight)
        assert same(cllr_min(moved), cllr_min(scored))


@given(scored_sets(), st.randoms(use_true_random=False))
def test_the_order_of_the_cases_does_not_matter(scored, random):
    order = np.array(random.sample(range(len(scored.weight)), len(scored.weight)))
    assert_same_measures(scored.at(order), scored)


@given(scored_sets())
def test_a_whole_weight_is_so_many_cases(scored):
    places = np.arange(len(scored.weight)).repeat(scored.weight.astype(int))
    repeated = Scored(scored.log10_lr[places], scored.is_true[places])
    assert_same_measures(repeated, scored)


@given(scored_sets(), st.floats(0.1, 50.0), st.floats(0.1, 50.0))
def test_only_weights_within_a_class_tell(scored, of_true, of_false):
    """All weights of one class may be multiplied by anything."""
    factors = np.where(scored.is_true, of_true, of_false)
    assert_same_measures(Scored(scored.log10_lr, scored.is_true, scored.weight * factors), scored)


@given(scored_sets())
def test_swapping_the_propositions_changes_only_the_side(scored):
    swapped = Scored(-scored.log10_lr, ~scored.is_true, scored.weight)
    assert same(cllr(swapped), cllr(scored))
    assert same(cllr_min(swapped), cllr_min(scored))
    assert misleading(swapped, 10) == misleading(scored, 10)[::-1]


def assert_same_measures(first: Scored, second: Scored) -> None:
    """All that depends on the cases alone, to rounding."""
    assert same(cllr(first), cllr(second))
    assert same(cllr_min(first), cllr_min(second))
    grid = np.array([-INF, -2.0, -1.0, 0.0, 0.7, 1.0])
    for one, other in zip(tippett(first, grid), tippett(second, grid), strict=True):
        assert one == pytest.approx(other, abs=1e-12)
    for shares in (misleading, reaching):
        assert tuple(shares(first, 10)) == pytest.approx(tuple(shares(second, 10)), abs=1e-12)
    bins = [
        [each.observed.value for each in reliability(s, [-1, 0, 1], 0, np.random.default_rng(0))]
        for s in (first, second)
    ]
    assert bins[0] == pytest.approx(bins[1], abs=1e-9, nan_ok=True)


# ------------------------------------------------------------------ ratios known to be right


@pytest.mark.parametrize("d", [0.7, 2.0, 3.5])
@pytest.mark.parametrize("k", [3.0, 10.0, 100.0, 1000.0])
def test_right_ratios_mislead_no_more_often_than_royall_allows(d, k):
    """P(LR >= k | false) <= 1/k, and what the normal distribution gives, to its noise."""
    n = 40_000
    found = misleading(calibrated(n, 5, d), k)
    exact = 0.5 * math.erfc((math.log(k) / d + d / 2.0) / math.sqrt(2.0))
    noise = 5.0 * math.sqrt(exact / (n / 2)) + 1e-4
    assert exact <= 1.0 / k
    for share in found:
        assert share == pytest.approx(exact, abs=noise)
        assert share <= 1.0 / k + noise


def test_right_ratios_lose_nothing_by_calibration_and_overstated_ones_do():
    right = calibrated(20_000, 6)
    overstated = Scored(2.0 * right.log10_lr, right.is_true)
    assert 0.0 <= cllr_cal(right) < 0.01
    assert cllr_cal(overstated) > 0.1
    assert cllr_min(overstated) == pytest.approx(cllr_min(right), abs=1e-12)


def test_right_ratios_lie_on_the_diagonal_and_overstated_ones_do_not():
    edges = np.arange(-2.0, 2.1, 0.5)
    right = calibrated(20_000, 7)
    overstated = Scored(2.0 * right.log10_lr, right.is_true)
    rng = np.random.default_rng(0)
    for each in reliability(right, edges, 200, rng, level=0.999):
        assert each.observed.low <= each.stated <= each.observed.high
        assert each.observed.high - each.observed.low < 1.0
    outer = reliability(overstated, edges, 200, rng, level=0.999)
    assert outer[0].stated < outer[0].observed.low
    assert outer[-1].stated > outer[-1].observed.high


def test_weights_bring_back_what_uneven_drawing_has_bent():
    """Misleading cases drawn four times too often, with a quarter of the weight."""
    plain = calibrated(20_000, 8)
    wrong = (plain.log10_lr > 0.0) != plain.is_true
    places = np.concatenate([np.arange(20_000), *[np.flatnonzero(wrong)] * 3])
    weights = np.where(wrong, 0.25, 1.0)[places]
    drawn = plain.at(places)
    assert cllr(drawn) > cllr(plain) + 0.2
    assert_same_measures(Scored(drawn.log10_lr, drawn.is_true, weights), plain)


# ------------------------------------------------------------------ bins and intervals


def test_every_case_is_in_a_bin_and_thin_bins_are_left_open():
    scored = Scored(
        [-9.0, *[-0.5] * 8, *[0.5] * 6, 0.6, 4.0, INF],
        [False, *[False] * 8, *[True] * 6, False, True, True],
    )
    found = reliability(scored, [-2, -1, 0, 1, 2, 3], 200, np.random.default_rng(1))
    assert [(b.true_count, b.false_count) for b in found] == [
        (0, 1),
        (0, 8),
        (6, 1),
        (0, 0),
        (2, 0),
    ]
    assert all(b.is_open for b in found)
    first, none_true, one_false, empty, last = found
    assert (first.observed.low, first.observed.value, first.observed.high) == (-INF, -INF, INF)
    assert none_true.observed.value == none_true.observed.low == -INF
    expected = math.log10(unseen_share(np.ones(8)) / (8 / 10))
    assert none_true.observed.high == pytest.approx(expected)
    assert one_false.observed.value == pytest.approx(math.log10((6 / 8) / (1 / 10)))
    assert math.isfinite(one_false.observed.low)
    assert one_false.observed.high == INF
    assert math.isnan(empty.stated)
    assert math.isnan(empty.observed.value)
    assert (last.observed.low, last.observed.high) == (-INF, INF)


@given(scored_sets(finite=True), st.integers(0, 1000))
@tried_on(40)
def test_an_interval_holds_its_value(scored, seed):
    rng = np.random.default_rng(seed)
    for measure in (cllr, cllr_min, lambda s: misleading(s, 10).false):
        found = bootstrap(scored, measure, 20, rng)
        assert found.low <= found.value <= found.high
        assert found.value == measure(scored)
    for each in reliability(scored, [-2, -1, 0, 1, 2], 20, rng, few=1):
        if each.true_count and each.false_count:
            assert each.observed.low <= each.observed.value <= each.observed.high


def test_an_interval_is_as_wide_as_the_share_is_uncertain():
    """80 of 400 false cases mislead: +-1.96 standard errors of a share of 0.2."""
    scored = Scored([2.0] * 80 + [-2.0] * 320 + [2.0] * 5, [False] * 400 + [True] * 5)
    share = bootstrap(scored, lambda s: misleading(s, 10).false, 2000, np.random.default_rng(2))
    error = math.sqrt(0.2 * 0.8 / 400)
    assert share.value == pytest.approx(0.2, rel=1e-12)
    assert share.low == pytest.approx(0.2 - 1.96 * error, abs=0.3 * error)
    assert share.high == pytest.approx(0.2 + 1.96 * error, abs=0.3 * error)


def test_intervals_hold_the_truth_about_as_often_as_they_say():
    """Cllr of right ratios, from many small sets against one very large one."""
    truth = cllr(calibrated(400_000, 100))
    rng = np.random.default_rng(3)
    found = [bootstrap(calibrated(300, seed), cllr, 100, rng, level=0.8) for seed in range(150)]
    held = np.mean([each.low <= truth <= each.high for each in found])
    assert 0.68 <= held <= 0.90


def test_the_same_seed_gives_the_same_interval():
    scored = calibrated(200, 9)
    once, again = (bootstrap(scored, cllr, 30, np.random.default_rng(4)) for _ in range(2))
    assert once == again
    assert once != bootstrap(scored, cllr, 30, np.random.default_rng(5))


def test_a_measure_that_is_not_known_has_no_interval():
    found = bootstrap(Scored([1.0], [True]), cllr, 5, np.random.default_rng(0))
    assert all(math.isnan(end) for end in (found.low, found.value, found.high))


def test_two_scorings_of_the_same_cases_are_told_apart_by_their_difference():
    """Their own intervals overlap; that of the difference does not reach 0."""
    first = calibrated(300, 10)
    second = Scored(1.8 * first.log10_lr, first.is_true)
    alone = [bootstrap(s, cllr, 300, np.random.default_rng(6)) for s in (first, second)]
    assert alone[0].high > alone[1].low
    apart = bootstrap_difference(second, first, cllr, 300, np.random.default_rng(6))
    assert apart.value == cllr(second) - cllr(first)
    assert 0.0 < apart.low < apart.value < apart.high
    even = bootstrap_difference(first, first, cllr, 20, np.random.default_rng(6))
    assert (even.low, even.value, even.high) == (0.0, 0.0, 0.0)


def test_scorings_of_other_cases_are_refused():
    first = calibrated(10, 11)
    rng = np.random.default_rng(0)
    for other in (
        Scored(first.log10_lr, ~first.is_true),
        Scored(first.log10_lr, first.is_true, 2.0),
    ):
        with pytest.raises(ValueError, match="same cases"):
            bootstrap_difference(first, other, cllr, 5, rng)
