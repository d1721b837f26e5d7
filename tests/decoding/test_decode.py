"""Meanings in order: ranked, with what no listed code explains, never forced."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.casefile import Legibility
from witnessmark.codebook import Basis
from witnessmark.dates import DateSpan
from witnessmark.decoding import decode, rate_rows
from witnessmark.reading import parse_reading, rates_with, shipped_rates

TYPED = st.text(alphabet="0123456789SADPHROXK[]?~_… |*", max_size=30)
MARKS = st.sampled_from(["plate", "frame", "wing", "casting", "axle"])


def meanings(decoding, place=0):
    """Field and value of one alternative."""
    return {found.field: found.value for found in decoding.alternatives[place].fields}


def ranked(decoding, field):
    """The meanings of one field, in order."""
    found = (m for each in decoding.alternatives for m in each.fields if m.field == field)
    return list(dict.fromkeys(m.meaning for m in found))


def test_a_clear_reading_has_one_meaning(decoded):
    decoding = decoded("plate", "SP|700143|11|HR")
    assert meanings(decoding) == {
        "type": "solent-sprint",
        "chassis": "700143",
        "paint": "coach-black",
        "extras": "heater-radio",
    }
    assert decoding.alternatives[0].share > 0.99
    assert decoding.not_listed_share < 0.001


def test_a_set_gives_an_alternative_for_each_and_names_the_place_that_decides(decoded):
    decoding = decoded("frame", "S[AD]700143")
    assert ranked(decoding, "type") == ["Solent saloon", "Solent drophead"]
    first, second = decoding.alternatives[:2]
    assert first.share == pytest.approx(second.share) == pytest.approx(0.5, abs=0.01)
    assert decoding.deciding_column == 2


@pytest.mark.parametrize("paint", ["13", "47", "12", "44", "10"])
def test_a_clear_code_missing_from_the_book_is_reported_and_not_forced(decoded, paint):
    """Even one that differs from a listed code in a single place."""
    decoding = decoded("plate", f"SP|700143|{paint}")
    found = decoding.alternatives[0].fields[2]
    assert (found.code, found.value, found.meaning) == (paint, "", "not listed")
    assert (found.listed, found.basis) == (False, Basis.ASSUMED)
    assert decoding.not_listed_share > 0.5


def test_the_same_code_in_a_poor_reading_leaves_the_listed_ones_possible(decoded):
    clear, poor = (
        decoded("plate", "SP|700143|13", legibility=each).not_listed_share
        for each in (Legibility.CLEAR, Legibility.POOR)
    )
    assert poor < clear
    assert "Coach Black" in ranked(
        decoded("plate", "SP|700143|13", legibility=Legibility.POOR), "paint"
    )


def test_a_code_with_two_meanings_in_different_years_has_both(decoded):
    decoding = decoded("plate", "SP|700143|14")
    assert ranked(decoding, "paint")[:2] == [
        "Fen Green (listed for 1952 to 1955)",
        "Pine Green (listed for 1956 to 1961)",
    ]
    assert decoding.deciding_column is None


def test_the_year_of_the_car_decides_between_them(decoded):
    decoding = decoded("plate", "SP|700143|14", year=1957)
    assert ranked(decoding, "paint")[0] == "Pine Green"
    assert decoding.alternatives[0].share > 0.98


def test_a_code_of_other_years_is_told_with_its_years(decoded):
    decoding = decoded("plate", "SP|700143|21", year=1955)
    found = decoding.alternatives[0].fields[2]
    assert (found.value, found.listed) == ("primrose", True)
    assert found.meaning == "Primrose (listed for 1959 to 1961)"


def test_a_code_of_another_works_is_told_with_its_works(decoded):
    decoding = decoded("plate", "SP|700143|24", works=["marrick"])
    assert ranked(decoding, "paint")[0] == "Elm (listed for 1952 to 1961, Ellery)"


def test_a_row_from_memory_decodes_and_says_what_it_rests_on(decoded):
    found = decoded("plate", "SP|700143|17").alternatives[0].fields[2]
    assert (found.value, found.basis, found.source) == (
        "signal-red",
        Basis.MEMORY,
        "somebody's memory",
    )


def test_an_empty_field_says_what_the_book_says_of_it(decoded):
    found = decoded("plate", "SP|700143|11|_").alternatives[0].fields[3]
    assert (found.code, found.value, found.meaning) == ("_", "none", "no extras ordered")


def test_a_place_never_struck_behind_a_short_code_is_no_part_of_it(decoded):
    assert meanings(decoded("plate", "SP|700143|11|H_"))["extras"] == "heater"


def test_free_digits_are_one_value_with_their_doubt(decoded):
    decoding = decoded("frame", "SP70[08]1?3")
    assert meanings(decoding)["chassis"] == "70[08]1?3"
    assert len({a.fields[1] for a in decoding.alternatives}) == 1


def test_a_clear_number_names_its_series(decoded):
    assert decoded("frame", "SP700113").alternatives[0].fields[1].meaning == (
        "chassis number: Solent Sprints"
    )
    assert decoded("frame", "SP700999").alternatives[0].fields[1].meaning == (
        "chassis number: not in any series that the book lists for such a car"
    )


def test_a_part_of_a_number_says_which_part(decoded):
    assert decoded("wing", "0143").alternatives[0].fields[0].meaning == "chassis number, last 4"


def test_a_code_that_cannot_be_read_at_all_says_nothing(decoded):
    decoding = decoded("plate", "??|700143|11|R")
    found = decoding.alternatives[0].fields[0]
    assert (found.code, found.value, found.meaning) == ("??", "", "cannot be read")
    assert decoding.alternatives[0].share > 0.99


def test_places_lost_may_hide_a_shorter_or_a_longer_code(decoded):
    found = ranked(decoded("plate", "SP|700143|11|H…"), "extras")
    assert set(found[:2]) == {"heater", "heater and radio"}


def test_a_date_gives_every_span_it_can_mean(decoded):
    found = decoded("casting", "14K2").alternatives[0].fields[0]
    assert [str(span) for span in found.spans] == ["1952-10-14", "1962-10-14"]
    assert found.value == "1952-10-14 or 1962-10-14"


def test_an_unsure_date_gives_each_date_that_exists(decoded):
    decoding = decoded("casting", "[13]1B5")
    assert meanings(decoding) == {"date": "1955-02-11"}
    assert 0 < decoding.not_listed_share < 0.1


def test_a_worn_month_gives_twelve_dates_and_the_place_that_decides(decoded):
    decoding = decoded("casting", "14?5")
    listed = [a.fields[0].spans for a in decoding.alternatives if a.fields[0].listed]
    assert sorted(span.first.month for (span,) in listed) == list(range(1, 13))
    assert decoding.deciding_column == 3


def test_many_dates_are_one_meaning_with_all_their_days(decoded):
    found = decoded("axle", "12??").alternatives[0].fields[0]
    assert len(found.spans) == 100
    assert found.meaning == "one of 100 dates from 15 April 1955 to 23 July 1955"


def test_too_many_dates_to_read_one_by_one_are_all_years_of_the_form(decoded):
    found = decoded("axle", "1???").alternatives[0].fields[0]
    assert [str(span) for span in found.spans] == ["1952-01-01 to 1966-12-31"]


def test_a_placeholder_is_no_date(decoded):
    found = decoded("casting", "00A0").alternatives[0].fields[0]
    assert (found.placeholder, found.spans) == (True, ())
    assert found.meaning == "pattern without a date"


def test_a_code_that_is_no_date_is_not_listed(decoded):
    decoding = decoded("casting", "31B5")
    assert decoding.alternatives[0].fields[0].listed is False
    assert decoding.not_listed_share == 1.0


def test_a_reading_of_nothing_is_undecoded(decoded):
    decoding = decoded("frame", "")
    assert (decoding.alternatives, decoding.not_listed_share) == ((), 0.0)
    assert decoding.missing == ("type", "chassis")
    assert [p.sentence() for p in decoding.problems] == ["nothing was typed"]


def test_a_higher_misreading_rate_leaves_more_room_for_other_codes(book):
    mark = book.mark("plate")
    reading = parse_reading("SP|700143|11", mark)
    rates = rates_with(shipped_rates(), "reading.error.clear", 0.2)
    surer = decode(reading, book, mark).alternatives[0].share
    assert decode(reading, book, mark, rates=rates).alternatives[0].share < surer


def test_the_assumed_shares_of_this_room_have_reasons():
    assert {row.basis for row in rate_rows()} == {Basis.ASSUMED}
    assert all(len(row.reason) > 20 for row in rate_rows())


@given(text=TYPED, mark=MARKS, year=st.none() | st.integers(1950, 1965))
def test_shares_are_probabilities_and_stand_in_order(decoded, text, mark, year):
    decoding = decoded(mark, text, year=year)
    shares = [alternative.share for alternative in decoding.alternatives]
    assert shares == sorted(shares, reverse=True)
    assert all(0 <= share <= 1 + 1e-9 for share in shares)
    assert sum(shares) <= 1 + 1e-9
    assert -1e-9 <= decoding.not_listed_share <= 1 + 1e-9
    unlisted = [a.share for a in decoding.alternatives if not all(m.listed for m in a.fields)]
    assert sum(unlisted) <= decoding.not_listed_share + 1e-9


@given(text=TYPED, mark=MARKS)
def test_the_place_that_decides_is_a_place_that_was_typed(decoded, text, mark):
    column = decoded(mark, text).deciding_column
    assert column is None or 1 <= column <= len(text)


@given(text=TYPED, mark=MARKS)
def test_every_alternative_speaks_of_the_same_fields(decoded, text, mark):
    decoding = decoded(mark, text)
    assert len({tuple(m.field for m in a.fields) for a in decoding.alternatives}) <= 1
    spans = [s for a in decoding.alternatives for m in a.fields for s in m.spans]
    assert all(isinstance(span, DateSpan) for span in spans)


@given(paint=st.text(alphabet="0123456789", min_size=2, max_size=2), worn=st.integers(0, 1))
def test_wearing_a_place_away_never_rules_out_what_was_possible(decoded, paint, worn):
    """What a clear code says is still among the alternatives once one place is worn."""
    clear = decoded("plate", f"SP|700143|{paint}")
    if clear.alternatives[0].fields[2].listed:
        text = paint[:worn] + "?" + paint[worn + 1 :]
        assert clear.alternatives[0].fields[2].meaning in ranked(
            decoded("plate", f"SP|700143|{text}"), "paint"
        )
