"""A book's folder is read within limits; whatever is wrong is a problem with its place."""

import hashlib
import os
from pathlib import Path

import pytest

from witnessmark.codebook import find_book, open_book, shipped_books
from witnessmark.problem import render_all


def told(folder):
    """All problems as a person reads them."""
    return render_all(open_book(folder).problems)


def test_a_book_without_fault_is_opened(tiny, tmp_path):
    opened = open_book(tiny.write(tmp_path))
    assert opened.problems == ()
    assert opened.book is not None
    assert opened.book.title == "Tarvane, 1955 to 1957"


def test_places_are_named_from_the_books_folder(tiny, tmp_path):
    """Never by a path of this machine, which would end up in a report."""
    opened = open_book(tiny.write(tmp_path))
    assert opened.book is not None
    row = opened.book.codes[0].citation.place
    assert row.place() == "tarvane-1955-1957/tables/codes.csv:2:1"
    assert opened.book.marks[0].citation.place.place() == "tarvane-1955-1957/book.toml:54:1"


def test_a_folder_that_is_not_there_is_a_problem(tmp_path):
    assert told(tmp_path / "nowhere").endswith(
        "/nowhere: there is no folder here\n"
        "expected the folder of a code book, with book.toml in it"
    )


@pytest.mark.parametrize("name", ["a\0b", "x" * 5000, ""])
def test_a_path_that_cannot_be_one_is_a_problem(name, tmp_path):
    opened = open_book(tmp_path / name)
    assert opened.book is None
    assert len(opened.problems) == 1


def test_a_folder_without_a_book_is_a_problem(tmp_path):
    (tmp_path / "book").mkdir()
    assert told(tmp_path / "book") == (
        "book/book.toml: the folder holds no book.toml\n"
        "expected book.toml, and tables/*.csv beside it"
    )


def test_a_file_that_is_not_utf8_is_shown_at_its_first_bad_byte(tiny, tmp_path):
    root = tiny.write(tmp_path)
    file = root / "tables/works.csv"
    file.write_bytes(
        file.read_bytes().replace(b"Marrick & Sons", "Marrick & Söhne".encode("cp1252"))
    )
    assert (
        told(root)
        == """\
tarvane-1955-1957/tables/works.csv:4:20: the byte 0xF6 is not a UTF-8 character
    marrick,Marrick & S�hne,body_works,,,invented,demo
                       ^
expected a file saved as UTF-8"""
    )


def test_a_byte_order_mark_is_passed_over(tiny, tmp_path):
    root = tiny.write(tmp_path)
    for file in (root / "book.toml", root / "tables/codes.csv"):
        file.write_bytes(b"\xef\xbb\xbf" + file.read_bytes())
    assert told(root) == ""


def test_a_file_that_is_too_large_is_a_problem_and_the_rest_is_read(tiny, tmp_path):
    root = tiny.write(tmp_path)
    with (root / "tables/rules.csv").open("a") as file:
        file.write("\n" * 2 * 1024 * 1024)
    opened = open_book(root)
    assert render_all(opened.problems) == (
        "tarvane-1955-1957/tables/rules.csv: the file is too large\n"
        "expected at most 2,097,152 bytes"
    )
    assert opened.book is not None
    assert len(opened.book.codes) == 7


def test_too_many_tables_are_a_problem(tiny, tmp_path):
    root = tiny.write(tmp_path)
    header = tiny.tables["codes"].splitlines()[0] + "\n"
    for number in range(200):
        (root / f"tables/codes-{number:03}.csv").write_text(header)
    assert told(root) == (
        "tarvane-1955-1957/tables: the folder holds too many tables\nexpected at most 200 files"
    )


def test_a_link_that_leaves_the_folder_is_not_followed(tiny, tmp_path):
    root = tiny.write(tmp_path)
    (tmp_path / "secret.csv").write_text("id\n")
    (root / "tables/rules.csv").unlink()
    (root / "tables/rules.csv").symlink_to(tmp_path / "secret.csv")
    assert told(root) == (
        "tarvane-1955-1957/tables/rules.csv: the file is a link that leaves the book's folder\n"
        "expected a file inside the folder"
    )


