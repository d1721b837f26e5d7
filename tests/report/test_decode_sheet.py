"""The decode sheet: one page that says in words what the numbers say, and nothing more."""

import io
import re
from dataclasses import fields, is_dataclass, replace
from datetime import date
from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pypdf import PdfReader

from tests.examined import ratios_alone
from tests.examples import tried_on
from tests.never_said import never_said
from tests.published.books import opened
from tests.worked.opened import (
    CARS,
    PRINTED,
    book_and_version,
    case_of,
    opinion_of,
    unweighed,
    with_reading,
)
from witnessmark.casefile import Claim, MarkReading, case_from
from witnessmark.catalogue import Catalogue, speaking
from witnessmark.codebook import ItemKind, MarkKind
from witnessmark.dates import DateSpan
from witnessmark.examination import car_marks
from witnessmark.outline.records import Columns, Table
from witnessmark.report.press.render import print_outline
from witnessmark.report.records import Form, PaperSize
from witnessmark.report.sheets.decode_lines import Topic, clearest, dates_told, main_of, topic_of
from witnessmark.report.sheets.decode_sheet import build_decode_sheet
from witnessmark.weighing import Answer

BOOK = book_and_version()[0]
SMALLEST = 8.95
"""Points of the letters in a narrow table."""

CHEVROLET = {
    "number_plate": "124379N506071",
    "body_plate_norwood_1969": "69 12437 NOR 123456 BDY | 711 | 52 52 | 05B | X33",
    "partial_number_engine": "19N506071",
    "engine_pad": "V1118DZ",
    "block_cast_date": "K88",
    "axle_stamp": "BS1118G1",
}
FORD = {
    "apron_stamp": "7R01K123451",
    "door_plate_1967": "7R01K123451|65A|M|2A|12F|71|5|5",
    "engine_stamp": "7R123451",
    "block_date": "6J12",
}
CLAIMS = {
    "chevrolet-1964-1972": {
        "sequence": "506071", "model": "camaro", "model_year": "1969", "works": "norwood"
    },
    "ford-1964-1973": {
        "unit_number": "123451", "model": "mustang", "model_year": "1967", "works": "san-jose"
    },
}  # fmt: skip
READINGS = {"chevrolet-1964-1972": CHEVROLET, "ford-1964-1973": FORD}
NUMBERS = {"chevrolet-1964-1972": ("506071", "123456"), "ford-1964-1973": ("123451",)}


@cache
def real_opinion(book_id, without=()):
    """An examination of an invented number by a shipped book, some marks left out."""
    book = opened(book_id)
    readings = [{"mark": m, "text": t} for m, t in READINGS[book_id].items() if m not in without]
    case = case_from(
        {
            "format": "witnessmark-case",
            "format_version": 2,
            "id": "real",
            "book": book_id,
            "claim": {"made_by": "the seller", "items": CLAIMS[book_id]},
            "readings": readings,
        }
    )
    return ratios_alone(case, book)


@cache
def sheet_of(name, with_numbers=False):
    """The sheet of a demonstration car, or of the case made for a shipped book."""
    if name in CARS:
        return build_decode_sheet(opinion_of(name), BOOK, PRINTED, with_numbers=with_numbers)
    opinion = real_opinion(name)
    return build_decode_sheet(opinion, opened(name), PRINTED, with_numbers=with_numbers)


