# ruff: noqa: E501 (rows stand here as a person writes them)
"""What a spreadsheet keeps in a workbook, and what it makes of what was typed."""

import io
import random
import re
import zipfile
from datetime import date, datetime, time

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl import Workbook

from tests.bookmaking.lists import SHEET, saved, taken, told, with_part, workbook
from tests.examples import tried_on
from witnessmark.bookmaking import sheet_workbook
from witnessmark.bookmaking.sheet_workbook import MOST_UNPACKED, read_workbook_list

HEADINGS = ["table", "code", "value", "meaning", "first_year", "last_year", "basis", "source"]
RED = ["trims", "L2", "red", "red", 1956, None, "memory", "a list"]


@pytest.fixture
def book(tiny, tmp_path):
    """The tiny book on disk, whose types may be figures."""
    changed = tiny.change("book", 'alphabet = "ADPS"', 'alphabet = "0123456789ADPS"')
    return changed.write(tmp_path)


def refused(book, content, **wanted):
    """What is said against a workbook named list.xlsx."""
    return told(taken(book, "list.xlsx", content, **wanted), book)


def test_a_workbook_is_taken_by_the_name_of_its_sheet(book):
    read = taken(book, "list.xlsx", workbook([HEADINGS, RED]))
    assert told(read, book) == ""
    assert read.joined.text.endswith("\ntrims,L2,red,red,1956,,,,memory,a list\n")
    assert (read.sheet, read.separator) == ("codes", "")


def test_the_ending_of_the_name_does_not_matter(book):
    assert taken(book, "list.csv", workbook([HEADINGS, RED])).joined is not None


def test_years_with_a_point_are_years(book):
    read = taken(book, "l.xlsx", workbook([HEADINGS, [*RED[:4], 1956.0, 1957.0, *RED[6:]]]))
    assert read.joined.text.endswith("\ntrims,L2,red,red,1956,1957,,,memory,a list\n")


def test_a_day_is_taken_where_a_day_is_asked_for(book):
    heads = ["id", "model_year", "first_day", "last_day", "meaning", "basis", "source"]
    row = ["run-1955", 1955, date(1954, 9, 1), datetime(1955, 7, 29), "the run", "memory", "a list"]
    read = taken(book, "l.xlsx", workbook([heads, row], "runs"))
    assert told(read, book) == ""
    assert read.joined.text.endswith(
        "\nrun-1955,1955,1954-09-01,1955-07-29,the run,,,memory,a list\n"
    )


def test_each_wrong_cell_is_shown_by_sheet_and_cell_in_their_order(book):
    rows = [
        HEADINGS,
        ["types", 7, "solent-saloon", "Saloon", None, None, "memory", "a list"],
        [],
        ["types", datetime(2026, 5, 7), "Saloon", "Saloon", 1955.5, None, "memry", "a list"],
        ["types", time(7, 5), "solent-saloon", True, "x", None, "memory", "#REF!"],
        *([["types", "0A", "solent-saloon", "Saloon", None, None, "memory", "a list"]] * 5),
        ["types", "0A", "", "Saloon", None, None, "memory", "a list"],
    ]
    assert (
        refused(book, workbook(rows, "My list"), table="codes")
        == """\
list.xlsx:My list!B2: '7' has 1 figure where the field 'type' of the chassis plate is 2 wide: a spreadsheet drops leading zeros
    7
    ^
expected '07' if that is meant: format the column as text and type the cell again
list.xlsx:My list!B4: the spreadsheet turned this 'code' cell into a date
    2026-05-07
    ^^^^^^^^^^
expected format the column as text and type the cell again
list.xlsx:My list!C4: 'Saloon' does not have the form of 'value'
    Saloon
    ^^^^^^
expected lower-case words and digits, joined by hyphens
list.xlsx:My list!E4: 'first_year' is '1955.5' here
    1955.5
    ^^^^^^
expected a whole number
list.xlsx:My list!G4: 'memry' is not one of the words for 'basis'
    memry
    ^^^^^
expected one of: published, common practice, memory, invented
list.xlsx:My list!B5: the spreadsheet turned this 'code' cell into a time
    07:05:00
    ^^^^^^^^
expected format the column as text and type the cell again
list.xlsx:My list!D5: the spreadsheet turned this 'meaning' cell into true or false
    TRUE
    ^^^^
expected format the column as text and type the cell again
list.xlsx:My list!E5: 'first_year' is 'x' here
    x
    ^
expected a whole number
list.xlsx:My list!H5: the cell holds the spreadsheet's own error '#REF!'
    #REF!
    ^^^^^
expected the value itself
list.xlsx:My list!C11: codes.csv needs 'value'
expected lower-case words and digits, joined by hyphens"""
    )


def test_a_number_in_a_column_of_codes_may_have_lost_a_nought(book):
    """The trims of the tiny book are one or two places wide, so nobody can know."""
    said = refused(book, workbook([HEADINGS, ["trims", 1, *RED[2:]]]))
    assert said.startswith("list.xlsx:codes!B2: '1' has 1 figure where the field 'trim'")
    assert "may be 2 wide, and a number loses its leading zeros" in said
    assert taken(book, "l.xlsx", workbook([HEADINGS, ["trims", "1", *RED[2:]]])).joined is not None


