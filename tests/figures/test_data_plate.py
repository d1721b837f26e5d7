"""The plate as read: laid out as the book has it, nothing dropped, no text over another, and
every code told in the table beside it."""

import sys
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.examples import tried_on
from tests.published.books import CHEVROLET, FORD, JAGUAR, SHIPPED, TARVANE, VOLKSWAGEN
from witnessmark.catalogue import Catalogue, speaking
from witnessmark.codebook import find_book, open_book
from witnessmark.codebook.book import ANY_CAR
from witnessmark.decoding import decode, fields_said
from witnessmark.figures import data_plate
from witnessmark.figures.drawing import WIDTH
from witnessmark.figures.plate_codes import plate_codes
from witnessmark.figures.plate_windows import lay_out_plate
from witnessmark.outline.records import Paragraph, Table
from witnessmark.reading import parse_reading
from witnessmark.report.sections import plates
from witnessmark.wording import Names

sys.path.insert(0, str(Path(__file__).parent))
from drawn_texts import SVG, assert_clean, tree, written


@cache
def book_of(book_id):
    return open_book(find_book(book_id)).book


def decoded(book_id, mark_id, text, context=ANY_CAR):
    book = book_of(book_id)
    mark = book.mark(mark_id)
    return mark, decode(parse_reading(text, mark), book, mark, context), book


def plate(book_id, mark_id, text, context=ANY_CAR):
    mark, decoding, book = decoded(book_id, mark_id, text, context)
    return data_plate(mark, decoding, book, Names(()), WIDTH)


def rows(book_id, mark_id, text, context=ANY_CAR):
    """The cells of the table beside it, as text."""
    mark, decoding, book = decoded(book_id, mark_id, text, context)
    *_, table = plates.plate(mark, decoding, book, Names(()))
    assert isinstance(table, Table)
    return [[cell.text for cell in row] for row in table.rows]


def texts(figure):
    return [each.text for each in written(figure)]


def told(*asked):
    """All that the table says, as one text."""
    return " ".join(text for row in rows(*asked) for text in row).replace("\n", " ")


BRASS = "SP|70[08]1?3|40047|99|L2|3[79]0|_"


def test_the_brass_plate_has_its_windows_where_the_book_has_them():
    mark, decoding, book = decoded(TARVANE, "plate_brass", BRASS)
    placed = lay_out_plate(mark, plate_codes(mark, decoding, book), 460)
    columns = sorted({each.x for row in placed for each in row})
    at = {
        each.codes[0].heading: (number, columns.index(each.x) + 1)
        for number, row in enumerate(placed, 1)
        for each in row
    }
    assert at == {field.heading: (field.row, field.column) for field in mark.fields}


def test_each_heading_and_reading_stands_in_the_plate():
    shown = texts(plate(TARVANE, "plate_brass", BRASS))
    for heading in ("TYPE", "CHASSIS NO.", "ENGINE NO.", "PAINT", "TRIM", "AXLE", "EXTRAS"):
        assert shown.count(heading) == 1
    for read in ("SP", "70[08]1?3", "40047", "99", "L2", "3[79]0", "_"):
        assert read in shown
        assert read in [row[2] for row in rows(TARVANE, "plate_brass", BRASS)]


def test_codes_are_told_in_words_with_shares_where_they_are_not_sure():
    shown = told(TARVANE, "plate_brass", BRASS)
    assert "Solent Sprint, two litres" in shown
    assert "370: 3.70 to 1 (50 %)" in shown
    assert "or 390: 3.90 to 1 (50 %)" in shown
    assert "not listed" in shown
    assert "left empty: no extras ordered" in shown
    assert "Solent Sprint, two litres (" not in shown


def test_what_is_unread_stands_in_rows_of_its_own_with_the_reason():
    shown = told(TARVANE, "plate_brass", BRASS)
    assert "not explained" in shown
    assert "paint: not listed by the book" in shown
    clear = told(TARVANE, "plate_brass", "SP|700143|40047|17|L2|370|_")
    assert "not explained" not in clear
    left = told(TARVANE, "seat_chassis_tail", "E 590417")
    assert "left over: no field of this mark explains it" in left


def test_places_lost_are_one_sign_and_no_invented_characters():
    shown = texts(plate(TARVANE, "plate_brass", "SP|700143|40…|17|L2|370|_"))
    assert shown.count("40…") == 1
    assert not any("40?" in text for text in shown)


def test_a_window_of_which_nothing_was_noted_is_drawn_and_says_so():
    assert told(TARVANE, "plate_brass", "SP|700143").count("nothing was noted here") == 5
    assert "EXTRAS" in texts(plate(TARVANE, "plate_brass", "SP|700143"))


def test_fixings_are_told_where_the_book_tells_them_and_never_drawn():
    mark, decoding, book = decoded(TARVANE, "plate_brass", BRASS)
    _, note, _ = plates.plate(mark, decoding, book, Names(()))
    told_of = "How it is fixed, by the code book: four round-headed brass rivets."
    assert note == Paragraph(told_of, "lead")
    drawn, _ = plates.plate(replace(mark, fixings=""), decoding, book, Names(()))
    assert drawn.svg.count("<circle") == len(mark.fields)


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
    assert "8 June 1960" in told(TARVANE, "engine_casting", "08F0")
    assert "one of" in told(TARVANE, "engine_casting", "0?F?")


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
        (
            VOLKSWAGEN,
            "m_plate_1970",
            "22 041 236|227 506 517|060640 616|44 3 7123 UB 2319 31",
            ("Kombi", "1971"),
        ),
        (
            JAGUAR,
            "data_plate_38",
            "850512|R5123-9|R4872|EB4021JS",
            ("3.8", "9 to 1"),
        ),
    ],
)
def test_real_layouts_with_many_fields_hold(book, mark, text, says):
    figure = plate(book, mark, text)
    assert_clean(figure)
    for words in says:
        assert words in told(book, mark, text)


def test_a_window_at_issue_has_a_frame_and_a_word_and_the_caption_names_it():
    mark, decoding, book = decoded(TARVANE, "plate_brass", BRASS)
    field = mark.fields[3]
    plain = data_plate(mark, decoding, book, Names(()), WIDTH)
    framed = data_plate(mark, decoding, book, Names(()), WIDTH, frozenset({field.id}))
    assert_clean(framed)
    assert [each for each in texts(framed) if each not in texts(plain)] == ["at issue"]
    assert framed.svg.count('stroke-width="2.2"') == plain.svg.count('stroke-width="2.2"') + 1
    assert framed.caption == f"{plain.caption} At issue: {field.name}."


def test_every_sentence_comes_from_the_catalogue():
    with speaking(Catalogue("xx", {"not listed": "steht nicht da"})):
        shown = told(TARVANE, "plate_brass", BRASS)
    assert "steht nicht da" in shown


MARKS = [(book_id, mark.id) for book_id in SHIPPED for mark in book_of(book_id).marks]
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
    figure = data_plate(mark, decoding, book, Names(()), WIDTH)
    assert_clean(figure)
    numbers = [each.text for each in written(figure) if each.anchor == "middle"]
    # A number that stands in two fields is one, with one number in the figure.
    expected = sorted(str(n) for n in range(1, len(fields_said(book, mark)) + 1))
    assert sorted(numbers) == expected
    titles = [each.text for each in tree(figure).iter(f"{SVG}title")][1:]
    windows = len(mark.windows_in_order()) if mark.windows else 1
    assert len(titles) == windows
    for code in plate_codes(mark, decoding, book):
        assert code.says
