# ruff: noqa: E501 (rows and messages stand here as a person sees them)
"""A form of date places a day, and its letters and fields fit."""

CODES_WITHOUT_MONTHS = """\
table,code,value,meaning,first_year,last_year,works,models,basis,source
types,SA,solent-saloon,Solent saloon,,,,,invented,demo
types,SP,solent-sprint,Solent Sprint,1956,1957,,,invented,demo
trims,L1,tan-leather,"leather, tan",1955,1957,,,invented,demo
trims,C,grey-cloth,grey cloth,1956,1957,,solent-sprint,invented,demo
"""


def test_a_field_is_as_wide_as_the_codes_of_its_form(tiny):
    changed = tiny.change("book", "widths = [4]", "widths = [5]")
    told = """\
book.toml:107:12: the field 'cast' has 5 characters, unlike codes of the form 'casting_day'
      widths = [5]
               ^^^
expected 4 characters"""
    assert changed.told() == told


def test_a_placeholder_is_as_long_as_a_code(tiny):
    changed = tiny.change("book", 'code = "00A0"', 'code = "00A"')
    told = """\
book.toml:49:12: the placeholder '00A' has 3 characters, unlike codes of the form 'casting_day'
      { code = "00A", meaning = "date wheels lost", basis = "invented", source = "demo" },
               ^^^^^
expected 4 characters"""
    assert changed.told() == told


def test_a_field_has_the_characters_that_its_form_needs(tiny):
    changed = tiny.change("book", '"0123456789ABC"', '"0123456789AB"')
    told = """\
book.toml:108:14: 'casting_day' has 'C', which the field 'cast' does not have
      alphabet = "0123456789AB"
                 ^^^^^^^^^^^^^^
expected characters of its alphabet"""
    assert changed.told() == told


def test_a_month_letter_says_a_month(tiny):
    changed = tiny.change("codes", "months,A,1,", "months,A,25,")
    told = """\
tables/codes.csv:6:10: '25' is not a value of a month_letter
    months,A,25,January,,,,,invented,demo
             ^^
expected 1 to 24"""
    assert changed.told() == told


def test_a_month_letter_is_as_wide_as_its_codes(tiny):
    changed = tiny.change("codes", "months,A,1,", "months,AA,1,")
    told = """\
tables/codes.csv:6:8: the code 'AA' does not fit 'casting_day'
    months,AA,1,January,,,,,invented,demo
           ^^
expected 1 character"""
    assert changed.told() == told


def test_a_month_letter_needs_its_table(tiny):
    changed = tiny.change("book", ', table = "months"', "").table("codes", CODES_WITHOUT_MONTHS)
    told = """\
book.toml:45:3: the form 'casting_day' cannot be read as a date: a month_letter needs a table
      { part = "month_letter", width = 1 },
      ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
expected parts that place a year, month, week or day"""
    assert changed.told() == told


def test_a_day_needs_its_month(tiny):
    changed = tiny.change(
        "book",
        '{ part = "month_letter", width = 1, table = "months" }',
        '{ part = "literal", text = "A" }',
    ).table("codes", CODES_WITHOUT_MONTHS)
    told = """\
book.toml:43:10: the form 'casting_day' cannot be read as a date: a day or a week of the month needs the month
    tokens = [
             ^
expected parts that place a year, month, week or day"""
    assert changed.told() == told


def test_a_day_count_needs_its_start(tiny):
    changed = tiny.change(
        "book", '{ part = "day", width = 2 }', '{ part = "day_count", width = 2 }'
    )
    told = """\
book.toml:43:10: the form 'casting_day' cannot be read as a date: a day count needs start
    tokens = [
             ^
expected parts that place a year, month, week or day"""
    assert changed.told() == told


def test_a_year_digit_is_one_character(tiny):
    changed = (
        tiny.change("book", 'part = "year_digit", width = 1', 'part = "year_digit", width = 2')
        .change("book", "widths = [4]", "widths = [5]")
        .change("book", 'code = "00A0"', 'code = "00A00"')
    )
    told = """\
book.toml:46:34: a year_digit cannot have 2 characters
      { part = "year_digit", width = 2 },
                                     ^
expected width = 1"""
    assert changed.told() == told


def test_a_day_has_two_characters_at_most(tiny):
    changed = (
        tiny.change("book", '{ part = "day", width = 2 }', '{ part = "day", width = 3 }')
        .change("book", "widths = [4]", "widths = [5]")
        .change("book", 'code = "00A0"', 'code = "000A0"')
    )
    told = """\
book.toml:44:27: a day cannot have 3 characters
      { part = "day", width = 3 },
                              ^
expected 1 to 2, least_width no more"""
    assert changed.told() == told


def test_a_form_of_nothing_but_literals_says_nothing(tiny):
    changed = (
        tiny.change("book", '{ part = "day", width = 2 }', '{ part = "literal", text = "XX" }')
        .change(
            "book",
            '{ part = "month_letter", width = 1, table = "months" }',
            '{ part = "literal", text = "A" }',
        )
        .change("book", '{ part = "year_digit", width = 1 }', '{ part = "literal", text = "B" }')
        .change("book", 'alphabet = "0123456789ABC"', 'alphabet = "0123456789ABCX"')
        .table("codes", CODES_WITHOUT_MONTHS)
    )
    told = """\
book.toml:43:10: the form 'casting_day' cannot be read as a date: nothing in it says when
    tokens = [
             ^
expected parts that place a year, month, week or day"""
    assert changed.told() == told


def test_a_form_of_date_gives_each_part_once(tiny):
    changed = tiny.change(
        "book",
        '{ part = "year_digit", width = 1 }',
        '{ part = "year_digit", width = 1 }, { part = "year_digit", width = 1 }',
    )
    assert "the form gives the year_digit a second time" in changed.told()
    assert "expected each part once" in changed.told()
