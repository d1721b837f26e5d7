"""`witnessmark book coverage`."""

import json
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
BOOK = "tarvane-1952-1961"


def test_a_book_is_told_by_mark_field_and_year(type_in):
    """Years with equally many rows stand together."""
    ended = type_in("book", "coverage", BOOK)
    assert (ended.code, ended.err) == (0, "")
    out = " ".join(ended.out.split())
    assert "plate_brass brass chassis plate type table types invented: 2 in 1952 to 1953, 3" in out
    assert "body_number: no series is listed for 1957 to 1961" in out


def test_json_tells_each_year(type_in):
    """With digest, version and the counts of each basis."""
    outline = json.loads(type_in("book", "coverage", BOOK, "--json").out)
    checked = json.loads(type_in("book", "check", BOOK, "--json").out)
    assert outline["sha256"] == checked["sha256"]
    field = outline["marks"][0]["fields"][0]
    assert field["years"]["1954"] == {
        "published": 0, "common practice": 0, "memory": 0, "invented": 3,
    }  # fmt: skip
    assert outline["rows"]["invented"] == sum(
        each["invented"] for each in outline["tables"].values()
    )
    assert {"about", "sentence"} == set(outline["missing"][0])


def test_without_a_book_all_are_told_in_short(type_in):
    """And in JSON in full."""
    ended = type_in("book", "coverage")
    assert (ended.code, ended.err) == (0, "")
    outlines = json.loads(type_in("book", "coverage", "--json").out)
    assert BOOK in [each["id"] for each in outlines]
    assert all(each["id"] in ended.out for each in outlines)


def test_the_page_in_the_documents_is_what_the_command_writes(type_in, tmp_path):
    """docs/coverage.md is made by `make docs` and is never older than the books."""
    ended = type_in("book", "coverage", "--write", "coverage.md")
    assert (ended.code, ended.err) == (0, "")
    written = (tmp_path / "coverage.md").read_text("utf-8")
    assert written == (ROOT / "docs/coverage.md").read_text("utf-8"), "make docs"


def test_one_book_may_be_written_too(type_in, tmp_path):
    """A book of one's own, say."""
    type_in("book", "new", "ashgrove", "--maker", "Ashgrove")
    assert type_in("book", "coverage", "ashgrove", "--write", "page.md").code == 0
    page = (tmp_path / "page.md").read_text("utf-8")
    assert "## ashgrove\n" in page
    assert BOOK not in page


def test_a_page_that_cannot_be_written_is_a_problem(type_in):
    """A folder that is not there."""
    ended = type_in("book", "coverage", BOOK, "--write", "none/page.md")
    assert (ended.code, ended.out) == (2, "")
    assert "cannot write none/page.md" in ended.err


def test_a_book_with_faults_is_not_counted(type_in, own_book):
    """Its faults are shown."""
    book = own_book / "book.toml"
    book.write_text(book.read_text("utf-8").replace('kind = "number"', 'kind = "nmber"', 1))
    ended = type_in("book", "coverage", f"./{own_book.name}")
    assert (ended.code, ended.out) == (2, "")
    assert "nmber" in ended.err


def test_a_book_that_is_not_there_is_a_problem(type_in):
    """witnessmark book coverage nowhere"""
    ended = type_in("book", "coverage", "nowhere")
    assert (ended.code, ended.out) == (2, "")
    assert "'nowhere' is not a code book" in ended.err


def test_a_file_that_is_no_such_page_is_not_written_over(type_in, tmp_path):
    page = tmp_path / "notes.md"
    page.write_text("my own notes\n", "utf-8")
    typed = type_in("book", "coverage", "--write", str(page))
    assert typed.code == 2
    assert "already exists and is not such a page" in typed.err
    assert page.read_text("utf-8") == "my own notes\n"
