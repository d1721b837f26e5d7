"""`clean`: a Sprint of 1955 on which everything agrees and some characters are worn."""

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
from witnessmark.casefile.records import Casefile
from witnessmark.weighing import Question

BEYOND = log10(3)
ASSEMBLIES = ("body", "engine", "gearbox", "axle")


def test_nothing_on_the_car_differs() -> None:
    findings = opinion_of("clean").findings
    assert [f.observation for f in findings if f.outcome.value == "differ"] == []
    assert len([f for f in findings if f.outcome.value == "agree"]) > 50


def test_what_is_worn_is_left_open_and_not_taken_as_agreeing() -> None:
    """A 6 or 9 on the wing, a 3 or 8 on the axle, and a month that cannot be read."""
    undecided = [f for f in opinion_of("clean").findings if f.outcome.value == "undecided"]
    shown = {s.shown for f in undecided for s in f.subjects}
    assert {"0[69]31", "320[38]6", "10?5"} <= shown
    assert {f.topic for f in undecided} == {"body_number", "axle_number", "casting-to-despatch"}


@pytest.mark.parametrize(
    ("question", "about", "least_lr"),
    [
        (Question.IDENTITY, "frame", 10),
        (Question.PLATE, "plate_brass", 10),
        (Question.PAPER, "despatch_ledger", 3),
        (Question.PAPER, "build_card", 3),
        (Question.CONFIGURATION, "car", 3),
        *((Question.ASSEMBLY, about, 10) for about in ASSEMBLIES),
    ],
)
def test_every_conclusion_supports_the_claim(
    question: Question, about: str, least_lr: float
) -> None:
    found = conclusion(opinion_of("clean"), question, about)
    assert found.lr.log10_lr > log10(least_lr)
    assert found.standing is Standing.ANSWERED


def test_there_is_a_conclusion_for_each_of_these_and_no_other() -> None:
    conclusions = opinion_of("clean").weighing.conclusions
    assert [(c.question.value, c.about) for c in conclusions] == [
        ("identity", "frame"),
        ("plate", "plate_brass"),
        ("paper", "despatch_ledger"),
        ("paper", "build_card"),
        ("configuration", "car"),
        ("assembly", "body"),
        ("assembly", "engine"),
        ("assembly", "gearbox"),
        ("assembly", "axle"),
    ]


def test_the_support_is_not_beyond_what_assumed_rates_allow() -> None:
    """A careful renumbering could show the same: bounds that reach to the other side say so."""
    identity = conclusion(opinion_of("clean"), Question.IDENTITY).lr
    assert identity.log10_lr < 3
    assert identity.log10_lr_low < 0


def test_frame_and_plate_drive_the_identity() -> None:
    """What was read there, how it looks, and the card that says the same."""
    first = conclusion(opinion_of("clean"), Question.IDENTITY).contributions[:5]
    about = {c.item.about for c in first}
    assert about == {"frame_number", "frame_rail", "plate_brass", "scuttle", "build_card"}
    assert all(c.log10_lr_change > 0 for c in first)


def without(*marks: str) -> Casefile:
    """The case with these marks and papers not read."""
    casefile = case_of("clean")
    return casefile.model_copy(
        update={
            "readings": tuple(r for r in casefile.readings if r.mark not in marks),
            "papers": tuple(paper for paper in casefile.papers if paper.mark not in marks),
        }
    )


def test_ledger_and_card_and_the_week_of_the_body_tie_it_to_the_frame() -> None:
    """Without them the number is tied to nothing, whatever the three marks agree on."""
    body = (Question.ASSEMBLY, "body")
    whole = log10_lr(opinion_of("clean"), *body)
    unpapered = log10_lr(without_its_bounds(without("despatch_ledger", "build_card")), *body)
    untied = log10_lr(
        without_its_bounds(without("despatch_ledger", "build_card", "body_week")), *body
    )
    assert whole > 2
    assert BEYOND < unpapered < whole - 1, "the week in which it left the coachbuilder fits"
    assert abs(untied) < BEYOND


def test_every_mark_speaks_of_the_claimed_car() -> None:
    groups = opinion_of("clean").weighing.groups
    assert [group.car for group in groups] == ["claimed car"]
    assert len(groups[0].marks) == 10


def test_what_the_owner_said_agrees_and_what_is_no_part_stays_open() -> None:
    said = {each.about: each.outcome for each in opinion_of("clean").disclosure}
    assert said == {
        "frame": "agrees",
        "body": "agrees",
        "engine": "agrees",
        "gearbox": "agrees",
        "axle": "agrees",
        "car": "open",
    }


def test_an_empty_window_says_what_the_book_says_of_it() -> None:
    assert "was left empty at extras" in text_of("clean")
    assert "No extras ordered" in text_of("clean")


def test_the_report_supports_without_promising() -> None:
    text = text_of("clean")
    assert "Every question that has a likelihood ratio is answered beyond 3 either way" in text
    assert "support for the second proposition" not in [
        line.split(": ")[-1] for line in text.splitlines() if line.startswith("LR ")
    ]
    assert "What differs" not in text
