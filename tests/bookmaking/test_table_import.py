# ruff: noqa: E501 (rows and lines stand here as a person writes them)
"""A list is taken into a table whole or not at all, and each wrong cell is shown."""

import csv
import io
import os
import random
import tempfile
from datetime import date, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from openpyxl.cell.cell import ILLEGAL_CHARACTERS_RE

from tests.bookmaking.lists import taken, told, workbook
from tests.examples import tried_on
from witnessmark.bookmaking import sheet_text
from witnessmark.bookmaking.sheet_workbook import ERRORS
from witnessmark.bookmaking.table_import import ImportWanted, read_import
from witnessmark.codebook import folder, open_book
from witnessmark.codebook.book_format import TABLES
from witnessmark.documents.csv_entries import parse_table
from witnessmark.documents.entries import FileText
from witnessmark.problem import render_all

HEADINGS = "table,code,value,meaning,first_year,last_year,models,basis,source"
"""Enough columns for a list of codes."""


@pytest.fixture
def book(tiny, tmp_path):
    """The tiny book on disk."""
    return tiny.write(tmp_path)


def codes(book):
    """The rows of codes.csv as they stand on disk."""
    return (book / "tables/codes.csv").read_text("utf-8")


# ------------------------------------------------------------------ what is taken


def test_rows_are_added_after_those_that_are_there(book):
    text = f"{HEADINGS}\ntrims,L2,red-leather,red leather,1956,,,published,Club list 3\n"
    read = taken(book, "codes.csv", text)
    assert told(read, book) == ""
    assert read.joined.text == codes(book) + (
        "trims,L2,red-leather,red leather,1956,,,,published,Club list 3\n"
    )
    assert (read.joined.added, read.joined.there, read.joined.repeated) == (1, 0, 0)
    assert read.joined.path == book / "tables/codes.csv"
    assert read.separator == "a comma"


def test_columns_may_stand_in_any_order_under_headings_written_freely(book):
    text = "Source,BASIS,Meaning,value,Code,First year,table\nClub list 3,memory,red,red,L2,1956,trims\n"
    read = taken(book, "codes.csv", text)
    assert told(read, book) == ""
    assert read.joined.text.endswith("\ntrims,L2,red,red,1956,,,,memory,Club list 3\n")


@pytest.mark.parametrize(
    ("separator", "name"), [(",", "a comma"), (";", "a semicolon"), ("\t", "a tab")]
)
def test_the_separator_is_found_and_named(book, separator, name):
    written = io.StringIO()
    writer = csv.writer(written, delimiter=separator)
    writer.writerow(HEADINGS.split(","))
    writer.writerow(["trims", "L2", "red", "red, or; so", "1956", "", "", "memory", "list; 3"])
    read = taken(book, "codes.csv", written.getvalue())
    assert told(read, book) == ""
    assert read.separator == name
    assert read.joined.text.endswith('\ntrims,L2,red,"red, or; so",1956,,,,memory,list; 3\n')


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le"])
def test_a_byte_order_mark_and_wide_characters_are_understood(book, encoding):
    text = f"{HEADINGS}\ntrims,L2,red,rött,1956,,,memory,a list\n"
    marked = text.encode(encoding)
    if encoding == "utf-16-le":
        marked = b"\xff\xfe" + marked
    read = taken(book, "codes.csv", marked)
    assert told(read, book) == ""
    assert "rött" in read.joined.text


def test_basis_and_source_may_be_given_once_for_the_whole_list(book):
    text = "table,code,value,meaning,first_year\ntrims,L2,red,red,1956\n"
    read = taken(book, "codes.csv", text, basis="common practice", source="two owners, 2019")
    assert told(read, book) == ""
    assert read.joined.text.endswith(
        '\ntrims,L2,red,red,1956,,,,common practice,"two owners, 2019"\n'
    )


def test_whole_numbers_with_a_point_are_whole_numbers_where_a_number_is_asked_for(book):
    text = f"{HEADINGS}\ntrims,L2,red,red,1956.0,1957.00,,memory,a list\n"
    read = taken(book, "codes.csv", text)
    assert told(read, book) == ""
    assert read.joined.text.endswith("\ntrims,L2,red,red,1956,1957,,,memory,a list\n")


