"""`altered`: a unit-bodied saloon of 1959 presented as a Sprint of 1957."""

from math import log10

import pytest

from tests.worked.opened import (
    case_of,
    conclusion,
    log10_lr,
    opinion_of,
    text_of,
    without_its_bounds,
)
from witnessmark.weighing import Question
from witnessmark.wording import REFERRAL_HEADING, REFERRALS

BEYOND = log10(3)
AGAINST = [
    (Question.IDENTITY, "frame"),
    (Question.PLATE, "plate_brass"),
    (Question.ASSEMBLY, "body"),
    (Question.ASSEMBLY, "engine"),
]


@pytest.mark.parametrize(("question", "about"), AGAINST)
def test_identity_plate_body_and_engine_come_out_against(question: Question, about: str) -> None:
    assert log10_lr(opinion_of("altered"), question, about) < -1


def test_gearbox_card_and_configuration_come_out_against_too() -> None:
    opinion = opinion_of("altered")
    assert log10_lr(opinion, Question.ASSEMBLY, "gearbox") < -BEYOND
    assert log10_lr(opinion, Question.PAPER, "build_card") < -BEYOND
    assert log10_lr(opinion, Question.CONFIGURATION) < -BEYOND


def test_of_the_axle_that_nobody_looked_at_only_the_rest_of_the_car_speaks() -> None:
    """Another car seems to stand whole under the claim; the axle would have come with it."""
    axle = conclusion(opinion_of("altered"), Question.ASSEMBLY, "axle")
    assert -2.0 < axle.lr.log10_lr < 0.0
    assert axle.lr.log10_lr_high > 0.0
    assert not [c for c in axle.contributions if c.item.about in ("axle_stamp", "axle_case")]
    assert "axle_stamp" in [look.target for look in axle.next_looks]


CONTRADICTIONS = [
    ("same_item_on_two_marks", "chassis_number", "seat_chassis_tail", "0417"),
    ("same_item_on_two_marks", "body_works", "seat_chassis_tail", "E"),
    ("title_against_car", "chassis_number", "seat_chassis_tail", "0417"),
    ("combination_of_codes", "sprint-not-by-ellery", "plate_brass", "SP"),
    ("code_of_its_years", "paint", "plate_brass", "22"),
    ("code_of_its_years", "paint", "build_card", "22"),
    ("number_in_its_series", "gearbox_number", "gearbox_stamp", "24801"),
    ("number_in_its_series", "gearbox_number", "build_card", "24801"),
    ("number_in_its_series", "axle_number", "build_card", "34723"),
    ("dates_in_order", "casting-to-despatch", "engine_casting", "21D9"),
    ("dates_in_order", "gearbox-to-despatch", "gearbox_stamp", "199"),
]


@pytest.mark.parametrize(("rule", "topic", "mark", "shown"), CONTRADICTIONS)
def test_each_of_its_contradictions_is_found(rule: str, topic: str, mark: str, shown: str) -> None:
    found = [
        finding
        for finding in opinion_of("altered").findings
        if (finding.rule, finding.topic, finding.outcome.value) == (rule, topic, "differ")
        and any((s.mark, s.shown) == (mark, shown) for s in finding.subjects)
    ]
    assert found


def test_no_contradiction_is_found_that_is_not_among_these() -> None:
    differ = [f for f in opinion_of("altered").findings if f.outcome.value == "differ"]
    assert {(f.rule, f.topic) for f in differ} == {(r, t) for r, t, _, _ in CONTRADICTIONS}


@pytest.mark.parametrize(
    ("item", "words"),
    [
        ("missing:frame", "The car has no such part as bears the frame stamping"),
        ("absence:bulkhead_chassis_tail", "which this works always struck, is absent"),
        ("look:scuttle", "looks disturbed (fresh holes beside the rivets"),
        ("look:scuttle", "second outline beside the plate"),
        ("look:frame_rail", "looks disturbed (characters cut through the pits"),
        ("look:inner_wing", "looks disturbed (round red; wide"),
        ("look:engine_deck", "looks disturbed (lines over the characters"),
        ("rules:plate_brass", "The book lists 22 for 1959 to 1961, only Solent saloon"),
        ("codes:seat_chassis_tail", "The codes on the tail of the chassis number on the seat pan"),
        ("date:engine_casting.date", "casting date"),
        ("date:gearbox_stamp.week", "week code"),
        ("reading:seat_chassis_tail", "E 590417"),
    ],
)
def test_what_was_seen_is_evidence_and_says_what_it_was(item: str, words: str) -> None:
    evidence = {each.id: each.sentence for each in opinion_of("altered").weighing.evidence}
    assert words in evidence[item]


