"""`witnessmark next`."""

import json

import pytest

pytestmark = pytest.mark.usefixtures("boundless")


def test_looks_come_with_what_they_tell_and_what_they_cost(type_in, demo_folder):
    """witnessmark next demo/no-papers --minutes 30"""
    ended = type_in("next", "demo/no-papers", "--minutes", "30")
    assert (ended.code, ended.err) == (0, "")
    assert "what to look at in 30 minutes" in " ".join(ended.out.split())
    looks = ended.out.split("The looks")[1].split("The best set")[0]
    assert "minutes" in looks
    assert "bits" in looks
    assert "LR afterwards" in looks


def test_the_usual_cautions_stand_with_the_looks(type_in, demo_folder):
    """Nobody is sent under a car without them."""
    ended = type_in("next", "demo/no-papers", "--minutes", "30")
    assert "Lifting" in ended.out
    assert "Asbestos" in ended.out


def test_the_best_set_keeps_to_the_minutes_given(type_in, demo_folder):
    """For 10 and 240 minutes, and no less is told in more time."""
    bits: dict[tuple[str, str], float] = {}
    for minutes in (10, 240):
        ended = type_in("next", "demo/no-papers", "--minutes", str(minutes), "--json")
        outline = json.loads(ended.out)
        assert list(outline) == ["case", "minutes", "questions"]
        assert outline["minutes"] == minutes
        for question in outline["questions"]:
            best = question["best_set"]
            if best is not None:
                key = (question["question"], question["about"])
                assert best["minutes"] <= best["minutes_given"] == minutes
                assert best["bits"] >= bits.get(key, 0) - 1e-9
                bits[key] = best["bits"]
    assert bits


def test_looks_are_in_order_of_bits_a_minute(type_in, demo_folder):
    """The next one to take stands first."""
    outline = json.loads(type_in("next", "demo/no-papers", "--minutes", "30", "--json").out)
    looks = next(q["next_looks"] for q in outline["questions"] if len(q["next_looks"]) > 1)
    rates = [look["bits"] / max(look["minutes"] + look["access_minutes"], 1) for look in looks]
    assert rates == sorted(rates, reverse=True)
