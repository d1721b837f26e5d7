"""`witnessmark book import`."""

import os
import threading

import pytest
from openpyxl import Workbook

from witnessmark.cli.writing import only_writer
from witnessmark.codebook import open_book

ROWS = (
    ("code", "table", "value", "meaning", "basis", "source"),
    ("03", "paints", "dark-green", "Dark Green", "published", "Club list, 1974"),
    ("07", "paints", "cream", "Cream", "published", "Club list, 1974"),
)


@pytest.fixture
def book(type_in, tmp_path):
    """A new book to type into."""
    assert type_in("book", "new", "ashgrove").code == 0
    return tmp_path / "ashgrove"


def sheet(path, rows=ROWS):
    """A workbook with a sheet named codes."""
    made = Workbook()
    made.active.title = "codes"
    for row in rows:
        made.active.append(row)
    made.save(path)


def text(path, rows=ROWS, separator=","):
    """The same as a text."""
    lines = (separator.join(f'"{cell}"' for cell in row) for row in rows)
    path.write_text("\n".join(lines) + "\n", "utf-8")


def held(folder):
    """Every file of a folder with its bytes."""
    return {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_a_sheet_is_taken_into_the_table_of_its_name(type_in, tmp_path, book):
    """The rows stand in the table, and the book has no fault."""
    sheet(tmp_path / "paints.xlsx")
    ended = type_in("book", "import", "ashgrove", "paints.xlsx")
    assert (ended.code, ended.err) == (0, "")
    assert ended.out == (
        "2 rows added to ashgrove/tables/codes.csv\n"
        "  Read from the sheet 'codes'.\n"
        "  The book has no fault.\n"
    )
    opened = open_book(book)
    assert opened.problems == ()
    paints = {row.code: row.meaning for row in opened.book.table("paints")}
    assert (paints["03"], paints["07"]) == ("Dark Green", "Cream")


def test_the_same_list_twice_changes_nothing(type_in, tmp_path, book):
    """Its rows are there already."""
    text(tmp_path / "codes.csv", separator=";")
    type_in("book", "import", "ashgrove", "codes.csv")
    before = held(book)
    ended = type_in("book", "import", "ashgrove", "codes.csv")
    assert (ended.code, ended.err) == (0, "")
    assert ended.out == (
        "no rows added to ashgrove/tables/codes.csv\n"
        "  The cells of the list are separated by a semicolon.\n"
        "  2 rows left out: in the book already.\n"
        "  The book has no fault.\n"
    )
    assert held(book) == before


def test_a_wrong_cell_is_shown_and_nothing_is_written(type_in, tmp_path, book):
    """The code has lost its nought."""
    sheet(tmp_path / "paints.xlsx", (*ROWS[:2], (7, *ROWS[2][1:])))
    before = held(tmp_path)
    ended = type_in("book", "import", "ashgrove", "paints.xlsx")
    assert (ended.code, ended.out) == (2, "")
    assert ended.err == (
        "paints.xlsx:codes!A3: '7' has 1 figure where the field 'paint' of the chassis "
        "plate is 2 wide: a spreadsheet drops leading zeros\n    7\n    ^\nexpected '07' "
        "if that is meant: format the column as text and type the cell again\nNothing was "
        "written.\n"
    )
    assert held(tmp_path) == before


def test_rows_that_would_spoil_the_book_are_not_written(type_in, tmp_path, book):
    """No field reads the table."""
    text(tmp_path / "codes.csv", (ROWS[0], ("03", "hoods", *ROWS[1][2:])))
    before = held(book)
    ended = type_in("book", "import", "ashgrove", "codes.csv")
    assert (ended.code, ended.out) == (2, "")
    assert ended.err.startswith(
        "codes.csv:2:6: no field and no form of date reads the table 'hoods'"
    )
    assert ended.err.endswith(
        "the book would have faults that it does not have now; nothing was written.\n"
    )
    assert held(book) == before


def test_old_faults_are_shown_and_the_rows_written(type_in, tmp_path, book):
    """The page says that they are old."""
    rules = book / "tables/rules.csv"
    rules.write_text(rules.read_text("utf-8").replace("paint,grey", "paint,gray"), "utf-8")
    text(tmp_path / "codes.csv")
    ended = type_in("book", "import", "ashgrove", "codes.csv")
    assert ended.code == 0
    assert "2 rows added" in ended.out
    assert "The book has 1 fault still, none from these rows:" in ended.out
    assert "'gray'" in ended.err


def test_basis_source_and_table_may_be_given(type_in, tmp_path, book):
    """A list that has codes and meanings only."""
    text(tmp_path / "list.csv", tuple(row[:4] for row in ROWS))
    given = ("--table", "codes-paints", "--basis", "memory", "--source", "the club's registrar")
    ended = type_in("book", "import", "ashgrove", "list.csv", *given)
    assert (ended.code, ended.err) == (0, "")
    rows = open_book(book).book.table("paints")
    assert {row.citation.source for row in rows if row.code == "07"} == {"the club's registrar"}
    assert (book / "tables/codes-paints.csv").is_file()


def test_a_folder_of_tables_is_made_where_there_is_none(type_in, tmp_path, book):
    """A book may begin with book.toml alone; what it lacks it lacked before."""
    for path in (book / "tables").iterdir():
        path.unlink()
    (book / "tables").rmdir()
    text(tmp_path / "l.csv", (("id", "name", "basis", "source"), ("closed", "a", "memory", "a b")))
    ended = type_in("book", "import", "ashgrove", "l.csv", "--table", "body_families")
    assert ended.code == 0
    assert (book / "tables/body_families.csv").is_file()


def test_a_link_inside_the_book_stays_a_link(type_in, tmp_path, book):
    """What it leads to is replaced."""
    (book / "tables/codes.csv").rename(book / "kept.csv")
    (book / "tables/codes.csv").symlink_to("../kept.csv")
    text(tmp_path / "codes.csv")
    assert type_in("book", "import", "ashgrove", "codes.csv").code == 0
    assert (book / "tables/codes.csv").is_symlink()
    assert "dark-green" in (book / "kept.csv").read_text("utf-8")


def test_a_disk_that_is_full_leaves_the_table_as_it_was(type_in, tmp_path, book, monkeypatch):
    """One calm sentence, and nothing beside it."""

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    text(tmp_path / "codes.csv")
    before = held(tmp_path)
    monkeypatch.setattr(os, "replace", full)
    ended = type_in("book", "import", "ashgrove", "codes.csv")
    assert (ended.code, ended.out) == (2, "")
    assert "No space left on device; nothing was written" in ended.err
    assert held(tmp_path) == before


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("nowhere", "codes.csv"), "nowhere: there is no folder here"),
        (("tarvane-1952-1961", "codes.csv"), "there is no folder here"),
        (("ashgrove/tables", "codes.csv"), "tables/book.toml: the folder holds no book.toml"),
        (("ashgrove", "nothing.csv"), "nothing.csv: the file is not there"),
        (("ashgrove", "ashgrove"), "ashgrove: the file is a folder"),
        (("ashgrove", "x" * 5000), "the file cannot be read: file name too long"),
        (("x" * 5000, "codes.csv"), "there is no folder here"),
        (("ashgrove", "codes.csv", "--table", "x"), "--table: 'x' is not a table of a code book"),
    ],
)
def test_what_cannot_be_found_is_a_problem(type_in, tmp_path, book, words, says):
    """A book that comes with Witnessmark is not written into by its name."""
    text(tmp_path / "codes.csv")
    ended = type_in("book", "import", *words)
    assert (ended.code, ended.out) == (2, "")
    assert says in ended.err


