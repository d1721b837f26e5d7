# ruff: noqa: E501 (rows and messages stand here as a person sees them)
"""Marks stand somewhere, their fields can be told apart, their tables fit."""

from dataclasses import replace

from tests.codebook.tiny_book import TYPE_FIELD, plate

CODES_WITHOUT_TYPES = """\
table,code,value,meaning,first_year,last_year,works,models,basis,source
trims,L1,tan-leather,"leather, tan",1955,1957,,,invented,demo
trims,C,grey-cloth,grey cloth,1956,1957,,solent-sprint,invented,demo
months,A,1,January,,,,,invented,demo
months,B,2,February,,,,,invented,demo
months,C,3,March,,,,,invented,demo
"""


def test_a_table_without_a_row_for_a_year_of_the_mark_is_named(tiny):
    changed = tiny.change(
        "codes", 'tan-leather,"leather, tan",1955', 'tan-leather,"leather, tan",1956'
    )
    told = """\
book.toml:81:11: the table 'trims' has nothing for 1955, which the mark 'plate' covers
      table = "trims"
              ^^^^^^^
expected something for each, narrower years, works or models, or listed as partial"""
    assert changed.told() == told


def test_a_table_without_a_row_for_a_model_of_the_mark_is_named(tiny):
    changed = tiny.change(
        "codes", '"leather, tan",1955,1957,,,', '"leather, tan",1955,1957,,solent-sprint,'
    ).change("codes", "grey cloth,1956,1957,,solent-sprint", "grey cloth,1955,1955,,")
    told = """\
book.toml:81:11: the table 'trims' has nothing for 1956 to 1957 (solent-saloon), which the mark 'plate' covers
      table = "trims"
              ^^^^^^^
expected something for each, narrower years, works or models, or listed as partial"""
    assert changed.told() == told


def test_a_site_that_is_not_told_for_a_year_of_the_mark_is_named(tiny):
    changed = tiny.change("sites", "engine cold,,", "engine cold,1956,")
    told = """\
book.toml:58:8: the site 'scuttle' has nothing for 1955, which the mark 'plate' covers
    site = "scuttle"
           ^^^^^^^^^
expected something for each, narrower years, works or models, or listed as partial"""
    assert changed.told() == told


def test_a_mark_on_an_assembly_that_the_car_does_not_have_is_named(tiny):
    changed = tiny.change(
        "book", "identity_bearer = true", "identity_bearer = true\nlast_year = 1956"
    )
    told = """\
book.toml:3:6: no assembly bears the identity of 1957
    id = "tarvane-1955-1957"
         ^^^^^^^^^^^^^^^^^^^
expected an assembly with identity_bearer = true for each car
book.toml:90:12: the assembly 'frame' has nothing for 1957, which the mark 'frame_number' covers
    assembly = "frame"
               ^^^^^^^
expected something for each, narrower years, works or models, or listed as partial"""
    assert changed.told() == told


def test_a_text_that_falls_apart_in_two_ways_is_shown(tiny):
    changed = tiny.change("book", "widths = [6]", "widths = [5, 6]").change(
        "book", "widths = [4]", "widths = [3, 4]"
    )
    told = """\
book.toml:100:12: '000000000' can be split '00000|0000' or '000000|000'
      widths = [5, 6]
               ^^^^^^
expected one width, alphabets that tell the fields apart, a `before`, or windows = true
book.toml:107:12: the field 'cast' has 3 or 4 characters, unlike codes of the form 'casting_day'
      widths = [3, 4]
               ^^^^^^
expected 4 characters"""
    assert changed.told() == told


def test_two_fields_may_share_a_window_that_falls_apart_in_one_way(tiny):
    assert tiny.change("book", "column = 2", "column = 1").told() == ""


def test_two_fields_in_a_window_that_falls_apart_in_two_ways_are_named(tiny):
    shared = tiny.change("book", "column = 2", "column = 1")
    wide = shared.change("book", "widths = [2]", "widths = [2, 3]")
    told = wide.change("book", 'alphabet = "LC12"', 'alphabet = "ALC12"').told()
    assert "'AAA1' can be split 'AA|A1' or 'AAA|1'" in told


