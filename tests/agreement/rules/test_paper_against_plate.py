"""The codes and numbers of a paper are those of the plates."""

from witnessmark.agreement import Outcome
from witnessmark.agreement.rules.paper_against_plate import compare
from witnessmark.casefile import Paper, PaperState

PLATE = "SP|700137|40033|18|L2|390|_"


def test_a_paper_that_says_what_the_plate_says_agrees_and_lists_it(car):
    [found] = compare(car(plate_brass=PLATE, despatch_ledger="700137|4|40033|M|0912|18|060655"))
    assert found.outcome is Outcome.AGREE
    assert found.topic == "despatch_ledger"
    assert found.observation == (
        "On the despatch ledger entry: chassis number, model, engine number, paint "
        "as on the brass chassis plate."
    )


def test_what_differs_is_named_with_both_readings(car):
    [found] = compare(car(plate_brass=PLATE, despatch_ledger="700137|4|40034|M|0912|18|060655"))
    assert found.outcome is Outcome.DIFFER
    assert found.agreement_share < 0.05
    assert (
        "Engine number: the despatch ledger entry reads 40034; the brass chassis plate reads "
        "40033." in found.observation
    )
    assert found.inference == (
        "The despatch ledger entry is not consistent with the brass chassis plate where "
        "they differ."
    )


def test_a_copy_is_named_as_an_echo(car):
    papers = (
        Paper(mark="build_card", state=PaperState.COPY, copied_from="despatch_ledger"),
        Paper(mark="despatch_ledger", state=PaperState.IN_HAND),
    )
    ledger, card = compare(
        car(
            papers=papers,
            plate_brass=PLATE,
            despatch_ledger="700137|4|40033|M|0912|18|060655",
            build_card="700137|4|M|0912|40033|22001|32001|B|18|L2|030655",
        )
    )
    assert "The build card was copied from the despatch ledger entry." in card.observation
    assert "It repeats what it was copied from and is not a second witness" in card.inference
    assert "copied" not in ledger.observation


def test_a_worn_paper_is_silent(car):
    [found] = compare(car(plate_brass=PLATE, despatch_ledger="??????|?|?????|?|????|??|??????"))
    assert found.outcome is Outcome.SILENT
    assert found.agreement_share is None


def test_a_paper_without_a_plate_has_nothing_to_be_set_against(car):
    assert compare(car(despatch_ledger="700137|4|40033|M|0912|18|060655")) == ()