def test_a_number_that_fills_its_field_is_taken(book):
    read = taken(book, "l.xlsx", workbook([HEADINGS, ["trims", 21, *RED[2:]]]))
    assert "\ntrims,21,red,red,1956" in read.joined.text


def test_a_number_of_more_figures_than_a_spreadsheet_keeps_is_refused(book):
    heads = ["item", "first", "last", "meaning", "supplied", "basis", "source"]
    row = ["chassis_number", 1234567890123456, "x", "m", "new", "memory", "a list"]
    said = refused(book, workbook([heads, row], "series"))
    assert "list.xlsx:series!B2: the spreadsheet turned this 'first' cell into a number" in said
    assert "of more than 15 figures the last are lost" in said


def test_a_formula_is_taken_by_its_value_and_refused_without_one(book):
    content = workbook([HEADINGS, ["trims", "=A1", *RED[2:]]])
    assert (
        refused(book, content)
        == """\
list.xlsx:codes!B2: the cell holds a formula, and the workbook does not hold its value
expected the value itself (copy the column, then paste only the values)"""
    )

    def valued(text):
        assert text.count(b'<c r="B2"><f>A1</f><v /></c>') == 1
        return text.replace(
            b'<c r="B2"><f>A1</f><v /></c>', b'<c r="B2" t="str"><f>A1</f><v>L2</v></c>'
        )

    assert taken(book, "l.xlsx", with_part(content, SHEET, valued)).joined is not None


def test_merged_cells_are_shown(book):
    made = Workbook()
    made.active.title = "codes"
    for row in (HEADINGS, RED, [*RED[:1], "C1", *RED[2:]]):
        made.active.append(row)
    made.active.merge_cells("D2:D3")
    made.active.merge_cells("X2:Z9")
    assert (
        refused(book, saved(made))
        == """\
list.xlsx:codes!D2: the cells D2:D3 are merged into one
expected a cell of its own for each row and column
list.xlsx:codes!D3: codes.csv needs 'meaning'
expected text"""
    )


def test_empty_rows_and_rows_far_below_are_no_matter(book):
    made = Workbook()
    made.active.title = "codes"
    for at, text in enumerate(HEADINGS, 1):
        made.active.cell(3, at, text)
    for at, value in enumerate(RED, 1):
        made.active.cell(1_048_576, at, value)
    read = taken(book, "l.xlsx", saved(made))
    assert told(read, book) == ""
    assert read.joined.added == 1


def test_a_cell_without_a_heading_is_shown(book):
    said = refused(book, workbook([HEADINGS, [*RED, None, "a note"]]))
    assert said.startswith("list.xlsx:codes!J2: 'a note' is in a column without a heading")


def test_headings_are_checked_by_cell(book):
    said = refused(book, workbook([["a title over the list"], HEADINGS, RED]), table="codes")
    assert said.startswith(
        "list.xlsx:codes!A1: 'a title over the list' is not a column of codes.csv"
    )


# ------------------------------------------------------------------------ sheets


def sheets(**rows):
    """A workbook with several sheets; an underscore stands for a hyphen."""
    made = Workbook()
    made.remove(made.active)
    for title, lines in rows.items():
        sheet = made.create_sheet(title.replace("_", "-"))
        for line in lines:
            sheet.append(line)
    return saved(made)


def test_empty_sheets_are_passed_over(book):
    content = sheets(Sheet1=[HEADINGS, RED], Sheet2=[], Sheet3=[])
    assert taken(book, "codes.xlsx", content).sheet == "Sheet1"


def test_the_sheet_that_is_named_as_the_table_is_taken(book):
    content = sheets(notes=[["anything"]], Codes_trims=[HEADINGS, RED])
    read = taken(book, "l.xlsx", content)
    assert (read.sheet, read.joined.name) == ("Codes-trims", "tables/codes-trims.csv")


def test_two_sheets_named_as_tables_need_the_table_said(book):
    content = sheets(codes=[HEADINGS, RED], series=[["x"]])
    assert (
        refused(book, content)
        == """\
list.xlsx: several sheets are named as tables: codes, series
expected --table with one of: codes, series"""
    )
    assert taken(book, "l.xlsx", content, table="codes").joined is not None


def test_several_sheets_of_which_none_is_the_table_are_a_problem(book):
    content = sheets(Sheet1=[HEADINGS], Sheet2=[RED])
    assert refused(book, content, table="codes").startswith(
        "list.xlsx: the workbook has several sheets and none is named 'codes': 'Sheet1', 'Sheet2'"
    )


def test_an_empty_workbook_is_a_problem(book):
    assert refused(book, workbook([])).startswith("list.xlsx:codes: the list is empty")
    assert "no row stands under the headings" in refused(book, workbook([HEADINGS]))


# ---------------------------------------------------------- what is no such workbook


