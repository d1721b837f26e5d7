"""The check digit by whole remainders: what it catches, what it cannot see, when it is silent."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.decoding.seventeen.strategies import (
    PERMITTED,
    POSITIONS,
    VALUES,
    WEIGHTS,
    checked,
    numbers,
    with_character,
)
from witnessmark.codebook import Basis
from witnessmark.decoding.seventeen.sums import (
    check_sum,
    mending_exchanges,
    mending_look_alikes,
    unseen_exchanges,
    unseen_look_alikes,
)

UNDER_THE_RULE = "12345"
SELF_TEST = "1" * 17
"""A number made to test readers of numbers; it is no car's."""


def said(notes, kind="check"):
    return " ".join(note.sentence for note in notes if note.kind == kind)


@given(numbers())
def test_a_number_with_its_own_check_digit_agrees(rules, number):
    assert check_sum(rules, number).agrees


@given(numbers(), st.sampled_from(POSITIONS), st.sampled_from(PERMITTED))
def test_one_changed_character_is_caught_exactly_where_the_values_differ(
    rules, number, position, other
):
    before = number[position - 1]
    agrees = check_sum(rules, with_character(number, position, other)).agrees
    assert agrees is (VALUES[before] == VALUES[other])


@given(numbers(), st.sampled_from("0123456789X"))
def test_another_check_digit_never_agrees(rules, number, other):
    assert check_sum(rules, with_character(number, 9, other)).agrees is (number[8] == other)


@given(st.text(PERMITTED, min_size=17, max_size=17))
def test_the_sum_is_that_of_values_times_weights(rules, number):
    total = sum(VALUES[c] * w for c, w in zip(number, WEIGHTS, strict=True))
    found = check_sum(rules, number)
    assert (found.total, found.remainder) == (total, total % 11)


def test_a_pass_is_said_with_what_it_does_not_show(noted):
    notes = noted(SELF_TEST)
    assert said(notes).startswith(
        "The check digit agrees: the sum is 89, which leaves 1 on division by 11, and position 9 "
        "reads 1."
    )
    assert "nothing about the metal" in said(notes)
    assert "1 time in 11" in said(notes)
    assert {note.basis for note in notes if note.kind == "check"} == {
        Basis.PUBLISHED,
        Basis.COMMON_PRACTICE,
    }


@given(numbers(first="ABCDEFGHJKLMNPRSTUVWXYZ067890"), st.sampled_from("0123456789X"))
def test_outside_north_america_a_difference_says_nothing_by_itself(noted, number, other):
    sentence = said(noted(with_character(number, 9, other)))
    if number[8] == other:
        assert "The check digit agrees" in sentence
    else:
        assert "does not agree: " in sentence
        assert "without the rule carries none, so this says nothing by itself." in sentence
        assert "What would decide:" in sentence


@given(numbers(first=UNDER_THE_RULE), st.sampled_from("0123456789X"))
def test_no_number_is_ever_called_wrong_nor_written_out(noted, number, other):
    typed = with_character(number, 9, other)
    for mark in ("vehicle_number", "vehicle_number_other"):
        for note in noted(typed, mark):
            words = note.sentence.lower()
            assert not {"wrong", "invalid", "false", "fake", "error"} & set(words.split())
            assert number not in note.sentence
            assert typed not in note.sentence
            assert number[11:] not in note.sentence.split()


@given(numbers(), st.sampled_from(POSITIONS))
def test_a_look_alike_that_would_account_for_a_difference_is_a_place_to_read_again(
    rules, number, position
):
    """8 and B are taken for each other, and differ in value."""
    right = checked(with_character(number, position, "8"))
    assert position in mending_look_alikes(rules, with_character(right, position, "B"))
    assert mending_look_alikes(rules, number) == tuple(
        p
        for p in range(1, 18)
        if any(
            checked(tried := with_character(number, p, each)) == tried
            for each in rules.alike.get(number[p - 1], ())
            if each in rules.permitted(p)
        )
    )


def test_the_places_to_read_again_are_told_by_their_positions_alone(noted):
    """Of the look-alikes of 1 only 7 differs in value, and it fits where it counts 3 times."""
    assert said(noted("11111111811111111")).count("in position 6 or 16. Look there again.") == 1


def test_where_no_single_slip_accounts_for_it_that_is_said(noted):
    sentence = said(noted("1TTTTTTT1TTTTTTTT"))
    assert "does not agree" in sentence
    assert "No single look-alike and no exchange of neighbours accounts for it." in sentence


def exchanged(number, one):
    """The number with the character of a position and the next in each other's place."""
    return number[: one - 1] + number[one] + number[one - 1] + number[one + 1 :]


def permitted(position):
    """What the rule allows there, written out anew."""
    if position == 9:
        return "0123456789X"
    return "".join(c for c in PERMITTED if position != 10 or c not in "UZ0")


@given(numbers(), st.integers(1, 16))
def test_two_neighbours_exchanged_are_found_exactly_where_the_check_digit_sees_it(
    rules, number, one
):
    """Typed the wrong way round and set right; what the rule has nowhere is never offered."""
    typed = exchanged(number, one)
    found = mending_exchanges(rules, typed)
    if not check_sum(rules, typed).agrees and check_sum(rules, number).agrees:
        assert (one, one + 1) in found
    assert found == tuple(
        (place, place + 1)
        for place in range(1, 17)
        if checked(tried := exchanged(typed, place)) == tried
        and tried[place - 1] in permitted(place)
        and tried[place] in permitted(place + 1)
    )


