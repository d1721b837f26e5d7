"""The world is what it says: shares add up, draws repeat, cases are ordinary cases."""

import json
from itertools import combinations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchmarks.proving import cases, reading
from benchmarks.proving.cases import ground_of
from benchmarks.proving.days import FORMS, N_DAYS, codes
from benchmarks.proving.factory import WAITS, Factory, demo_book
from benchmarks.proving.lives import NOTHING, draw_lives
from benchmarks.proving.tool import wrong_book
from benchmarks.proving.world import KINDS, PLAIN, WORLDS, world_named
from tests.examples import tried_on
from witnessmark.casefile import open_case, unread_fields
from witnessmark.examination import check_case

FACTORY = Factory(demo_book(), 1)
HOW = st.tuples(st.floats(0.0, 0.2), st.floats(0.0, 0.4), st.floats(0.0, 0.3))


@given(st.sampled_from("0123456789"), HOW)
@tried_on(60)
def test_all_that_can_be_read_of_a_character_adds_up_to_one(meant, how):
    """A figure, one worn away, or one of two; by one reader."""
    alphabet = reading.DIGITS
    every = [*alphabet, "?", *("".join(pair) for pair in combinations(alphabet, 2))]
    place = alphabet.index(meant)
    total = sum(reading.likelihood((c,), alphabet, how, False)[place] for c in every)
    assert total == pytest.approx(1.0)


@given(st.sampled_from("EM5"), st.booleans())
@tried_on(6)
def test_all_that_two_readers_can_read_adds_up_to_one(meant, by_hand):
    alphabet, how = "EM5", (0.05, 0.1, 0.2)
    every = [*alphabet, "?", *("".join(sorted(pair)) for pair in combinations(alphabet, 2))]
    both = [(a, b) for a in every for b in every] + [("~", "~")]
    place = alphabet.index(meant)
    total = sum(reading.likelihood(c, alphabet, how, by_hand)[place] for c in both)
    assert total == pytest.approx(1.0)


def test_what_is_read_comes_as_often_as_its_likelihood_says():
    """Ten thousand readings of a worn 3 against the shares worked out."""
    rng, how = np.random.default_rng(1), reading.shares(1, False, 1.0)
    read = [reading.read_places("3", reading.DIGITS, how, True, 1, rng)[0] for _ in range(10_000)]
    for cell in ("3", "8", "?", "38", "~"):
        expected = reading.likelihood((cell,), reading.DIGITS, how, True)[3]
        seen = sum(each == (cell,) for each in read) / len(read)
        assert seen == pytest.approx(expected, abs=4 * np.sqrt(expected / 10_000) + 1e-9)


@pytest.mark.parametrize("part", WAITS)
def test_a_part_is_made_on_some_day_before_the_car(part):
    assert WAITS[part].sum() == pytest.approx(1.0)
    assert FACTORY.made(part).sum(axis=1) == pytest.approx(np.ones(len(FACTORY.slices)))


def test_every_car_is_of_one_slice_and_every_slice_of_one_kin():
    assert FACTORY.share.sum() == pytest.approx(1.0)
    assert FACTORY.month_share.sum(axis=1) == pytest.approx(np.ones(len(FACTORY.kin)))
    for table in FACTORY.month_of_number:
        assert table.sum(axis=1) == pytest.approx(np.ones(len(table)))


@pytest.mark.parametrize("form", FORMS)
def test_every_day_is_written_in_characters_of_one_width(form):
    assert codes(form).shape[0] == N_DAYS


@pytest.mark.parametrize("world", WORLDS, ids=lambda world: world.name)
def test_the_shares_of_a_world_add_up(world):
    for shares in (world.kinds, world.skill, world.restored):
        assert sum(shares) == pytest.approx(1.0)


@pytest.mark.parametrize("era", cases.ERAS)
def test_lives_come_as_often_as_the_world_says(era):
    """Kept cars: their engines own as often as the world has it."""
    kinds = np.zeros(20_000, dtype=np.int8)
    lives = draw_lives(PLAIN, era, kinds, np.random.default_rng(2))
    assert (lives.engine == 0).mean() == pytest.approx(PLAIN.engine_own[0], abs=0.02)
    assert (lives.shows["ledger"] != NOTHING).mean() == pytest.approx(PLAIN.ledger, abs=0.02)


@pytest.mark.parametrize("world", ["plain", "photographs only", "saloon", "frame"])
def test_cases_are_ordinary_cases_without_a_fault(world, tmp_path):
    """The check of cases finds nothing in them, nor any field that nobody reads."""
    cases.write_cases(world_named(world), 5, 9, tmp_path)
    book = ground_of(world_named(world), 5).book
    for folder in sorted(each for each in tmp_path.iterdir() if each.is_dir()):
        opened = open_case(folder)
        assert opened.problems == ()
        assert check_case(opened.casefile, opened.places, book) == ()
        assert list(unread_fields(opened.casefile, opened.places)) == []


@pytest.mark.parametrize("world", ["plain", "saloon", "frame"])
@pytest.mark.parametrize("number", range(3))
def test_a_seed_makes_the_same_case_again(world, number):
    one, other = (ground_of(world_named(world), 5).case(number) for _ in range(2))
    assert json.dumps(one.document) == json.dumps(other.document)
    assert one.truth == other.truth


def test_written_cases_stand_beside_their_truth(tmp_path):
    cases.write_cases(PLAIN, 3, 4, tmp_path)
    told = json.loads((tmp_path / "truth.json").read_text("utf-8"))
    assert told["world"] == "plain"
    assert len(told["cases"]) == 4
    for name, truth in told["cases"].items():
        document = json.loads((tmp_path / name / "case.json").read_text("utf-8"))
        assert document["id"] == name
        assert truth["kind"] in KINDS
        assert "identity" not in json.dumps(document)


def test_the_wrong_book_is_wrong_in_a_few_rows():
    right, wrong = demo_book(), wrong_book(1)
    assert 0 < len(right.codes) - len(wrong.codes) < 0.2 * len(right.codes)
    assert sum(a != b for a, b in zip(right.series, wrong.series, strict=True)) > 0
