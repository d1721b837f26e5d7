"""The notation: what an examiner types, place by place, with its doubt kept."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.codebook import find_book, open_book
from witnessmark.reading import CellKind, parse_reading

SIGNS = st.text(alphabet="0123456789OoIiABKk[]?~_…. |\t\x00é８-–\u0301\ud800", max_size=40)
ANY_TEXT = st.one_of(SIGNS, st.text(max_size=60), st.text(min_size=495, max_size=520))


def seen(reading):
    """Kind and characters of each cell."""
    return [(cell.kind, cell.characters) for cell in reading.cells]


def changed(reading):
    """What the normalised form says otherwise."""
    return [(c.column, c.typed, c.normalised, c.reason) for c in reading.changes]


def shown(reading):
    """All problems as a user sees them."""
    return [problem.render() for problem in reading.problems]


def test_every_sign_is_the_place_it_stands_for(number):
    reading = parse_reading("7[38]?~_…", number)
    assert seen(reading) == [
        (CellKind.CLEAR, "7"),
        (CellKind.ONE_OF, "38"),
        (CellKind.WORN, ""),
        (CellKind.OBLITERATED, ""),
        (CellKind.NEVER_STRUCK, ""),
        (CellKind.GAP, ""),
    ]
    assert [cell.column for cell in reading.cells] == [1, 2, 6, 7, 8, 9]
    assert reading.problems == reading.changes == ()


def test_what_was_typed_stays_as_typed_beside_its_plain_form(number):
    reading = parse_reading(" 7o 0[3 8]43 ", number)
    assert reading.as_typed == " 7o 0[3 8]43 "
    assert reading.normalised == "700[38]43"


def test_a_space_says_nothing(number):
    assert seen(parse_reading("70 01\u00a043", number)) == seen(parse_reading("700143", number))


def test_three_dots_are_places_lost_and_that_is_said(number):
    reading = parse_reading("70...3", number)
    assert reading.normalised == "70…3"
    assert changed(reading) == [(3, "...", "…", "dots, read as places lost")]


def test_a_small_letter_becomes_a_capital_and_that_is_said(body):
    reading = parse_reading("m0931", body)
    assert reading.normalised == "M0931"
    assert changed(reading) == [(1, "m", "M", "a small letter, read as a capital")]


def test_a_letter_o_in_a_number_that_has_none_becomes_a_nought_and_that_is_said(number):
    reading = parse_reading("7OO143", number)
    assert reading.normalised == "700143"
    reason = "chassis number has no letter O: read as the digit 0"
    assert changed(reading) == [(2, "O", "0", reason), (3, "O", "0", reason)]


def test_a_letter_i_in_a_number_that_has_none_becomes_a_one(number):
    reading = parse_reading("700I43", number)
    assert reading.normalised == "700143"
    assert changed(reading)[0][3] == "chassis number has no letter I: read as the digit 1"


def test_a_nought_where_only_letters_stand_becomes_a_letter_o(body):
    reading = parse_reading("00931", body)
    assert reading.normalised == "O0931"
    assert changed(reading) == [(1, "0", "O", "letter has no digit 0: read as the letter O")]


def test_a_letter_o_stays_where_the_place_can_hold_one(body):
    assert parse_reading("O0931", body).changes == ()


def test_a_look_alike_in_a_set_leaves_one_character(number):
    reading = parse_reading("7[0O]0143", number)
    assert reading.normalised == "700143"
    assert reading.cells[1].kind is CellKind.CLEAR


def test_a_set_of_one_is_a_clear_character_and_that_is_said(number):
    reading = parse_reading("70[00]143", number)
    assert reading.cells[2].kind is CellKind.CLEAR
    assert [reason for *_, reason in changed(reading)] == ["a set of one", "named twice in one set"]


def test_a_character_that_no_field_holds_is_kept_as_seen(number):
    reading = parse_reading("70*143", number)
    assert seen(reading)[2] == (CellKind.CLEAR, "*")
    assert reading.problems == ()
    reason = "not among the characters of chassis number: kept as seen"
    assert changed(reading) == [(3, "*", "*", reason)]


def test_text_before_a_number_is_known_for_what_it_is(engine):
    reading = parse_reading("no. S02418", engine)
    assert reading.normalised == "No S02418"


def test_a_wide_digit_is_the_same_digit(number):
    assert parse_reading("７00143", number).normalised == "700143"


def test_each_window_of_a_plate_is_counted(plate):
    reading = parse_reading("SP | 700143 | 17", plate)
    assert [cell.window for cell in reading.cells] == [0] * 2 + [1] * 6 + [2] * 2
    assert reading.normalised == "SP | 700143 | 17"


def test_a_window_takes_the_alphabet_of_its_field_in_reading_order(plate):
    reading = parse_reading("SO|7OO143", plate)
    assert reading.normalised == "SO | 700143"


def test_a_window_left_out_at_the_end_is_not_invented(plate):
    assert parse_reading("SP|700143", plate).normalised == "SP | 700143"


def test_a_window_of_which_nothing_was_typed_stays_without_a_place(plate):
    reading = parse_reading("SP||17", plate)
    assert [cell.window for cell in reading.cells] == [0, 0, 2, 2]
    assert reading.problems == ()


def test_a_set_that_is_never_closed_is_shown_where_it_opens(number):
    assert shown(parse_reading("70[01", number)) == [
        "reading:1:3: this [ is never closed\n"
        "    70[01\n"
        "      ^\n"
        "expected two or more characters such as [38], or ? for a place that cannot be read"
    ]


def test_all_faults_are_shown_at_once(number):
    reading = parse_reading("7]0[]1[[3]|4\x07[?]", number)
    assert [problem.sentence() for problem in reading.problems] == [
        "this ] closes nothing",
        "this set names no character",
        "this set is inside another set",
        "U+0007 cannot be on a mark",
        "? cannot be in a set",
        "this set names no character",
    ]
    assert reading.as_typed == "7]0[]1[[3]|4\x07[?]"


def test_an_empty_set_is_still_a_place_and_says_nothing(number):
    assert seen(parse_reading("70[]143", number))[2] == (CellKind.WORN, "")


def test_a_window_too_many_is_shown_where_it_begins(plate):
    assert shown(parse_reading("SP|700143|17|L2", plate)) == [
        "reading:1:13: | begins window 4, and the brass plate has 3 windows\n"
        "    SP|700143|17|L2\n"
        "                ^\n"
        "expected at most 2 of the sign |"
    ]


def test_a_text_longer_than_any_mark_is_not_read(number):
    reading = parse_reading("7" * 501, number, name="case.json")
    assert reading.cells == ()
    assert (
        reading.problems[0]
        .render()
        .startswith("case.json:1:501: the reading is 501 characters long\n")
    )


@pytest.mark.parametrize("typed", ["", "   "])
def test_a_reading_without_a_sign_says_what_to_type_instead(number, typed):
    problem = parse_reading(typed, number).problems[0]
    assert problem.sentence() == "nothing was typed"
    assert "…" in problem.expected()


@pytest.mark.parametrize("mark", ["number", "body", "engine", "plate", "tail"])
@given(text=ANY_TEXT)
def test_any_text_is_kept_and_its_problems_stand_inside_it(request, mark, text):
    reading = parse_reading(text, request.getfixturevalue(mark))
    assert reading.as_typed == text
    for problem in reading.problems:
        assert problem.source.text in (text, "")
        if problem.source.column is not None:
            assert 1 <= problem.source.column <= len(text)
        assert problem.render()
    for place in (*reading.cells, *reading.changes):
        assert 1 <= place.column <= len(text)
    assert all(cell.characters for cell in reading.cells if cell.kind is CellKind.CLEAR)


@pytest.mark.parametrize("mark", ["number", "body", "engine", "plate", "tail"])
@given(text=ANY_TEXT)
def test_the_plain_form_reads_as_itself(request, mark, text):
    named = request.getfixturevalue(mark)
    reading = parse_reading(text, named)
    if not reading.problems:
        again = parse_reading(reading.normalised, named)
        assert again.normalised == reading.normalised
        assert seen(again) == seen(reading)
        assert [(c.typed, c.normalised) for c in again.changes if c.typed != c.normalised] == []


@pytest.mark.parametrize(
    ("typed", "plain", "columns"),
    [
        # A year and a change level are no date, whatever they look like.
        (
            "223|65 8 9|6195|423 G",
            "223 | 65 8 9 | 6195 | 423 G",
            [1, 2, 3, 5, 6, 8, 10, 12, 13, 14, 15, 17, 18, 19, 21],
        ),
        (
            "390|66 8|7 66|414 S",
            "390 | 668 | 1966-07 | 414S",
            [1, 2, 3, 5, 6, 8, 10, 11, 12, 13, 13, 13, 13, 15, 16, 17, 19],
        ),
    ],
)
def test_a_date_is_written_out_in_its_own_window_and_loses_nothing(typed, plain, columns):
    tag = open_book(find_book("ford-1964-1973")).book.mark("engine_tag")
    reading = parse_reading(typed, tag)
    assert reading.normalised == plain
    assert [cell.column for cell in reading.cells] == columns