def test_an_exchange_is_told_by_its_positions_alone(noted):
    """The encyclopaedia's example with K and P, and 4 and 2, the wrong way round."""
    assert (
        "A single slip would account for it: a look-alike taken for another in position 2, "
        "4, 5 or 12 or an exchange of positions 10 and 11. Look there again."
    ) in said(noted("1M8GDM9AXPK042788"))
    assert (
        "A single slip would account for it: a look-alike taken for another in position 4 "
        "or an exchange of positions 12 and 13 or 13 and 14. Look there again."
    ) in said(noted("1M8GDM9AXKP024788"))


def test_no_exchange_is_offered_that_would_put_a_character_where_none_of_the_rule_stands(
    rules, noted
):
    """0 and Z are no codes of a year, and A is no check character."""
    for typed in ("1AAAA1110B0111111", "1AAAA111AB1111111", "1AAAA1110BZ111111"):
        for digit in "0123456789X":
            tried = mending_exchanges(rules, with_character(typed, 9, digit))
            assert (10, 11) not in tried or typed[10] not in "0Z"
            assert (8, 9) not in tried or typed[7] in "0123456789X"


@pytest.mark.parametrize(
    "source",
    ["1AAAA111{}B1111111", "WAAAA111{}B1111111"],
)
def test_places_to_look_at_again_are_offered_only_where_the_check_digit_does_not_agree(
    noted, source
):
    """In a number from elsewhere on the condition that it should carry one."""
    told = [said(noted(source.format(digit))) for digit in "0123456789X"]
    assert sum("The check digit agrees" in each for each in told) == 1
    for each in told:
        if "agrees: " in each:
            assert "Look there again" not in each
        elif source.startswith("W") and "a single slip would" in each.lower():
            assert "If it should carry one, a single slip would" in each


def test_a_number_of_1980_is_not_tested(noted):
    sentence = said(noted(SELF_TEST, year=1980))
    assert "not tested: the model year taken as given is 1980" in sentence
    assert "agree" not in sentence


def test_a_number_of_1981_is_tested(noted):
    assert "The check digit agrees" in said(noted(SELF_TEST, year=1981))


def test_a_year_code_that_can_only_be_1980_is_not_tested(noted):
    """A with a digit in position 7, in a car of the United States scheme."""
    sentence = said(noted("1AAAA1110A1111111"))
    assert sentence.startswith("The check digit is not tested: the year code says 1980")


def test_a_year_code_that_may_be_1980_or_2010_is_tested(noted):
    assert "agree" in said(noted("1AAAA1110A1111111", "vehicle_number_other"))


@pytest.mark.parametrize(
    ("typed", "reason"),
    [
        ("1" * 16, "16 places were read"),
        ("1" * 18, "18 places were read"),
        ("1", "1 place was read"),
        ("1" * 16 + "_", "a place was never struck"),
        ("11…11111…1111", "places are lost in more than one stretch"),
        ("VIN: " + "1" * 16, "16 places were read"),
        ("*" + "1" * 9 + "-" + "1" * 9 + "*", "18 places were read"),
    ],
)
def test_what_is_no_number_of_17_places_is_told_why_it_is_not_tested(noted, typed, reason):
    (note,) = (note for note in noted(typed) if note.kind == "check")
    assert note.sentence.startswith("Not tested: ")
    assert reason in note.sentence


@pytest.mark.parametrize("typed", ["", "_", "?" * 17, "…", "_" * 17])
def test_where_nothing_was_read_nothing_is_said(noted, typed):
    assert noted(typed) == ()


def test_a_filler_in_position_9_is_no_check_digit(noted):
    assert "A number for a European market normally has a filler there." in said(
        noted("WAA11111ZA1111111")
    )
    assert "look at it again" in said(noted("1AA11111ZB1111111"))


def test_a_character_that_no_number_has_is_kept_and_not_counted(noted):
    notes = noted("111*1111111111111")
    assert said(notes) == "Not tested: a character was read that no number under the rule has."
    assert "position 4" in said(notes, "structure")


@given(numbers(), st.sampled_from(POSITIONS))
def test_a_swap_is_said_to_be_unseen_exactly_where_it_is(rules, noted, number, position):
    """Look-alikes of the book that share a value, and neighbours exchanged."""
    character = number[position - 1]
    blind = any(
        check_sum(rules, with_character(number, position, each)).agrees
        for each in rules.alike.get(character, ())
        if each in PERMITTED
    )
    assert (position in unseen_look_alikes(rules, number)) is blind
    pairs = unseen_exchanges(rules, number)
    for one in range(1, 17):
        if 9 in (one, one + 1) or number[one - 1] == number[one]:
            assert (one, one + 1) not in pairs
            continue
        exchanged = with_character(number, one, number[one])
        exchanged = with_character(exchanged, one + 1, number[one - 1])
        assert ((one, one + 1) in pairs) is check_sum(rules, exchanged).agrees


def test_position_9_is_never_among_the_swaps_that_go_unseen(rules):
    """Its 1 has the look-alike J, which no check digit is."""
    assert unseen_look_alikes(rules, SELF_TEST) == POSITIONS


def test_what_a_check_digit_cannot_see_is_told_where_it_agrees_and_nowhere_else(noted):
    assert "No check digit sees" not in said(noted(with_character(SELF_TEST, 9, "2")))


def test_the_note_on_what_it_cannot_see_names_the_columns_and_the_weight_of_position_9(noted):
    sentence = said(noted(SELF_TEST))
    assert "1/A/J, 2/B/K/S, 3/C/L/T, 4/D/M/U, 5/E/N/V, 6/F/W, 7/G/P/X, 8/H/Y, 9/R/Z" in sentence
    assert "Position 9 itself has weight 0." in sentence
