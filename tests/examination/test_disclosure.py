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


def told(
    about: str, origin: str, says: str = "So it was said.", **more: str
) -> list[dict[str, Any]]:
    return [{"about": about, "says": says, "origin": origin} | more]


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
    ("origin", "log10_lr", "outcome", "found"),
    [
        ("first", 1.0, "agrees", FITTED),
        ("first", -1.0, "differs", NOT_FITTED),
        ("replaced", -1.0, "agrees", NOT_FITTED),
        ("supplied new", -1.0, "as declared", NOT_FITTED),
        ("another car's", -1.0, "as declared", NOT_FITTED),
        ("replaced", 1.0, "differs", FITTED),
        ("supplied new", 1.0, "differs", FITTED),
        ("first", 0.0, "open", NEITHER),
        ("supplied new", 0.0, "open", NEITHER),
        ("", 1.0, "open", FITTED),
        ("", -1.0, "open", NOT_FITTED),
    ],
)
def test_a_statement_agrees_differs_or_stays_open_as_the_findings_lie(
    origin: str, log10_lr: float, outcome: str, found: str
) -> None:
    """An exchange engine that was told of is as declared; called the first one it differs."""
    (said,) = compared(told("engine", origin), weighing(engine=log10_lr))
    declared = f"Declared: {origin}." if origin else ""
    assert said == Disclosed("engine", "So it was said.", found, outcome, declared)


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
    (said, *_) = compared(told("engine", "first"), weighing(engine=log10_lr))
    assert said.outcome == outcome


def test_the_car_itself_stands_for_how_it_was_built() -> None:
    (said,) = compared(told("car", "first"), weighing(car=1.0, frame=0.0))
    assert said.outcome == "agrees"
    assert said.found == "The findings support that this car was built as claimed."


def test_the_bearer_stands_for_the_identity_and_a_plate_for_itself() -> None:
    frame, plate = compared(
        told("frame", "first") + told("plate_brass", "first"), weighing(frame=1.0, plate_brass=-1.0)
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
    (said,) = compared(told("frame_number", "first"), weighing(state(source, probability)))
    assert said.outcome == outcome
    assert found in said.found


WING = [{"site": "inner_wing", "state": "absent", "reason": "Smooth primer where it would stand."}]


@pytest.mark.parametrize(
    ("origin", "outcome"),
    [("replaced", "agrees"), ("supplied new", "as declared"), ("first", "differs"), ("", "open")],
)
def test_an_absent_number_agrees_with_a_panel_said_to_be_replaced(
    origin: str, outcome: str
) -> None:
    (said,) = compared(told("wing_body_number", origin), weighing(), sites=WING)
    assert said.outcome == outcome
    assert said.found == (
        "The body number on the inner wing is absent: Smooth primer where it would stand."
    )


def test_what_nothing_was_found_about_stays_open() -> None:
    for about in ("wing_body_number", "upholstery"):
        (said,) = compared(told(about, "first"), weighing())
        assert (said.found, said.outcome) == ("Nothing was found that bears on this.", "open")


def test_what_was_found_against_and_not_said_is_named_after_the_statements() -> None:
    found = compared(told("gearbox", "first"), weighing(gearbox=1.0, engine=-1.0, frame=-0.2))
    assert found == (
        Disclosed(
            "gearbox",
            "So it was said.",
            "The findings support that this gearbox was fitted to this car at the factory.",
            "agrees",
            "Declared: first.",
        ),
        Disclosed("engine", "", NOT_FITTED, "not said"),
    )


def test_what_speaks_for_the_claim_need_not_have_been_said() -> None:
    assert compared([], weighing(engine=2.0, frame=2.0)) == ()


def test_statements_stand_in_the_order_and_words_of_the_speaker() -> None:
    found = compared(
        told("engine", "", "It was in the car in 1974.") + told("axle", "first", "Never out."),
        weighing(),
    )
    assert [(each.about, each.says) for each in found] == [
        ("engine", "It was in the car in 1974."),
        ("axle", "Never out."),
    ]


DECK = [{"site": "engine_deck", "feature": "surface", "outcome": "disturbed"}]


def worked(origin: str, work: str, log10_lr: float, **extra: Any) -> Disclosed:
    """The engine with work declared on it, its deck looking as the case says."""
    car = car_marks(
        sprint(statements=told("engine", origin, work=work), **extra), demonstration_book()
    )
    seen = opinion_on(car.casefile).weighing.evidence
    weighed = replace(weighing(engine=log10_lr), evidence=seen)
    return next(each for each in disclosures(car, weighed) if each.about == "engine")


@pytest.mark.parametrize(
    ("origin", "log10_lr", "outcome"),
    [
        ("", 0.0, "as declared"),
        ("first", 0.0, "open"),
        ("first", 1.0, "as declared"),
        ("replaced", -1.0, "as declared"),
        ("first", -1.0, "differs"),
        ("", -1.0, "open"),
    ],
)
def test_work_that_was_declared_and_shows_is_as_declared_and_hides_nothing(
    origin: str, log10_lr: float, outcome: str
) -> None:
    """A skim that was told of does not cover an engine that was not this car's."""
    found = worked(origin, "skimmed", log10_lr, looks=DECK)
    assert found.outcome == outcome
    assert found.found.endswith("looks worked on, as was declared.")


def test_work_that_was_declared_and_does_not_show_leaves_the_statement_as_it_is() -> None:
    """Nothing noted, a look that is factory, and a look that was only told of."""
    for looks in (
        [],
        [DECK[0] | {"outcome": "factory"}],
        [DECK[0] | {"seen": "told"}],
    ):
        found = worked("first", "skimmed", 1.0, looks=looks)
        assert (found.outcome, found.found) == ("agrees", FITTED)


def test_a_number_that_was_declared_to_be_removed_and_is_absent_is_as_declared() -> None:
    """Its absence is what was said, and no sign that the panel is another one."""
    for origin, outcome in (("", "as declared"), ("first", "open")):
        (said,) = compared(told("wing_body_number", origin, work="removed"), weighing(), sites=WING)
        assert said.outcome == outcome
        assert said.found.endswith("That nothing stands there is as declared.")


def test_what_was_declared_stands_in_fixed_words_with_the_paper_by_its_name() -> None:
    statements = told(
        "engine", "supplied new", work="struck openly", work_by="dealer", paper="build_card"
    ) + told("axle", "", work_by="owner", paper="a bill of 1961")
    engine, axle = compared(statements, weighing())
    assert engine.declared == (
        "Declared: supplied new; struck openly, by a dealer; by the paper: build card."
    )
    assert axle.declared == "Declared: by an owner; by the paper: a bill of 1961."