def test_empty_rows_and_blank_columns_are_passed_over(book):
    text = f"\n{HEADINGS},\n,,,,,,,,,\n\ntrims,L2,red,red,1956,,,memory,a list,\n,,,,,,,,,\n"
    read = taken(book, "codes.csv", text)
    assert told(read, book) == ""
    assert read.joined.added == 1


def test_a_row_that_is_there_already_is_left_out_and_counted(book):
    row = "months,A,1,January,,,,invented,demo\n"
    new = "trims,L2,red,red,1956,,,memory,a list\n"
    read = taken(book, "codes.csv", f"{HEADINGS}\n{row}{new}{new}")
    assert told(read, book) == ""
    assert (read.joined.added, read.joined.there, read.joined.repeated) == (1, 1, 1)


def test_a_row_is_the_same_however_its_lists_are_ordered(book, tiny):
    rule = tiny.tables["rules"].replace("solent-sprint,", "solent-sprint solent-saloon,")
    (book / "tables/rules.csv").write_text(rule, "utf-8")
    again = rule.replace("solent-sprint solent-saloon,", "solent-saloon solent-sprint,")
    read = taken(book, "rules.csv", again)
    assert told(read, book) == ""
    assert (read.joined.added, read.joined.there) == (0, 1)


def test_a_table_that_the_book_lacks_is_begun(book):
    text = "id,about,sentence,basis,source\nweak,book,All of it is weak.,memory,the author\n"
    read = taken(book, "remarks.csv", text)
    assert told(read, book) == ""
    header = ",".join(TABLES["remarks"].names())
    assert read.joined.text == f"{header}\nweak,book,All of it is weak.,,,,,memory,the author\n"


def test_codes_may_go_into_a_file_of_their_own(book):
    text = f"{HEADINGS}\ntrims,L2,red,red,1956,,,memory,a list\n"
    read = taken(book, "anything.csv", text, table="codes-trims")
    assert told(read, book) == ""
    assert read.joined.name == "tables/codes-trims.csv"
    assert taken(book, "codes-trims.csv", text).joined == read.joined


def test_a_row_that_stands_in_another_file_of_the_table_is_there(book):
    text = f"{HEADINGS}\nmonths,A,1,January,,,,invented,demo\n"
    read = taken(book, "codes-months.csv", text)
    assert (read.joined.added, read.joined.there) == (0, 1)


def test_a_column_that_the_table_did_not_have_is_added_to_it(book):
    """The rows that are there are kept, each with an empty cell."""
    text = (
        "table,code,value,meaning,disputed,first_year,basis,source\n"
        "trims,L2,red,red,yes,1956,memory,a list\n"
        "trims,L2,wine,wine,yes,1956,memory,another list\n"
    )
    before = codes(book)
    read = taken(book, "codes.csv", text)
    assert told(read, book) == ""
    header, *rows = read.joined.text.splitlines()
    assert header == before.splitlines()[0] + ",disputed"
    assert [row.removesuffix(",") for row in rows[:-2]] == before.splitlines()[1:]
    assert rows[-1] == "trims,L2,wine,wine,1956,,,,memory,another list,yes"


def test_line_ends_stay_those_of_the_table_and_the_last_line_is_ended(book):
    file = book / "tables/codes.csv"
    file.write_bytes(file.read_bytes().rstrip(b"\n").replace(b"\n", b"\r\n"))
    read = taken(book, "codes.csv", f"{HEADINGS}\ntrims,L2,red,red,1956,,,memory,a list\n")
    assert read.joined.text.encode() == file.read_bytes() + (
        b"\r\ntrims,L2,red,red,1956,,,,memory,a list\r\n"
    )


# ---------------------------------------------------------------- what is refused


