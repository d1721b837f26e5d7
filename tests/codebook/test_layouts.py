"""Fields that stand alike on several marks are written once, under a layout that they name."""

LAYOUT = """\
[[layout]]
id = "typed"

  [[layout.field]]
  id = "type"
  name = "type"
  says = "model"
  widths = [2]
  alphabet = "ADPS"
  table = "types"
  column = 1

[[mark]]
id = "plate"
"""
TYPE = """\
  [[mark.field]]
  id = "type"
  name = "type"
  says = "model"
  widths = [2]
  alphabet = "ADPS"
  table = "types"
  column = 1

"""


def laid_out(tiny):
    """The plate with its first field in a layout."""
    return (
        tiny.change("book", TYPE, "")
        .change("book", '[[mark]]\nid = "plate"\n', LAYOUT)
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
    assert "'typd'" in told
    assert 'layout = "typd"' in told
    assert "typed" in told


def test_a_field_of_the_layout_and_one_of_the_mark_cannot_share_an_id(tiny):
    told = laid_out(tiny).change("book", 'id = "trim"\n  name', 'id = "type"\n  name').told()
    assert "'type'" in told


def test_a_mark_without_any_field_is_a_problem(tiny):
    fields = tiny.top[tiny.top.index(TYPE) : tiny.top.index('[[mark]]\nid = "frame_number"')]
    told = tiny.change("book", fields, "").told()
    assert told.startswith("book.toml:54:1: a mark needs 'field'\n")
