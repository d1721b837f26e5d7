"""The newest heading of a book's CHANGELOG.md is the book's version."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.bookmaking.new_book import EXAMPLE
from witnessmark.codebook import open_book, shipped_books
from witnessmark.codebook.checks.changelog import CHANGELOG, check_changelog
from witnessmark.documents.entries import FileText
from witnessmark.problem import render_all


def told(text: str, version: str = "2026-11-25") -> str:
    """The problems of a changelog as a person reads them."""
    return render_all(check_changelog(FileText("book/CHANGELOG.md", text), version))


def test_the_newest_heading_may_be_the_version():
    assert told("# What changed\n\n## 2026-11-25\n\n- b\n\n## 2025-01-02\n\n- a\n") == ""


def test_a_heading_may_be_closed_and_spaced():
    assert told("##  2026-11-25 ##\r\n") == ""


def test_an_older_heading_first_is_shown_with_its_place():
    assert (
        told("# What changed\n\n## 2025-01-02\n\n## 2026-11-25\n")
        == """\
book/CHANGELOG.md:3:4: the newest heading is '2025-01-02', the book's version '2026-11-25'
    ## 2025-01-02
       ^^^^^^^^^^
expected '2026-11-25', or this heading as `version` in book.toml"""
    )


@pytest.mark.parametrize("text", ["", "# What changed\n", "### 2026-11-25\n", "2026-11-25\n"])
def test_a_changelog_without_such_a_heading_is_a_problem(text):
    assert told(text) == (
        "book/CHANGELOG.md: no heading names a version of the book\n"
        "expected `## 2026-11-25`, the newest first"
    )


@given(st.text(max_size=200), st.text(min_size=1, max_size=20))
def test_any_text_is_read_to_a_problem_or_none(text, version):
    assert len(check_changelog(FileText("CHANGELOG.md", text), version)) <= 1


def test_every_changelog_of_a_shipped_book_names_its_version():
    """Of the demonstration book and of the example there is one."""
    checked = []
    for folder in (*shipped_books(), EXAMPLE):
        path = folder / CHANGELOG
        book = open_book(folder).book
        if path.exists() and book is not None:
            text = FileText(f"{folder.name}/{CHANGELOG}", path.read_text("utf-8"))
            assert render_all(check_changelog(text, book.version)) == ""
            checked.append(folder.name)
    assert {"tarvane-1952-1961", "example"} <= set(checked)
