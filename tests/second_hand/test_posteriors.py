"""An independent general-purpose library gives the same joints for the same car."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.examples import tried_on
from tests.second_hand.weighing_in_pyagrum import joints, net_of, ways_in
from tests.worked.situations import changes as c
from tests.worked.situations.car import Car, Change, again, claims, photographed, worn
from tests.worked.situations.document import book_of, casefile
from tests.worked.situations.standard import STANDARD
from witnessmark.examination import car_marks
from witnessmark.weighing import Asked, rate_values
from witnessmark.weighing.network.build import network_of, noted
from witnessmark.weighing.network.network import Network
from witnessmark.weighing.network.questions import Question, Sides, questions_of, sides
from witnessmark.weighing.pieces.noted_car import Noted
from witnessmark.weighing.rates import each_with

# pyAgrum sets the shape of arrays in a way that NumPy has deprecated.
pytestmark = pytest.mark.filterwarnings("ignore:Setting the shape:DeprecationWarning")

EXACT = 1e-9
DRAWS = 16
SMALL: dict[str, tuple[Change, ...]] = {
    "frame": (),
    "coachbuilt": (),
    "order": (),
    "no-numbers": (),
    "labels": (
        c.only("shell_number", "number_plate", "left_wing_label", "engine_number", "delivery_note"),
    ),
    "mustang": (c.only("dash_plate", "apron_stamp", "engine_stamp", "block_date"),),
    "sprint": (c.only("plate_brass", "frame_number", "engine_number", "engine_casting"),),
    "camaro": (
        c.only("number_plate", "hidden_number_cowl", "partial_number_engine", "block_cast_date"),
        claims(paint="", gearbox=""),
    ),
    "numbered": (
        c.only("plate_aluminium", "shell_wing_tail", "engine_stamp", "owner_booklet"),
        claims(paint="", trim="", package=""),
    ),
}
"""Each standard car with as many marks as the library can sum in a second or two."""


def assert_same_joints(car: Car, draw: int = 0, draws: int = 1) -> None:
    """Both sides of every question, way by way, under one draw of the rates."""
    known = noted(car_marks(casefile(car), book_of(car.book)))
    rates = rate_values((), draws).at(np.array([draw]))
    network = network_of(known, rates)
    assert not network.axes.agreed, "items are summed together here"
    net = net_of(known, rates, network)
    names = ["S", *(f"act {p}" for p in network.cells), *(f"item {i}" for i in known.items)]
    theirs = joints(net, names)
    compared = 0
    for question in questions_of(known):
        ours = sides(network, known, question)
        if ours is not None:
            wanted = in_order(known, question, ours, network, theirs)
            assert ours.joint[0] == pytest.approx(wanted, rel=EXACT, abs=0.0), question
            compared += 1
    assert compared >= 2


def in_order(
    known: Noted,
    question: Question,
    ours: Sides,
    network: Network,
    theirs: dict[str, np.ndarray],
) -> list[float]:
    """The library's joints in the order of the question's ways."""
    if question.asked is Asked.IDENTITY and question.about == known.bearer:
        return theirs["S"].tolist()
    if question.asked is Asked.ITEM:
        return theirs[f"item {question.about}"].tolist()
    cores = (each.piece.piece for each in known.cores)
    # A second bearer of the identity is asked about by the name of its assembly.
    piece = next((p.id for p in cores if p.assembly == question.about), question.about)
    ways = ways_in(network.cells[piece].terms, theirs[f"act {piece}"])
    return [ways[origin, hand] for origin, hand in (name.split(", ") for name in ours.names)]


@pytest.mark.parametrize("name", SMALL)
def test_every_joint_of_a_standard_car_is_the_librarys(name: str) -> None:
    assert_same_joints(STANDARD[name].but(*SMALL[name]))


CHANGES: tuple[Change, ...] = (
    c.core_of_another("engine"),
    c.core_one_figure_wrong("engine"),
    c.core_look("engine", "disturbed"),
    c.core_again("engine"),
    c.hidden_of_another(),
    c.hidden_number("~"),
    c.hidden_look("disturbed"),
    c.all_look("doubtful"),
    c.without_papers,
    c.plate_gone,
    c.plate_of_another,
    photographed(),
    worn(),
    again(),
    c.core_unseen("engine"),
)
"""In the order in which they are made: what was not seen comes last."""


@given(
    st.sampled_from(("coachbuilt", "labels", "frame")),
    st.lists(st.sampled_from(CHANGES), min_size=1, max_size=4),
    st.integers(0, DRAWS - 1),
)
@tried_on(60, few=8)
def test_every_joint_of_any_car_under_any_draw_is_the_librarys(
    name: str, changes: list[Change], draw: int
) -> None:
    """Things drawn that do not fit, at any of some draws of all rates together."""
    # A plate that is gone bears no number.
    out = {c.plate_of_another} if c.plate_gone in changes else set()
    made = sorted(set(changes) - out, key=CHANGES.index)
    assert_same_joints(STANDARD[name].but(*SMALL[name], *made), draw, DRAWS)


def test_the_library_would_notice_another_rate() -> None:
    """Its network under one rate moved has other joints: it is no copy of what it is held to."""
    known = noted(car_marks(casefile(STANDARD["frame"]), book_of("frame")))
    found = []
    for rates in (rate_values(), each_with(rate_values(), [{"core.struck.suited": 0.1}])):
        net = net_of(known, rates, network_of(known, rates))
        found.append(joints(net, ["act engine"])["act engine"])
    one, other = (each / each.sum() for each in found)
    assert np.abs(one - other).max() > 1e-4
