"""A book of format 1 is read as it is, and brought over without loss."""

import pytest
import tomli

from witnessmark.codebook.upgrade import changes_from_format_1, upgraded_text
from witnessmark.documents.changes import with_changes

OLD_ITEM = 'length = 6\norder = "line" # as they left\n'
NEW_ITEM = 'length = 6\nnumbers_follow = "build" # as they left\n'


@pytest.fixture
def new(tiny):
    """The tiny book with a comment and with what its numbers follow."""
    return tiny.change("book", "length = 6\n", NEW_ITEM)


@pytest.fixture
def old(new):
    """The same in format 1."""
    changed = new.change("book", NEW_ITEM, OLD_ITEM)
    return changed.change("book", "format_version = 2", "format_version = 1")


def brought_over(text):
    return upgraded_text(text, changes_from_format_1(tomli.loads(text)))


def test_a_book_of_format_1_is_the_same_book(old, new):
    assert old.book() == new.book()
    assert new.book().item("chassis_number").numbers_follow == "build"
    assert [each.key for each in old.parsed().changes] == ["format_version", "numbers_follow"]
    assert new.parsed().changes == ()


def test_brought_over_it_is_the_text_of_format_2_to_the_byte(old, new):
    assert brought_over(old.top) == new.top


@pytest.mark.parametrize(
    ("was", "now"), [("line", "build"), ("order", "orders"), ("unknown", "unknown")]
)
def test_each_word_has_its_own(old, was, now):
    changed = old.change("book", '"line"', f'"{was}"')
    assert changed.book().item("chassis_number").numbers_follow == now
    assert f'numbers_follow = "{now}" # as they left' in brought_over(changed.top)


def test_line_ends_of_another_system_stay(old, new):
    windows = old.top.replace("\n", "\r\n")
    assert brought_over(windows) == new.top.replace("\n", "\r\n")


def test_items_on_one_line_are_brought_over_too():
    text = 'item = [{ id = "a", "order" = \'order\' }, {id="b"}] # two\nformat_version = 1'
    after = 'item = [{ id = "a", numbers_follow = "orders" }, {id="b"}] # two\nformat_version = 2'
    assert brought_over(text) == after
    document = tomli.loads(text)
    assert with_changes(document, changes_from_format_1(document)) == tomli.loads(after)


def test_a_fault_of_a_book_of_format_1_is_shown_as_it_stands(old):
    changed = old.change("book", '"line"', '"row"')
    assert changed.told().startswith("book.toml:20:9: 'row' is not one of the words")
    assert 'order = "row" # as they left\n            ^^^^^' in changed.told()


def test_a_key_of_format_1_is_unknown_to_format_2(new):
    changed = new.change("book", "numbers_follow", "order")
    assert "order" in changed.told()


def test_both_words_at_once_are_told(old):
    changed = old.change("book", "length = 6\n", 'length = 6\nnumbers_follow = "orders"\n')
    assert "'order'" in changed.told()
