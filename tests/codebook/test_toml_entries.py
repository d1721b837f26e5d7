# ruff: noqa: E501 (rows and messages stand here as a person sees them)
"""book.toml is read against its declaration, every fault with its place."""


def test_a_key_that_the_format_does_not_have_is_named_with_the_nearest(tiny):
    changed = tiny.change("book", 'maker = "Tarvane"', 'maker = "Tarvane"\nmakr = "x"')
    told = """\
book.toml:6:1: 'makr' is not a key of a code book
    makr = "x"
    ^^^^
expected 'maker', which is the nearest"""
    assert changed.told() == told


def test_a_missing_key_is_named(tiny):
    changed = tiny.change("book", 'title = "Tarvane, 1955 to 1957"\n', "")
    told = """\
book.toml:1: a code book needs 'title'
expected text"""
    assert changed.told() == told


def test_an_empty_text_counts_as_missing(tiny):
    changed = tiny.change("book", 'title = "Tarvane, 1955 to 1957"', 'title = ""')
    told = """\
book.toml:4:9: a code book needs 'title'
    title = ""
            ^^
expected text"""
    assert changed.told() == told


def test_a_key_missing_in_a_table_is_shown_at_its_header(tiny):
    changed = tiny.change("book", 'name = "frame"\n', "")
    told = """\
book.toml:32:1: an assembly needs 'name'
    [[assembly]]
    ^^^^^^^^^^^^
expected text"""
    assert changed.told() == told


def test_a_value_of_another_kind_is_refused(tiny):
    changed = tiny.change("book", "length = 6", 'length = "6"')
    told = """\
book.toml:19:10: 'length' is a text here
    length = "6"
             ^^^
expected a whole number"""
    assert changed.told() == told


def test_a_true_is_no_number(tiny):
    changed = tiny.change("book", "length = 6", "length = true")
    told = """\
book.toml:19:10: 'length' is true or false here
    length = true
             ^^^^
expected a whole number"""
    assert changed.told() == told


def test_an_element_of_another_kind_is_marked_itself(tiny):
    changed = tiny.change("book", "widths = [6]", 'widths = [6, "2"]')
    told = """\
book.toml:100:16: 'widths' is a text here
      widths = [6, "2"]
                   ^^^
expected a list of whole numbers"""
    assert changed.told() == told


def test_a_number_out_of_range_is_refused(tiny):
    changed = tiny.change("book", "widths = [6]", "widths = [6, 65]")
    told = """\
book.toml:100:16: 65 is too large for 'widths'
      widths = [6, 65]
                   ^^
expected 1 to 64"""
    assert changed.told() == told


def test_a_word_that_is_not_one_of_the_words_is_refused(tiny):
    changed = tiny.change("book", 'carried = "frame rail"', 'carried = "rail"')
    told = """\
book.toml:92:11: 'rail' is not one of the words for 'carried'
    carried = "rail"
              ^^^^^^
expected one of: frame rail, welded panel, bolted panel, block, casing, plate, paper"""
    assert changed.told() == told


def test_an_id_with_capitals_and_spaces_is_refused(tiny):
    changed = tiny.change("book", 'id = "chassis"', 'id = "Chassis No"')
    told = """\
book.toml:97:8: 'Chassis No' does not have the form of 'id'
      id = "Chassis No"
           ^^^^^^^^^^^^
expected lower-case letters and digits, joined by _ or -"""
    assert changed.told() == told


def test_a_fault_inside_an_inline_table_is_marked_there(tiny):
    changed = tiny.change("book", '{ part = "day", width = 2 }', '{ part = "dag", width = 2 }')
    told = """\
book.toml:44:12: 'dag' is not one of the words for 'part'
      { part = "dag", width = 2 },
               ^^^^^
expected one of: day, month, month_letter, year_digit, year_two, year_four, week, week_letter, day_count, literal"""
    assert changed.told() == told


def test_a_key_missing_in_an_inline_table_is_shown_at_its_brace(tiny):
    changed = tiny.change("book", '{ part = "day", width = 2 }', "{ width = 2 }")
    told = """\
book.toml:44:3: a part of a date needs 'part'
      { width = 2 },
      ^^^^^^^^^^^^^
expected one of: day, month, month_letter, year_digit, year_two, year_four, week, week_letter, day_count, literal"""
    assert changed.told() == told


def test_a_date_with_a_time_is_no_day(tiny):
    changed = tiny.change(
        "book", "first_year = 1954\n", "first_year = 1954\nstart = 1954-01-01T00:00:00\n"
    )
    told = """\
book.toml:43:9: 'start' is a date with a time here
    start = 1954-01-01T00:00:00
            ^^^^^^^^^^^^^^^^^^^
expected a date such as 1952-01-01"""
    assert changed.told() == told


def test_a_source_that_is_no_text_is_refused(tiny):
    changed = tiny.change(
        "book", 'demo = "Invented for a test"', 'demo = "Invented for a test"\nother = 7'
    )
    told = """\
book.toml:14:9: 'other' is a whole number here
    other = 7
            ^
expected the source as cited in full"""
    assert changed.told() == told


def test_a_basis_of_assumed_is_none_that_a_book_can_have(tiny):
    changed = tiny.change("codes", "January,,,,,invented,demo", "January,,,,,assumed,demo")
    told = """\
tables/codes.csv:6:24: 'assumed' is not one of the words for 'basis'
    months,A,1,January,,,,,assumed,demo
                           ^^^^^^^
expected one of: published, common practice, memory, invented"""
    assert changed.told() == told


def test_text_that_is_not_toml_is_shown_where_the_reader_stopped(tiny):
    changed = tiny.change("book", 'maker = "Tarvane"', 'maker = "Tarvane')
    told = """\
book.toml:5:17: this is not TOML: illegal character '\\n'
    maker = "Tarvane
                    ^
expected one `key = value` a line, under [headers], each text in double quotes"""
    assert changed.told() == told


def test_another_format_is_not_read_any_further(tiny):
    changed = tiny.change("book", 'format = "witnessmark-book"', 'format = "shopping"')
    told = '''\
book.toml:1:10: this is not a code book: its format is 'shopping'
    format = "shopping"
             ^^^^^^^^^^
expected format = "witnessmark-book"'''
    assert changed.told() == told


def test_another_version_of_the_format_is_not_read_any_further(tiny):
    changed = tiny.change("book", "format_version = 2", "format_version = 3")
    told = """\
book.toml:2:18: this is format version 3, this program reads up to 2
    format_version = 3
                     ^
expected format_version = 2, or a program that reads 3"""
    assert changed.told() == told