def test_a_code_shorter_than_its_field_is_named(tiny):
    changed = tiny.add("codes", "types,S,solent-saloon,x,,,,,invented,demo")
    told = """\
tables/codes.csv:9:7: the code 'S' does not fit 'type'
    types,S,solent-saloon,x,,,,,invented,demo
          ^
expected 2 characters"""
    assert changed.told() == told


def test_a_code_with_characters_that_its_field_does_not_have_is_named(tiny):
    changed = tiny.add("codes", "types,SZ,solent-saloon,x,,,,,invented,demo")
    told = """\
tables/codes.csv:9:7: 'SZ' has 'Z', which the field 'type' does not have
    types,SZ,solent-saloon,x,,,,,invented,demo
          ^^
expected characters of its alphabet"""
    assert changed.told() == told


LATE_PLATE = plate(
    "late_plate",
    "late chassis plate",
    TYPE_FIELD.replace("ADPS", "APSZ"),
    "first_year = 1957\n",
)


def test_a_code_of_years_without_the_mark_need_not_fit_its_field(tiny):
    """The letters of a later form are no fault of an earlier one."""
    mark = tiny.change("book", "windows = true\n", "windows = true\nlast_year = 1956\n")
    mark = replace(mark, top=mark.top + LATE_PLATE)
    changed = mark.add("codes", "types,SZ,solent-saloon,x,1957,1957,,,invented,demo")
    assert changed.told() == mark.told()
    assert "'SZ' has 'Z'" in mark.add("codes", "types,SZ,solent-saloon,x,,,,,invented,demo").told()


def test_a_number_without_a_length_is_named(tiny):
    changed = tiny.change("book", "length = 6\n", "")
    told = """\
book.toml:15:1: 'chassis_number' is a number without a length
    [[item]]
    ^^^^^^^^
expected length = how many characters it has in full"""
    assert changed.told() == told


def test_a_field_for_all_of_a_number_is_as_wide_as_the_number(tiny):
    changed = tiny.change("book", "widths = [6]", "widths = [4]")
    told = """\
book.toml:100:12: a field of 4 characters cannot hold all of 'chassis_number'
      widths = [4]
               ^^^
expected widths = [6], or a part such as 'last 4'"""
    assert changed.told() == told


def test_a_number_without_its_leading_noughts_may_be_shorter(tiny):
    assert "cannot hold" not in tiny.change("book", "widths = [6]", "widths = [4, 5, 6]").told()


def test_a_field_for_part_of_a_number_is_as_wide_as_the_part(tiny):
    changed = tiny.change("book", "widths = [6]", 'widths = [6]\n  part = "last 4"')
    told = """\
book.toml:101:10: a field of 6 characters cannot hold the last 4 of 'chassis_number'
      part = "last 4"
             ^^^^^^^^
expected widths of the part, which can be 1 to 6"""
    assert changed.told() == told


def test_only_numbers_stand_in_part(tiny):
    changed = tiny.change("book", 'says = "trim"', 'says = "trim"\n  part = "last 4"')
    told = """\
book.toml:79:10: a part such as 'last 4' is only for items of kind number
      part = "last 4"
             ^^^^^^^^
expected part = 'all'"""
    assert changed.told() == told


def test_a_stamping_without_a_site_is_named(tiny):
    changed = tiny.change("book", 'site = "rail"\n', "")
    told = """\
book.toml:85:1: the stamping 'frame_number' needs 'site'
    [[mark]]
    ^^^^^^^^
expected the site where it stands; only papers have none"""
    assert changed.told() == told


def test_a_stamping_without_an_assembly_is_named(tiny):
    changed = tiny.change("book", 'assembly = "frame"\n', "")
    told = """\
book.toml:85:1: the stamping 'frame_number' needs 'assembly'
    [[mark]]
    ^^^^^^^^
expected the assembly it stands on; only plates, labels and papers have none"""
    assert changed.told() == told


def test_a_plate_belongs_to_no_assembly(tiny):
    changed = tiny.change("book", 'site = "scuttle"', 'site = "scuttle"\nassembly = "frame"')
    told = """\
book.toml:59:12: the plate 'plate' belongs to no assembly
    assembly = "frame"
               ^^^^^^^
expected assembly = ''"""
    assert changed.told() == told


