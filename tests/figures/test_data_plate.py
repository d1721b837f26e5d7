"""The plate as read: laid out as the book has it, nothing dropped, no text over another."""

import sys
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.examples import tried_on
from witnessmark.catalogue import Catalogue, speaking
from witnessmark.codebook import find_book, open_book
from witnessmark.codebook.book import ANY_CAR
from witnessmark.decoding import decode
from witnessmark.figures import data_plate, data_plate_sheets
from witnessmark.figures.drawing import SANS_WIDTH
from witnessmark.figures.plate_codes import plate_codes
from witnessmark.figures.plate_windows import lay_out_plate
from witnessmark.reading import parse_reading
from witnessmark.wording import Names

sys.path.insert(0, str(Path(__file__).parent))
from drawn_texts import SVG, assert_clean, tree, written

TARVANE, CHEVROLET, FORD = "tarvane-1952-1961", "chevrolet-1964-1972", "ford-1964-1973"
BOOKS = (TARVANE, CHEVROLET, FORD, "dated-parts", "seventeen-characters")


@cache
def book_of(book_id):
    return open_book(find_book(book_id)).book


def decoded(book_id, mark_id, text, context=ANY_CAR):
    book = book_of(book_id)
    mark = book.mark(mark_id)
    return mark, decode(parse_reading(text, mark), book, mark, context), book


def plate(book_id, mark_id, text, context=ANY_CAR):
    mark, decoding, book = decoded(book_id, mark_id, text, context)
    return data_plate(mark, decoding, book, Names(()))


def texts(figure):
    return [each.text for each in written(figure)]


def told(figure):
    """All that is written, as one text in which broken lines are whole again."""
    return " ".join(texts(figure))


BRASS = "SP|70[08]1?3|40047|99|L2|3[79]0|_"


def test_the_brass_plate_has_its_windows_where_the_book_has_them():
    mark, decoding, book = decoded(TARVANE, "plate_brass", BRASS)
    placed = lay_out_plate(mark, plate_codes(mark, decoding, book), 460)
    columns = sorted({each.x for each in placed})
    rows = sorted({each.y for each in placed})
    at = {
        each.window.codes[0].heading: (rows.index(each.y) + 1, columns.index(each.x) + 1)
        for each in placed
    }
    assert at == {field.heading: (field.row, field.column) for field in mark.fields}


def test_each_heading_and_reading_stands_in_the_plate():
    shown = texts(plate(TARVANE, "plate_brass", BRASS))
    for heading in ("TYPE", "CHASSIS NO.", "ENGINE NO.", "PAINT", "TRIM", "AXLE", "EXTRAS"):
        assert shown.count(heading) == 1
    for read in ("SP", "70[08]1?3", "40047", "99", "L2", "3[79]0", "_"):
        assert shown.count(read) >= 2, read


def test_codes_are_told_in_words_with_shares_where_they_are_not_sure():
    shown = told(plate(TARVANE, "plate_brass", BRASS))
    assert "Solent Sprint, two litres" in shown
    assert "370: 3.70 to 1 (50 %)" in shown
    assert "or 390: 3.90 to 1 (50 %)" in shown
    assert "not listed" in shown
    assert "left empty: no extras ordered" in shown
    assert "Solent Sprint, two litres (" not in shown


def test_what_is_unread_is_drawn_apart_with_its_reason():
    shown = told(plate(TARVANE, "plate_brass", BRASS))
    assert "Read, and not explained by the book" in shown
    assert "paint: not listed by the book" in shown
    clear = told(plate(TARVANE, "plate_brass", "SP|700143|40047|17|L2|370|_"))
    assert "not explained" not in clear
    left = told(plate(TARVANE, "seat_chassis_tail", "E 590417"))
    assert "left over: no field of this mark explains it" in left


def test_places_lost_are_one_sign_and_no_invented_characters():
    shown = texts(plate(TARVANE, "plate_brass", "SP|700143|40…|17|L2|370|_"))
    assert shown.count("40…") == 2
    assert not any("40?" in text for text in shown)
    assert "… stands for places lost, unknown how many." in " ".join(shown)


def test_a_window_of_which_nothing_was_noted_is_drawn_and_says_so():
    shown = told(plate(TARVANE, "plate_brass", "SP|700143"))
    assert shown.count("nothing was noted here") == 5
    assert "EXTRAS" in shown


def test_only_the_signs_that_occur_are_explained():
    shown = told(plate(TARVANE, "plate_brass", "SP|700143|40047|17|L2|370|HW"))
    for sign in ("worn away", "a 3 or an 8", "struck over", "left empty", "places lost"):
        assert sign not in shown


def test_fixings_are_told_where_the_book_tells_them_and_never_drawn():
    shown = told(plate(TARVANE, "plate_brass", BRASS))
    assert "How it is fixed, by the code book: four round-headed brass rivets." in shown
    mark, decoding, book = decoded(TARVANE, "plate_brass", BRASS)
    bare = data_plate(replace(mark, fixings=""), decoding, book, Names(()))
    assert "fixed" not in told(bare)
    circles = len(list(tree(bare).iter(f"{SVG}circle")))
    assert circles == 2 * len(mark.fields)