def test_every_wrong_cell_is_shown_at_once_with_its_place(book):
    text = f"""{HEADINGS}
trims,L2,Red Leather,red,1956,,,memory,a list
trims,C1,red,,nineteen,,,memry,a list
trims,C2,red,red,1956,,,memory,
"""
    assert (
        told(taken(book, "codes.csv", text), book)
        == """\
codes.csv:2:10: 'Red Leather' does not have the form of 'value'
    trims,L2,Red Leather,red,1956,,,memory,a list
             ^^^^^^^^^^^
expected lower-case words and digits, joined by hyphens
codes.csv:3:14: codes.csv needs 'meaning'
    trims,C1,red,,nineteen,,,memry,a list
                 ^
expected text
codes.csv:3:15: 'first_year' is 'nineteen' here
    trims,C1,red,,nineteen,,,memry,a list
                  ^^^^^^^^
expected a whole number
codes.csv:3:26: 'memry' is not one of the words for 'basis'
    trims,C1,red,,nineteen,,,memry,a list
                             ^^^^^
expected one of: published, common practice, memory, invented
codes.csv:4:32: codes.csv needs 'source'
    trims,C2,red,red,1956,,,memory,
                                   ^
expected text"""
    )


def test_headings_that_are_unknown_missing_or_doubled_are_shown(book):
    text = "table,cod,value,Value,basis,source\ntrims,L2,red,red,memory,a list\n"
    assert (
        told(taken(book, "codes.csv", text), book)
        == """\
codes.csv:1:7: 'cod' is not a column of codes.csv
    table,cod,value,Value,basis,source
          ^^^
expected 'code', which is the nearest
codes.csv:1:17: the column 'Value' is here a second time
    table,cod,value,Value,basis,source
                    ^^^^^
expected each column once
codes.csv:1:35: no heading is 'code', which codes.csv needs
    table,cod,value,Value,basis,source
                                      ^
expected a column with this heading
codes.csv:1:35: no heading is 'meaning', which codes.csv needs
    table,cod,value,Value,basis,source
                                      ^
expected a column with this heading"""
    )


def test_a_missing_basis_names_the_option(book):
    text = "table,code,value,meaning,source\ntrims,L2,red,red,a list\n"
    assert (
        "expected a column with this heading, or --basis where it is the same for the whole list"
        in told(taken(book, "codes.csv", text), book)
    )


def test_an_option_for_a_column_that_the_list_has_is_a_problem(book):
    text = f"{HEADINGS}\ntrims,L2,red,red,1956,,,memory,a list\n"
    assert (
        told(taken(book, "codes.csv", text, basis="memory"), book)
        == """\
--basis: the list has a column 'basis' of its own
    memory
    ^^^^^^
expected either the column or --basis"""
    )


def test_an_option_that_is_no_basis_is_a_problem(book):
    text = "table,code,value,meaning,first_year,source\ntrims,L2,red,red,1956,a list\n"
    assert told(taken(book, "codes.csv", text, basis="hearsay"), book).startswith(
        "--basis: 'hearsay' is not one of the words for 'basis'\n    hearsay\n    ^^^^^^^\n"
        "expected one of: published"
    )


def test_a_cell_under_no_heading_is_shown(book):
    text = f"{HEADINGS},\ntrims,L2,red,red,1956,,,memory,a list,note\n"
    assert (
        told(taken(book, "codes.csv", text), book)
        == """\
codes.csv:2:39: 'note' is in a column without a heading
    trims,L2,red,red,1956,,,memory,a list,note
                                          ^^^^
expected a heading over each column that holds something"""
    )


@pytest.mark.parametrize(
    "row", ["trims,L2,red,red", "trims,L2,red,red, or so,1956,,,memory,a,list"]
)
def test_a_row_that_is_too_short_or_too_long_is_shown(book, row):
    read = taken(book, "codes.csv", f"{HEADINGS}\n{row}\n")
    said = told(read, book)
    assert said.startswith(
        f"codes.csv:2:1: the row has {row.count(',') + 1} cells, the headings are 9"
    )
    assert said.endswith("quotes around a cell that holds a comma")


