"""A field that was never struck says what the book says of it, and no more."""

from witnessmark.agreement import Outcome
from witnessmark.agreement.rules.empty_field_speaks import compare

PLATE = "SP|700137|40033|18|L2|390|_"


def test_an_empty_field_says_what_the_book_says_of_it(car):
    [found] = compare(car(plate_brass=PLATE))
    assert found.outcome is Outcome.SILENT
    assert found.observation == (
        "The brass chassis plate was left empty at extras. By the book an empty field "
        "means: No extras ordered."
    )


def test_a_claim_of_extras_differs_from_an_empty_field(car):
    claim = {"model": "solent-sprint", "model_year": "1955", "extras": "heater"}
    [found] = compare(car(claim, plate_brass=PLATE))
    assert found.outcome is Outcome.DIFFER
    assert found.inference == "The empty field is not consistent with the claim."
    assert {s.mark for s in found.subjects} == {"plate_brass", "claim"}


def test_a_claim_of_no_extras_agrees_with_an_empty_field(car):
    claim = {"model": "solent-sprint", "model_year": "1955", "extras": "none"}
    [found] = compare(car(claim, plate_brass=PLATE))
    assert found.outcome is Outcome.AGREE


def test_a_worn_field_is_not_an_empty_one(car):
    assert compare(car(plate_brass="SP|700137|40033|18|L2|390|?")) == ()


def test_an_empty_field_of_which_the_book_says_nothing_says_nothing(car):
    [found] = compare(car(plate_brass="SP|700137|40033|__|L2|390|H"))
    assert found.topic == "paint"
    assert found.outcome is Outcome.SILENT
    assert "does not say what an empty field means" in found.inference