def test_a_name_with_signs_of_the_terminal_is_shown_and_not_obeyed(type_in, tmp_path, book):
    """Neither of a file nor of a cell."""
    text(tmp_path / "codes.csv", (ROWS[0], ("\x1b[2J", *ROWS[1][1:])))
    ended = type_in("book", "import", "ashgrove", "codes.csv")
    assert ended.code == 2
    assert "\x1b" not in ended.err


def test_of_two_lists_taken_in_at_once_none_is_lost(type_in, tmp_path, book, monkeypatch):
    """The other one's rows are written while this one's are checked: it is told who was first."""
    from witnessmark.cli.book import take_in

    sheet(tmp_path / "one.xlsx")
    sheet(tmp_path / "other.xlsx", (ROWS[0], ("09", "paints", "red", "Red", *ROWS[1][4:])))
    read, ended = take_in.read_import, []

    def other_is_faster(wanted):
        found = read(wanted)
        monkeypatch.setattr(take_in, "read_import", read)
        ended.append(type_in("book", "import", "ashgrove", "other.xlsx"))
        return found

    monkeypatch.setattr(take_in, "read_import", other_is_faster)
    late = type_in("book", "import", "ashgrove", "one.xlsx")
    assert (ended[0].code, late.code, late.out) == (0, 2, "")
    assert late.err.startswith("ashgrove/tables/codes.csv was changed (written by ")
    assert late.err.endswith(
        ") since it was read; nothing was written\nexpected the same command again, which "
        "reads what is there now\n"
    )
    assert type_in("book", "import", "ashgrove", "one.xlsx").code == 0
    assert {"03", "07", "09"} <= {row.code for row in open_book(book).book.table("paints")}


def test_only_one_writes_into_a_folder_at_a_time(tmp_path):
    """The second waits until the first is done; between comparing and writing nobody comes."""
    seen: list[str] = []

    def second() -> None:
        with only_writer(tmp_path):
            seen.append("second")

    thread = threading.Thread(target=second)
    with only_writer(tmp_path):
        thread.start()
        thread.join(0.05)
        seen.append("first")
    thread.join()
    assert seen == ["first", "second"]
