"""One unsure place: the characters with which the check digit agrees. Several: how many ways."""

from itertools import product

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tests.decoding.seventeen.strategies import PERMITTED, VALUES, checked, numbers, with_character
from witnessmark.casefile import Legibility
from witnessmark.decoding.seventeen.candidates import agreeing, candidates

ANY_POSITION = st.integers(1, 17)
CHECK_CHARACTERS = "0123456789X"


def permitted(position):
    """What the rule allows there, written out anew."""
    if position == 9:
        return CHECK_CHARACTERS
    return "".join(c for c in PERMITTED if position != 10 or c not in "UZ0")


@given(numbers(), ANY_POSITION, st.sampled_from("?~"))
def test_the_candidates_are_exactly_the_characters_that_make_the_sum_right(
    numbered, number, position, sign
):
    found = candidates(numbered(with_character(number, position, sign)), position)
    right = {
        each
        for each in permitted(position)
        if checked(typed := with_character(number, position, each)) == typed
    }
    assert set(found) == right
    assert number[position - 1] in right or number[position - 1] not in permitted(position)


@given(numbers(), ANY_POSITION, st.sampled_from("?~"))
def test_shares_add_to_one_and_are_even_where_nothing_was_seen(numbered, number, position, sign):
    found = candidates(numbered(with_character(number, position, sign)), position)
    assert sum(found.values()) == pytest.approx(1.0)
    assert list(found.values()) == pytest.approx([1.0 / len(found)] * len(found))


@given(
    numbers(),
    ANY_POSITION,
    st.sets(st.sampled_from(PERMITTED), min_size=2, max_size=4),
    st.sampled_from(Legibility),
)
def test_a_set_shares_out_by_what_was_seen(numbered, number, position, seen, legibility):
    typed = with_character(number, position, f"[{''.join(sorted(seen))}]")
    found = candidates(numbered(typed, legibility=legibility), position)
    assume(found)
    assert sum(found.values()) == pytest.approx(1.0)
    inside = [share for character, share in found.items() if character in seen]
    outside = [share for character, share in found.items() if character not in seen]
    if inside and outside and seen <= set(permitted(position)):
        assert min(inside) > max(outside)
    assert list(found.values()) == sorted(found.values(), reverse=True)


def test_five_or_s_is_told_apart_by_the_check_digit(noted):
    """5 and S differ in value: one of them agrees, the other does not."""
    number = checked("15111111011111111")
    (note,) = (n for n in noted(with_character(number, 2, "[5S]")) if n.kind == "check")
    assert note.sentence.startswith(
        "Position 2 is unsure: if the number carries a check digit and the rest is as read, "
        "5 (over 99 %), "
    )


def test_s_or_2_is_not_told_apart(numbered):
    """S and 2 share a value, so that each keeps its share."""
    number = checked("12111111011111111")
    shares = candidates(numbered(with_character(number, 2, "[2S]")), 2)
    assert set(shares) == {"2", "B", "K", "S"}
    assert shares["2"] == pytest.approx(shares["S"], rel=0.05)
    assert shares["2"] > 0.49


def test_where_neither_character_seen_agrees_that_is_said(noted):
    number = checked("15111111011111111")
    (note,) = (n for n in noted(with_character(number, 2, "[38]")) if n.kind == "check")
    assert note.sentence.endswith("None of these was seen there: look at it again.")


def test_where_no_character_agrees_the_number_may_carry_no_check_digit(noted):
    """Position 11 would have to count 10, and no character does."""
    sentences = [
        note.sentence
        for digit in CHECK_CHARACTERS
        for note in noted(f"11111111{digit}1?111111")
        if note.kind == "check"
    ]
    assert sum("no character in it makes the check digit agree" in s for s in sentences) == 1


@given(
    numbers(),
    st.sets(ANY_POSITION, min_size=2, max_size=3),
    st.sets(st.sampled_from("5SB83"), min_size=2),
)
def test_several_unsure_places_give_a_count_that_is_right(numbered, number, unsure, seen):
    """Every reading of two or three sets, tried one by one."""
    sign = f"[{''.join(sorted(seen))}]"
    typed = "".join(sign if p in unsure else c for p, c in enumerate(number, start=1))
    ways = [[c for c in permitted(p) if c in seen] or [] for p in sorted(unsure)]
    right = 0
    for choice in product(*ways):
        tried = number
        for position, character in zip(sorted(unsure), choice, strict=True):
            tried = with_character(tried, position, character)
        right += checked(tried) == tried
    assert agreeing(numbered(typed)) == right


@given(numbers(), st.sets(ANY_POSITION, min_size=2, max_size=16))
def test_several_unsure_places_are_counted_and_nothing_more(noted, number, unsure):
    typed = "".join("?" if p in unsure else c for p, c in enumerate(number, start=1))
    (note,) = (note for note in noted(typed) if note.kind == "check")
    if "not tested" in note.sentence:
        assert "the year code says 1980" in note.sentence
        return
    assert note.sentence.startswith(f"{len(unsure)} places are unsure: of the ")
    assert "%" not in note.sentence


def test_the_count_of_two_places_is_told(noted):
    (note,) = (n for n in noted("11??1111111111111") if n.kind == "check")
    assert "of the 1,089 ways to read them " in note.sentence
    right = sum((6 * VALUES[a] + 5 * VALUES[b]) % 11 == 0 for a in PERMITTED for b in PERMITTED)
    # 6 and 5 make 11, so that the two places read 1 and 1 leave no remainder of their own.
    assert f" {right} agree with the check digit, " in note.sentence


def test_a_stretch_of_places_lost_is_counted_as_places_that_cannot_be_read(noted):
    lost, worn = (
        next(n.sentence for n in noted(typed) if n.kind == "check")
        for typed in ("1111…1111111111", "1111???1111111111")
    )
    assert lost == worn
