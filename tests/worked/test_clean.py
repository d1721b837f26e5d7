"""`clean`: a Sprint of 1955 on which everything agrees and some characters are worn."""

from math import log10

import pytest

from tests.worked.opened import (
    annex_of,
    conclusion,
    log10_lr,
    opinion_of,
    text_of,
)
from witnessmark.weighing import Asked, Standing

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
        (Asked.IDENTITY, "frame", 10),
        (Asked.PLATE, "plate_brass", 3),
        (Asked.ITEM, "model", 100),
        *((Asked.CORE, about, 10) for about in ASSEMBLIES),
    ],
)
def test_every_conclusion_supports_the_claim(question: Asked, about: str, least_lr: float) -> None:
    assert log10_lr(opinion_of("clean"), question, about) > log10(least_lr)


def test_nothing_does_not_fit_and_nothing_makes_it_a_matter_for_anybody() -> None:
    answer = opinion_of("clean").answer
    assert (answer.misfits, answer.stops) == ((), ())


def test_what_nothing_shows_cannot_be_established() -> None:
    works = conclusion(opinion_of("clean"), Asked.ITEM, "works")
    assert works.standing is Standing.CANNOT_BE_ESTABLISHED


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
    assert "was left empty at extras" in annex_of("clean")
    assert "Extras: _, no extras ordered" in text_of("clean")


def test_the_report_has_nothing_that_differs() -> None:
    assert "Nothing that was noted contradicts anything else." in text_of("clean")
