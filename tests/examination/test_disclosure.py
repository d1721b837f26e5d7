"""What is said about the car is set against what was found: a comparison without a ratio."""

from dataclasses import replace
from functools import cache
from math import log10
from typing import Any

import pytest

from tests.examination.cars import demonstration_book, opinion_on, sprint
from witnessmark.examination import Disclosed, car_marks
from witnessmark.examination.disclosure import disclosures
from witnessmark.weighing import MarkState, Weighing
from witnessmark.weighing.records import LikelihoodRatio, StateShare


@cache
def plain_weighing() -> Weighing:
    """A weighing of the Sprint, to be moved."""
    return opinion_on(sprint()).weighing


def weighing(states: tuple[MarkState, ...] = (), **log10_lr: float) -> Weighing:
    """A weighing in which every question stands at 1 but those named."""
    conclusions = tuple(
        replace(each, lr=LikelihoodRatio(log10_lr.get(each.about, 0.0), -4.0, 4.0))
        for each in plain_weighing().conclusions
    )
    return replace(plain_weighing(), conclusions=conclusions, mark_states=states)


def told(about: str, original: bool | None, says: str = "So it was said.") -> list[dict[str, Any]]:
    return [{"about": about, "says": says, "original": original}]


def compared(
    statements: list[dict[str, Any]], weighed: Weighing, **extra: Any
) -> tuple[Disclosed, ...]:
    return disclosures(
        car_marks(sprint(statements=statements, **extra), demonstration_book()), weighed
    )


FITTED = "The findings support that this engine was fitted to this car at the factory."
NOT_FITTED = "The findings support that this engine was not fitted to this car at the factory."
NEITHER = (
    "The findings speak too weakly to say whether this engine was fitted to this car at the "
    "factory."
)


@pytest.mark.parametrize(
    ("original", "log10_lr", "outcome", "found"),
    [
        (True, 1.0, "agrees", FITTED),
        (True, -1.0, "differs", NOT_FITTED),
        (False, -1.0, "agrees", NOT_FITTED),
        (False, 1.0, "differs", FITTED),
        (True, 0.0, "open", NEITHER),
        (False, 0.0, "open", NEITHER),
        (None, 1.0, "open", FITTED),
        (None, -1.0, "open", NOT_FITTED),
    ],
)
def test_a_statement_agrees_differs_or_stays_open_as_the_findings_lie(
    original: bool | None, log10_lr: float, outcome: str, found: str
) -> None:
    """An exchange engine that was told of agrees; the same one called original differs."""
    (said,) = compared(told("engine", original), weighing(engine=log10_lr))
    assert said == Disclosed("engine", "So it was said.", found, outcome)


@pytest.mark.parametrize(
    ("log10_lr", "outcome"),
    [
        (log10(2.9), "open"),
        (log10(3.1), "agrees"),
        (-log10(2.9), "open"),
        (-log10(3.1), "differs"),
    ],
)
def test_within_three_either_way_a_statement_stays_open(log10_lr: float, outcome: str) -> None:
    (said, *_) = compared(told("engine", True), weighing(engine=log10_lr))
    assert said.outcome == outcome


def test_the_car_itself_stands_for_how_it_was_built() -> None:
    (said,) = compared(told("car", True), weighing(car=1.0, frame=0.0))
    assert said.outcome == "agrees"
    assert said.found == "The findings support that this car was built as claimed."


def test_the_bearer_stands_for_the_identity_and_a_plate_for_itself() -> None:
    frame, plate = compared(
        told("frame", True) + told("plate_brass", True), weighing(frame=1.0, plate_brass=-1.0)
    )
    assert (frame.outcome, plate.outcome) == ("agrees", "differs")
    assert plate.found == (
        "The findings support that this brass chassis plate was made later, or is another car's."
    )


def state(source: str, probability: float) -> tuple[MarkState, ...]:
    """The frame stamping from this source, as probable as this; made later for the rest."""
    shares = [StateShare(source, probability), StateShare("made", 1 - probability)]
    shares.sort(key=lambda share: -share.probability)
    return (MarkState("frame_number", tuple(shares), ()),)


@pytest.mark.parametrize(
    ("source", "probability", "outcome", "found"),
    [
        ("own", 0.9, "agrees", "consistent with characters struck at the factory for the claimed"),
        ("own", 0.5, "open", "do not tell where its characters come from"),
        ("own", 0.1, "differs", "consistent with characters made later"),
        ("donor", 0.9, "differs", "consistent with characters struck at the factory for another"),
        ("other", 0.9, "differs", "consistent with characters struck at the factory for a third"),
        ("blank", 0.9, "differs", "consistent with a part that was never numbered"),
    ],
)
def test_a_statement_about_a_mark_is_set_against_where_its_characters_come_from(
    source: str, probability: float, outcome: str, found: str
) -> None:
    (said,) = compared(told("frame_number", True), weighing(state(source, probability)))
    assert said.outcome == outcome
    assert found in said.found


WING = [{"site": "inner_wing", "state": "absent", "reason": "Smooth primer where it would stand."}]


@pytest.mark.parametrize(
    ("original", "outcome"), [(False, "agrees"), (True, "differs"), (None, "open")]
)
def test_an_absent_number_agrees_with_a_panel_said_to_be_replaced(
    original: bool | None, outcome: str
) -> None:
    (said,) = compared(told("wing_body_number", original), weighing(), sites=WING)
    assert said.outcome == outcome
    assert said.found == (
        "The body number on the inner wing is absent: Smooth primer where it would stand."
    )


def test_what_nothing_was_found_about_stays_open() -> None:
    for about in ("wing_body_number", "upholstery"):
        (said,) = compared(told(about, True), weighing())
        assert (said.found, said.outcome) == ("Nothing was found that bears on this.", "open")


def test_what_was_found_against_and_not_said_is_named_after_the_statements() -> None:
    found = compared(told("gearbox", True), weighing(gearbox=1.0, engine=-1.0, frame=-0.2))
    assert found == (
        Disclosed(
            "gearbox",
            "So it was said.",
            "The findings support that this gearbox was fitted to this car at the factory.",
            "agrees",
        ),
        Disclosed("engine", "", NOT_FITTED, "not said"),
    )


def test_what_speaks_for_the_claim_need_not_have_been_said() -> None:
    assert compared([], weighing(engine=2.0, frame=2.0)) == ()


def test_statements_stand_in_the_order_and_words_of_the_speaker() -> None:
    found = compared(
        told("engine", None, "It was in the car in 1974.") + told("axle", True, "Never out."),
        weighing(),
    )
    assert [(each.about, each.says) for each in found] == [
        ("engine", "It was in the car in 1974."),
        ("axle", "Never out."),
    ]
