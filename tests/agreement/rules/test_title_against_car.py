"""The number on the title is the identification number of the car, character by character."""

from witnessmark.agreement.records import Outcome
from witnessmark.agreement.rules.title_against_car import compare


def test_a_title_with_the_number_of_the_car_agrees(car):
    frame, claim = compare(car(title="700 137", frame_number="4 700137"))
    assert frame.outcome is claim.outcome is Outcome.AGREE
    assert frame.observation == (
        "The title says 700 137; the frame stamping reads 700137. "
        "Nothing differs at the 6 places that can be read."
    )


def test_the_first_difference_is_named_with_its_place(car):
    frame, _ = compare(car(title="700187", frame_number="4 700137"))
    assert frame.outcome is Outcome.DIFFER
    assert (
        "The first difference is at place 5 of 6: 8 on the title, 3 on the frame stamping."
        in frame.observation
    )
    assert frame.inference == (
        "The title is not consistent with the chassis number on the frame stamping."
    )


def test_a_letter_that_the_number_never_has_is_named_and_left_undecided(car):
    frame, _ = compare(car(title="7OO137", frame_number="4 700137"))
    assert frame.outcome is Outcome.UNDECIDED
    assert "At place 2 the title has O where the number can only have 0." in frame.observation


def test_a_foreign_letter_that_is_no_such_slip_differs(car):
    frame, _ = compare(car(title="70K137", frame_number="4 700137"))
    assert frame.outcome is Outcome.DIFFER
    assert "At place 3 of 6 the title has K, which this number never has." in frame.observation


def test_a_number_that_stands_within_a_longer_one_is_left_undecided(car):
    frame, claim = compare(car(title="TV-700137", frame_number="4 700137"))
    assert frame.outcome is claim.outcome is Outcome.UNDECIDED
    assert "The title has 8 characters where the number has 6." in frame.observation
    assert "The number can stand within it (TV…)." in frame.observation


def test_a_half_worn_number_can_stand_within_a_longer_one_too(car):
    frame, _ = compare(car(title="TV700137", frame_number="4 70?1[38]7"))
    assert frame.outcome is Outcome.UNDECIDED
    frame, _ = compare(car(title="TV700147", frame_number="4 70?1[38]7"))
    assert frame.outcome is Outcome.DIFFER


def test_another_length_differs_and_the_place_is_named(car):
    frame, _ = compare(car(title="70137", frame_number="4 700137"))
    assert frame.outcome is Outcome.DIFFER
    assert "They part at place 3." in frame.observation


def test_a_half_worn_number_is_compared_where_it_can_be_read(car):
    frame, _ = compare(car(title="700137", frame_number="4 70??37"))
    assert frame.outcome is Outcome.AGREE
    assert "at the 4 places that can be read" in frame.observation


def test_the_tail_on_a_panel_is_compared_with_the_tail_of_the_title(car):
    claim = {"chassis_number": "700222", "model": "solent-sprint", "model_year": "1957"}
    panel, _ = compare(car(claim, title="700222", wing_chassis_tail="M 0222"))
    assert panel.outcome is Outcome.AGREE
    panel, _ = compare(car(claim, title="700221", wing_chassis_tail="M 0222"))
    assert panel.outcome is Outcome.DIFFER
    assert "place 6 of 6: 1 on the title, 2 on the tail" in panel.observation


def test_a_worn_number_is_silent(car):
    frame, _ = compare(car(title="700137", frame_number="4 ??????"))
    assert frame.outcome is Outcome.SILENT


def test_without_a_title_there_is_no_finding(car):
    assert compare(car(frame_number="4 700137")) == ()
    assert compare(car(title=" - ", frame_number="4 700137")) == ()