def test_text_of_an_older_windows_is_shown_at_its_first_byte_and_the_rest_is_checked(book):
    text = f"{HEADINGS}\r\ntrims,L2,red,rött,1956,,,memory,grüne Liste\r\ntrims,L1,grün,x,x,,,memory,l\r\n"
    assert (
        told(taken(book, "codes.csv", text.encode("cp1252")), book)
        == """\
codes.csv:2:15: the byte 0xF6 here is not UTF-8 text, where an older Windows has 'ö'; 2 lines have such bytes
    trims,L2,red,rött,1956,,,memory,grüne Liste
                  ^
expected a file saved as CSV UTF-8 (the spreadsheet asks for it under Save as)
codes.csv:3:10: 'grün' does not have the form of 'value'
    trims,L1,grün,x,x,,,memory,l
             ^^^^
expected lower-case words and digits, joined by hyphens
codes.csv:3:17: 'first_year' is 'x' here
    trims,L1,grün,x,x,,,memory,l
                    ^
expected a whole number"""
    )


def test_a_quote_that_never_closes_is_shown_as_it_was_typed(book):
    text = HEADINGS.replace(",", ";") + '\ntrims;L2;red;"red, or so;1956;;;memory;a list\n'
    said = told(taken(book, "codes.csv", text), book)
    assert "the quote that opens here is never closed" in said
    assert '    trims;L2;red;"red, or so;1956;;;memory;a list\n                 ^' in said


@pytest.mark.parametrize(
    ("cell", "says"),
    [
        ('"red\nleather"', "the cell holds a line break"),
        ("red\x07", "the cell holds an invisible character: U+0007, a control character"),
        ("re\u200bd", "the cell holds an invisible character: U+200B, zero width space"),
    ],
)
def test_what_nobody_sees_is_shown(book, cell, says):
    text = f"{HEADINGS}\ntrims,L2,red,{cell},1956,,,memory,a list\n"
    said = told(taken(book, "codes.csv", text), book)
    assert says in said
    assert said.count("expected") == 1


def test_a_code_that_lost_its_leading_nought_is_said_to_have(book, tiny):
    changed = tiny.change("book", 'alphabet = "ADPS"', 'alphabet = "0123456789ADPS"')
    (book / "book.toml").write_text(changed.top, "utf-8")
    text = f"{HEADINGS}\ntypes,7,solent-saloon,Saloon,,,,memory,a list\n"
    assert (
        told(taken(book, "codes.csv", text), book)
        == """\
codes.csv:2:7: '7' has 1 figure where the field 'type' of the chassis plate is 2 wide: a spreadsheet drops leading zeros
    types,7,solent-saloon,Saloon,,,,memory,a list
          ^
expected '07' if that is meant: format the column as text and type the cell again"""
    )


def test_a_number_that_lost_its_leading_noughts_is_said_to_have(book):
    text = "item,first,last,meaning,supplied,basis,source\nchassis_number,501,000599,early cars,new,memory,a list\n"
    said = told(taken(book, "series.csv", text), book)
    assert said.startswith(
        "series.csv:2:16: '501' has 3 figures where the chassis number is 6 wide"
    )
    assert "expected '000501' if that is meant" in said
    assert said.count("expected") == 1


@pytest.mark.parametrize(
    ("code", "says"),
    [
        ("1.23E+11", "turned this 'code' cell into a number: it is now a power of ten"),
        ("7.0", "turned this 'code' cell into a number: it now ends in a zero after a point"),
        ("5-May", "turned this 'code' cell into a date"),
        ("05. Mai", "turned this 'code' cell into a date"),
        ("Mar-52", "turned this 'code' cell into a date"),
        ("01/05/1952", "turned this 'code' cell into a date"),
    ],
)
def test_a_code_that_a_spreadsheet_made_something_else_of_is_said_to_be(book, code, says):
    text = f"{HEADINGS}\ntrims,{code},red,red,1956,,,memory,a list\n"
    said = told(taken(book, "codes.csv", text), book)
    assert said.startswith(f"codes.csv:2:7: the spreadsheet {says}")
    assert said.endswith("expected format the column as text and type the cell again")