def test_a_folder_of_tables_that_is_a_link_is_not_followed(tiny, tmp_path):
    root = tiny.write(tmp_path)
    (root / "tables").rename(tmp_path / "elsewhere")
    (root / "tables").symlink_to(tmp_path / "elsewhere")
    assert told(root).count("the file is a link that leaves the book's folder") == len(tiny.tables)


def test_a_link_inside_the_folder_is_followed(tiny, tmp_path):
    root = tiny.write(tmp_path)
    (root / "tables/rules.csv").rename(root / "rules-kept.csv")
    (root / "tables/rules.csv").symlink_to(root / "rules-kept.csv")
    assert told(root) == ""


def test_a_link_in_a_circle_is_a_problem(tiny, tmp_path):
    root = tiny.write(tmp_path)
    (root / "tables/rules.csv").unlink()
    (root / "tables/rules.csv").symlink_to(root / "tables/rules.csv")
    assert told(root) == (
        "tarvane-1955-1957/tables/rules.csv: the file cannot be read\nexpected a plain "
        "file that can be read"
    )


def test_a_pipe_is_not_waited_for(tiny, tmp_path):
    root = tiny.write(tmp_path)
    (root / "tables/rules.csv").unlink()
    os.mkfifo(root / "tables/rules.csv")
    assert "rules.csv: the file cannot be read" in told(root)


def test_a_table_that_is_a_folder_is_a_problem(tiny, tmp_path):
    root = tiny.write(tmp_path)
    (root / "tables/more.csv").mkdir()
    assert "more.csv: the file cannot be read" in told(root)


def test_leftovers_of_editors_are_passed_by(tiny, tmp_path):
    root = tiny.write(tmp_path)
    for name in (".~lock.codes.csv", "~codes.csv", "codes.csv.bak", "notes.txt"):
        (root / "tables" / name).write_text("anything")
    assert told(root) == ""


def test_a_name_on_disk_that_cannot_be_printed_is_still_told(tiny, tmp_path):
    root = tiny.write(tmp_path)
    Path(os.fsdecode(bytes(root / "tables") + b"/\xff.csv")).write_text("id\n")
    assert "is not a table of a code book" in told(root).encode("utf-8").decode("utf-8")


def test_a_row_that_could_not_be_read_starts_no_chain_of_problems(tiny, tmp_path):
    """Without models.csv every model would seem unknown; only the cause is told."""
    root = tiny.write(tmp_path)
    (root / "tables/models.csv").write_bytes(b"\xff")
    assert told(root).count("expected") == 1


def test_the_digest_is_that_of_sorted_names_and_bytes(tmp_path):
    root = tmp_path / "book"
    (root / "tables").mkdir(parents=True)
    (root / "tables/works.csv").write_bytes(b"id")
    (root / "book.toml").write_bytes(b"x = 1")
    digest = hashlib.sha256()
    for part in (b"book.toml", b"x = 1", b"tables/works.csv", b"id"):
        digest.update(len(part).to_bytes(8, "big") + part)
    assert open_book(root).sha256 == digest.hexdigest()


def test_the_digest_changes_with_every_byte_and_not_with_the_folder(tiny, tmp_path):
    first = open_book(tiny.write(tmp_path / "a")).sha256
    assert open_book(tiny.write(tmp_path / "b")).sha256 == first
    changed = tiny.change("rules", "firm", "usual")
    assert open_book(changed.write(tmp_path / "c")).sha256 != first


def test_a_book_is_found_by_its_id_or_by_its_path(tiny, tmp_path):
    root = tiny.write(tmp_path)
    assert find_book(str(root)) == root
    assert find_book(str(root / "book.toml")) == root
    assert [find_book(folder.name) for folder in shipped_books()] == list(shipped_books())


@pytest.mark.parametrize("name", ["", "no-such-book", "a\0b", "x" * 5000])
def test_what_is_no_book_is_not_found(name):
    assert find_book(name) is None
