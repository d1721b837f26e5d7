"""Position 7 tells the two years of a code apart, in cars of the United States scheme alone."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.decoding.seventeen.conftest import asked_and_aligned
from tests.decoding.seventeen.strategies import YEARS, numbers
from witnessmark.decoding.code_options import code_options
from witnessmark.decoding.seventeen import year_options


def said(notes):
    return " ".join(note.sentence for note in notes if note.kind == "year")


def typed(code, seventh, first="1"):
    return f"{first}AAAA1{seventh}10{code}1111111"


@pytest.mark.parametrize(("place", "code"), list(enumerate(YEARS)))
def test_a_digit_in_position_7_means_the_first_cycle_and_a_letter_the_second(years_of, place, code):
    assert set(years_of(typed(code, "1"))) == {str(1980 + place)}
    assert set(years_of(typed(code, "A"))) == {str(2010 + place)}


@pytest.mark.parametrize(("place", "code"), list(enumerate(YEARS)))
def test_elsewhere_both_years_stay_open(years_of, place, code):
    both = {str(1980 + place), str(2010 + place)}
    assert set(years_of(typed(code, "1", first="W"))) == both
    assert set(years_of(typed(code, "1"), "vehicle_number_other")) == both
    assert set(years_of(typed(code, "?"))) == both
    assert set(years_of(typed(code, "[8B]"))) == both
    assert set(years_of(typed(code, "1", first="[1W]"))) == both


def test_a_set_of_digits_or_of_letters_in_position_7_decides_as_well(years_of):
    assert set(years_of(typed("5", "[38]"))) == {"2005"}
    assert set(years_of(typed("5", "[AB]"))) == {"2035"}


def test_an_unsure_year_code_keeps_one_year_of_each_code(years_of):
    assert set(years_of(typed("[5S]", "1"))) == {"2005", "1995"}


def test_an_unreadable_year_code_has_no_years_and_says_the_cycle(years_of, noted):
    assert "Position 10 is not sure. Position 7 is a digit" in said(noted(typed("?", "1")))
    assert "2010 to 2039" in said(noted(typed("?", "A")))
    assert said(noted(typed("?", "1", first="W"))) == ""


def test_the_note_says_why_a_decade_stays_open_and_what_would_decide(noted):
    for text, mark, reason in (
        (typed("5", "1"), "vehicle_number_other", "trailers, heavy vehicles and motorcycles"),
        (typed("5", "1", first="W"), "vehicle_number", "United States scheme"),
        (typed("5", "?"), "vehicle_number", "that position is not sure"),
    ):
        sentence = said(noted(text, mark))
        assert "model year 2005 or 2035." in sentence
        assert reason in sentence
        assert "What would decide:" in sentence


@pytest.mark.parametrize("code", ["U", "Z", "0"])
def test_a_character_that_is_no_year_code_is_told_and_not_forced(noted, years_of, code):
    notes = noted(typed(code, "1"))
    assert f"Position 10 reads {code}, which is no code of a model year." in said(notes)
    assert "Outside North America position 10 may be anything." in said(notes)
    assert any(
        note.sentence == f"Under the rule position 10 is never {code}."
        for note in notes
        if note.kind == "structure"
    )


def test_a_given_year_that_the_code_cannot_mean_is_told(noted):
    assert "The model year taken as given, 1995, is none that this code can mean here." in said(
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
    (first, *_) = year_options(asked, alignment, aligned, code_options(asked, aligned))
    assert first.meaning.meaning == "model year 2005"


def test_what_position_7_excludes_adds_nothing_to_the_share_that_no_code_explains():
    asked, alignment = asked_and_aligned(typed("5", "1"))
    aligned = alignment.fields[3]
    options = code_options(asked, aligned)
    kept = year_options(asked, alignment, aligned, options)
    before, after = ([o.share for o in each if not o.meaning.listed] for each in (options, kept))
    assert before == after
    assert len(before) == 1


@given(numbers(), st.sampled_from(["vehicle_number", "vehicle_number_other"]))
def test_the_share_of_every_code_is_kept(years_of, number, mark):
    """The fixture compares the sums of the shares before and after."""
    years = years_of(number, mark)
    assert sum(years.values()) > 0.9
