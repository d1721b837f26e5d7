"""The published form of a case says what the program accepts, with the meaning of each field."""

import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from witnessmark.casefile import Casefile, case_schema, parse_casefile, render_casefile

PUBLISHED = Path(__file__).resolve().parents[2] / "docs/schema/case.schema.json"
HEAD = {"format": "witnessmark-case", "format_version": 2, "id": "a", "book": "b"}


def test_the_published_schema_is_the_one_the_program_makes():
    """Write it again with bin/schemas."""
    text = json.dumps(case_schema(), indent=2, ensure_ascii=False)
    assert PUBLISHED.read_text("utf-8") == f"{text}\n"


def test_the_schema_is_one_that_other_programs_accept():
    Draft202012Validator.check_schema(case_schema())


def test_every_field_of_every_record_has_its_meaning():
    records = case_schema()["$defs"] | {"Casefile": case_schema()}
    fields = [each for name in records for each in records[name].get("properties", {}).values()]
    assert len(fields) > 90
    assert all(each["description"] for each in fields)


@pytest.mark.parametrize(
    "fields",
    [
        {},
        {"later": {"kept": 1}},
        {"opened": "2025-03-14", "claim": {"built": "1955-03"}},
        {"sites": [{"site": "s", "state": "absent", "later": 1}]},
        {"report": {"number": "26-31", "issue": 2, "date": "2025-03-20"}},
        {"report": {"issue": 0}},
        {"report": {"issue": "2"}},
        {"custody": [{"what": "card", "lent_by": "seller", "returned": None}]},
        {"custody": [{"what": "card"}]},
        {"sums": [{"amount": 1}]},
        {"sums": [{"kind": "price", "amount": 1}]},
        {"sums": [{"kind": "paid"}]},
        {"assignment": {"examiners": [{"id": "e", "name": "n", "fee_depends": None}]}},
        {"assignment": {"examiners": [{"id": "e", "name": "n", "fee_depends": "no"}]}},
        {"assignment": {"assistance": [{"who": ""}]}},
        {"id": "../x"},
        {"format_version": 3},
        {"sites": [{"site": "s", "mark": "m", "state": "found and illegible"}]},
        {"claim": {"statements": [{"about": "a", "says": "b", "origin": "first", "work": ""}]}},
        {"claim": {"statements": [{"about": "a", "says": "b", "origin": "donor"}]}},
        {"readings": [{"mark": "m", "text": "1", "again": True, "claim_known": None}]},
        {"readings": [{"mark": "m", "text": "1", "again": None}]},
        {"circumstances": {"vouched": [{"row": "r", "by": "I", "reason": ""}]}},
        {"format": "x"},
        {"book": ""},
        {"claim": {"built": "March 1955"}},
        {"sites": [{"site": "s", "state": "maybe"}]},
        {"sites": [{"site": "s"}]},
        {"stakes": {"price_asked": -1}},
        {"assignment": {"minutes_available": 1.5}},
        {"title_paper": {"number": "7" * 201}},
        {"exhibits": [{"id": "e", "file": "a.jpg", "sha256": "0" * 63}]},
        {"circumstances": {"overrides": [{"row": "r", "value": 0, "reason": "w"}]}},
    ],
)
def test_schema_and_program_agree_on_what_a_case_is(fields):
    case = HEAD | fields
    accepts = Draft202012Validator(case_schema()).is_valid(case)
    assert accepts == (not parse_casefile(json.dumps(case), "case.json").problems)


@pytest.mark.parametrize("missing", sorted(HEAD))
def test_schema_and_program_miss_the_same_fields(missing):
    case = {name: value for name, value in HEAD.items() if name != missing}
    assert not Draft202012Validator(case_schema()).is_valid(case)
    assert parse_casefile(json.dumps(case), "case.json").problems


def test_a_case_as_it_is_written_fits_the_schema():
    case = json.loads(render_casefile(Casefile(id="sprint", book="tarvane")))
    assert list(Draft202012Validator(case_schema()).iter_errors(case)) == []
