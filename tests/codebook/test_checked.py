"""A shipped book whose checks were run is not checked again, and any other one is."""

import shutil

import pytest

from witnessmark.codebook import open_book, shipped_books
from witnessmark.codebook.checked import CHECKED, checked_line
from witnessmark.problem import render_all

each_book = pytest.mark.parametrize("folder", shipped_books(), ids=lambda folder: folder.name)


@pytest.fixture
def unchecked(monkeypatch):
    """Every call of the checks is noted, by the name of the book's folder."""
    called = []
    monkeypatch.setattr(
        "witnessmark.codebook.checks.whole.check_book",
        lambda draft, name: called.append(name) or (),
    )
    return called


@each_book
def test_a_shipped_book_is_without_problems_and_the_same_unchecked(folder):
    opened = open_book(folder, anew=True)
    assert render_all(opened.problems) == ""
    assert open_book(folder) == opened


def test_the_list_of_checked_books_is_never_older_than_the_books():
    """Write it again with `make docs`."""
    books = shipped_books()
    lines = [checked_line(open_book(folder).sha256, folder.name) for folder in books]
    assert CHECKED.read_text("utf-8").splitlines() == lines


@each_book
def test_a_shipped_book_is_checked_only_when_that_is_asked_for(folder, unchecked):
    open_book(folder)
    assert unchecked == []
    open_book(folder, anew=True)
    assert unchecked == [folder.name]


@each_book
def test_a_book_that_was_changed_or_renamed_is_checked(folder, unchecked, tmp_path):
    """By one character, or only in its name."""
    changed = shutil.copytree(folder, tmp_path / folder.name)
    table = min((changed / "tables").iterdir())
    table.write_bytes(table.read_bytes() + b"\n")
    open_book(changed)
    open_book(shutil.copytree(folder, tmp_path / "renamed"))
    assert unchecked == [folder.name, "renamed"]
    open_book(shutil.copytree(folder, tmp_path / "elsewhere" / folder.name))
    assert unchecked == [folder.name, "renamed"]


def test_without_the_list_every_book_is_checked(monkeypatch, tmp_path, unchecked):
    from witnessmark.codebook import checked

    monkeypatch.setattr(checked, "CHECKED", tmp_path / "none.txt")
    checked.checked_lines.cache_clear()
    open_book(shipped_books()[0])
    checked.checked_lines.cache_clear()
    assert unchecked == [shipped_books()[0].name]


@each_book
def test_a_sound_book_is_not_gone_through_for_the_places_of_its_values(folder, monkeypatch):
    """They are for those who are told of a fault; finding them takes a third of the opening."""
    monkeypatch.setattr("witnessmark.documents.toml_places._Scanner", lambda text: 1 / 0)
    assert open_book(folder).book is not None
