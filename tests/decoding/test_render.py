"""The published shape of a decoding."""

import json

from witnessmark.decoding import render_decoding


def test_a_decoding_has_the_published_shape(decoded):
    rendered = render_decoding(decoded("plate", "sP|7OO143|[1]1"))
    assert list(rendered)[:8] == [
        "book",
        "mark",
        "reading",
        "normalised",
        "problems",
        "alternatives",
        "not_listed_share",
        "unread",
    ]
    assert (rendered["book"], rendered["mark"]) == ("tarvane-test", "plate")
    assert (rendered["reading"], rendered["normalised"]) == ("sP|7OO143|[1]1", "SP | 700143 | 11")
    assert rendered["problems"] == []
    assert rendered["missing"] == ["extras"]
    assert rendered["alternatives"][0]["fields"][0] == {
        "field": "type",
        "code": "SP",
        "says": "model",
        "value": "solent-sprint",
        "meaning": "Solent Sprint",
        "basis": "invented",
        "source": "invented for a test",
    }
    assert rendered["changes"][0] == {
        "column": 1,
        "typed": "s",
        "normalised": "S",
        "reason": "a small letter, read as a capital",
    }


def test_it_survives_the_way_through_json(decoded):
    rendered = render_decoding(decoded("casting", "14?5"))
    assert json.loads(json.dumps(rendered)) == rendered


def test_a_problem_says_where_and_what(decoded):
    rendered = render_decoding(decoded("frame", "SP70[0143"))
    assert rendered["problems"] == [
        {
            "place": "reading:1:5",
            "column": 5,
            "sentence": "this [ is never closed",
            "expected": "two or more characters such as [38], or ? for a place that cannot be read",
        }
    ]
