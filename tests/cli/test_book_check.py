"""`witnessmark book check`."""

import json
from pathlib import Path


def spoil(file: Path, before: str, after: str) -> None:
    """Change the first place where a text stands."""
    file.write_text(file.read_text("utf-8").replace(before, after, 1), "utf-8")


def test_the_shipped_book_has_no_fault(type_in):
    """witnessmark book check tarvane-1952-1961"""
    ended = type_in("book", "check", "tarvane-1952-1961")
    assert (ended.code, ended.err) == (0, "")
    assert "no fault found" in ended.out


def test_lists_that_are_whole_that_have_gaps_and_that_may_be_either_are_named(type_in, own_book):
    """Of a table that two fields read the lesser counts."""
    before = type_in("book", "check", f"./{own_book.name}").out
    assert "Lists that may be complete or not: types, paints" in before
    assert "Complete lists" not in before
    book = own_book / "book.toml"
    complete = book.read_text("utf-8").replace(
        'table = "types"', 'table = "types"\nlisted = "complete"'
    )
    book.write_text(complete, "utf-8")
    spoil(book, 'table = "paints"', 'table = "paints"\nlisted = "partial"')
    after = type_in("book", "check", f"./{own_book.name}").out
    assert "Complete lists: types." in after
    assert "Lists known to have gaps: paints." in after
    assert "Lists that may be complete or not: trims" in after
    lists = json.loads(type_in("book", "check", f"./{own_book.name}", "--json").out)["lists"]
    assert (lists["types"], lists["paints"], lists["trims"]) == ("complete", "partial", "unknown")


def test_every_fault_of_a_book_is_shown_with_its_place(type_in, own_book):
    """One in book.toml, one in a table: both at once, on the error stream."""
    spoil(own_book / "book.toml", 'kind = "number"', 'kind = "nmber"')
    spoil(own_book / "tables/works.csv", "invented", "invnted")
    ended = type_in("book", "check", f"./{own_book.name}")
    assert (ended.code, ended.out) == (2, "")
    assert "book.toml:" in ended.err
    assert "nmber" in ended.err
    assert "works.csv:" in ended.err
    assert "invnted" in ended.err


def test_json_tells_the_same_faults(type_in, own_book):
    """With file, line and column, and the exit code of a fault."""
    spoil(own_book / "book.toml", 'kind = "number"', 'kind = "nmber"')
    ended = type_in("book", "check", f"./{own_book.name}", "--json")
    outline = json.loads(ended.out)
    assert ended.code == 2
    assert list(outline) == ["book", "sha256", "lists", "problems"]
    first = outline["problems"][0]
    assert list(first) == ["file", "line", "column", "width", "sentence", "expected"]
    assert first["file"].endswith("book.toml")


def test_a_place_with_no_book_is_a_problem(type_in):
    """witnessmark book check nowhere"""
    ended = type_in("book", "check", "nowhere")
    assert (ended.code, ended.out) == (2, "")
    assert ended.err == (
        "PATH: there is no code book at nowhere\n"
        "expected a folder that holds book.toml, or the name of a shipped book\n"
    )
