"""`altered`: a unit-bodied saloon of 1959 presented as a Sprint of 1957."""

from math import log10

import pytest

from tests.worked.opened import (
    conclusion,
    log10_lr,
    opinion_of,
    text_of,
)
from witnessmark.weighing import Asked, MisfitKind
from witnessmark.wording import referral_heading, referrals

BEYOND = log10(3)
AGAINST = [
    (Asked.IDENTITY, "frame"),
    (Asked.CORE, "body"),
    (Asked.CORE, "engine"),
    (Asked.STAMP, "engine"),
    (Asked.CORE, "gearbox"),
]


@pytest.mark.parametrize(("question", "about"), AGAINST)
def test_identity_body_engine_and_gearbox_come_out_against(question: Asked, about: str) -> None:
    assert log10_lr(opinion_of("altered"), question, about) < -1


def test_the_impossible_stands_first_and_what_differs_after_it() -> None:
    misfits = opinion_of("altered").answer.misfits
    assert misfits[0].kind is MisfitKind.IMPOSSIBLE
    about = [name for each in misfits for name in each.about]
    assert about.index("engine_casting") < about.index("seat_chassis_tail")


def test_of_the_axle_that_nobody_looked_at_nothing_is_concluded() -> None:
    axle = conclusion(opinion_of("altered"), Asked.CORE, "axle")
    assert (axle.standing.value, axle.log10_lr) == ("not examined", 0.0)
    assert "axle_stamp" in [look.target for look in opinion_of("altered").looks]


def test_the_word_is_that_of_the_weaker_end_of_the_band() -> None:
    for each in opinion_of("altered").weighed:
        if each.word_log10_lr is not None:
            assert abs(each.word_log10_lr) <= abs(each.log10_lr)


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


def test_numbers_that_agree_where_they_are_shown_do_not_save_it() -> None:
    """Plate, rail, wing, engine, card and title all say what is claimed."""
    agree = {
        s.mark
        for f in opinion_of("altered").findings
        if f.outcome.value == "agree" and f.topic in ("chassis_number", "engine_number")
        for s in f.subjects
    }
    assert {"plate_brass", "frame_number", "wing_chassis_tail", "engine_number"} <= agree
    assert log10_lr(opinion_of("altered"), Asked.IDENTITY) < -1


def test_each_statement_of_the_seller_differs_and_what_was_not_said_is_named() -> None:
    said = {each.about: each.outcome for each in opinion_of("altered").disclosure}
    for about in ("frame", "body", "engine", "gearbox", "plate_brass", "build_card"):
        assert said.pop(about) == "differs"
    assert not said


def test_a_page_says_whom_to_refer_to() -> None:
    text = text_of("altered")
    assert referral_heading() in text
    assert all(each.whom in text for each in referrals())
    assert "It says nothing about who did anything, when or why." in text


def test_the_report_accuses_nobody() -> None:
    """Nobody of those named in the case stands near a word of blame."""
    text = text_of("altered").lower()
    for word in ("deceit", "deceive", "dishonest", "swindl", "liar", "guilty", "suspect"):
        assert word not in text, word
    assert "Answered that he bought the car as it stands" in text_of("altered")
