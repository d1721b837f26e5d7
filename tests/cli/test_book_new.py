"""`witnessmark book new`."""

import os
from pathlib import Path

import pytest

from witnessmark.codebook import open_book

NEW = ("book", "new", "ashgrove-1948-1950")


def files(folder):
    """All that lies in a folder, hidden files too."""
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*"))


def test_a_new_book_has_no_fault(type_in, tmp_path):
    """What is made passes its own check, and nothing lies beside it."""
    ended = type_in(*NEW)
    assert (ended.code, ended.err) == (0, "")
    assert "A new code book: Example Motors, 1950 to 1952" in ended.out
    assert os.listdir(tmp_path) == ["ashgrove-1948-1950"]
    checked = type_in("book", "check", "ashgrove-1948-1950")
    assert (checked.code, checked.err) == (0, "")


def test_a_new_book_holds_what_was_given(type_in, tmp_path):
    """Maker, title, years."""
    given = ("--maker", 'The "A" Works', "--title", "[All] of it", "--first-year", "1948")
    assert type_in(*NEW, *given, "--last-year", "1960").code == 0
    book = open_book(tmp_path / "ashgrove-1948-1950").book
    assert (book.id, book.maker, book.title) == (
        "ashgrove-1948-1950",
        'The "A" Works',
        "[All] of it",
    )
    assert (book.first_year, book.last_year) == (1948, 1960)


@pytest.mark.parametrize(
    ("given", "years"),
    [
        ((), (1950, 1952)),
        (("--first-year", "1960"), (1960, 1962)),
        (("--last-year", "1960"), (1958, 1960)),
    ],
)
def test_years_that_are_not_given_follow_those_that_are(type_in, tmp_path, given, years):
    """Three years, as the example has."""
    type_in(*NEW, "--maker", "Ashgrove", *given)
    book = open_book(tmp_path / "ashgrove-1948-1950").book
    assert (book.first_year, book.last_year) == years
    assert book.title == f"Ashgrove, {years[0]} to {years[1]}"


def test_a_book_that_is_there_is_never_touched(type_in, tmp_path):
    """The same command twice."""
    type_in(*NEW)
    folder = tmp_path / "ashgrove-1948-1950"
    (folder / "book.toml").write_text("mine", "utf-8")
    before = files(tmp_path)
    ended = type_in(*NEW)
    assert (ended.code, ended.out) == (2, "")
    assert ended.err == (
        "FOLDER: ashgrove-1948-1950 is not empty; nothing was written\nexpected a folder "
        "that is not there yet, or is empty\n"
    )
    assert (folder / "book.toml").read_text("utf-8") == "mine"
    assert files(tmp_path) == before


def test_a_folder_that_holds_something_else_is_never_touched(type_in, tmp_path):
    """Not even a hidden file."""
    (tmp_path / "ashgrove-1948-1950").mkdir()
    (tmp_path / "ashgrove-1948-1950/.notes").write_text("mine")
    assert type_in(*NEW).code == 2
    assert files(tmp_path) == ["ashgrove-1948-1950", "ashgrove-1948-1950/.notes"]


@pytest.mark.parametrize("kind", ["file", "link"])
def test_a_file_or_link_is_never_touched(type_in, tmp_path, kind):
    """Also a link that leads nowhere."""
    place = tmp_path / "ashgrove-1948-1950"
    if kind == "file":
        place.write_text("mine")
    else:
        place.symlink_to("nowhere")
    ended = type_in(*NEW)
    assert (ended.code, ended.out) == (2, "")
    assert "is a file; nothing was written" in ended.err
    assert os.listdir(tmp_path) == ["ashgrove-1948-1950"]


def test_an_empty_folder_is_filled(type_in, tmp_path, monkeypatch):
    """Also the one in which we are."""
    folder = tmp_path / "ashgrove-1948-1950"
    folder.mkdir()
    monkeypatch.chdir(folder)
    ended = type_in("book", "new", ".")
    assert (ended.code, ended.err) == (0, "")
    assert "book.toml" in os.listdir()
    assert os.listdir(tmp_path) == ["ashgrove-1948-1950"]
    assert open_book(folder).problems == ()