def archive(**parts):
    """An archive of these parts; an underscore stands for a slash."""
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as made:
        for name, content in parts.items():
            made.writestr(name.replace("_", "/"), content)
    return stream.getvalue()


OLD = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\0" * 600


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (OLD, ("list.xlsx: the file is a workbook of the old format\nexpected it saved as .xlsx "
            "or as CSV")),
        (
            OLD + "EncryptedPackage".encode("utf-16-le"),
            "list.xlsx: the file is locked with a password\nexpected it saved without a password",
        ),
        (archive(content="x"), "list.xlsx: the file is an archive and not a workbook"),
        (b"PK\x05\x06" + b"\0" * 18, "list.xlsx: the file is an archive and not a workbook"),
        (b"PK\x03\x04", "list.xlsx: the file is a broken archive"),
    ],
)  # fmt: skip
def test_what_is_no_workbook_of_today_is_named(book, content, says):
    assert refused(book, content, table="codes").startswith(says)


def test_a_workbook_that_unpacks_without_end_is_not_unpacked(book):
    bomb = with_part(workbook([HEADINGS]), SHEET, lambda text: b" " * (MOST_UNPACKED + 1))
    assert len(bomb) < 200_000
    assert refused(book, bomb).startswith(
        "list.xlsx: the list is too large\nexpected at most 24 megabytes"
    )


def test_a_workbook_of_thousands_of_parts_is_not_opened(book):
    bomb = archive(**{f"xl/{n}": "" for n in range(2_001)})
    assert "the list is too large" in refused(book, bomb)


def test_a_workbook_with_entities_without_end_is_refused(book):
    names = "".join(f'<!ENTITY a{n + 1} "{f"&a{n};" * 100}">' for n in range(9))
    bomb = f'<?xml version="1.0"?><!DOCTYPE x [<!ENTITY a0 "aaaaaaaaaa">{names}]><x>&a9;</x>'
    assert "something in it is broken" in refused(
        book, with_part(workbook([HEADINGS]), SHEET, lambda text: bomb.encode())
    )


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (b'<row r="2">', b'<row r="1">'),
        (b'<row r="2">', b'<row r="x">'),
        (b'r="B2"', b'r="A2"'),
        (b'r="B2"', b'r="B7"'),
        (b'r="B2"', b'r="ZZZZ2"'),
        (b"<row", b"<raw"),
        (b"<v>1956</v>", b"<v>nineteen</v>"),
        (b't="inlineStr"', b't="s"><v>99</v></c><c t="inlineStr"'),
        (b"</sheetData>", b""),
    ],
)  # fmt: skip
def test_a_sheet_that_contradicts_itself_is_a_problem(book, old, new):
    def change(text):
        assert old in text
        return text.replace(old, new, 1)

    said = refused(book, with_part(workbook([HEADINGS, RED]), SHEET, change))
    assert "something in it is broken" in said


def test_more_sheets_rows_or_columns_than_any_list_has_are_a_problem(book, monkeypatch):
    """At 20 rows here; the limit itself is 20,000."""
    assert sheet_workbook.MOST_ROWS == 20_000
    monkeypatch.setattr(sheet_workbook, "MOST_ROWS", 20)
    many = sheets(**{f"s{n}": [] for n in range(51)})
    assert "at most 50 sheets" in refused(book, many, table="codes")
    wide = workbook([HEADINGS, [*RED, *([None] * 200), "far out"]])
    assert "at most 200 columns" in refused(book, wide)
    long = with_part(workbook([HEADINGS, RED]), SHEET, lambda text: many_rows(text, 21))
    assert "at most 20 rows" in refused(book, long)


def many_rows(text, times):
    """The sheet with its second row so many times."""
    first, row, rest = re.split(rb'(<row r="2".*?</row>)', text)
    return first + b"".join(row.replace(b'2"', b'%d"' % n) for n in range(2, times + 2)) + rest


@tried_on(300)
@given(st.integers(0, 2**32), st.integers(1, 5))
def test_a_workbook_whose_parts_are_cut_and_changed_is_read_to_rows_or_problems(seed, changes):
    """Sound as an archive, so that every part of the reader is met."""
    dice = random.Random(seed)
    content = workbook([HEADINGS, RED, ["=A1", date(1955, 1, 1), True, 7.5, "#N/A"]])
    parts = zipfile.ZipFile(io.BytesIO(content)).namelist()

    def change(text):
        start = dice.randrange(len(text) + 1)
        end = min(len(text), start + dice.choice([0, 1, 3, 20, 200]))
        new = dice.choice(
            [b"", b"9" * 5000, b"<row/>", b'r="A1"', b"\xff", b"-1", b"0", text[:99], b"x"]
        )
        return text[:start] + new + text[end:]

    for _ in range(changes):
        content = with_part(content, dice.choice([SHEET, SHEET, *parts]), change)
    read = read_workbook_list("l.xlsx", content, lambda names: (names[0] if names else "", "codes"))
    assert read.rows or read.problems or read.table
