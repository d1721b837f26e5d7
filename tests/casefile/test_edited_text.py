"""A document with other values in it: all else stays as it was typed."""

import json
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from tests.examples import tried_on
from witnessmark.documents.json_edit import changed_json, taken_over
from witnessmark.documents.json_scan import scan_json

PLAIN = st.none() | st.booleans() | st.integers(-9, 9) | st.floats(-2, 2) | st.text(max_size=3)
VALUES: st.SearchStrategy[Any] = st.recursive(
    PLAIN,
    lambda each: (
        st.lists(each, max_size=3) | st.dictionaries(st.text(max_size=2), each, max_size=3)
    ),
)
OBJECTS = st.dictionaries(st.sampled_from("abcd"), VALUES)
STEPS = st.sampled_from([None, 2, "\t"])


def edited(text: str, now: Any) -> str:
    return changed_json(scan_json(text, "case.json").places, json.loads(text), now)


@tried_on(500)
@given(OBJECTS, OBJECTS, STEPS)
def test_the_text_says_what_it_is_to_say(was: Any, now: Any, step: Any) -> None:
    text = json.dumps(was, indent=step)
    found = json.loads(edited(text, now))
    assert json.dumps(found, sort_keys=True) == json.dumps(now, sort_keys=True)


def test_what_is_equal_stays_to_the_byte() -> None:
    """Spaces, escapes, the order of fields, numbers as they were typed."""
    text = '{ "b" : 1.50, "a":[ {"x": "\\u00e9" }\n ],\n  "z": {}}'
    now = {"b": 1.5, "a": [{"x": "é"}, {"y": [1]}], "z": {"k": "v"}, "new": None}
    assert edited(text, now) == (
        '{ "b" : 1.50, "a":[ {"x": "\\u00e9" }, {"y": [1]}\n ],\n  "z": {\n    "k": "v"\n  },\n'
        '  "new": null}'
    )


def test_only_what_differs_in_the_record_is_taken_over() -> None:
    """A field left to its default stays unwritten; unknown ones stay; a gone key goes."""
    typed = {"claim": {"items": {"paint": "x", "trim": "y"}, "later": 1}, "id": "a"}
    before = {"id": "a", "title": "", "claim": {"items": {"paint": "x", "trim": "y"}, "text": ""}}
    now = {"id": "a", "title": "", "claim": {"items": {"trim": "z"}, "text": "t"}, "looks": [1]}
    assert taken_over(typed, before, now) == {
        "claim": {"items": {"trim": "z"}, "later": 1, "text": "t"},
        "id": "a",
        "looks": [1],
    }