DRIVERS = [
    (Question.IDENTITY, "frame", ["missing:frame", "look:frame_rail"]),
    (Question.PLATE, "plate_brass", ["rules:plate_brass"]),
    (Question.PAPER, "build_card", ["rules:build_card"]),
    (Question.CONFIGURATION, "car", ["missing:frame", "rules:build_card"]),
    (Question.ASSEMBLY, "body", ["reading:seat_chassis_tail", "look:inner_wing"]),
    (Question.ASSEMBLY, "engine", ["date:engine_casting.date", "look:engine_deck"]),
    (Question.ASSEMBLY, "gearbox", ["date:gearbox_stamp.week"]),
]


@pytest.mark.parametrize(("question", "about", "drivers"), DRIVERS)
def test_what_drives_each_conclusion_against_comes_first(
    question: Question, about: str, drivers: list[str]
) -> None:
    """Of all items that speak against, in order of how far they move the ratio."""
    contributions = conclusion(opinion_of("altered"), question, about).contributions
    against = [c.item.id for c in contributions if c.log10_lr_change < 0]
    assert against[: len(drivers)] == drivers
    sizes = [abs(c.log10_lr_change) for c in contributions]
    assert sizes == sorted(sizes, reverse=True)


@pytest.mark.parametrize(("question", "about", "drivers"), DRIVERS)
def test_the_report_names_what_drives_each_conclusion(
    question: Question, about: str, drivers: list[str]
) -> None:
    evidence = {each.id: each.sentence for each in opinion_of("altered").weighing.evidence}
    full = text_of("altered").split("Each conclusion in full", 1)[1]
    for driver in drivers:
        assert evidence[driver].removesuffix(".") in full


def test_the_body_is_rather_another_cars_and_the_numbers_that_agree_were_made() -> None:
    states = {
        state.mark: state.sources[0].state
        for state in opinion_of("altered").weighing.mark_states
        if state.sources[0].probability > 0.5
    }
    assert states["seat_chassis_tail"] == "donor"
    for mark in ("plate_brass", "frame_number", "wing_chassis_tail", "engine_number"):
        assert states[mark] == "made"


def test_numbers_that_agree_where_they_are_shown_do_not_save_it() -> None:
    """Plate, rail, wing, engine, card and title all say what is claimed."""
    agree = {
        s.mark
        for f in opinion_of("altered").findings
        if f.outcome.value == "agree" and f.topic in ("chassis_number", "engine_number")
        for s in f.subjects
    }
    assert {"plate_brass", "frame_number", "wing_chassis_tail", "engine_number"} <= agree
    assert log10_lr(opinion_of("altered"), Question.IDENTITY) < -1


def test_each_statement_of_the_seller_differs_and_what_was_not_said_is_named() -> None:
    said = {each.about: each.outcome for each in opinion_of("altered").disclosure}
    for about in ("frame", "body", "engine", "gearbox", "plate_brass", "build_card"):
        assert said.pop(about) == "differs"
    assert said == {"car": "not said", "axle": "not said"}


def test_a_page_says_whom_to_refer_to() -> None:
    text = text_of("altered")
    assert REFERRAL_HEADING in text
    assert all(each.whom in text for each in REFERRALS)
    assert "It says nothing about who did it, when or why." in text


def test_the_report_accuses_nobody() -> None:
    """Nobody of those named in the case stands near a word of blame."""
    text = text_of("altered").lower()
    for word in ("deceit", "deceive", "dishonest", "swindl", "liar", "guilty", "suspect"):
        assert word not in text, word
    assert "Answered that he bought the car as it stands" in text_of("altered")


def test_the_same_car_offered_as_what_it_is_would_not_contradict_itself_in_body_and_year() -> None:
    """The seat pan's own number and coachbuilder, on a saloon of 1959, agree with the claim."""
    casefile = case_of("altered")
    items = {
        "chassis_number": "590417",
        "model": "solent-saloon",
        "model_year": "1959",
        "works": "tarvane",
        "body_works": "ellery",
    }
    claim = casefile.claim.model_copy(update={"items": items, "built": "1959-06", "statements": ()})
    seat = next(r for r in casefile.readings if r.mark == "seat_chassis_tail")
    seat = seat.model_copy(update={"mark": "shell_seat_number"})
    kept = {"engine_casting", "gearbox_stamp"}
    plain = casefile.model_copy(
        update={
            "claim": claim,
            "readings": (seat, *(r for r in casefile.readings if r.mark in kept)),
            "sites": (),
            "looks": tuple(look for look in casefile.looks if look.site == "seat_pan"),
            "papers": (),
        }
    )
    opinion = without_its_bounds(plain)
    assert log10_lr(opinion, Question.IDENTITY) > 0
    assert log10_lr(opinion, Question.ASSEMBLY, "gearbox") > 0
    assert log10_lr(opinion, Question.ASSEMBLY, "engine") > 0
