"""Small cases summed over every state and every number by hand give the same ratios."""

import numpy as np
import pytest

from tests.weighing.by_hand import SlowNetwork, Sums, log10_lr, log10_lr_split
from tests.weighing.tiny import TINY_BOOK, prepared, tiny_case
from witnessmark.casefile.records import Casefile
from witnessmark.examination import car_marks
from witnessmark.weighing.questions import log10_ratio, log10_ratio_against

CARS: dict[str, Casefile] = {
    "a unit body on which all agrees": tiny_case(
        "unit",
        {"wing": "021", "seat": "21", "plate": "021|3|A", "block": "S|3", "card": "021|3|A"},
        {"wing": "factory", "seat": "factory", "plate": "factory", "block": "factory"},
    ),
    "a unit body whose wing differs and whose plate looks disturbed": tiny_case(
        "unit",
        {"wing": "[01]22", "seat": "2?", "plate": "021|8|B", "block": "L|~", "card": "021|7|A"},
        {"wing": "doubtful", "plate": "disturbed"},
        {"paint": "blue"},
    ),
    "a unit body read by two examiners, its block never numbered": tiny_case(
        "unit",
        {"wing": ["021", "011"], "seat": "1_", "block": "_|_", "plate": ["0?1|6|A", "021|9|A"]},
        {"seat": "disturbed", "block": "doubtful"},
        sites=[{"site": "seat place", "state": "read", "attachment": "the car has no such part"}],
    ),
    "a framed car with a donor's body and engine": tiny_case(
        "framed",
        {"rail": "021", "panel": "10", "block": "L|5", "plate": "021|2|C", "card": "120|5|C"},
        {"rail": "factory", "panel": "factory", "block": "disturbed"},
        sites=[{"site": "plate place", "state": "read", "attachment": "present but detached"}],
    ),
    "a framed car whose card is a copy and whose rail is absent": tiny_case(
        "framed",
        {"panel": "21", "block": "L|4", "plate": "021|4|A", "card": "021|4|A"},
        {"panel": "doubtful"},
        {"engine_number": "4", "paint": "amber"},
        sites=[{"site": "rail place", "state": "absent"}],
        papers=[{"mark": "card", "state": "in hand", "copied_from": "plate"}],
    ),
    "a framed car with assumptions of the examiner": tiny_case(
        "framed",
        {"rail": "0[12]1", "panel": "2?", "block": "[LS]|1", "plate": "022|1|B", "card": "022|7|B"},
        circumstances={
            "overrides": [
                {"row": "made.knows_open", "value": 0.2, "reason": "No archive was open then."},
                {"row": "deceit.not_own.skilled", "value": 0.05, "reason": "A cheap car."},
                {"row": "reading.error.clear", "value": 0.02, "reason": "A dark garage."},
            ]
        },
    ),
}


pytestmark = pytest.mark.prove
"""Sums by hand take minutes; the everyday check of the sums is tests/second_hand."""


@pytest.fixture(params=CARS, scope="module")
def summed(request):
    """A case's network summed by hand with and without its evidence."""
    casefile = CARS[request.param]
    ready = prepared(casefile, TINY_BOOK)
    slow = SlowNetwork(
        car_marks(casefile, TINY_BOOK), ready.calculator.network, ready.calculator.rates
    )
    return ready, slow.sums(with_evidence=True), slow.sums(with_evidence=False)


def test_the_prior_adds_up_to_one(summed):
    _, _, prior = summed
    assert prior.total == pytest.approx(1.0, abs=1e-12)


def test_every_joint_probability_is_that_of_plain_enumeration(summed):
    ready, evidence, prior = summed
    ones = ready.calculator.ones(1)
    for joints, sums in (
        (ready.calculator.run(ones), evidence),
        (ready.calculator.prior(ones), prior),
    ):
        assert float(joints.total[0]) == pytest.approx(sums.total, rel=1e-10)
        for name, joint in joints.variables.items():
            wanted = [sums.variables[name].get(state, 0.0) for state in range(joint.shape[-1])]
            assert joint.reshape(-1) == pytest.approx(wanted, rel=1e-9, abs=1e-300), name


def test_every_likelihood_ratio_is_that_of_plain_enumeration(summed):
    ready, evidence, prior = summed
    ones = ready.calculator.ones(1)
    joints, before = ready.calculator.run(ones), ready.calculator.prior(ones)
    for asked in ready.asked:
        found = float(log10_ratio(joints, before, asked)[0])
        assert found == pytest.approx(log10_lr(evidence, prior, asked), abs=1e-9), asked.about


def test_replaced_and_struck_later_are_those_of_plain_enumeration(summed):
    ready, evidence, prior = summed
    ones = ready.calculator.ones(1)
    joints, before = ready.calculator.run(ones), ready.calculator.prior(ones)
    network = ready.calculator.network
    split = [asked for asked in ready.asked if asked.split_node is not None]
    assert split
    for asked in split:
        for made in (False, True):
            found = float(log10_ratio_against(joints, before, asked, network, made)[0])
            wanted = log10_lr_split(evidence, prior, asked, network, made)
            assert found == pytest.approx(wanted, abs=1e-9), asked.about


def test_the_identity_ratio_does_not_depend_on_the_odds_of_the_bearer(summed):
    """P(findings | own) over P(findings | not own), whatever the row of the bearer says."""
    ready, evidence, prior = summed
    calculator, identity = ready.calculator, ready.asked[0]
    column = calculator.network.values.index()["bearer.not_own"]
    scale = calculator.ones(3)
    scale[:, column] = (1e-3, 1.0, 1e3)
    found = log10_ratio(calculator.run(scale), calculator.prior(scale), identity)
    assert found == pytest.approx(np.full(3, log10_lr(evidence, prior, identity)), abs=1e-9)


def test_enumeration_would_notice_a_wrong_number(summed):
    """The sums by hand do depend on what was read: they are no second prior."""
    _, evidence, prior = summed
    assert isinstance(evidence, Sums)
    moved = [
        abs(evidence.variables[name][0] / evidence.total - prior.variables[name][0])
        for name in prior.variables
    ]
    assert max(moved) > 0.01