def texts(value):
    """Every text of a part of an outline, without the words that the pages bring along."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, tuple):
        for each in value:
            yield from texts(each)
    elif is_dataclass(value):
        for field in fields(value):
            if field.name != "words":
                yield from texts(getattr(value, field.name))


def text_of(outline):
    """All of it, drawings included, with their words and without their coordinates."""
    return "\n".join(re.sub(r"<[^>]*>", "\n", text) for text in texts(outline))


def tables(blocks):
    """Every table, those in columns too."""
    for block in blocks:
        if isinstance(block, Columns):
            yield from tables((*block.left, *block.right))
        elif isinstance(block, Table):
            yield block


def rows_of(outline):
    """The rows: number in the drawing, as read, what it says."""
    return [tuple(c.text for c in row) for t in tables(outline.front) for row in t.rows]


def printed(outline, size):
    """The PDF; the compiler complains of nothing."""
    made = print_outline(outline, (), PRINTED, Form(size=size))
    assert made.warnings == ()
    return PdfReader(io.BytesIO(made.pdf))


def smallest(page):
    """The size of the smallest letters of a page, in points."""
    sizes = []

    def visit(text, matrix, text_matrix, _font, size):
        if text.strip():
            sizes.append(size * text_matrix[3] * matrix[3])

    page.extract_text(visitor_text=visit)
    return min(map(abs, sizes))


def serials(opinion, book):
    """Every number read or claimed, as far as it is clear, of at least three characters."""
    numbers = {item.id for item in book.items if item.kind is ItemKind.NUMBER}
    found = {v for k, v in opinion.casefile.claim.items.items() if k in numbers}
    for decoding in opinion.decodings:
        for cells in decoding.field_cells:
            if cells.says in numbers:
                found.add("".join(cell.sign() for cell in cells.cells))
    return {each for each in found if len(each) >= 3 and any(map(str.isdigit, each))}


@pytest.mark.parametrize(
    ("size", "with_numbers"),
    [(PaperSize.A4, True), (PaperSize.LETTER, True), (PaperSize.LETTER, False)],
)
@pytest.mark.parametrize("name", [*CARS, *CLAIMS])
def test_it_is_one_page(name, size, with_numbers):
    """Four demonstration cars, a Chevrolet and a Ford, on both papers, masked and in full; no
    letter is set smaller to make it fit."""
    [page] = printed(sheet_of(name, with_numbers), size).pages
    assert smallest(page) >= SMALLEST


@pytest.mark.parametrize("name", [*CARS, *CLAIMS])
def test_every_code_of_the_main_plate_is_explained_once(name):
    """Its number in the drawing stands beside one row, with what was read and what it says."""
    opinion, book = (opinion_of(name), BOOK) if name in CARS else (real_opinion(name), opened(name))
    found = main_of(clearest(opinion.decodings), book)
    assert found is not None
    mark, _ = found
    numbered = sorted(int(row[0]) for row in rows_of(sheet_of(name)) if row[0])
    assert numbered == list(range(1, len(mark.fields) + 1))
    assert all(row[2] for row in rows_of(sheet_of(name)))


def test_the_main_plate_is_a_plate_and_not_a_paper():
    """The build card of `clean` has eleven fields, the plate has seven."""
    mark, _ = main_of(clearest(opinion_of("clean").decodings), BOOK)
    assert (mark.id, mark.kind) == ("plate_brass", MarkKind.PLATE)


def test_an_empty_window_says_what_was_not_ordered():
    """EXTRAS of `clean` was never struck; that of `altered` says HW."""
    assert ("7", "_", "Extras: left empty, which says: no extras ordered") in rows_of(
        sheet_of("clean")
    )
    assert ("7", "HW", "Extras: heater and wire wheels") in rows_of(sheet_of("altered"))


def test_a_code_that_is_not_in_the_book_is_no_fault_of_the_car():
    """Paint 99 on the brass plate of `altered`."""
    case = with_reading(case_of("altered"), 0, "SP|700236|40144|99|L2|370|HW")
    sheet = build_decode_sheet(unweighed("altered", case), BOOK, PRINTED)
    assert ("4", "99", "Paint: not in the book, which is no fault of the car") in rows_of(sheet)


def test_what_cannot_be_read_is_said_to_be_so():
    """Trim ?? on the brass plate of `altered`."""
    case = with_reading(case_of("altered"), 0, "SP|700236|40144|22|??|370|HW")
    rows = rows_of(build_decode_sheet(unweighed("altered", case), BOOK, PRINTED))
    assert ("5", "??", "Trim: cannot be read") in rows


def test_a_code_with_two_meanings_shows_both():
    """Paint 1[78] of `altered`: Signal Red or Mist Silver."""
    case = with_reading(case_of("altered"), 0, "SP|700236|40144|1[78]|L2|370|HW")
    rows = rows_of(build_decode_sheet(unweighed("altered", case), BOOK, PRINTED))
    [says] = [row[2] for row in rows if row[:2] == ("4", "1[78]")]
    assert "Signal Red" in says
    assert "Mist Silver" in says


def test_a_date_takes_the_year_that_the_car_has():
    """The gearbox week 145 of `clean`, a car of 1955."""
    told = text_of(sheet_of("clean"))
    assert "2 to 8 April 1955\n" in told
    assert "1965" not in told


def test_a_day_of_any_year_is_told_as_a_day():
    """Day and month stand on the pad and no year: the years that the book has, not their days."""
    spans = tuple(DateSpan(date(year, 2, 11), date(year, 2, 11)) for year in range(1963, 1973))
    assert dates_told(spans) == (
        "11 February of one of 10 years from 1963 to 1972; the mark does not say which"
    )
    other = DateSpan(date(1969, 2, 12), date(1969, 2, 12))
    assert dates_told((*spans, other)).startswith("one of 11 dates from 11 February 1963 to")
    assert dates_told(spans[:2]) == "11 February 1963 or 11 February 1964"


def test_two_marks_that_say_different_things_are_both_told():
    """`altered`: one coachbuilder's letter on the wing, another on the seat pan."""
    told = text_of(sheet_of("altered"))
    assert "body by Marrick, on another mark body by Ellery" in told
    rows = rows_of(sheet_of("altered"))
    assert ("", "M", "Coachbuilder: body by Marrick") in rows
    assert ("", "E", "Coachbuilder: body by Ellery") in rows


