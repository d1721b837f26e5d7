"""Whatever stands there without a meaning is shown as unread; nothing is dropped."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.decoding.conftest import BOOK, DIGITS, INVENTED, LETTERS, mark_of
from witnessmark.codebook import Field
from witnessmark.decoding import decode
from witnessmark.decoding.records import Unexplained
from witnessmark.decoding.render import unread_text
from witnessmark.reading import parse_reading

FRAME = next(mark for mark in BOOK.marks if mark.id == "frame")
CASTING = next(mark for mark in BOOK.marks if mark.id == "casting")


def read(mark, text, book=BOOK):
    """The decoding of a text."""
    return decode(parse_reading(text, mark), book, mark)


@pytest.mark.parametrize(
    ("mark", "text", "unread"),
    [
        (FRAME, "SP700143", ""),
        (FRAME, "SP700143X", "X"),  # behind all fields
        (FRAME, "SX700143", "SX"),  # a code that no row lists
        (FRAME, "SP70K143", "K"),  # a letter where only figures stand
        (CASTING, "32C5", "32C5"),  # no day of any month
        (CASTING, "17C5", ""),
        (FRAME, "S?700143", ""),  # worn, and the book lists a code that fits
    ],
)
def test_what_has_no_meaning_is_unread(mark, text, unread):
    assert unread_text(read(mark, text)) == unread


def test_it_is_said_where_it_stands_and_why():
    assert read(FRAME, "SP70K143").unexplained == (
        Unexplained("chassis", "K", 5, "not among the characters of this field"),
    )


@given(st.text(st.sampled_from(LETTERS + DIGITS), min_size=1, max_size=14))
def test_every_clear_character_is_explained_or_unread(text):
    """By a listed code, by the figures of a number, or by name as unread."""
    decoding = read(FRAME, text)
    best = decoding.alternatives[0].fields if decoding.alternatives else ()
    explained = "".join(f.code for f in best if f.listed)
    unread = unread_text(decoding).replace(" ", "")
    typed = decoding.reading.normalised
    for character in set(typed):
        assert character in explained + unread, (typed, explained, unread)


STYLE = mark_of(
    "plate",
    Field(id="type", name="type", says="model", widths=(2,), alphabet=LETTERS, table="types"),
    Field(id="paint", name="paint", says="paint", widths=(2,), alphabet=DIGITS, table="paints"),
    Field(id="number", name="number", says="chassis_number", widths=(3, 4, 5, 6), alphabet=DIGITS),
    windows=True,
)
SHARED = replace(
    STYLE,
    fields=tuple(replace(f, column=c) for f, c in zip(STYLE.fields, (1, 1, 2), strict=True)),
)


def test_fields_that_share_a_window_follow_each_other_in_it():
    (best, *_) = read(SHARED, "SP11|700143").alternatives
    assert [(f.field, f.code) for f in best.fields] == [
        ("type", "SP"),
        ("paint", "11"),
        ("number", "700143"),
    ]
    assert len(parse_reading("SP11|700143|1", SHARED).problems) == 1


def test_a_stray_character_in_a_shared_window_is_left_over():
    assert unread_text(read(SHARED, "SP11X|700143")) == "X"


def test_a_number_without_its_leading_noughts_is_filled_with_them():
    """As it stands it is three figures; what is compared has six places."""
    decoding = read(SHARED, "SP11|233")
    number = decoding.alternatives[0].fields[2]
    assert (number.code, number.value) == ("233", "000233")
    assert [cell.column for cell in decoding.field_cells[2].cells] == [0, 0, 0, 6, 7, 8]
    assert decoding.missing == ()


def test_sources_that_disagree_are_both_shown():
    rows = tuple(
        replace(row, disputed=True) if (row.table, row.code) == ("paints", "11") else row
        for row in BOOK.codes
    )
    black = next(row for row in rows if row.disputed)
    book = replace(BOOK, codes=(*rows, replace(black, value="jet", meaning="Jet")))
    meanings = {a.fields[1].meaning for a in read(SHARED, "SP11|233", book).alternatives}
    assert meanings >= {"Coach Black (sources disagree)", "Jet (sources disagree)"}
    assert INVENTED.source == black.citation.source
