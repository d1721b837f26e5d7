"""Two changes of one case: disjoint ones are both there, and nothing typed is lost."""

import copy
import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.examples import tried_on
from witnessmark.store.meeting import ABSENT, is_same, leaves, merge

READINGS = [
    {"mark": "engine_number", "text": "V206", "by": "calder"},
    {"mark": "engine_number", "text": "V20?", "by": "brook"},
]


def with_readings(*changes, added=()):
    return {"readings": [*({**a, **b} for a, b in zip(READINGS, changes, strict=True)), *added]}


BASE = with_readings({}, {})


def test_readings_are_told_apart_by_mark_and_reader():
    """Not by their order: one was taken out above the other."""
    theirs = {"readings": READINGS[1:]}
    mine = with_readings({}, {"text": "V207"})
    found = merge(BASE, theirs, mine)
    assert found.value == {"readings": [{**READINGS[1], "text": "V207"}]}
    assert found.beside == ()


def test_further_readings_of_one_mark_by_one_reader_stay_apart():
    second = {"mark": "engine_number", "text": "V208", "by": "calder", "again": True}
    third = {"mark": "engine_number", "text": "V209", "by": "calder", "again": True, "note": "dry"}
    base = with_readings({}, {}, added=[second])
    found = merge(base, with_readings({}, {}, added=[second, third]),
                  with_readings({}, {}, added=[{**second, "text": "V2?8"}]))  # fmt: skip
    assert found.value["readings"][2:] == [{**second, "text": "V2?8"}, third]
    assert found.beside == ()


def test_a_site_that_both_entered_is_one_site():
    theirs = {"sites": [{"site": "pad", "state": "read"}]}
    mine = {"sites": [{"site": "pad", "mark": "", "state": "absent", "reason": "ground away"}]}
    found = merge({"sites": []}, theirs, mine)
    (difference,) = found.beside
    assert difference.path == ("sites", 0, "state")
    assert (difference.base, difference.theirs, difference.mine) == (ABSENT, "read", "absent")
    (site,) = found.value["sites"]
    assert site == {"site": "pad", "mark": "", "state": "read", "reason": "ground away"}


def test_sums_and_custody_that_both_entered_are_all_there():
    base = {"sums": [{"kind": "asked", "amount": 1}]}
    theirs = {"sums": [*base["sums"], {"kind": "paid", "amount": 2}]}
    mine = {"sums": [{"kind": "asked", "amount": 3}, {"kind": "paid", "amount": 4}]}
    found = merge(base, theirs, mine)
    assert [each["amount"] for each in found.value["sums"]] == [3, 2, 4]
    assert found.beside == ()


def test_pictures_of_a_reading_are_those_that_either_bound_to_it():
    found = merge(
        {"exhibits": ["a", "b"]}, {"exhibits": ["a", "b", "c"]}, {"exhibits": ["b", "d", "c"]}
    )
    assert found.value == {"exhibits": ["b", "c", "d"]}


def test_two_rectangles_are_never_mixed():
    def of(*lefts):
        drawn = [{"left": each, "top": each, "width": 9, "height": 9} for each in lefts]
        return {"exhibits": [{"id": "a", "number_regions": drawn}]}

    found = merge(of(1), of(2), of(3))
    assert (found.value, found.beside) == (of(2, 3), ())


def test_null_is_a_value_and_numbers_keep_their_kind():
    assert merge({"a": 1}, {"a": 1}, {"a": None}).value == {"a": None}
    assert merge({"a": 1}, {"a": 1}, {"a": True}).value == {"a": True}
    assert json.dumps(merge({"a": 1}, {"a": 1}, {"a": 1.0}).value) == '{"a": 1.0}'


def test_what_one_took_out_and_the_other_changed_is_kept_beside():
    (difference,) = merge({"a": {"b": 1}}, {}, {"a": {"b": 2}}).beside
    assert (difference.theirs, difference.mine) == (ABSENT, {"b": 2})
    found = merge({"a": {"b": 1}}, {"a": {"b": 2}}, {})
    assert found.value == {"a": {"b": 2}}
    assert found.beside[0].mine is ABSENT


