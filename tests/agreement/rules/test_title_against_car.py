"""The number on the title is the identification number of the car, character by character."""

import pytest

from tests.agreement.readings import CHEVROLET, FORD, JAGUAR, TARVANE, VOLKSWAGEN, car_read
from witnessmark.agreement import Outcome
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
    assert "The number may be contained in it (TV…)." in frame.observation


def test_a_half_worn_number_can_stand_within_a_longer_one_too(car):
    frame, _ = compare(car(title="TV700137", frame_number="4 70?1[38]7"))
    assert frame.outcome is Outcome.UNDECIDED
    frame, _ = compare(car(title="TV700147", frame_number="4 70?1[38]7"))
    assert frame.outcome is Outcome.DIFFER


def test_another_length_differs_and_the_place_is_named(car):
    frame, _ = compare(car(title="70137", frame_number="4 700137"))
    assert frame.outcome is Outcome.DIFFER
    assert "They differ from place 3 on." in frame.observation


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


WHOLE = [
    (CHEVROLET, "number_plate=124379N506071", "124379N506071"),
    (CHEVROLET, "number_plate_1972=1Q87K2N506071", "1Q87K2N506071"),
    (CHEVROLET, "number_plate_1964=45767A106071", "45767A106071"),
    (CHEVROLET, "partial_number_engine=19N506071", "19N506071"),
    (FORD, "dash_plate=8F02R135071", "8F02R135071"),
    (FORD, "door_plate_1965=76A R 28 23A 11 2 6\n5F08T412371", "5F08T412371"),
    ("seventeen-characters", "vehicle_number=1M8GDM9AXKP042788", "1M8GDM9AXKP042788"),
    (TARVANE, "frame_number=2 582063", "2 582063"),
    (VOLKSWAGEN, "pan_number_1965=117345612", "117 345 612"),
    (VOLKSWAGEN, "bus_number_1970=232 2 041 236", "232 2 041 236"),
    (VOLKSWAGEN, "pan_number_prefixed=1-143216", "1-143216"),
    (JAGUAR, "front_frame_number=1E12345", "1E12345"),
    (JAGUAR, "frame_number=S677095", "S677095"),
    (JAGUAR, "shell_number=P210345BW", "P210345BW"),
]
"""A mark with the whole number of each form of each book that has one, and the title's text."""
FIGURES = {"232 2 041 236": 7, "1E12345": 5}
"""How many figures the number has as it is written, where that is not six."""


def on_title(book_id, reading, title):
    """The finding on the mark of this reading."""
    [found] = compare(car_read(book_id, reading, title=title))
    return found


@pytest.mark.parametrize(("book_id", "reading", "title"), WHOLE)
def test_a_whole_number_on_the_title_is_that_of_the_mark(book_id, reading, title):
    found = on_title(book_id, reading, title)
    assert found.outcome is Outcome.AGREE
    assert f"The title says {title};" in found.observation
    assert "Alike: " in found.observation
    assert found.inference.startswith("The title is consistent with what the ")


@pytest.mark.parametrize(("book_id", "reading", "title"), WHOLE)
def test_one_figure_of_the_whole_number_makes_the_title_differ(book_id, reading, title):
    """The last one, which on one of these has letters behind it."""
    number, behind = title.removesuffix("BW"), title[len(title.removesuffix("BW")) :]
    other = "2" if number[-1] != "2" else "4"
    found = on_title(book_id, reading, number[:-1] + other + behind)
    assert found.outcome is Outcome.DIFFER
    last = FIGURES.get(title, 6)
    assert f"differs at place {last} of {last}: {other} on the title" in found.observation


@pytest.mark.parametrize(
    ("title", "told"),
    [
        ("124378N506071", "Model year: the title reads 8 (model year 1968)"),
        ("124379L506071", "Assembly plant: the title reads L (Los Angeles"),
        ("124679N506071", "Body style: the title reads 67"),
        ("123379N506071", "Series: the title reads 23"),
    ],
)
def test_a_code_of_the_whole_number_makes_the_title_differ_too(title, told):
    found = on_title(CHEVROLET, "number_plate=124379N506071", title)
    assert found.outcome is Outcome.DIFFER
    assert told in found.observation


def test_the_whole_number_is_set_against_what_a_part_shows_of_it():
    found = on_title(CHEVROLET, "partial_number_gearbox=19N506071", "124379N506071")
    assert found.outcome is Outcome.AGREE
    assert found.observation == (
        "The title says 124379N506071; the partial number on the gearbox case reads 19N506071. "
        "Alike: division, model year, assembly plant and sequence number."
    )
    found = on_title(CHEVROLET, "partial_number_gearbox=18N306071", "124379N506071")
    assert found.outcome is Outcome.DIFFER


def test_a_copyists_letter_in_the_whole_number_is_named_and_left_undecided():
    found = on_title(CHEVROLET, "number_plate=124379N506071", "124379N5O6071")
    assert found.outcome is Outcome.UNDECIDED
    assert "At place 9 the title has O where the number can only have 0." in found.observation


def test_a_worn_number_leaves_the_whole_title_open_where_it_is_worn():
    found = on_title(CHEVROLET, "number_plate=124379N50607?", "124379N506071")
    assert found.outcome is Outcome.AGREE
    found = on_title(CHEVROLET, "number_plate=1243?9N50607[17]", "124379N506071")
    assert found.outcome is Outcome.UNDECIDED


def test_the_claim_is_set_against_the_whole_title_item_by_item():
    claim = {"sequence": "506071", "model_year": "1968", "works": "norwood"}
    [found] = compare(car_read(CHEVROLET, title="124379N506071", claim=claim))
    assert found.outcome is Outcome.DIFFER
    assert "Model year: the title reads 9 (model year 1969); the claim says" in found.observation
    assert found.inference == "The title is not consistent with what is claimed about the number."


def test_a_bare_number_on_the_title_of_a_real_car_is_compared_as_it_stands():
    found = on_title(CHEVROLET, "number_plate=124379N506071", "506071")
    assert found.outcome is Outcome.AGREE
    assert "Nothing differs at the 6 places that can be read." in found.observation
