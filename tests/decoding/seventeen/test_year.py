"""Position 7 tells the two years of a code apart, in cars of the United States scheme alone."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tests.decoding.seventeen.conftest import asked_and_aligned, options_of
from tests.decoding.seventeen.strategies import YEARS, checked, numbers, with_character
from witnessmark.codebook import Basis
from witnessmark.decoding import rate_rows
from witnessmark.decoding.seventeen import year_options

ELSEWHERE = "ABCDEFGHJKMNPRSTUVWXYZ067890"
"""First characters that name neither North America nor China."""


def said(notes):
    return " ".join(note.sentence for note in notes if note.kind == "year")


def typed(code, seventh, first="1"):
    return f"{first}AAAA1{seventh}10{code}1111111"


def disagreeing(number):
    """The number with a check digit that is not its own."""
    own = checked(number)[8]
    return with_character(number, 9, "1" if own != "1" else "2")


def share_by_check_digit():
    """Of the year that position 7 names: 11 to 1 for the scheme, and half of the rest."""
    before = {row.id: row.value for row in rate_rows()}["decoding.scheme_elsewhere"]
    odds = before / (1 - before) * 11
    of_the_scheme = odds / (1 + odds)
    return of_the_scheme + (1 - of_the_scheme) / 2


@pytest.mark.parametrize(("place", "code"), list(enumerate(YEARS)))
def test_a_digit_in_position_7_means_the_first_cycle_and_a_letter_the_second(years_of, place, code):
    assert set(years_of(typed(code, "1"))) == {str(1980 + place)}
    assert set(years_of(typed(code, "A"))) == {str(2010 + place)}


@pytest.mark.parametrize(("place", "code"), list(enumerate(YEARS)))
def test_elsewhere_both_years_stay_open_and_even(years_of, place, code):
    """Of other vehicles, of an unsure place, of a check digit that does not agree."""
    both = {str(1980 + place), str(2010 + place)}
    for years in (
        years_of(disagreeing(typed(code, "1", first="W"))),
        years_of(checked(typed(code, "1")), "vehicle_number_other"),
        years_of(typed(code, "?")),
        years_of(typed(code, "[8B]")),
        years_of(typed(code, "1", first="[1W]")),
        years_of(with_character(checked(typed(code, "1", first="W")), 17, "?")),
        years_of(with_character(typed(code, "1", first="W"), 9, "Z")),
    ):
        assert set(years) == both
        assert len({round(share, 9) for share in years.values()}) == 1


@given(numbers(first=ELSEWHERE))
def test_an_agreeing_check_digit_lets_position_7_speak_and_a_disagreeing_one_does_not(
    years_of, noted, number
):
    assume(number[9] != "A")
    years = years_of(number)
    named = min(years) if number[6].isdigit() else max(years)
    assert years[named] == pytest.approx(share_by_check_digit() * sum(years.values()))
    assert f"means {named} if the number is of the scheme that its check digit agrees with" in said(
        noted(number)
    )
    even = years_of(disagreeing(number))
    assert set(even) == set(years)
    assert len({round(share, 9) for share in even.values()}) == 1
    assert "agrees with" not in said(noted(disagreeing(number)))


def test_the_evidence_is_told_with_the_row_that_it_rests_on(noted):
    """Never silently: the year's share follows from 11 to 1 and an assumed share."""
    notes = noted(checked(typed("5", "1", first="W")))
    (assumed,) = (note for note in notes if note.basis is Basis.ASSUMED)
    assert assumed.sentence == (
        "A check digit that agrees favours that scheme by 11 to 1; beforehand, 20 % of "
        "numbers like this one are assumed to follow it."
    )
    assert assumed.source == "assumed share, row decoding.scheme_elsewhere"


def test_by_an_agreeing_check_digit_alone_no_year_is_sure():
    """So that no other mark of the car is dated by it: 0.9 is taken as said."""
    assert share_by_check_digit() < 0.9


def test_a_check_digit_of_china_does_not_show_the_united_states_scheme(years_of, noted):
    """China has one by a rule of its own; the published example is a car of 2001."""
    years = years_of("LJCPCBLCX11000237")
    assert set(years) == {"2001", "2031"}
    assert years["2001"] == pytest.approx(years["2031"])
    sentence = said(noted("LJCPCBLCX11000237"))
    assert "Numbers from China carry a check digit under a rule of their own" in sentence
    assert "Numbers of China" not in said(noted(disagreeing("LJCPCBLCX11000237")))