WORDS = st.sampled_from(["", "pad", "rail", "calder", "brook", "V206", "V2?6"])
PLAIN = WORDS | st.integers(0, 3) | st.booleans() | st.none()
ENTRY = st.dictionaries(
    st.sampled_from(["site", "mark", "by", "again", "text", "note", "later", "exhibits"]),
    PLAIN | st.lists(WORDS, max_size=3),
    max_size=4,
)
CASES = st.fixed_dictionaries(
    {},
    optional={
        "title": PLAIN,
        "claim": st.fixed_dictionaries(
            {"items": st.dictionaries(WORDS, WORDS, max_size=2)},
            optional={"statements": st.lists(ENTRY, max_size=2)},
        ),
        **{name: st.lists(ENTRY, max_size=3) for name in ("sites", "readings", "looks", "sums")},
        "later": st.recursive(
            PLAIN,
            lambda each: st.lists(each, max_size=2) | st.dictionaries(WORDS, each, max_size=2),
        ),
    },
)


@given(CASES, CASES)
@tried_on(600, few=40)
def test_a_change_that_meets_nothing_is_that_change(base, changed):
    assert merge(base, changed, base) == merge(base, base, changed)
    found = merge(base, changed, base)
    assert found.beside == ()
    assert is_same(found.value, changed)


@given(CASES, CASES)
@tried_on(300)
def test_two_who_wrote_the_same_have_written_it_once(base, changed):
    found = merge(base, changed, copy.deepcopy(changed))
    assert found.beside == ()
    assert is_same(found.value, changed)


def marked(value, who, draw):
    """A change of it: plain values written over, entries and fields added and taken out, each
    new value one that nobody else writes."""

    def anew():
        return f"{who}{next(count)}"

    def change(found):
        if isinstance(found, dict):
            kept = {k: change(v) for k, v in found.items() if draw(5)}
            return kept if draw(4) else {**kept, "note": anew()}
        if isinstance(found, list):
            kept = [change(each) for each in found if draw(5)]
            return kept if draw(3) else [*kept, {"site": anew(), "text": anew()}]
        return found if draw(3) else anew()

    count = iter(range(10_000))
    return change(value)


@given(CASES, st.randoms(use_true_random=False))
@tried_on(2000, few=100)
def test_nothing_that_either_typed_is_lost(base, chance):
    """Each new value of mine is in the document or beside it; each of theirs is in the document."""
    theirs = marked(base, "their", lambda n: chance.randrange(n))
    mine = marked(base, "my", lambda n: chance.randrange(n))
    found = merge(base, theirs, mine)
    there = {each for _, each in leaves(found.value) if isinstance(each, str)}
    beside = {each for one in found.beside for _, each in leaves(one.mine) if isinstance(each, str)}
    for _, each in leaves(theirs):
        assert not str(each).startswith("their") or each in there
    for _, each in leaves(mine):
        assert not str(each).startswith("my") or each in there | beside


@given(CASES, st.randoms(use_true_random=False))
@tried_on(600, few=40)
def test_a_difference_tells_where_it_stands(base, chance):
    """Its path leads to what is theirs in the document."""
    theirs = marked(base, "their", lambda n: chance.randrange(n))
    found = merge(base, theirs, marked(base, "my", lambda n: chance.randrange(n)))
    for each in found.beside:
        value = found.value
        for step in each.path[:-1]:
            value = value[step]
        if each.theirs is not ABSENT:
            assert is_same(value[each.path[-1]], each.theirs)


@given(st.lists(st.sampled_from(["title", "book", "opened", "stakes"]), unique=True), CASES)
@tried_on(200)
def test_changes_of_different_fields_are_all_there(names, base):
    half = len(names) // 2
    theirs = {**base, **{name: f"their {name}" for name in names[:half]}}
    mine = {**base, **{name: f"my {name}" for name in names[half:]}}
    found = merge(base, theirs, mine)
    assert found.beside == ()
    assert is_same(found.value, {**base, **theirs, **mine, **{n: theirs[n] for n in names[:half]}})


@pytest.mark.parametrize("name", ["sites", "readings", "looks", "papers", "exhibits", "sums"])
def test_entries_that_are_none_harm_nobody(name):
    """A list of what no entry can be is put together like any other."""
    found = merge({name: [1]}, {name: [1, [2]]}, {name: [1, "three"]})
    assert found.value == {name: [1, [2], "three"]}
