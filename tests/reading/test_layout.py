"""Cells laid out in the fields of a mark, by alphabets and lengths alone."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.reading import CellKind, parse_reading
from witnessmark.reading import layout as laying_out
from witnessmark.reading.layout import lay_out

TYPED = st.text(alphabet="0123456789OABSK?~_… .No|", max_size=30)


def laid(text, mark):
    """Each field with its cells; after it what is missing, if anything."""
    layout = lay_out(parse_reading(text, mark).cells, mark)
    fields = {}
    for placed in layout.placed:
        written = "".join(cell.sign() for cell in placed.cells)
        fields[placed.field.id] = f"{written} -{placed.missing}" if placed.missing else written
    return fields, "".join(cell.sign() for cell in layout.unread)


def test_fixed_widths_follow_each_other(body):
    assert laid("M0931", body) == ({"letter": "M", "number": "0931"}, "")


@pytest.mark.parametrize(
    ("text", "series", "number", "suffix"),
    [
        ("S24187", "S", "24187", ""),
        ("SX24187B", "SX", "24187", "B"),
        ("No. S2418", "S", "2418", ""),
        ("NO2418", "NO", "2418", ""),
        ("S2418B", "S", "2418", "B"),
        ("S?418", "S", "?418", ""),
    ],
)
def test_variable_widths_and_optional_fields_are_told_apart_by_their_alphabets(
    engine, text, series, number, suffix
):
    assert laid(text, engine) == ({"series": series, "number": number, "suffix": suffix}, "")


def test_too_few_characters_are_missing_and_not_filled(number):
    assert laid("70014", number) == ({"chassis": "70014 -1"}, "")


def test_places_lost_are_as_many_as_are_missing_at_that_very_place(number):
    assert laid("70…3", number) == ({"chassis": "70???3"}, "")


def test_places_lost_may_reach_over_several_fields(body):
    assert laid("…31", body) == ({"letter": "?", "number": "??31"}, "")


def test_places_lost_where_all_are_there_are_none(number):
    assert laid("700143…", number) == ({"chassis": "700143"}, "")


def test_what_is_too_much_is_left_over_at_the_end(number):
    assert laid("70014399", number) == ({"chassis": "700143"}, "99")


def test_of_a_tail_what_goes_before_it_is_left_over(tail):
    assert laid("590417", tail) == ({"chassis": "0417"}, "59")


def test_ornaments_around_a_number_are_no_part_of_it(number):
    assert laid("*700143*", number) == ({"chassis": "700143"}, "")


def test_words_before_and_behind_a_number_are_passed_over(number):
    reading = parse_reading("frame says 700143 matching", number)
    assert laid("frame says 700143 matching", number) == ({"chassis": "700143"}, "")
    assert "".join(cell.characters for cell in reading.layout.around) == "framematching"


def test_a_foreign_character_in_a_full_number_keeps_its_place(number):
    assert laid("70K143", number) == ({"chassis": "70K143"}, "")


def test_a_field_left_empty_lacks_nothing(plate):
    assert laid("SP|700143|_", plate) == ({"type": "SP", "chassis": "700143", "paint": "_"}, "")


def test_a_window_left_out_is_missing(plate):
    assert laid("SP", plate) == ({"type": "SP", "chassis": " -6", "paint": " -2"}, "")


def test_a_window_too_many_is_put_nowhere(plate):
    reading = parse_reading("SP|700143|17|L2", plate)
    assert "".join(cell.characters for cell in reading.layout.around) == "L2"


@pytest.mark.parametrize(
    "typed", ["SP 700143 17", "SP\n700143\n17", "SP/700143/17", "SP - 700143 | 17", "SP|700143|17"]
)
def test_a_plate_copied_with_or_without_bars_is_one(plate, typed):
    reading = parse_reading(typed, plate)
    assert [cell.window for cell in reading.cells] == [0] * 2 + [1] * 6 + [2] * 2
    assert laid(typed, plate) == ({"type": "SP", "chassis": "700143", "paint": "17"}, "")


def test_a_row_copied_out_of_its_order_goes_to_its_window(plate):
    assert laid("700143 17\nSP", plate) == ({"type": "SP", "chassis": "700143", "paint": "17"}, "")


@pytest.mark.parametrize("mark", ["number", "body", "engine", "plate", "tail"])
@given(text=TYPED)
def test_no_cell_is_dropped_and_none_laid_twice(request, mark, text):
    named = request.getfixturevalue(mark)
    cells = parse_reading(text, named).cells
    layout = lay_out(cells, named)
    placed = [cell for each in layout.placed for cell in each.cells]
    beside = [*layout.spelt, *layout.around, *layout.unread]
    gaps = {cell.column for cell in cells if cell.kind is CellKind.GAP}
    laid_out = sorted({cell.column for cell in (*placed, *beside)} - gaps)
    assert laid_out == sorted({cell.column for cell in cells} - gaps)


@pytest.mark.parametrize("mark", ["number", "body", "engine", "plate", "tail"])
@given(text=TYPED)
def test_every_field_has_a_width_it_can_have_unless_it_is_left_empty(request, mark, text):
    named = request.getfixturevalue(mark)
    for placed in lay_out(parse_reading(text, named).cells, named).placed:
        length = len(placed.cells) + placed.missing
        is_absent = length == 0 and placed.field.optional
        is_empty = all(cell.kind is CellKind.NEVER_STRUCK for cell in placed.cells)
        assert length in placed.field.widths or is_absent or is_empty


@pytest.mark.parametrize("sign", ["? ", "?", "…", "~ … "])
def test_what_could_stand_anywhere_is_told_and_not_searched(engine, sign, monkeypatch):
    """As many as the mark has places are laid out; hundreds are not tried at all."""
    searched: list[int] = []
    real = laying_out.cheapest_within
    monkeypatch.setattr(
        laying_out, "cheapest_within", lambda *a: searched.append(len(a[1])) or real(*a)
    )
    reading = parse_reading((sign * 500)[:500], engine)
    assert not any(searched)
    assert reading.as_typed == (sign * 500)[:500]
    assert "too much is unread to place it" in reading.problems[0].sentence()
    assert parse_reading(sign * 8, engine).problems == ()
    assert any(searched)
