"""An Opinion leaves the program as JSON that its published schema describes."""

import json
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from tests.examination.cars import opinion_on, sprint
from tests.worked.opened import CARS, book_and_version, case_of, opinion_of, unsteadied
from witnessmark.examination import examine, opinion_schema, render_opinion

ROOT = Path(__file__).resolve().parents[2]
PUBLISHED = ROOT / "docs/schema/opinion.schema.json"

every_car = pytest.mark.parametrize("car", CARS)


@cache
def document_of(car: str) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(render_opinion(opinion_of(car)))
    return found


def faults(document: dict[str, Any]) -> list[str]:
    """What the schema finds wrong with a document."""
    found = Draft202012Validator(opinion_schema()).iter_errors(document)
    return [f"{error.json_path}: {error.message}" for error in found]


def test_the_published_schema_is_the_one_the_program_makes() -> None:
    """Write it again with `make docs`."""
    assert json.loads(PUBLISHED.read_text("utf-8")) == opinion_schema()


def test_the_schema_is_one_that_other_programs_accept() -> None:
    Draft202012Validator.check_schema(opinion_schema())


@every_car
def test_an_opinion_is_as_the_schema_says(car: str) -> None:
    assert faults(document_of(car)) == []


def test_a_document_that_is_not_an_opinion_is_not_as_the_schema_says() -> None:
    """So that the test above can fail."""
    document = document_of("clean")
    assert faults(document | {"format": "another"})
    assert faults(document | {"sites": [{"site": 3}]})
    assert faults({key: value for key, value in document.items() if key != "answer"})


@every_car
def test_format_and_version_come_first_and_then_the_opinion_in_its_order(car: str) -> None:
    assert list(document_of(car)) == [
        "format",
        "format_version",
        "casefile",
        "book",
        "context",
        "sites",
        "decodings",
        "findings",
        "answer",
        "steadiness",
        "disturbed",
        "looks",
        "disclosure",
        "limitations",
        "problems",
        "names",
        "beside",
        "title",
        "declared",
        "declared_questions",
    ]
    assert document_of(car)["format"] == "witnessmark-opinion"
    assert document_of(car)["format_version"] == 3


@every_car
def test_every_ratio_of_the_opinion_stands_in_the_document_with_its_band(car: str) -> None:
    opinion, document = opinion_of(car), document_of(car)
    for told, conclusion in zip(
        document["answer"]["conclusions"], opinion.answer.conclusions, strict=True
    ):
        assert told["question"] == conclusion.question.value
        assert (told["about"], told["log10_lr"]) == (conclusion.about, conclusion.log10_lr)
        assert told["pair"] == {"first": conclusion.pair.first, "second": conclusion.pair.second}
    if opinion.steadiness is None:
        assert (car, document["steadiness"]) != ("altered", None)
        return
    bands = [
        (each["question"], each["about"], each["log10_lr_low"], each["turned"])
        for each in document["steadiness"]["answers"]
    ]
    assert bands == [
        (each.question.value, each.about, each.log10_lr_low, each.turned)
        for each in opinion.steadiness.answers
    ]
    assert document["steadiness"]["draws"] == opinion.steadiness.draws


@every_car
def test_the_case_stands_in_the_opinion_as_it_was_given(car: str) -> None:
    given = json.loads((ROOT / "demo" / car / "case.json").read_text("utf-8"))
    rendered = document_of(car)["casefile"]
    assert [reading["text"] for reading in rendered["readings"]] == [
        reading["text"] for reading in given["readings"]
    ]
    assert rendered["claim"]["items"] == given["claim"]["items"]


def test_what_the_case_knows_and_this_version_does_not_is_kept() -> None:
    opinion = opinion_on(sprint(colour_of_the_sky="grey"))
    assert json.loads(render_opinion(opinion))["casefile"]["colour_of_the_sky"] == "grey"


def test_a_problem_stands_in_the_document_as_its_text_with_its_place() -> None:
    opinion = opinion_on(sprint({"frame_number": "4 7001[48"}))
    document = json.loads(render_opinion(opinion))
    assert document["problems"] == [
        "frame_number:1:7: this [ is never closed\n"
        "    4 7001[48\n"
        "          ^\n"
        "expected two or more characters such as [38], or ? for a place that cannot be read"
    ]
    assert faults(document) == []


def test_the_same_case_gives_the_same_text_twice() -> None:
    again = examine(case_of("altered"), *book_and_version(), steady=False)
    assert render_opinion(again) == render_opinion(unsteadied(case_of("altered")))


def test_no_number_is_written_that_json_does_not_know() -> None:
    """Neither infinity nor "not a number", whatever was read."""
    worn = opinion_on(
        sprint({"plate_brass": "…", "frame_number": "? ??????", "engine_number": "~"})
    )
    text = render_opinion(worn)
    assert "Infinity" not in text
    assert "NaN" not in text
    assert faults(json.loads(text)) == []
