"""Numbers one place short or one long: where the fault can be, and what is known all the same."""

from hypothesis import given
from hypothesis import strategies as st

from tests.decoding.seventeen.conftest import asked_and_aligned, shipped
from tests.decoding.seventeen.strategies import PERMITTED, YEARS, numbers
from witnessmark.decoding.seventeen.length import ways_to_17
from witnessmark.decoding.seventeen.rules import rules_of

UNDER_THE_RULE = "12345"


def places(text, mark="vehicle_number"):
    asked, alignment = asked_and_aligned(text, mark)
    return [way.place for way in ways_to_17(asked, alignment, rules_of(shipped()))]


def check_note(notes):
    (note,) = (each for each in notes if each.kind == "check")
    return note.sentence


@given(numbers(first=UNDER_THE_RULE), st.integers(1, 17))
def test_the_place_that_was_left_out_is_always_among_those_told(number, place):
    assert place in places(number[: place - 1] + number[place:])


@given(numbers(first=UNDER_THE_RULE), st.integers(1, 18), st.sampled_from(PERMITTED))
def test_the_place_that_was_put_in_is_always_among_those_told(number, place, other):
    assert place in places(number[: place - 1] + other + number[place - 1 :])


@given(st.text(PERMITTED, min_size=16, max_size=16))
def test_a_missing_place_is_told_exactly_where_positions_9_and_10_permit_it(text):
    def fits(place):
        whole = text[: place - 1] + "?" + text[place - 1 :]
        return whole[8] in "0123456789X?" and whole[9] in f"{YEARS}?"

    assert places(text) == [place for place in range(1, 18) if fits(place)]


def test_a_missing_place_is_told_by_its_positions(noted):
    """A letter stands where position 9 would be, were it missing before that."""
    assert check_note(noted("1M8GDM9AXKP04278")) == (
        "Not tested: the rule is for numbers of 17 characters, and 16 places were read. "
        "Judging by the check character and the year code, which the United States rule "
        "puts in positions 9 and 10, the missing one belongs in position 9 to 17."
    )


def test_one_too_many_is_told_by_the_places_typed(noted):
    assert check_note(noted("1M8GDM9AXKP0427888")).endswith(
        "and 18 places were read. Judging by the check character and the year code, which "
        "the United States rule puts in positions 9 and 10, the character too many is in "
        "place 10 to 18 of those typed."
    )


def test_where_the_rule_need_not_hold_another_length_is_no_slip(noted):
    for text in ("WAA11111XK111111", "1" * 15, "1" * 16, "1" * 19):
        assert check_note(noted(text)).endswith("market, may have another length.")


def test_the_year_is_told_where_position_7_is_a_digit_wherever_one_is_missing(years_of, noted):
    assert set(years_of("1M8GDM9AXKP04278")) == {"1989"}
    assert any("Position 7 is a digit" in note.sentence for note in noted("1M8GDM9AXKP04278"))
    assert set(years_of("1M8GDM9AXKP0427888")) == {"1989"}


def test_the_year_stays_open_where_another_place_may_be_position_7(years_of, noted):
    """M or 9 stands there, as one is missing before it or behind it."""
    assert {"1989", "2019"} <= set(years_of("1M8GDM98XKP04278"))
    assert not any(note.kind == "year" for note in noted("1M8GDM98XKP04278"))
