"""Cells in fields: what is missing is named, what is too much is left over."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from witnessmark.decoding import pooled
from witnessmark.decoding.align import align
from witnessmark.reading import CellKind, parse_reading

TYPED = st.text(alphabet="0123456789SADPHRO[]?~_… |*", max_size=30)


def signs(cells):
    return "".join(cell.sign() for cell in cells)


def fields(decoding):
    """Each field's cells in the notation."""
    return {found.field: signs(found.cells) for found in decoding.field_cells}


def test_what_is_missing_is_named_and_filled_with_places_that_say_nothing(decoded):
    decoding = decoded("frame", "SP70014")
    assert decoding.missing == ("chassis",)
    assert fields(decoding) == {"type": "SP", "chassis": "70014?"}
    assert decoding.field_cells[1].missing == 1
    assert decoding.alternatives[0].fields[1].value == "70014"


def test_places_said_to_be_lost_are_not_missing(decoded):
    decoding = decoded("frame", "SP70…3")
    assert decoding.missing == ()
    assert fields(decoding)["chassis"] == "70???3"


def test_a_field_of_which_all_is_lost_is_named(decoded):
    decoding = decoded("frame", "…700143")
    assert decoding.missing == ("type",)
    assert fields(decoding) == {"type": "??", "chassis": "700143"}


def test_a_window_that_was_not_typed_is_named_and_decodes_to_nothing(decoded):
    decoding = decoded("plate", "SP|700143")
    assert decoding.missing == ("paint", "extras")
    assert [meaning.field for meaning in decoding.alternatives[0].fields] == ["type", "chassis"]


def test_what_no_field_explains_is_left_over(decoded):
    decoding = decoded("frame", "*SP700143* Q")
    assert decoding.unread == "Q"
    assert decoding.missing == ()


def test_a_field_in_which_nothing_was_struck_is_empty_and_not_missing(decoded):
    decoding = decoded("plate", "SP|700143|11|_")
    assert [found.is_empty for found in decoding.field_cells] == [False, False, False, True]
    assert decoding.missing == ()


def test_a_mark_left_blank_is_empty_throughout(decoded):
    decoding = decoded("frame", "_")
    assert [found.is_empty for found in decoding.field_cells] == [True, True]
    assert decoding.missing == ()
    assert [m.meaning for m in decoding.alternatives[0].fields] == ["left empty", "left empty"]


def test_places_are_sure_where_all_were_typed_or_said_to_be_lost(book, decoded):
    seen = pooled(book, [decoded("frame", "SP70…3")])["frame", "chassis"]
    assert [place.signs for place in seen.places] == ["7", "0", "?", "?", "?", "3"]


def test_no_place_is_sure_where_a_character_is_missing_somewhere(book, decoded):
    seen = pooled(book, [decoded("frame", "SP70014")])["frame", "chassis"]
    assert (seen.places, seen.lacks) == ((), 1)


def test_a_place_missing_beside_a_field_leaves_that_one_unsure_too(book):
    """The letter parts the two: only what could be each other's is unsure."""
    mark = replace(
        book.mark("frame"),
        fields=tuple(
            replace(field, widths=(2,), alphabet="0123456789") if field.id == "type" else field
            for field in book.mark("frame").fields
        ),
    )
    lacks = [each.cells.lacks for each in align(parse_reading("1270014", mark), mark).fields]
    assert lacks == [1, 1]


@given(text=TYPED, mark=st.sampled_from(["plate", "frame", "wing", "casting", "axle"]))
def test_nothing_typed_is_dropped(decoded, text, mark):
    decoding = decoded(mark, text)
    typed = [c for c in decoding.reading.cells if c.kind is not CellKind.GAP]
    layout = decoding.reading.layout
    columns = {cell.column for found in decoding.field_cells for cell in found.cells}
    columns |= {cell.column for cell in (*layout.spelt, *layout.around, *layout.unread)}
    assert {cell.column for cell in typed} <= columns
