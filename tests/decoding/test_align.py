"""Cells in fields: what is missing is named, what is too much is left over."""

from hypothesis import given
from hypothesis import strategies as st

from witnessmark.decoding import sure_places
from witnessmark.reading import CellKind

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
    assert decoding.alternatives[0].fields[1].value == "70014?"


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
    decoding = decoded("frame", "*SP700143*")
    assert decoding.unread == "**"
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


def test_places_are_sure_where_all_were_typed_or_said_to_be_lost(decoded):
    assert signs(sure_places(decoded("frame", "SP70…3").field_cells[1])) == "70???3"


def test_no_place_is_sure_where_a_character_is_missing_somewhere(decoded):
    assert signs(sure_places(decoded("frame", "SP70014").field_cells[1])) == "??????"


@given(text=TYPED, mark=st.sampled_from(["plate", "frame", "wing", "casting", "axle"]))
def test_nothing_typed_is_dropped(decoded, text, mark):
    decoding = decoded(mark, text)
    typed = [c for c in decoding.reading.cells if c.kind is not CellKind.GAP]
    kept = [cell for found in decoding.field_cells for cell in found.cells if cell in typed]
    left_over = decoding.unread.replace("…", "")
    assert "".join(sorted(signs(kept) + left_over)) == "".join(sorted(signs(typed)))