@pytest.mark.parametrize(
    ("book_id", "day"),
    [("chevrolet-1964-1972", "8 to 14 May 1969"), ("ford-1964-1973", "12 June 1967")],
)
def test_a_planned_date_is_said_to_be_planned(book_id, day):
    [says] = [row[2] for row in rows_of(sheet_of(book_id)) if f": {day}" in row[2]]
    assert says.endswith("; a planned date, not the date of building")


def test_what_rests_on_memory_says_so():
    """The list of Ford's colours comes from memory; the model year of the plate does not."""
    rows = {row[0]: row[2] for row in rows_of(sheet_of("ford-1964-1973")) if row[0]}
    assert rows["7"] == "Colour: Wimbledon White (from memory)"
    assert rows["1"] == "Model year: 1967"
    assert "“From memory” marks what has no printed source." in text_of(sheet_of("ford-1964-1973"))
    assert "rom memory" not in text_of(sheet_of("clean"))


def test_the_note_on_memory_stands_in_every_language():
    german = Catalogue("de", {"{told} (from memory)": "{told} (aus dem Gedächtnis)"})
    opinion, book = real_opinion("ford-1964-1973"), opened("ford-1964-1973")
    with speaking(german):
        sheet = build_decode_sheet(opinion, book, PRINTED)
    assert "Wimbledon White (aus dem Gedächtnis)" in text_of(sheet)
    assert "“From memory” marks what has no printed source." in text_of(sheet)


def test_it_says_what_the_numbers_do_not_say():
    chevrolet = text_of(sheet_of("chevrolet-1964-1972"))
    assert "Nothing in the number of a Camaro of 1967 to 1969 tells an SS, an RS or a Z/28." in (
        chevrolet
    )
    assert "No code that was read says anything about options or extras." in text_of(
        sheet_of("ford-1964-1973")
    )


def test_it_says_that_it_explains_and_does_not_judge():
    """And holds no likelihood ratio, whatever the car."""
    for name in (*CARS, *CLAIMS):
        told = text_of(sheet_of(name))
        assert "It does not say whether they belong to it." in told
        assert not re.search(r"\bLR\b|likelihood|support", told)
        assert never_said(told) == ()


@pytest.mark.parametrize("car", CARS)
def test_no_serial_stands_on_it_unless_it_is_asked_for(car):
    """Neither in the outline, its drawing included, nor in what a PDF reader takes out; and no
    sign tells two numbers apart."""
    opinion = opinion_of(car)
    wanted = serials(opinion, BOOK)
    assert len(wanted) > 3
    pdf = printed(sheet_of(car), PaperSize.A4)
    [page] = pdf.pages
    taken_out = page.extract_text() + str(dict(pdf.metadata or {}))
    for told in (text_of(sheet_of(car)), taken_out):
        bare = re.sub(r"\s", "", told)
        assert [each for each in wanted if each in bare] == []
        assert not set("≠◆■†‡§¶¤#") & set(bare)
    assert opinion.casefile.claim.items["chassis_number"] in text_of(sheet_of(car, True))


@pytest.mark.parametrize("book_id", CLAIMS)
def test_no_serial_of_a_shipped_book_stands_on_it_unless_it_is_asked_for(book_id):
    for number in NUMBERS[book_id]:
        assert number not in re.sub(r"\s", "", text_of(sheet_of(book_id)))
        assert number in text_of(sheet_of(book_id, True))