def test_a_number_of_1980_has_no_check_digit_to_speak_for_it(years_of):
    years = years_of(checked(typed("A", "1", first="W")))
    assert years["1980"] == pytest.approx(years["2010"])


def test_a_set_of_digits_or_of_letters_in_position_7_decides_as_well(years_of):
    assert set(years_of(typed("5", "[38]"))) == {"2005"}
    assert set(years_of(typed("5", "[AB]"))) == {"2035"}


def test_an_unsure_year_code_keeps_one_year_of_each_code(years_of):
    assert set(years_of(typed("[5S]", "1"))) == {"2005", "1995"}


def test_an_unreadable_year_code_has_no_years_and_says_the_cycle(years_of, noted):
    assert "Position 10 is unsure. Position 7 is a digit" in said(noted(typed("?", "1")))
    assert "2010 to 2039" in said(noted(typed("?", "A")))
    assert said(noted(typed("?", "1", first="W"))) == ""


def test_the_note_says_why_a_decade_stays_open_and_what_would_decide(noted):
    for text, mark, reason in (
        (typed("5", "1"), "vehicle_number_other", "trailers, heavy vehicles and motorcycles"),
        (disagreeing(typed("5", "1", first="W")), "vehicle_number", "United States scheme"),
        (typed("5", "?"), "vehicle_number", "that position is unsure"),
    ):
        sentence = said(noted(text, mark))
        assert "model year 2005 or 2035." in sentence
        assert reason in sentence
        assert "What would decide:" in sentence


@pytest.mark.parametrize("code", ["U", "Z", "0"])
def test_a_character_that_is_no_year_code_is_told_and_not_forced(noted, years_of, code):
    notes = noted(typed(code, "1"))
    assert f"Position 10 reads {code}, which is not a model-year code." in said(notes)
    assert "Outside North America position 10 may be anything." in said(notes)
    assert any(
        note.sentence == f"Under the rule position 10 is never {code}."
        for note in notes
        if note.kind == "structure"
    )


def test_a_given_year_that_the_code_cannot_mean_is_told(noted):
    assert "The model year taken as given, 1995, is not one that this code can mean here." in said(
        noted(typed("5", "1"), year=1995)
    )
    assert "taken as given" not in said(noted(typed("5", "1"), year=2005))


def test_a_given_year_that_position_7_excludes_is_kept_and_the_note_says_so(noted, years_of):
    """The book lists only the given year then: that another place differs throws nothing away."""
    assert set(years_of(typed("B", "1"), year=2011)) == {"2011"}
    sentence = said(noted(typed("B", "1"), year=2011))
    assert "model year 1981." in sentence
    assert "The model year taken as given, 2011, is none" in sentence


def test_a_year_says_itself_and_not_for_which_year_it_is_listed():
    asked, alignment = asked_and_aligned(typed("5", "1"))
    aligned = alignment.fields[3]
    (first, *_) = year_options(asked, alignment, aligned, options_of(asked, aligned))
    assert first.meaning.meaning == "model year 2005"


@given(
    numbers() | numbers(first=ELSEWHERE),
    st.lists(st.tuples(st.integers(1, 17), st.sampled_from(["?", "[5S]", "[8B]"])), max_size=2),
    st.sampled_from(["vehicle_number", "vehicle_number_other"]),
)
def test_what_one_year_of_a_code_loses_the_other_wins(number, signs, mark):
    """The share of each code, and of what no code explains, stays what it was."""
    places = list(number)
    for position, sign in signs:
        places[position - 1] = sign
    asked, alignment = asked_and_aligned("".join(places), mark)
    aligned = alignment.fields[3]
    options = options_of(asked, aligned)
    before, after = (
        {
            code: sum(o.share for o in each if (o.meaning.code, o.meaning.listed) == code)
            for code in {(o.meaning.code, o.meaning.listed) for o in each}
        }
        for each in (options, year_options(asked, alignment, aligned, options))
    )
    assert before == pytest.approx(after)
