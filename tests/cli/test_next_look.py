"""`witnessmark next`."""

import json

import pytest


def test_looks_come_with_what_they_tell_and_what_they_cost(type_in, demo_folder):
    """witnessmark next demo/no-papers --minutes 30"""
    ended = type_in("next", "demo/no-papers", "--minutes", "30")
    assert (ended.code, ended.err) == (0, "")
    assert "what to look at in 30 minutes" in " ".join(ended.out.split())
    fits = ended.out.split("Fits, 26 minutes")[1]
    assert "Right-hand frame rail" in fits.split("Beyond this visit")[0]
    whole = type_in("next", "demo/no-papers", "--minutes", "30", "--all").out
    assert "splash guard" in whole.split("Fits, 26 minutes")[1].split("Beyond this visit")[0]


def test_what_did_not_fit_is_read_again_first_with_what_follows_if_it_stands(type_in, demo_folder):
    """witnessmark next demo/altered --minutes 30"""
    out = type_in("next", "demo/altered", "--minutes", "30").out
    first = out.split("Fits, 22 minutes")[1].split("Takes longer")[0]
    assert " again" in first
    assert "If it reads the same again, " in first


def test_the_usual_cautions_stand_with_the_looks(type_in, demo_folder):
    """Nobody is sent under a car without them."""
    ended = type_in("next", "demo/no-papers", "--minutes", "30")
    assert "Lifting" in ended.out
    assert "Asbestos" in ended.out


def test_what_fits_keeps_to_the_minutes_given(type_in, demo_folder):
    """For 10 and 240 minutes, and no less fits into more time."""
    fitting = []
    for minutes in (10, 240):
        ended = type_in("next", "demo/altered", "--minutes", str(minutes), "--json")
        outline = json.loads(ended.out)
        assert list(outline) == ["case", "minutes", "stops", "looks", "in_time"]
        assert outline["minutes"] == minutes
        fitting.append(set(outline["in_time"]))
    assert fitting[0] < fitting[1]


def test_looks_are_in_order_of_what_did_not_fit_and_then_of_their_minutes(type_in, demo_folder):
    """The next one to take stands first; none is within reach after one that is not."""
    outline = json.loads(type_in("next", "demo/altered", "--minutes", "30", "--json").out)
    kinds = ["again", "reading", "place", "paper", "source"]
    order = [
        (
            not look["is_reachable"],
            kinds.index(look["kind"]),
            # What is read again stands in the order of what it moves.
            look["kind"] != "again" and look["minutes"] + look["access_minutes"],
        )
        for look in outline["looks"]
    ]
    assert order == sorted(order)
    assert {look["kind"] for look in outline["looks"]} >= {"again", "reading", "source"}


def test_without_minutes_those_of_the_case_count_and_none_are_asked_for(type_in, demo_folder):
    """witnessmark next demo/no-papers"""
    path = demo_folder / "no-papers/case.json"
    case = json.loads(path.read_text())
    for minutes in (40, None):
        case["assignment"]["minutes_available"] = minutes
        path.write_text(json.dumps(case))
        ended = type_in("next", "demo/no-papers")
        if minutes:
            assert f"what to look at in {minutes} minutes" in " ".join(ended.out.split())
    assert (ended.code, ended.out) == (2, "")
    assert "expected --minutes 30, or `witnessmark case set" in ended.err


@pytest.mark.parametrize("command", ["next", "field-sheet"])
@pytest.mark.parametrize("typed", ["0", "10001", "half an hour"])
def test_minutes_that_nobody_has_are_told(type_in, command, typed):
    """witnessmark next demo/clean --minutes 0"""
    ended = type_in(command, "demo/clean", "--minutes", typed)
    assert (ended.code, ended.out) == (2, "")
    assert ended.err == (
        f"--minutes: {typed!r} is not a number of minutes\n"
        f"    {typed}\n"
        f"    {'^' * len(typed)}\n"
        "expected a whole number from 1 to 10,000\n"
    )
