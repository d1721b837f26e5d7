"""A small car summed by plain loops over every cause, every way of each piece and every week
gives the same joints. (tests/second_hand does it with a library, on whole cars.)"""

from itertools import product

import numpy as np
import pytest

from tests.worked.situations import changes as c
from tests.worked.situations.car import Car
from tests.worked.situations.document import book_of, casefile
from tests.worked.situations.standard import STANDARD
from witnessmark.examination import car_marks
from witnessmark.weighing import Asked, rate_values
from witnessmark.weighing.network.build import network_of, noted
from witnessmark.weighing.network.network import Network
from witnessmark.weighing.network.questions import questions_of, sides
from witnessmark.weighing.pieces.noted_car import Noted
from witnessmark.weighing.pieces.terms import Term

FEW = STANDARD["frame"].but(c.only("frame_number", "engine_number", "block_casting"))
CARS = {
    "all agrees": FEW,
    "a later block with another car's number on another frame": FEW.but(
        c.core_late("engine"), c.core_of_another("engine"), c.hidden_of_another()
    ),
}

type Joints = dict[tuple[str, object], float]


def at(table: np.ndarray, state: tuple[int, ...]) -> float:
    """A table's value in one state of the car's variables; an axis of length 1 has but one."""
    place = (0, *(k if size > 1 else 0 for k, size in zip(state, table.shape[1:], strict=True)))
    return float(table[place])


def by_loops(known: Noted, network: Network) -> Joints:
    """P(all that was noted, each state of the structure) and P(it, each way of the engine)."""
    (item,) = known.numbers.values()
    frame, engine = network.cells["frame"].terms, network.cells["engine"].terms
    found: Joints = {}
    others = range(len(known.grid.other_priors))
    weeks = {(k, car): days(known, each, car) for k, each in enumerate(engine) for car in others}
    for state in product(*(range(size) for size in network.prior.shape[1:])):
        prior = at(network.prior, state)
        if not prior:
            continue
        for one, (k, other) in product(frame, enumerate(engine)):
            weight = prior * at(one.prior, state) * at(other.prior, state)
            if not weight:
                continue
            weight *= at(one.weight, state) * at(other.weight, state)
            weight *= numbers(item, one, other) * weeks[k, state[3]]
            for key in (("identity", state[0]), ("engine", (other.origin, other.hand))):
                found[key] = found.get(key, 0.0) + weight
    return found


def numbers(item, one: Term, other: Term) -> float:
    """Marks that show one car's number are read off one number; apart, each is on its own."""
    a, b = (term.groups.get(item.id, (0, 0, 0, 0)) for term in (one, other))
    assert a[2] == b[3] == a[3] == 0, "no further car's number on a frame, and nothing is copied"
    found = float(item.own[a[0] | b[0]] * item.any_car[a[1] | b[1]])
    return found * float(item.any_car[b[2]])


def days(known: Noted, engine: Term, other_car: int) -> float:
    """Week by week of the claimed car and of the other one."""
    own = other = 0.0
    for week, share in enumerate(known.grid.prior.tolist()):
        own += share * (1.0 if engine.own_days is None else float(engine.own_days[week]))
    for week, share in enumerate(known.grid.other_priors[other_car].tolist()):
        other += share * (1.0 if engine.other_days is None else float(engine.other_days[week]))
    return own * other


@pytest.mark.parametrize("car", CARS.values(), ids=CARS)
def test_every_joint_is_that_of_plain_loops(car: Car) -> None:
    known = noted(car_marks(casefile(car), book_of("frame")))
    network = network_of(known, rate_values())
    plain = by_loops(known, network)
    for question in questions_of(known):
        side = sides(network, known, question)
        if question.asked is Asked.IDENTITY:
            wanted = [plain.get(("identity", k), 0.0) for k in range(len(side.names))]
        elif (question.asked, question.about) == (Asked.CORE, "engine"):
            ways = [tuple(name.split(", ")) for name in side.names]
            wanted = [plain.get(("engine", way), 0.0) for way in ways]
        else:
            continue
        assert side.joint[0] == pytest.approx(wanted, rel=1e-9), question
