"""`no-papers`: a Sprint whose frame is pitted, whose card is lost and whose leaf is missing."""

from math import log10

import pytest
from witnessmark.weighing.records import Standing

from tests.worked.opened import (
    case_of,
    conclusion,
    log10_lr,
    opinion_of,
    text_of,
    without_its_bounds,
)
from witnessmark.casefile.records import Casefile, MarkReading, PaperState
from witnessmark.weighing import NextLook, Question

OPEN = [(Question.IDENTITY, "frame"), (Question.ASSEMBLY, "body")]
BEYOND = log10(3)


def test_nothing_on_the_car_speaks_against_it() -> None:
    opinion = opinion_of("no-papers")
    assert [f for f in opinion.findings if f.outcome.value == "differ"] == []
    assert all(c.lr.log10_lr > -BEYOND for c in opinion.weighing.conclusions)


@pytest.mark.parametrize(("question", "about"), OPEN)
def test_identity_and_body_come_out_near_one_and_cannot_be_established(
    question: Question, about: str
) -> None:
    found = conclusion(opinion_of("no-papers"), question, about)
    assert abs(found.lr.log10_lr) < BEYOND
    assert found.standing is Standing.CANNOT_BE_ESTABLISHED
    assert not found.is_established


@pytest.mark.parametrize(("question", "about"), OPEN)
def test_no_look_within_reach_would_settle_either(question: Question, about: str) -> None:
    """Outcomes that hardly ever come are left aside, as the standing does."""
    for look in conclusion(opinion_of("no-papers"), question, about).next_looks:
        telling = [each for each in look.outcomes if each.probability >= 0.01]
        assert all(abs(each.log10_lr) < BEYOND for each in telling)


def settling(question: Question, about: str) -> dict[str, NextLook]:
    """What beyond reach could take the ratio beyond 3, by its name."""
    found = conclusion(opinion_of("no-papers"), question, about).settled_by
    return {
        look.target: look
        for look in found
        if any(abs(each.log10_lr) > BEYOND for each in look.outcomes)
    }


def test_the_frame_would_be_settled_by_a_laboratory_or_by_dated_photographs() -> None:
    named = settling(*OPEN[0])
    assert set(named) == {"frame-magneto-optical", "frame-photographs"}
    for look in named.values():
        agreeing, other = look.outcomes
        assert agreeing.log10_lr > BEYOND
        assert other.log10_lr < -BEYOND


def test_the_body_would_be_settled_by_a_carbon_of_the_ledger() -> None:
    named = settling(*OPEN[1])
    assert "ledger-carbons" in named
    assert not set(named) & {"frame-magneto-optical", "frame-photographs"}
    assert named["ledger-carbons"].outcomes[0].log10_lr > 1


def test_what_was_asked_in_vain_or_is_lost_is_not_offered_again() -> None:
    for question in opinion_of("no-papers").weighing.conclusions:
        offered = {look.target for look in (*question.settled_by, *question.next_looks)}
        in_vain = {"ledger-at-archive", "card-at-register", "despatch_ledger", "build_card"}
        assert not offered & in_vain


@pytest.mark.parametrize(
    ("source", "wording"),
    [
        (
            "The accounts office's carbon copies of the despatch ledger",
            "the despatch ledger entry turns out to say what the claim and the other marks say",
        ),
        (
            "Magneto-optical examination of the frame rail by a laboratory",
            "the frame stamping turns out to say what the claim and the other marks say",
        ),
    ],
)
def test_the_report_names_what_would_settle_it_and_what_that_would_need_to_say(
    source: str, wording: str
) -> None:
    (line,) = [each for each in text_of("no-papers").splitlines() if each.startswith(source)]
    assert "This would support the first proposition if the " in line
    assert wording in line


def test_the_report_says_of_both_that_they_cannot_be_established() -> None:
    text = text_of("no-papers")
    after = text[text.index("-- Cannot be established") :]
    for line in (
        "- Identity: the frame: whether this frame left the factory as the claimed car",
        "- Assembly: body: whether this body was fitted to this car at the factory",
        "This cannot be established with what is on hand",
    ):
        assert line in after


def with_ledger(body_number: str) -> Casefile:
    """The case as it would stand if a carbon of the ledger's line were found."""
    casefile = case_of("no-papers")
    line = MarkReading(
        mark="despatch_ledger", text=f"700157|4|40061|M|{body_number}|18|200955", by="Ines Calder"
    )
    papers = tuple(
        paper.model_copy(update={"state": PaperState.IN_HAND})
        if paper.mark == "despatch_ledger"
        else paper
        for paper in casefile.papers
    )
    return casefile.model_copy(update={"readings": (*casefile.readings, line), "papers": papers})


def test_a_carbon_that_were_found_would_settle_the_body_as_was_said_it_would() -> None:
    """What would settle it does: the ratio that was foretold is the one that follows."""
    foretold = settling(*OPEN[1])["ledger-carbons"].outcomes[0].log10_lr
    agreeing = log10_lr(without_its_bounds(with_ledger("0998")), *OPEN[1])
    assert agreeing > 1
    assert agreeing == pytest.approx(foretold, abs=0.5)
    assert log10_lr(without_its_bounds(with_ledger("0871")), *OPEN[1]) < -BEYOND


def test_a_body_number_that_three_marks_agree_on_says_nothing_where_nothing_ties_it() -> None:
    """Whatever number they bear."""
    casefile = case_of("no-papers")
    other = casefile.model_copy(
        update={
            "readings": tuple(
                reading.model_copy(update={"text": "M 0841"})
                if reading.mark.endswith("_body_number")
                else reading
                for reading in casefile.readings
            )
        }
    )
    assert abs(log10_lr(without_its_bounds(other), *OPEN[1])) < BEYOND


def test_engine_and_plate_speak_of_each_other_and_so_far_for_the_car() -> None:
    assert log10_lr(opinion_of("no-papers"), Question.ASSEMBLY, "engine") > BEYOND


def test_statements_about_what_cannot_be_established_stay_open() -> None:
    said = {each.about: each.outcome for each in opinion_of("no-papers").disclosure}
    assert (said["frame"], said["body"]) == ("open", "open")
    assert "differs" not in said.values()


def test_what_is_lost_or_out_of_reach_stands_under_the_limits() -> None:
    limits = [each.sentence for each in opinion_of("no-papers").limitations]
    assert "The despatch ledger entry is lost." in limits
    assert "The build card is lost." in limits
    assert any("axle casing was not accessible" in each for each in limits)


def test_a_plate_kept_in_a_drawer_is_told_as_that_and_not_as_absent() -> None:
    kinds = {item.kind for item in opinion_of("no-papers").weighing.evidence}
    assert "attachment" in kinds
    assert "absence" not in kinds
    assert "The brass chassis plate is kept apart from the car." in text_of("no-papers")
