"""The sums of the network against sums written out by hand, and its probabilities against 1."""

from itertools import product

import numpy as np
import pytest

from tests.weighing.cars import CAMARO, Car
from witnessmark.weighing import Asked, rate_rows, rate_values
from witnessmark.weighing.network.build import network_of, noted
from witnessmark.weighing.network.questions import questions_of, sides

RATE = {row.id: row.value for row in rate_rows()}
WORN, ABSENT, GROUND = "?????????", "_________", "~~~~~~~~~"
LOOKS = ("factory", "doubtful", "disturbed")


def bare(reads: dict[str, str], looks: dict[str, str], claim: dict[str, str]) -> Car:
    return Car(CAMARO.book, claim, reads, looks)


@pytest.mark.parametrize(
    ("mark", "site"),
    [("hidden_number_cowl", "cowl_panel"), ("partial_number_engine", "engine_pad")],
)
def test_law_15_over_all_outcomes_the_evidence_is_certain_under_every_way(mark, site):
    """Characters (none legible, which is any), absence and removal, each with every look: of
    every state of the structure, every way of the core and every item they sum to its prior, so
    that E[LR | second] = 1."""
    totals: dict[tuple[str, str], np.ndarray] = {}
    priors: dict[tuple[str, str], np.ndarray] = {}
    claim = {"sequence": "594718"}
    for text, look in product((WORN, ABSENT, GROUND), LOOKS):
        known = noted(bare({mark: text}, {site: look}, claim).marks())
        network = network_of(known, rate_values())
        for question in questions_of(known):
            side = sides(network, known, question)
            if side is not None and question.asked is not Asked.STAMP:
                key = (question.asked.value, question.about)
                for name, joint, prior in zip(
                    side.names, side.joint[0], side.prior[0], strict=True
                ):
                    at = (*key, name)
                    totals[at] = totals.get(at, 0.0) + joint
                    priors[at] = prior
    assert ("identity", "body", "first") in totals
    for at, total in totals.items():
        assert total == pytest.approx(priors[at], rel=1e-9), at


def odds_times(share: float, factor: float) -> float:
    odds = share / (1.0 - share) * factor
    return odds / (1.0 + odds)


def chance_of_status(state: str, disturbed: bool) -> float:
    """P(characters stand there | whose record), for the structure."""
    absent = {"own": RATE["absent.structure"], "other": RATE["absent.donor"],
              "blank": RATE["absent.service"], "struck": 5e-4, "gone": 0.12}[state]  # fmt: skip
    removed = {"own": 5e-4, "other": 5e-4, "blank": 0.01, "struck": 5e-4, "gone": 0.88}[state]
    return 1.0 - absent - removed


def look(kind: str, restored: int) -> float:
    """P(looks factory)."""

    def row(name: str) -> float:
        return 1.0 - RATE[f"look.{name}.doubtful"] - RATE[f"look.{name}.disturbed"]

    if kind == "made":
        return row("restored" if restored else "made")
    if kind == "struck":
        return (1.0 - RATE["skilled"]) * row("crude") + RATE["skilled"] * row("skilled")
    return row(kind)


def seen_under(state: str, kind: str, restored: int, read: dict[str, float]) -> float:
    """P(what was noted of the one mark | record, look, restored), over it standing alone."""
    wrong = RATE["irrelevant"]
    if state == "struck":
        slip, text = RATE["slip.later"], read
    else:
        slip, text = RATE["slip.works"], read
    swap = RATE["slip.read"]
    shown = {
        "own": (1 - slip - swap) * text["hit"]
        + slip * (0.7 * text["slip"] + 0.3 * text["swap"])
        + swap * text["swap"],
        "other": 1.0,
        "blank": 1.0,
        "gone": 0.0,
    }
    shown["struck"] = shown["own"]
    stands = (1 - wrong) * chance_of_status(state, False) * shown[state] * look(kind, restored)
    alone = 1.0 - RATE["absent.donor"] - 5e-4
    return stands + wrong * alone * look("made", restored)


def test_identity_with_one_hidden_number_is_the_sum_written_out():
    """Over structure, passed off and restored, with every act on its one mark."""
    car = bare(
        {"hidden_number_cowl": "19N571902"}, {"cowl_panel": "factory"}, {"sequence": "594718"}
    )
    known = noted(car.marks())
    record = known.numbers["sequence"].records[0]
    read = {"hit": record.hit, "slip": record.slip, "swap": record.swap}
    joint = dict.fromkeys(("first", "second"), 0.0)
    prior = dict.fromkeys(("first", "second"), 0.0)
    for passed, restored in product((0, 1), (0, 1)):
        at = RATE["restored"] if restored else 1.0 - RATE["restored"]

        def seen(state: str, kind: str, r: int = restored) -> float:
            return seen_under(state, kind, r, read)

        def act(state: str, kind: str, base: str) -> float:
            missed = RATE["structure.missed"]
            return (1 - missed) * seen(state, kind) + missed * seen(base, "made")

        z = RATE["pass.first"] if passed else 1.0 - RATE["pass.first"]
        factor = RATE["pass.odds"] if passed else 1.0
        struck = odds_times(RATE["structure.struck"], factor)
        removed = odds_times(RATE["structure.removed"], factor)
        weight = (1.0 - RATE["structure.other"]) * z * at
        prior["first"] += weight
        joint["first"] += weight * (
            (1 - struck - removed) * seen("own", "made")
            + struck * act("struck", "struck", "own")
            + removed * act("gone", "removed", "own")
        )
        changed = RATE["structure.changed.pass" if passed else "structure.changed.honest"]
        taken, let_in = RATE["structure.changed.removed"], RATE["structure.changed.letin"]
        altered = (
            (1 - taken - let_in) * act("struck", "struck", "other")
            + taken * act("gone", "removed", "other")
            + let_in * seen("own", "moved")
        )
        whole = 1.0 - RATE["structure.reshell"] - RATE["structure.new"]
        for share, row in ((RATE["structure.reshell"], "pass.reshell"), (whole, "pass.taken")):
            z = RATE[row] if passed else 1.0 - RATE[row]
            weight = RATE["structure.other"] * share * z * at
            prior["second"] += weight
            joint["second"] += weight * ((1 - changed) * seen("other", "made") + changed * altered)
        z = RATE["pass.reshell"] if passed else 1.0 - RATE["pass.reshell"]
        weight = RATE["structure.other"] * RATE["structure.new"] * z * at
        prior["second"] += weight
        new = RATE["structure.new.struck"]
        joint["second"] += weight * (
            (1 - new) * seen("blank", "made") + new * act("struck", "struck", "blank")
        )
    by_hand = joint["first"] / prior["first"] / (joint["second"] / prior["second"])
    network = network_of(known, rate_values())
    side = sides(network, known, questions_of(known)[0])
    assert side is not None
    assert 10 ** side.log10_lr() == pytest.approx(by_hand, rel=1e-9)