def test_a_code_that_fits_its_field_is_never_taken_for_a_date(book, tiny):
    changed = tiny.change("book", "widths = [1, 2]", "widths = [1, 2, 5]")
    changed = changed.change("book", 'alphabet = "LC12"', 'alphabet = "LC125-May"')
    (book / "book.toml").write_text(changed.top, "utf-8")
    text = f"{HEADINGS}\ntrims,5-May,red,red,1956,,,memory,a list\n"
    assert told(taken(book, "codes.csv", text), book) == ""


def test_a_row_that_says_something_else_than_one_of_its_name_is_a_problem(book):
    text = f"{HEADINGS}\nmonths,A,2,January,,,,invented,demo\n"
    assert (
        told(taken(book, "codes.csv", text), book)
        == """\
codes.csv:2:10: the code 'A' of 'months' is in tarvane-1955-1957/tables/codes.csv:6 already, where 'value' is '1' and not '2'
    months,A,2,January,,,,invented,demo
             ^
expected the same row, or other years, works or models, or another name"""
    )


def test_two_rows_of_the_list_that_contradict_each_other_are_a_problem(book):
    text = f"{HEADINGS}\ntrims,L2,red,red,1956,,,memory,a\ntrims,L2,wine,red,1956,,,memory,a\n"
    said = told(taken(book, "codes.csv", text), book)
    assert said.startswith("codes.csv:3:10: the code 'L2' of 'trims' is in codes.csv:2 already")


def test_rows_that_the_whole_book_contradicts_are_shown_where_they_were_typed(book):
    """One overlaps a row of the book, one names an unknown model, one overlaps the list itself."""
    text = f"""{HEADINGS}
trims,L1,red,red,1957,,,memory,a list
trims,L2,red,red,1956,,solent-coupe,memory,a list
trims,C1,red,red,1956,1957,,memory,a list
trims,C1,wine,wine,1957,,,memory,a list
"""
    read = taken(book, "codes.csv", text)
    assert read.is_about_book
    assert (
        told(read, book)
        == """\
codes.csv:2:7: the code 'L1' applies to cars to which tarvane-1955-1957/tables/codes.csv:4 applies already
    trims,L1,red,red,1957,,,memory,a list
          ^^
expected other years, works or models, or another name
codes.csv:3:24: the book has no model 'solent-coupe'
    trims,L2,red,red,1956,,solent-coupe,memory,a list
                           ^^^^^^^^^^^^
expected 'solent-sprint', which is the nearest
codes.csv:5:7: the code 'C1' applies to cars to which codes.csv:4:1 applies already
    trims,C1,wine,wine,1957,,,memory,a list
          ^^
expected other years, works or models, or another name"""
    )


def test_old_faults_of_the_book_do_not_stop_new_rows(book, tiny):
    rules = tiny.tables["rules"].replace("ellery,firm", "elery,firm")
    (book / "tables/rules.csv").write_text(rules, "utf-8")
    read = taken(book, "codes.csv", f"{HEADINGS}\ntrims,L2,red,red,1956,,,memory,a list\n")
    assert read.joined is not None
    assert "elery" in render_all(read.joined.left)


def test_a_gap_that_becomes_smaller_is_no_new_fault(book, tiny):
    """Trims are missing for 1955 and 1956; the list closes half of the gap."""
    left = tiny.change("codes", "1955,1957,,,invented", "1957,1957,,,invented")
    (book / "tables/codes.csv").write_text(left.tables["codes"], "utf-8")
    assert "nothing for 1955" in render_all(open_book(book).problems)
    read = taken(book, "codes.csv", f"{HEADINGS}\ntrims,L2,red,red,1955,1955,,memory,a list\n")
    assert read.joined is not None
    assert "nothing for 1956 (solent-saloon)" in render_all(read.joined.left)


def test_a_table_that_is_broken_takes_no_rows(book):
    (book / "tables/codes.csv").write_text("table,code\ntrims\n", "utf-8")
    read = taken(book, "codes.csv", f"{HEADINGS}\ntrims,L2,red,red,1956,,,memory,a list\n")
    assert "tarvane-1955-1957/tables/codes.csv:2:1: the row has 1 cell" in told(read, book)


