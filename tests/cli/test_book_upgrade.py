"""`witnessmark book upgrade`."""

import pytest


@pytest.fixture
def old_book(own_book):
    """The demonstration book in format 1."""
    file = own_book / "book.toml"
    text = file.read_text("utf-8").replace("format_version = 2", "format_version = 1")
    text = text.replace('numbers_follow = "build"', 'order = "line"')
    file.write_text(text.replace('numbers_follow = "orders"', 'order = "order"'), "utf-8")
    return own_book


@pytest.fixture
def new_text(own_book):
    """The demonstration book as it is shipped."""
    return (own_book / "book.toml").read_bytes()


def test_a_book_is_brought_over_and_the_old_file_kept_beside_it(type_in, new_text, old_book):
    """witnessmark book upgrade tarvane-1952-1961"""
    before = (old_book / "book.toml").read_bytes()
    assert before != new_text
    ended = type_in("book", "upgrade", f"./{old_book.name}")
    assert (ended.code, ended.err) == (0, "")
    lines = ended.out.splitlines()
    assert lines[0].startswith(f"{old_book.name}/book.toml: ")
    assert "keys converted" in lines[0]
    assert 'order = "line" is now' in ended.out
    assert (old_book / "book.toml").read_bytes() == new_text
    assert (old_book / "book.format-1.toml").read_bytes() == before


def test_a_second_time_nothing_is_written(type_in, old_book):
    type_in("book", "upgrade", f"./{old_book.name}")
    ended = type_in("book", "upgrade", f"./{old_book.name}")
    assert (ended.code, ended.err) == (0, "")
    assert ended.out == f"{old_book.name}/book.toml is already in format 2; nothing was written.\n"


def test_with_out_the_book_stays_as_it_is(type_in, new_text, old_book):
    before = (old_book / "book.toml").read_bytes()
    ended = type_in("book", "upgrade", f"./{old_book.name}", "--out", "new.toml")
    assert (ended.code, ended.err) == (0, "")
    assert (old_book.parent / "new.toml").read_bytes() == new_text
    assert (old_book / "book.toml").read_bytes() == before


def test_nothing_that_is_there_is_written_over(type_in, old_book):
    """Neither what --out names nor another file under the name of the kept one."""
    again = type_in("book", "upgrade", f"./{old_book.name}", "--out", f"{old_book.name}/book.toml")
    assert (again.code, again.out) == (2, "")
    assert "already exists; nothing was written" in again.err
    (old_book / "book.format-1.toml").write_text("another", "utf-8")
    ended = type_in("book", "upgrade", f"./{old_book.name}")
    assert (ended.code, ended.out) == (2, "")
    assert "already exists and is another book; nothing was written" in ended.err


def test_a_book_of_format_1_is_used_as_it_is_with_one_line(type_in, old_book):
    """On the error stream, so that what is printed stays as it was."""
    ended = type_in("book", "check", f"./{old_book.name}")
    assert ended.code == 0
    assert "no fault found" in ended.out
    caution, line = ended.err.splitlines()
    assert caution.startswith("Caution: ")  # it has the id of the shipped book
    assert line == (
        f"The book in {old_book.name} is in format 1 and was read as format 2; "
        f"`witnessmark book upgrade {old_book.name}` converts it."
    )
    assert type_in("book", "show", f"./{old_book.name}").err == ended.err
