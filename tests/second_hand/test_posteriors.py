"""An independent general-purpose library gives the same posteriors for the same network."""

import numpy as np
import pytest
from hypothesis import HealthCheck, given
from hypothesis import strategies as st

from tests.examples import tried_on
from tests.second_hand.network_in_pyagrum import (
    asked_of,
    build,
    posteriors,
    without_numbers,
)
from tests.weighing.cars import saloon
from tests.weighing.changed import changed_cases, every_case, network_of
from tests.weighing.coded import coded, coded_case
from tests.weighing.tiny import TINY_BOOK, Prepared, prepared, tiny_case
from witnessmark.weighing.questions import log10_ratio

# pyAgrum sets the shape of arrays in a way that NumPy has deprecated.
pytestmark = pytest.mark.filterwarnings("ignore:Setting the shape:DeprecationWarning")

CASES = ("clean", "no-papers", "panel", "altered", "saloon")


def assert_same_posteriors(ready: Prepared, scale: np.ndarray | None = None) -> None:
    """Every posterior of B, D, K, every A and every S, to 1e-9."""
    network = ready.calculator.network
    theirs = posteriors(network, *build(network, scale))
    batch = ready.calculator.ones(1) if scale is None else scale[None]
    ours = ready.calculator.run(batch)
    for name in asked_of(network):
        found = ours.variables[name].reshape(-1) / ours.total[0]
        assert np.abs(found - theirs[name]).max() <= 1e-9, name


@pytest.mark.parametrize("name", CASES)
def test_every_posterior_of_a_demonstration_car_is_the_librarys(name):
    assert_same_posteriors(network_of(every_case()[name]))


@pytest.mark.parametrize("name", CASES)
def test_every_probability_before_the_findings_is_the_librarys(name):
    ready = network_of(every_case()[name])
    network = ready.calculator.network
    theirs = posteriors(network, without_numbers(network), {})
    ours = ready.calculator.prior(ready.calculator.ones(1))
    for variable in asked_of(network):
        assert ours.variables[variable].reshape(-1) == pytest.approx(theirs[variable], abs=1e-9)


@pytest.mark.parametrize("name", ["clean", "altered"])
def test_the_likelihood_ratios_follow_from_the_librarys_posteriors(name):
    """Posterior odds over prior odds, both taken from the library."""
    ready = network_of(every_case()[name])
    network = ready.calculator.network
    after = posteriors(network, *build(network))
    before = posteriors(network, without_numbers(network), {})
    ones = ready.calculator.ones(1)
    joints, prior = ready.calculator.run(ones), ready.calculator.prior(ones)
    for asked in ready.asked:
        true = np.array(asked.true)
        odds = [
            p[asked.variable][true].sum() / p[asked.variable][~true].sum() for p in (after, before)
        ]
        found = float(log10_ratio(joints, prior, asked)[0])
        assert found == pytest.approx(float(np.log10(odds[0] / odds[1])), abs=1e-8), asked.about


@given(changed_cases(), st.integers(0, 10_000))
@tried_on(12, suppress_health_check=[HealthCheck.too_slow])
def test_every_posterior_of_any_case_under_any_assumption_is_the_librarys(casefile, seed):
    """Random readings and looks; every row, those of reading too, moved up to 3 in odds."""
    ready = network_of(casefile)
    n_rows = len(ready.calculator.network.values.rows)
    scale = 3.0 ** np.random.default_rng(seed).uniform(-1.0, 1.0, n_rows)
    assert_same_posteriors(ready, scale)


TINY_CHASSIS = st.lists(st.sampled_from(["0", "1", "2", "?", "[02]", "~"]), min_size=3, max_size=3)
TINY_ENGINE = st.sampled_from(["3", "7", "8", "[38]", "?"])
TINY_SITES = ("wing", "seat", "rail", "panel", "block", "plate")
TINY_LOOK = st.sampled_from(["factory", "doubtful", "disturbed"])


@given(
    st.sampled_from(["unit", "framed"]),
    st.fixed_dictionaries(
        {}, optional=dict.fromkeys(("wing", "seat", "rail", "panel"), TINY_CHASSIS)
    ),
    st.lists(TINY_CHASSIS, min_size=2, max_size=2),
    st.lists(TINY_ENGINE, min_size=3, max_size=3),
    st.fixed_dictionaries({}, optional=dict.fromkeys(TINY_SITES, TINY_LOOK)),
    st.booleans(),
)
@tried_on(25)
def test_every_posterior_of_another_makers_car_is_the_librarys(
    model, numbers, papers, engines, looks, paint_is_claimed
):
    """The tiny book: short numbers, each mark read or not, clear or worn."""
    readings = {
        mark: "".join(cells[1:] if mark in ("seat", "panel") else cells)
        for mark, cells in numbers.items()
        if (mark in ("wing", "seat")) == (model == "unit")
    }
    readings |= {
        "plate": f"{''.join(papers[0])}|{engines[0]}|A",
        "card": f"{''.join(papers[1])}|{engines[1]}|B",
        "block": f"S|{engines[2]}",
    }
    claim = {"paint": "amber"} if paint_is_claimed else {}
    assert_same_posteriors(prepared(tiny_case(model, readings, looks, claim), TINY_BOOK))


def test_every_posterior_of_a_car_whose_codes_are_all_claimed_is_the_librarys():
    """Model, year, coachbuilder, ratio, trim and extras as the plate says; another paint."""
    claim = {
        "paint": "pine-green",
        "trim": "black-leather",
        "axle_ratio": "4-10",
        "extras": "heater",
    }
    assert_same_posteriors(network_of(saloon(claim=claim)))


@given(
    st.tuples(*(st.sampled_from(signs) for signs in ("UFR?", "ABC?~", "KL?"))),
    st.tuples(st.sampled_from("UR?"), st.sampled_from("LM?")),
    st.tuples(st.sampled_from("AB?"), st.sampled_from("ACB")),
    st.sets(st.sampled_from(["paint", "trim"])),
    st.integers(0, 10_000),
)
@tried_on(25)
def test_every_posterior_of_a_car_with_several_codes_on_a_mark_is_the_librarys(
    plate, card, order, items, seed
):
    """Codes that agree, differ or are worn; some claimed and some left open; rows moved."""
    claim = {item: {"paint": "amber", "trim": "leather"}[item] for item in items}
    texts = {"plate": "|".join(plate), "card": "|".join(card), "order": "|".join(order)}
    ready = coded(coded_case(claim, **texts))
    n_rows = len(ready.calculator.network.values.rows)
    assert_same_posteriors(ready, 3.0 ** np.random.default_rng(seed).uniform(-1.0, 1.0, n_rows))