def test_an_alphabet_has_no_sign_of_the_notation(tiny):
    changed = tiny.change("book", 'alphabet = "LC12"', 'alphabet = "LC1?2"')
    told = """\
book.toml:80:18: '?' is a sign of the notation for readings
      alphabet = "LC1?2"
                     ^
expected letters and figures, without spaces or ? ~ _ … [ ] |"""
    assert changed.told() == told


def test_an_alphabet_has_each_character_once(tiny):
    changed = tiny.change("book", 'alphabet = "LC12"', 'alphabet = "LC121"')
    told = """\
book.toml:80:19: the alphabet has '1' twice
      alphabet = "LC121"
                      ^
expected each character once"""
    assert changed.told() == told


def test_the_field_of_a_number_has_no_characters_that_the_number_has_not(tiny):
    changed = tiny.change("book", 'alphabet = "0123456789"\n', 'alphabet = "0123456789X"\n')
    told = """\
book.toml:101:14: '0123456789X' has 'X', which the number 'chassis_number' does not have
      alphabet = "0123456789X"
                 ^^^^^^^^^^^^^
expected characters of its alphabet"""
    assert changed.told() == told


def test_a_code_without_a_table_is_named(tiny):
    changed = (
        tiny.change("book", 'says = "model"', 'says = "trim"')
        .change("book", '  table = "types"\n', "")
        .table("codes", CODES_WITHOUT_TYPES)
    )
    told = """\
book.toml:69:10: the field 'type' says an item of kind code
      says = "trim"
             ^^^^^^
expected a table, and no date_form"""
    assert changed.told() == told


def test_a_date_without_a_form_is_named(tiny):
    changed = tiny.change("book", '  date_form = "casting_day"\n', "")
    told = """\
book.toml:106:10: the field 'cast' says an item of kind date
      says = "casting_date"
             ^^^^^^^^^^^^^^
expected a date_form, and no table"""
    assert changed.told() == told


def test_a_number_needs_no_table(tiny):
    changed = (
        tiny.change("book", 'says = "trim"', 'says = "chassis_number"')
        .change("book", "widths = [1, 2]", 'widths = [2]\n  part = "last 2"')
        .change("book", 'alphabet = "LC12"', 'alphabet = "12"')
        .change("codes", "trims,L1", "trims,11")
        .change("codes", "trims,C", "trims,22")
    )
    told = """\
book.toml:82:11: the field 'trim' says an item of kind number
      table = "trims"
              ^^^^^^^
expected neither table nor date_form"""
    assert changed.told() == told


def test_an_optional_field_before_one_of_the_same_characters_is_ambiguous(tiny):
    shift = """\
  [[mark.field]]
  id = "shift"
  name = "shift"
  says = "trim"
  widths = [2]
  alphabet = "0123456789L"
  table = "shifts"
  optional = true

  [[mark.field]]
  id = "chassis"
"""
    changed = (
        tiny.change("book", '  [[mark.field]]\n  id = "chassis"\n', shift)
        .change("book", "widths = [4]", "widths = [2, 4]")
        .add("codes", "shifts,L1,tan-leather,leather,,,,,invented,demo")
    )
    told = """\
book.toml:100:12: '0000000000' can be split '000000|0000' or '00|000000|00'
      widths = [2]
               ^^^
expected one width, alphabets that tell the fields apart, a `before`, or windows = true
book.toml:116:12: the field 'cast' has 2 or 4 characters, unlike codes of the form 'casting_day'
      widths = [2, 4]
               ^^^^^^
expected 4 characters"""
    assert changed.told() == told


def test_an_alphabet_has_no_character_that_cannot_be_struck(tiny):
    changed = tiny.change("book", 'alphabet = "LC12"', 'alphabet = "LC1\\u0301"')
    assert "U+0301 cannot be on a mark" in changed.told()
    assert "expected visible characters, each a single one" in changed.told()


def test_an_alphabet_of_thousands_of_characters_is_refused_and_not_walked_through(tiny):
    long = "".join(chr(0x4E00 + k) for k in range(5000))
    changed = tiny.change("book", 'alphabet = "LC12"', f'alphabet = "{long}"')
    assert "the alphabet has 5000 characters" in changed.told()
    assert "expected at most 200" in changed.told()