def test_folders_above_are_made(type_in, tmp_path):
    """witnessmark book new books/mine/ashgrove"""
    assert type_in("book", "new", "books/mine/ashgrove").code == 0
    assert open_book(tmp_path / "books/mine/ashgrove").problems == ()


def test_all_that_is_wrong_is_said_at_once(type_in, tmp_path):
    """Name, maker, title, years."""
    words = ("--maker", "a\nb", "--title", " ", "--first-year", "1950", "--last-year", "1949")
    ended = type_in("book", "new", "Ash Grove", *words)
    assert (ended.code, ended.out) == (2, "")
    assert (
        ended.err
        == """\
--first-year, --last-year: '1950 to 1949' are not model years
    1950 to 1949
    ^^^^^^^^^^^^
expected the first year before the last, both from 1886 to 2100
--maker: 'a\\nb' cannot stand in a book
    a b
    ^^^
expected one line, at most 200 characters
--title: ' ' cannot stand in a book
     \n\
    ^
expected one line, at most 200 characters
FOLDER: 'Ash Grove' cannot be the id of a book
    Ash Grove
    ^^^^^^^^^
expected small letters and figures, joined by - or _
"""
    )
    assert os.listdir(tmp_path) == []


@pytest.mark.parametrize("folder", ["/", "a b", "ä", "-", "A", "x" * 81, "x" * 5000])
def test_a_name_that_is_no_id_is_a_problem(type_in, tmp_path, folder):
    """witnessmark book new ..."""
    ended = type_in("book", "new", "--", folder)
    assert (ended.code, ended.out) == (2, "")
    assert "cannot be the id of a book" in ended.err
    assert os.listdir(tmp_path) == []


def test_a_place_that_cannot_be_written_is_a_problem(type_in, tmp_path):
    """A file stands where a folder should go."""
    (tmp_path / "file").write_text("x")
    ended = type_in("book", "new", "file/ashgrove")
    assert (ended.code, ended.out) == (2, "")
    assert "cannot write file/ashgrove" in ended.err
    assert (tmp_path / "file").read_text() == "x"


@pytest.mark.parametrize("fault", [OSError(28, "No space left on device"), KeyboardInterrupt()])
def test_what_is_interrupted_leaves_nothing_behind(type_in, tmp_path, monkeypatch, fault):
    """The disk fills up, or the user stops it, in the middle of the files."""
    written = []
    plain = Path.write_bytes

    def full(path, content):
        written.append(path)
        if len(written) == 5:
            raise fault
        return plain(path, content)

    monkeypatch.setattr(Path, "write_bytes", full)
    ended = type_in(*NEW)
    assert ended.code == (130 if isinstance(fault, KeyboardInterrupt) else 2)
    assert os.listdir(tmp_path) == []


@pytest.mark.parametrize("is_there", [False, True])
def test_of_two_who_begin_one_book_at_once_the_second_is_told(
    type_in, tmp_path, monkeypatch, is_there
):
    """The other was first while ours was being written: theirs stays whole, nothing is mixed."""
    folder = tmp_path / "ashgrove-1948-1950"
    if is_there:
        folder.mkdir()
    plain = Path.write_bytes

    def other_first(path, content):
        folder.mkdir(exist_ok=True)
        plain(folder / "book.toml", b"theirs")
        return plain(path, content)

    monkeypatch.setattr(Path, "write_bytes", other_first)
    ended = type_in(*NEW)
    assert (ended.code, ended.out) == (2, "")
    assert "was filled meanwhile (written by " in ended.err
    assert [path.name for path in folder.iterdir()] == ["book.toml"]
    assert (folder / "book.toml").read_bytes() == b"theirs"
    assert os.listdir(tmp_path) == ["ashgrove-1948-1950"]
