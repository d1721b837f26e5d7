"""A case of format 1 is read as one of format 2, or converted, and nothing of it is lost."""

import json
from pathlib import Path

import pytest

from witnessmark.casefile import Casefile, parse_casefile, records, render_casefile
from witnessmark.casefile.upgrade import (
    NEW_FIELDS,
    changes_from_format_1,
    upgraded_text,
)
from witnessmark.documents.changes import with_changes

KEPT = Path(__file__).resolve().parents[1] / "report/kept/opinion-1.json"
OLD = """{"id": "sprint",  "format": "witnessmark-case",
 "format_version" : 1, "book": "tarvane", "shelf": [7, {"again": 1}],
 "claim": {"statements": [
   {"original":true, "says": "Its own.", "about": "frame"},
   {"about": "engine", "says": "Not its \\u0022own\\u0022.", "told_on": 1, "original" : false},
   {"about": "axle", "says": "?", "original": null}, {"about": "body", "says": "."}]}}
"""


def upgraded(text):
    parsed = parse_casefile(text, "case.json")
    assert parsed.problems == ()
    return upgraded_text(parsed.places, parsed.changes)


def test_only_what_the_format_changed_is_written_anew():
    new = OLD.replace('"format_version" : 1', '"format_version" : 2')
    new = new.replace('"original":true', '"origin":"first"')
    new = new.replace('"original" : false', '"origin" : "replaced"')
    assert upgraded(OLD) == new.replace('"original": null', '"origin": ""')


def test_line_ends_and_letters_beyond_ascii_stay():
    text = OLD.replace("\n", "\r\n").replace("Its own.", "Naïve, “its own” – 車.")
    assert upgraded(text).count("\r\n") == text.count("\n")
    assert "Naïve, “its own” – 車." in upgraded(text)


def test_a_case_of_format_1_is_read_as_what_it_becomes():
    """The words of its statements, its unknown fields, and no word of a fault."""
    old, new = parse_casefile(OLD, "case.json"), parse_casefile(upgraded(OLD), "case.json")
    assert old.casefile == new.casefile
    assert [each.origin.value for each in new.casefile.claim.statements] == [
        "first", "replaced", "", ""
    ]  # fmt: skip
    assert new.casefile.claim.statements[1].unknown == {"told_on": 1}
    assert new.casefile.unknown == {"shelf": [7, {"again": 1}]}
    assert (new.problems, new.changes) == ((), ())


def test_a_case_that_was_brought_over_is_left_alone():
    assert upgraded(upgraded(OLD)) == upgraded(OLD)
    assert parse_casefile(render_casefile(parse_casefile(OLD, "x").casefile), "x").changes == ()


def with_every_new_field():
    """A case of format 1 in which somebody had each of the fields that format 2 reads."""
    case = json.loads(OLD)
    case["sites"] = [{"site": "s", "state": "read"}]
    case["readings"] = [{"mark": "m", "text": "1"}]
    case["looks"] = [{"site": "s", "outcome": "factory"}]
    case["papers"] = [{"mark": "m", "state": "lost"}]
    case["circumstances"] = {"notes": "n"}
    case["assignment"] = {"examiners": [{"id": "e", "name": "n"}]}
    for path, fields in NEW_FIELDS.items():
        at = case
        for name in path:
            at = at[name]
        at = at[0] if isinstance(at, list) else at
        at |= {field: ["anything", *path] for field in fields}
    case["looks"][0]["again_of_format_1"] = "taken"
    return case


def test_fields_that_nobody_read_before_are_not_read_now():
    """They are kept under another name: what was typed there meant nothing."""
    case = with_every_new_field()
    parsed = parse_casefile(json.dumps(case), "case.json")
    assert parsed.problems == ()
    now = json.loads(upgraded(json.dumps(case)))
    assert now["looks"][0] == {
        "site": "s",
        "outcome": "factory",
        "again_of_format_1_": ["anything", "looks"],
        "again_of_format_1": "taken",
    }
    assert now["circumstances"] == {
        "notes": "n",
        "vouched_of_format_1": ["anything", "circumstances"],
    }
    first = now["claim"]["statements"][0]
    assert (first["origin"], first["origin_of_format_1"]) == (
        "first",
        ["anything", "claim", "statements"],
    )
    assert parsed.casefile.readings[0].claim_known is None
    assert parsed.casefile == parse_casefile(json.dumps(now), "case.json").casefile


def test_the_new_fields_are_those_that_a_case_of_format_1_had_not():
    """By the case in an Opinion that was kept in format 1: all fields of that day stand in it."""
    case = json.loads(KEPT.read_text("utf-8"))["casefile"]
    had = {
        ("sites",): (records.SiteSeen, case["sites"][0]),
        ("readings",): (records.MarkReading, case["readings"][0]),
        ("looks",): (records.LookSeen, case["looks"][0]),
        ("claim", "statements"): (records.Statement, case["claim"]["statements"][0]),
        ("circumstances",): (records.Circumstances, case["circumstances"]),
        ("assignment",): (records.Assignment, case["assignment"]),
        ("assignment", "examiners"): (records.Examiner, case["assignment"]["examiners"][0]),
        ("papers",): (records.Paper, case["papers"][0]),
        ("claim",): (records.Claim, case["claim"]),
        (): (Casefile, case),
    }
    for path, (record, fields) in had.items():
        assert set(NEW_FIELDS.get(path, ())) == set(record.columns) - set(fields), path


@pytest.mark.parametrize("typed", ['"yes"', "1", "0", "[]"])
def test_an_original_that_is_neither_true_false_nor_null_is_told_where_it_stands(typed):
    text = OLD.replace('"original":true', f'"original":{typed}')
    parsed = parse_casefile(text, "case.json")
    (problem,) = parsed.problems
    assert parsed.casefile is None
    assert (problem.source.line, problem.source.column) == (4, 16)
    assert problem.expected() == "true or false, or null"


@pytest.mark.parametrize(
    "fields",
    [
        {"claim": 3},
        {"claim": {"statements": "s"}},
        {"claim": {"statements": [7]}},
        {"sites": {"site": "s"}},
        {"readings": [None]},
        {"circumstances": []},
    ],
)
def test_what_is_of_a_wrong_kind_is_told_as_it_is_in_the_present_format(fields):
    old = {"format": "witnessmark-case", "format_version": 1, "id": "a", "book": "b"} | fields
    told = [
        [each.render() for each in parse_casefile(json.dumps(case), "case.json").problems]
        for case in (old, old | {"format_version": 2})
    ]
    assert told[0] == [
        each.replace('"format_version": 2', '"format_version": 1') for each in told[1]
    ]
    assert told[0]


def test_values_are_brought_over_in_their_order():
    """As a kept Opinion is read, of which there is no text with places."""
    case = json.loads(OLD)
    made = with_changes(case, changes_from_format_1(case))
    assert json.dumps(made) == json.dumps(json.loads(upgraded(OLD)))
    assert case == json.loads(OLD), "the document itself is not changed"