@pytest.mark.parametrize("spoil", ["bytes", "folder", "link", "large"])
def test_a_table_that_cannot_be_read_takes_no_rows(book, tmp_path, spoil):
    file = book / "tables/codes.csv"
    match spoil:
        case "bytes":
            file.write_bytes(b"table\xff")
        case "folder":
            file.unlink()
            file.mkdir()
        case "link":
            file.rename(tmp_path / "kept.csv")
            file.symlink_to(tmp_path / "kept.csv")
        case "large":
            with file.open("a") as stream:
                stream.write("\n" * 2 * 1024 * 1024)
    read = taken(book, "codes-new.csv", f"{HEADINGS}\ntrims,L2,red,red,1956,,,memory,a list\n")
    assert told(read, book).startswith("tarvane-1955-1957/tables/codes.csv")


def test_a_folder_of_tables_outside_the_book_takes_no_rows(book, tmp_path):
    for file in (book / "tables").iterdir():
        file.unlink()
    (book / "tables").rename(tmp_path / "elsewhere")
    (book / "tables").symlink_to(tmp_path / "elsewhere")
    text = "id,name,basis,source\nopen,open body,memory,memory\n"
    read = taken(book, "body_families.csv", text)
    assert "a link that leaves the book's folder" in told(read, book)
    assert list((tmp_path / "elsewhere").iterdir()) == []


def test_a_table_beyond_its_limit_is_not_made(book, monkeypatch):
    """At 20,000 bytes here; the limit itself is 2 megabytes."""
    assert folder.MOST_BYTES == 2 * 1024 * 1024
    monkeypatch.setattr(folder, "MOST_BYTES", 20_000)
    rows = "".join(f"r{n},book,{'long ' * 30},memory,memory\n" for n in range(150))
    read = taken(book, "remarks.csv", f"id,about,sentence,basis,source\n{rows}")
    assert "the file is too large" in told(read, book)


# ------------------------------------------------------------- which table, which file


def test_a_list_that_is_named_as_no_table_needs_its_table_said(book):
    assert told(taken(book, "paints.csv", "a,b\n1,2\n"), book).startswith(
        "paints.csv: neither the file nor a sheet is named as a table of the book\n"
        "expected --table with one of: works, body_families,"
    )


def test_a_table_that_there_is_not_is_a_problem(book):
    assert (
        told(taken(book, "codes.csv", "a,b\n1,2\n", table="code"), book)
        == """\
--table: 'code' is not a table of a code book
    code
    ^^^^
expected 'codes', which is the nearest"""
    )


@pytest.mark.parametrize("table", ["../codes", "codes-/x", "codes-../../x", "codes-a\0b", "/codes"])
def test_a_table_never_leads_out_of_the_book(book, table):
    text = f"{HEADINGS}\ntrims,L2,red,red,1956,,,memory,a list\n"
    assert "is not a table of a code book" in told(taken(book, "l.csv", text, table=table), book)


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"", "codes.csv: the list is empty"),
        (b"\n\n,,\n", "codes.csv: the list is empty"),
        (HEADINGS.encode(), "codes.csv:1:1: no row stands under the headings"),
        (b"\x89PNG\r\n\0\0\0", "codes.csv: the file holds bytes that no text can have"),
        (b"\xff\xfea\0\0\xd8", "codes.csv: the file holds bytes that no text can have"),
        (b"PK\x03\x04junk", "codes.csv: the file is a broken archive"),
    ],
)
def test_what_is_no_list_is_a_problem(book, content, says):
    assert told(taken(book, "codes.csv", content), book).startswith(says)


def test_a_file_that_is_not_there_is_a_problem(book, tmp_path):
    for name, says in (
        ("nothing.csv", "the file is not there"),
        ("a\0b", "the file is not there"),
        ("x" * 5000, "the file cannot be read: file name too long"),
        ("tarvane-1955-1957", "the file is a folder"),
    ):
        read = read_import(ImportWanted(book, tmp_path / name))
        assert says in render_all(read.problems)


