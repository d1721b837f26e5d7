"""The published shape of a decoding."""

import json

from witnessmark.decoding import render_decoding


def test_a_decoding_has_the_published_shape(decoded):
    rendered = render_decoding(decoded("plate", "sP|7OO143|[1]1"))
    assert list(rendered) == [
        "book", "mark", "reading", "normalised", "problems", "alternatives",
        "not_listed_share", "unread", "unread_in_fields", "missing", "slip", "around",
        "changes", "deciding_column", "notes", "of_car", "cars",
    ]  # fmt: skip
    assert (rendered["book"], rendered["mark"]) == ("tarvane-test", "plate")
    assert (rendered["reading"], rendered["normalised"]) == ("sP|7OO143|[1]1", "SP | 700143 | 11")
    assert rendered["problems"] == []
    assert rendered["missing"] == [{"field": "extras", "name": "extras"}]
    assert rendered["alternatives"][0]["fields"][0] == {
        "field": "type",
        "name": "type",
        "code": "SP",
        "says": "model",
        "value": "solent-sprint",
        "meaning": "Solent Sprint",
        "listed": True,
        "placeholder": False,
        "spans": [],
        "other_spans": [],
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


def test_every_date_that_a_code_may_mean_is_a_span(decoded):
    """The last figure of a year: 1953 or 1963."""
    date = render_decoding(decoded("casting", "14E3"))["alternatives"][0]["fields"][0]
    assert date["spans"] + date["other_spans"] == [
        {"first": "1953-05-14", "last": "1953-05-14"},
        {"first": "1963-05-14", "last": "1963-05-14"},
    ]


def test_what_is_nothing_like_the_mark_has_no_share(decoded):
    """Words for a plate: the slip says so, and all that was typed is without a meaning."""
    rendered = render_decoding(decoded("frame", "hello world"))
    assert rendered["slip"]["kind"] == "unlike"
    assert (rendered["alternatives"], rendered["not_listed_share"]) == ([], None)
    assert (rendered["missing"], rendered["unread_in_fields"], rendered["cars"]) == ([], [], None)
    assert rendered["unread"] == rendered["normalised"]


def test_words_around_a_reading_are_as_they_were_typed(decoded):
    """Behind the number, in brackets."""
    rendered = render_decoding(decoded("frame", "SP700143 (rail underneath)"))
    assert " ".join(rendered["around"]) in ("rail underneath", "underneath")
    assert rendered["alternatives"][0]["fields"][-1]["value"] == "700143"
