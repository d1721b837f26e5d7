"""Fields that stand alike on several marks are written once, under a layout that they name."""

from tests.codebook.tiny_book import TYPE_FIELD

TYPE = TYPE_FIELD + "\n"
LAYOUT = '[[layout]]\nid = "typed"\n\n' + TYPE.replace("[[mark.field]]", "[[layout.field]]")
PLATE = '[[mark]]\nid = "plate"\n'


def laid_out(tiny):
    """The plate with its first field in a layout."""
    return (
        tiny.change("book", TYPE, "")
        .change("book", PLATE, LAYOUT + PLATE)
        .change("book", "windows = true\n", 'windows = true\nlayout = "typed"\n')
    )


def test_a_mark_with_a_layout_is_the_mark_with_its_fields_written_out(tiny):
    assert laid_out(tiny).told() == tiny.told() == ""
    assert laid_out(tiny).book() == tiny.book()
    plate = laid_out(tiny).book().mark("plate")
    assert [field.id for field in plate.fields] == ["type", "trim"]


def test_a_fault_in_a_layout_is_told_once_and_where_it_stands(tiny):
    """Two marks have it; the text has it in one place."""
    twice = laid_out(tiny).change(
        "book", 'carried = "frame rail"\n', 'carried = "frame rail"\nlayout = "typed"\n'
    )
    told = twice.change("book", 'table = "types"\n', 'table = "tipes"\n').told()
    assert told.count("the book has no table 'tipes'") == 1
    assert '  table = "tipes"' in told


def test_a_layout_that_is_not_there_and_one_without_an_id_are_told(tiny):
    told = laid_out(tiny).change("book", 'layout = "typed"', 'layout = "typd"').told()
    assert told.startswith("book.toml:74:10: the book has no layout 'typd'\n")
    assert "expected 'typed', which is the nearest\n" in told
    told = laid_out(tiny).change("book", '[[layout]]\nid = "typed"\n', "[[layout]]\n").told()
    assert told.startswith("book.toml:54:1: a layout needs 'id'\n")


def test_a_field_of_the_layout_and_one_of_the_mark_cannot_share_an_id(tiny):
    told = laid_out(tiny).change("book", 'id = "trim"\n  name', 'id = "type"\n  name').told()
    assert told.startswith("book.toml:80:8: the field 'type' is here again (first in line 58)\n")


def test_a_mark_without_any_field_is_a_problem(tiny):
    fields = tiny.top[tiny.top.index(TYPE) : tiny.top.index('[[mark]]\nid = "frame_number"')]
    told = tiny.change("book", fields, "").told()
    assert told.startswith("book.toml:54:1: a mark needs 'field'\n")