def test_a_pipe_is_not_waited_for(book, tmp_path):
    os.mkfifo(tmp_path / "codes.csv")
    read = read_import(ImportWanted(book, tmp_path / "codes.csv"))
    assert "the file is not a plain file" in render_all(read.problems)


def test_a_file_that_may_not_be_read_is_a_problem(book, tmp_path, monkeypatch):
    file = tmp_path / "codes.csv"
    file.write_text(HEADINGS)
    plain = Path.open

    def refused(path, *words, **named):
        if path == file:
            raise PermissionError(13, "Permission denied")
        return plain(path, *words, **named)

    monkeypatch.setattr(Path, "open", refused)
    read = read_import(ImportWanted(book, file))
    assert "the file cannot be read: permission denied" in render_all(read.problems)


def test_a_list_beyond_all_use_is_a_problem(book, monkeypatch):
    """At 20 rows here; the limit itself is 20,000."""
    assert sheet_text.MOST_ROWS == 20_000
    monkeypatch.setattr(sheet_text, "MOST_ROWS", 20)
    assert "at most 8 megabytes" in told(
        taken(book, "codes.csv", b"a" * (8 * 1024 * 1024 + 1)), book
    )
    rows = "trims,L2,red,red,1956,,,memory,a list\n" * 21
    assert "at most 20 rows" in told(taken(book, "codes.csv", f"{HEADINGS}\n{rows}"), book)


def test_a_folder_that_is_no_book_is_a_problem(tmp_path):
    (tmp_path / "book").mkdir()
    read = taken(tmp_path / "book", "codes.csv", f"{HEADINGS}\na,b,c,d,,,,memory,e\n")
    assert told(read, tmp_path / "book").startswith("book/book.toml: the folder holds no book.toml")
    read = taken(tmp_path / "none", "codes.csv", HEADINGS)
    assert told(read, tmp_path / "none").startswith("none: there is no folder here")


# ---------------------------------------------------------------------- anything


def anything_taken(tiny, name, content, **wanted):
    """Take a list into the tiny book: a table or problems, and the book is not touched."""
    with tempfile.TemporaryDirectory() as folder:
        book = tiny.write(Path(folder))
        before = {path: path.read_bytes() for path in book.rglob("*") if path.is_file()}
        read = taken(book, name, content, **wanted)
        assert (read.joined is None) == bool(read.problems)
        assert bool(render_all(read.problems)) == bool(read.problems)
        assert {p: p.read_bytes() for p in book.rglob("*") if p.is_file()} == before
        if read.joined is not None:
            read.joined.text.encode("utf-8")
        return read


@tried_on(100)
@given(st.binary(max_size=300))
def test_any_bytes_are_read_to_problems(tiny, content):
    anything_taken(tiny, "codes.csv", content)


PIECES = [
    "", "trims", "L2", "L1", "red", "1956", "1956.0", "memory", "invented", "demo", '"', "\n", ";", "\t", ",", "07",
    "5-May", "é", "\ufeff", "\u2028", "yes", "x" * 300, "1e9", "\r", "solent-sprint ellery",
]  # fmt: skip


@tried_on(150)
@given(
    st.sampled_from([",", ";", "\t"]),
    st.lists(st.lists(st.sampled_from(PIECES), min_size=8, max_size=10), max_size=5),
)
def test_any_cells_under_right_headings_are_read(tiny, separator, rows):
    lines = [HEADINGS.replace(",", separator), *(separator.join(row) for row in rows)]
    anything_taken(tiny, "codes.csv", "\n".join(lines))


seen = st.text(
    st.characters(exclude_categories=("Cc", "Cf", "Cs", "Cn", "Zl", "Zp")), min_size=1, max_size=20
).filter(lambda text: text == text.strip())
values = st.one_of(
    st.none(), st.booleans(), st.integers(), st.floats(), seen, st.sampled_from(PIECES[1:]),
    st.datetimes(datetime(1900, 1, 1), datetime(9999, 1, 1)), st.dates(date(1900, 1, 1)), st.times(),
    st.timedeltas(timedelta(0), timedelta(9)), st.sampled_from(["=1+1", "=A1", "#N/A", "_x000D_", "_xD800_"]),
)  # fmt: skip