def test_the_limits_of_a_series_stand_only_with_the_numbers():
    """The Ford book says that unit numbers begin at 100001."""
    assert "100001" not in text_of(sheet_of("ford-1964-1973"))
    assert "100001" in text_of(sheet_of("ford-1964-1973", True))


def test_what_is_left_over_is_shown_only_with_the_numbers():
    """59 before the tail on the seat pan of `altered`."""
    assert "it also bears “59”" in text_of(sheet_of("altered", True))
    masked = text_of(sheet_of("altered"))
    assert "it bears more than the fields of the book explain" in masked
    assert "59" not in re.sub(r"195\d|196\d", "", masked)


def test_a_case_without_readings_still_has_a_sheet():
    """Nothing read, nothing explained, everything said to be silent."""
    case = replace(case_of("altered"), readings=())
    sheet = build_decode_sheet(unweighed("altered", case), BOOK, PRINTED)
    told = text_of(sheet)
    assert "No mark of the car was read." in told
    assert "No code that was read says anything about colour or trim." in told
    [page] = printed(sheet, PaperSize.LETTER).pages
    assert smallest(page) >= SMALLEST


def test_without_a_plate_the_mark_with_the_most_fields_is_drawn():
    """The Ford without its warranty plate: the number on the apron."""
    opinion = real_opinion("ford-1964-1973", ("door_plate_1967",))
    sheet = build_decode_sheet(opinion, opened("ford-1964-1973"), PRINTED)
    assert "Number on the left inner-fender apron, as read" in text_of(sheet)
    assert len(printed(sheet, PaperSize.LETTER).pages) == 1


@pytest.mark.parametrize("book_id", [*CLAIMS, "tarvane-1952-1961", "seventeen-characters"])
def test_any_mark_of_any_book_can_be_the_main_one(book_id):
    """Each filled with the last character of its alphabet: all its codes stand on the sheet."""
    book = opened(book_id)
    for mark in book.marks:
        if mark.kind is MarkKind.PAPER:
            continue
        windows = (
            "".join((field.alphabet or "A")[-1] * max(field.widths, default=6) for field in fields)
            for fields in mark.windows_in_order()
        )
        reading = {"mark": mark.id, "text": ("|" if mark.windows else "").join(windows)}
        case = replace(
            case_of("altered"), book=book_id, claim=Claim(), readings=(MarkReading(**reading),)
        )
        car = car_marks(case, book)
        opinion = replace(
            opinion_of("altered"),
            casefile=case,
            context=car.context,
            decodings=car.decodings,
            findings=(),
            answer=Answer((), (), ()),
            steadiness=None,
        )
        numbered = [row[0] for row in rows_of(build_decode_sheet(opinion, book, PRINTED)) if row[0]]
        assert sorted(map(int, numbered)) == list(range(1, len(mark.fields) + 1)), mark.id


def test_what_finds_no_room_is_counted():
    """The Chevrolet has more codes than a page holds; none of the plate is left out."""
    told = text_of(sheet_of("chevrolet-1964-1972"))
    left_out = re.search(r"(\d+) more codes? of other marks (?:is|are) in the report\.", told)
    assert left_out is not None
    assert "more code" not in text_of(sheet_of("clean"))


@given(st.text(alphabet="0123456789", min_size=6, max_size=6), st.sampled_from(["17", "99", "?_"]))
@tried_on(15, few=4)
def test_any_number_is_masked_and_any_paint_is_told(number, paint):
    """Whatever six figures stand on the plate, the sheet has six dots."""
    case = with_reading(case_of("altered"), 0, f"SP|{number}|40144|{paint}|L2|370|HW")
    rows = rows_of(build_decode_sheet(unweighed("altered", case), BOOK, PRINTED))
    by_number = {row[0]: row for row in rows if row[0]}
    assert by_number["2"][1] == "••••••"
    assert by_number["4"][1] == paint


@pytest.mark.parametrize(
    ("item", "home", "topic"),
    [
        ("paint", "", Topic.COLOUR),
        ("trim_colour", "", Topic.COLOUR),
        ("vinyl_top", "", Topic.COLOUR),
        ("axle_ratio", "", Topic.RUNNING),
        ("casting_date", "engine", Topic.RUNNING),
        ("extras", "", Topic.OPTIONS),
        ("body_option", "", Topic.OPTIONS),
        ("body_date", "body", Topic.CAR),
    ],
)
def test_an_item_stands_under_the_question_that_it_answers(item, home, topic):
    assert topic_of(item, home) is topic