def test_a_mark_without_windows_is_one_line_of_fields():
    figure = plate(TARVANE, "frame_number", "4 700143")
    numbers = [each for each in written(figure) if each.text in ("4", "700143")]
    assert numbers[0].y == numbers[1].y
    assert not list(tree(figure).iter(f"{SVG}rect"))


def test_characters_that_do_not_fit_their_window_go_on_below():
    doubtful = "[0123456789]" * 6
    figure = plate(TARVANE, "plate_brass", f"SP|{doubtful}|{doubtful[:60]}|17|L2|370|_")
    assert_clean(figure)
    pieces = [each.text for each in written(figure) if set(each.text) <= set("[0123456789]")]
    assert "".join(pieces).count("[0123456789]") >= 6


def test_a_date_is_told_as_days_and_one_of_many_as_a_stretch():
    assert "8 June 1960" in told(plate(TARVANE, "engine_casting", "08F0"))
    assert "one of" in told(plate(TARVANE, "engine_casting", "0?F?"))


@pytest.mark.parametrize(
    ("book", "mark", "text", "says"),
    [
        (
            CHEVROLET,
            "body_plate_norwood_1969",
            "ST 69 12437 NOR 123456 BDY|TR 711|72 B|04C|X33",
            ("Norwood", "black vinyl top", "the line ends in BDY"),
        ),
        (
            FORD,
            "door_plate_1967",
            "8R01C123456|65A|B|2A|10C|52 1234|5|W",
            ("San Jose", "Royal Maroon", "10 March 1968"),
        ),
    ],
)
def test_real_layouts_with_many_fields_hold(book, mark, text, says):
    figure = plate(book, mark, text)
    assert_clean(figure)
    for words in says:
        assert words in told(figure)


def test_a_long_plate_is_cut_between_rows_and_loses_none():
    mark, decoding, book = decoded(FORD, "door_plate_1967", "8R01[CG]123456|65A|B|2A|10C|52|5|W")
    sheets = data_plate_sheets(mark, decoding, book, Names(()), 400)
    assert len(sheets) > 1
    shown = [text for sheet in sheets for text in texts(sheet)]
    for number in range(1, len(mark.fields) + 1):
        assert shown.count(str(number)) >= 2
    for sheet in sheets:
        assert_clean(sheet)
    ids = [each.get("id") for sheet in sheets for each in tree(sheet).iter() if each.get("id")]
    assert len(ids) == len(set(ids))


def test_two_readings_of_one_mark_share_no_id():
    one, other = (plate(TARVANE, "frame_number", text) for text in ("4 700143", "4 70014?"))
    ids = [each.get("id") for fig in (one, other) for each in tree(fig).iter() if each.get("id")]
    assert len(ids) == len(set(ids)) == 4


def test_every_sentence_comes_from_the_catalogue():
    with speaking(Catalogue("xx", {"not listed": "steht nicht da", "as read": "gelesen"})):
        shown = told(plate(TARVANE, "plate_brass", BRASS))
    assert "steht nicht da" in shown
    assert "gelesen" in shown


MARKS = [(book_id, mark.id) for book_id in BOOKS for mark in book_of(book_id).marks]
SIGNS = st.sampled_from(
    [
        *"0123456789ABCDEFGHKLMNPRSTVWX",
        "[38]",
        "[08B]",
        "[0123456789]",
        "?",
        "~",
        "_",
        "…",
        "-",
        " ",
    ]
)


@st.composite
def readings(draw):
    """A reading of any mark of any shipped book: sound, doubtful or nonsense."""
    book_id, mark_id = draw(st.sampled_from(MARKS))
    mark = book_of(book_id).mark(mark_id)
    windows = []
    for fields in mark.windows_in_order() if mark.windows else (mark.fields,):
        most = sum(max(field.widths) for field in fields) + 3
        windows.append("".join(draw(st.lists(SIGNS, max_size=min(most, 24)))))
    return book_id, mark_id, "|".join(windows[: draw(st.integers(1, len(windows)))])


@tried_on(60)
@given(readings())
def test_any_decoding_is_drawn_whole_and_clean(given_reading):
    book_id, mark_id, text = given_reading
    mark, decoding, book = decoded(book_id, mark_id, text)
    figure = data_plate(mark, decoding, book, Names(()))
    assert_clean(figure)
    numbers = [each.text for each in written(figure) if each.anchor == "middle"]
    expected = sorted([str(n) for n in range(1, len(mark.fields) + 1)] * 2)
    assert sorted(numbers) == expected
    titles = [each.text for each in tree(figure).iter(f"{SVG}title")][1:]
    windows = len(mark.windows_in_order()) if mark.windows else 1
    assert len(titles) == windows + len(mark.fields)
    for code in plate_codes(mark, decoding, book):
        assert code.says


def test_the_estimate_of_widths_is_the_one_of_the_pencil():
    figure = plate(TARVANE, "plate_brass", BRASS)
    wide = next(each for each in written(figure) if each.text == "what it says")
    assert wide.right - wide.left == pytest.approx(len("what it says") * 9.5 * SANS_WIDTH)