def is_writable(value):
    """Can the library that makes the workbooks of the tests write it?"""
    return not isinstance(value, str) or not ILLEGAL_CHARACTERS_RE.search(value)


@tried_on(150)
@given(st.lists(st.lists(values.filter(is_writable), min_size=9, max_size=10), max_size=4))
def test_any_values_in_a_workbook_are_read(tiny, rows):
    anything_taken(tiny, "l.xlsx", workbook([HEADINGS.split(","), *rows]))


@tried_on(150)
@given(st.integers(0, 2**32), st.integers(1, 8))
def test_a_workbook_with_bytes_changed_is_read_to_problems_or_rows(tiny, seed, changes):
    row = ["trims", "L2", "red", "red", 1956, None, None, "memory", "a list"]
    content = bytearray(workbook([HEADINGS.split(","), row]))
    dice = random.Random(seed)
    for _ in range(changes):
        at = dice.randrange(len(content))
        content[at : at + dice.choice([1, 1, 4])] = dice.randbytes(dice.choice([0, 1, 1, 4]))
    anything_taken(tiny, "codes.xlsx", bytes(content[: dice.choice([len(content), None, -50])]))


remarks = st.lists(
    st.tuples(seen, st.integers(1955, 1956), st.sampled_from(["memory", "published"]), seen),
    min_size=1,
    max_size=6,
)


def rows_of(text, table="remarks"):
    """What a table holds, row by row."""
    parsed = parse_table(FileText(f"{table}.csv", text), TABLES[table])
    assert parsed.problems == ()
    return [dict(entry.values) for entry in parsed.entries]


def remark_rows(typed):
    """Rows of remarks.csv, each with an id of its own."""
    return [
        [f"r-{n}", "book", sentence, year, basis, f"list of {source}"]
        for n, (sentence, year, basis, source) in enumerate(typed)
    ]


REMARK = ("id", "about", "sentence", "first_year", "basis", "source")


@tried_on(150)
@given(remarks, st.sampled_from([",", ";", "\t"]), st.permutations(range(len(REMARK))))
def test_every_row_of_a_text_can_be_read_back(tiny, typed, separator, order):
    """In any order of the columns, with any separator; no character is lost."""
    rows = remark_rows(typed)
    written = io.StringIO(newline="")
    writer = csv.writer(written, delimiter=separator)
    writer.writerows(
        [REMARK[at] for at in order] if row is None else [row[at] for at in order]
        for row in (None, *rows)
    )
    read = anything_taken(tiny, "remarks.csv", written.getvalue())
    assert render_all(read.problems) == ""
    held = [[row[name] for name in REMARK] for row in rows_of(read.joined.text)]
    assert held == rows


@tried_on(100)
@given(remarks)
def test_every_row_of_a_workbook_can_be_read_back(tiny, typed):
    rows = remark_rows(typed)
    texts = [cell for row in rows for cell in row if isinstance(cell, str)]
    assume(all(is_writable(text) for text in texts))
    assume(not any(text.startswith("=") or text in ERRORS or "_x" in text for text in texts))
    read = anything_taken(tiny, "l.xlsx", workbook([REMARK, *rows], "remarks"))
    assert render_all(read.problems) == ""
    assert [[row[name] for name in REMARK] for row in rows_of(read.joined.text)] == rows


@tried_on(100)
@given(st.lists(st.sampled_from(["L2", "C1", "C2", "1", "2", "12", "22"]), max_size=8))
def test_the_rows_that_are_there_are_kept_and_each_new_one_is_added_once(tiny, wanted):
    lines = [f"trims,{code},red,red,1955,,,memory,a list" for code in wanted]
    read = anything_taken(tiny, "codes.csv", "\n".join([HEADINGS, *lines, ""]))
    assume(wanted)
    old, held = rows_of(tiny.tables["codes"], "codes"), rows_of(read.joined.text, "codes")
    assert held[: len(old)] == old
    assert [row["code"] for row in held[len(old) :]] == list(dict.fromkeys(wanted))
    assert read.joined.added + read.joined.repeated == len(wanted)
