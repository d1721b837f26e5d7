"""A case that is typed wrongly is answered with the place, the line and what was expected."""

import pytest

from witnessmark.casefile import parse_casefile
from witnessmark.problem import render_all


def answer(text: str) -> str:
    """All problems of this case, as a user sees them."""
    return render_all(parse_casefile(text.strip("\n"), "case.json").problems)


def with_line(line: str) -> str:
    """A case that is sound but for this one line, which is its sixth."""
    return f"""
{{
  "format": "witnessmark-case",
  "format_version": 2,
  "id": "sprint",
  "book": "tarvane",
  {line}
}}
"""


def test_the_smallest_case_has_no_problems():
    parsed = parse_casefile(
        '{"format": "witnessmark-case", "format_version": 2, "id": "sprint", "book": "tarvane"}',
        "case.json",
    )
    assert parsed.problems == ()
    assert parsed.casefile is not None
    assert (parsed.casefile.id, parsed.casefile.book) == ("sprint", "tarvane")


def test_a_byte_order_mark_is_overlooked_and_not_counted():
    text = '\ufeff{"format": "witnessmark-case", "format_version": 2, "id": 7, "book": "b"}'
    assert answer(text) == (
        "case.json:1:59: 'id' is a number\n"
        '    {"format": "witnessmark-case", "format_version": 2, "id": 7, "book": "b"}\n'
        "                                                              ^\n"
        "expected a text in double quotes"
    )


def test_every_problem_of_a_case_is_told_at_once():
    text = """
{
  "format": "witnessmark-case",
  "format_version": 2,
  "id": "my case",
  "sites": [{"site": "scuttle", "state": "maybe"}, {"state": "read"}],
  "stakes": {"price_asked": NaN},
  "claim": {"built": "1955-13"}
}
"""
    assert (
        answer(text)
        == """
case.json:1:1: the field 'book' is missing
    {
    ^
expected "book": the code book: the name of a shipped one, or a path
case.json:4:9: 'my case' cannot name a case
      "id": "my case",
            ^^^^^^^^^
expected 1 to 80 of the letters A-Z and a-z, digits, full stop, hyphen and underscore, \
a letter or digit first
case.json:5:42: 'maybe' is not a site state
      "sites": [{"site": "scuttle", "state": "maybe"}, {"state": "read"}],
                                             ^^^^^^^
expected one of: read, found and illegible, absent, not accessible, not looked for
case.json:5:52: the field 'site' is missing
      "sites": [{"site": "scuttle", "state": "maybe"}, {"state": "read"}],
                                                       ^
expected "site": a site of the code book
case.json:6:29: NaN is not a number that a case can hold
      "stakes": {"price_asked": NaN},
                                ^^^
expected a finite number, or null
case.json:7:22: '1955-13' has no month 13
      "claim": {"built": "1955-13"}
                         ^^^^^^^^^
expected a year, a month or a day: 1955, 1955-03 or 1955-03-14""".lstrip("\n")
    )


@pytest.mark.parametrize(
    ("line", "sentence", "expected"),
    [
        ('"opened": "14.3.1955"', "'14.3.1955' is not a day", "a day such as 2025-03-14"),
        ('"opened": "2025-02-30"', "'2025-02-30' is not a day", "a day such as 2025-03-14"),
        ('"opened": "1700000000"', "'1700000000' is not a day", "a day such as 2025-03-14"),
        (
            '"opened": 2025',
            "'opened' is a number",
            "a day in double quotes, such as 2025-03-14, or null",
        ),
        ('"sites": {}', "'sites' is an object", "a list in [ ]"),
        ('"sites": [7]', "'sites[0]' is a number", "an object in { }"),
        ('"claim": null', "'claim' is null", "an object in { }"),
        ('"claim": {"items": []}', "'items' is a list", "an object in { }"),
        ('"claim": {"items": {"model": true}}', "'model' is true", "a text in double quotes"),
        ('"stakes": {"price_asked": "9"}', "'price_asked' is a text", "a number, or null"),
        ('"stakes": {"price_asked": -1}', "'price_asked' is -1", "a number not below 0"),
        (
            '"assignment": {"minutes_available": 20000}',
            "'minutes_available' is 20000",
            "a number not above 10000",
        ),
        (
            '"assignment": {"minutes_available": 1.5}',
            "'minutes_available' is a number",
            "a whole number, or null",
        ),
        (
            '"circumstances": {"overrides": [{"row": "r", "value": 0, "reason": "w"}]}',
            "'value' is 0",
            "a number not below 1e-09",
        ),
        (
            '"circumstances": {"prior_odds": [{"question": "q", "odds": 0, "reason": "w"}]}',
            "'odds' is 0",
            "a number not below 1e-09",
        ),
        (
            '"circumstances": {"prior_odds": [{"question": "q", "odds": 1, "reason": ""}]}',
            "'reason' is empty",
            "why",
        ),
        (
            '"readings": [{"mark": "m", "text": "1", "seen": 3}]',
            "'seen' is a number",
            "one of: in person, photograph, copy, told",
        ),
        (
            '"readings": [{"mark": "m", "text": "1", "when": "yesterday"}]',
            "'yesterday' is not a day with a time",
            "2025-03-14T10:30, or with its zone 2025-03-14T10:30:00+01:00",
        ),
        (
            '"readings": [{"mark": "m", "text": "1", "when": "1700000000"}]',
            "'1700000000' is not a day with a time",
            "2025-03-14T10:30, or with its zone 2025-03-14T10:30:00+01:00",
        ),
        (
            '"papers": [{"mark": "m", "state": "burnt"}]',
            "'burnt' is not a paper state",
            "one of: in hand, copy, asked for and awaited, refused, lost, not asked for",
        ),
        (
            '"exhibits": [{"id": "e", "file": "a.jpg", "sha256": "ABC"}]',
            "'ABC' is not a SHA-256",
            "64 digits, 0-9 and a-f in small letters",
        ),
        (
            f'"title_paper": {{"number": "{"7" * 201}"}}',
            "the text of 'number' has 201 characters",
            "at most 200",
        ),
        (
            f'"stakes": {{"price_asked": {"7" * 5000}}}',
            "this number of 5000 characters is too large to be one",
            "a number below 1e308, written with at most 300 characters",
        ),
        (
            '"stakes": {"price_asked": 1e999}',
            "this number of 5 characters is too large to be one",
            "a number below 1e308, written with at most 300 characters",
        ),
        (
            '"title": "half \\ud83d"',
            "there is half a character (U+D83D, a lone surrogate) in this text",
            "the character itself, or both halves of its pair",
        ),
        (
            '"title": "\\u0000"',
            "there is a NUL character (U+0000) in this text",
            r"characters that can be read; a line end is \n, a tab \t",
        ),
        (
            '"title": "a\tb"',
            "there is a control character (U+0009) in this text",
            r"characters that can be read; a line end is \n, a tab \t",
        ),
        (
            '"\\u001b": 1',
            "there is a control character (U+001B) in this text",
            r"characters that can be read; a line end is \n, a tab \t",
        ),
        (
            '"book": "other"',
            "'book' appears twice in one object, first on line 5",
            "each field once",
        ),
    ],
)
def test_a_wrong_value_is_told_by_its_own_sentence(line, sentence, expected):
    first, *_, last = answer(with_line(line)).splitlines()
    assert first.startswith("case.json:6:")
    assert first.partition(": ")[2] == sentence
    assert last == f"expected {expected}"
    assert parse_casefile(with_line(line), "case.json").problems[1:] == ()


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (
            "",
            """
case.json:1:1: there is nothing in it
expected a case: { "format": "witnessmark-case", … }""",
        ),
        (
            '{"id": "a"',
            """
case.json:1:11: the text ends here, before the case does
    {"id": "a"
              ^
expected }, since { was opened on line 1""",
        ),
        (
            '{"id": "spri',
            """
case.json:1:8: the text ends here, before the case does
    {"id": "spri
           ^^^^^
expected the closing \"""",
        ),
        (
            '{"id": "spri\n}',
            """
case.json:1:8: the quote that opens this text is not closed on its line
    {"id": "spri
           ^^^^^
expected a " at the end of the text""",
        ),
        (
            '{"id": "a",\n "sites": [\n 1,\n ]}',
            """
case.json:4:2: there is a comma too many before this bracket
     ]}
     ^
expected ] without a comma before it""",
        ),
        (
            '{"id": "a",}',
            """
case.json:1:12: there is a comma too many before this bracket
    {"id": "a",}
               ^
expected } without a comma before it""",
        ),
        (
            '{"id": "a"\n "book": "b"}',
            """
case.json:1:11: a comma is missing here
    {"id": "a"
              ^
expected a comma or }""",
        ),
        (
            '{"id" "a"}',
            """
case.json:1:6: a colon is missing here
    {"id" "a"}
         ^
expected a colon between name and value""",
        ),
        (
            '{id: "a"}',
            """
case.json:1:2: this field name is not in double quotes
    {id: "a"}
     ^
expected a name such as "id", or }""",
        ),
        (
            '{"id": sprint}',
            """
case.json:1:8: this text is not in double quotes
    {"id": sprint}
           ^^^^^^
expected a text in double quotes, a number, true, false, null, a list or an object""",
        ),
        (
            '{"file": "C:\\photos"}',
            r"""
case.json:1:13: this is not an escape that JSON knows
    {"file": "C:\photos"}
                ^^
expected one of \" \\ \/ \b \f \n \r \t \u00e9""",
        ),
        (
            '{"id": 007}',
            """
case.json:1:8: this is not a value
    {"id": 007}
           ^^^
expected a text in double quotes, a number, true, false, null, a list or an object""",
        ),
        (
            '{"id": }',
            """
case.json:1:8: this is not a value
    {"id": }
           ^
expected a text in double quotes, a number, true, false, null, a list or an object""",
        ),
        (
            '{"sites": [1}',
            """
case.json:1:13: this bracket closes nothing that is open
    {"sites": [1}
                ^
expected ], since [ was opened on line 1""",
        ),
        (
            '{"id": "a"} {}',
            """
case.json:1:13: the text goes on after the end of the case
    {"id": "a"} {}
                ^
expected nothing more""",
        ),
        (
            "# notes\n{}",
            """
case.json:1:1: this is not a value
    # notes
    ^
expected a text in double quotes, a number, true, false, null, a list or an object""",
        ),
        (
            '{"id": "a", // the car\n}',
            """
case.json:1:13: this is a comment, and JSON has none
    {"id": "a", // the car
                ^
expected a field name in double quotes""",
        ),
        (
            "[1, 2]",
            """
case.json:1:1: a case is one object, and this is a list
    [1, 2]
    ^
expected { "format": "witnessmark-case", … }""",
        ),
        (
            '{"format": "witnessmark-case", "format_version": 3, "sites": 7}',
            """
case.json:1:50: this is format version 3, this program reads up to 2
    {"format": "witnessmark-case", "format_version": 3, "sites": 7}
                                                     ^
expected "format_version": 2, or a program that reads 3""",
        ),
        (
            '{"format": "recipe", "format_version": true}',
            """
case.json:1:12: this is not a case: its format is 'recipe'
    {"format": "recipe", "format_version": true}
               ^^^^^^^^
expected "format": "witnessmark-case"
case.json:1:40: 'format_version' is true
    {"format": "recipe", "format_version": true}
                                           ^^^^
expected the whole number 2""",
        ),
        (
            '{"id": "a"}',
            """
case.json:1:1: the field 'format' is missing
    {"id": "a"}
    ^
expected "format": the word that says this is a case
case.json:1:1: the field 'format_version' is missing
    {"id": "a"}
    ^
expected "format_version": the version of this format""",
        ),
    ],
)
def test_a_text_that_is_no_case_is_told_where_it_breaks(text, message):
    assert answer(text) == message.lstrip("\n")


def test_brackets_deeper_than_any_case_are_refused_before_they_exhaust_anything():
    assert (
        answer("[" * 1_000_000).splitlines()[0]
        == "case.json:1:61: lists and objects are nested more than 60 deep"
    )
    assert answer("[" * 60 + "]" * 60).splitlines()[0] == (
        "case.json:1:1: a case is one object, and this is a list"
    )


def test_a_text_larger_than_any_case_is_refused_unread():
    assert answer("[" * 5_000_001) == (
        "case.json: a case is never larger than 5 MB, and this is\n"
        "expected photographs and papers as files in exhibits/"
    )


def test_a_thousand_problems_are_cut_to_a_hundred_and_the_user_is_told():
    parsed = parse_casefile(with_line(f'"sites": [{", ".join(["7"] * 1000)}]'), "case.json")
    assert len(parsed.problems) == 101
    assert parsed.problems[-1].render() == (
        "case.json:7: there is more wrong after this; only the first 100 are shown"
    )
    parsed = parse_casefile(with_line(f'"x": [{", ".join(["NaN"] * 1000)}]'), "case.json")
    assert len(parsed.problems) == 101
    assert parsed.problems[-1].sentence() == (
        "there is more wrong after this; only the first 100 are shown"
    )


def test_more_values_than_any_case_has_are_refused():
    assert answer("[" + "1," * 100_000 + "1]").startswith(
        "case.json:1:200000: there are more than 100000 values in this text"
    )


def test_what_is_patched_is_never_taken_for_what_was_typed():
    """A case with a NaN in it is not given on with a null in its place."""
    parsed = parse_casefile(with_line('"stakes": {"price_asked": NaN}'), "case.json")
    assert parsed.casefile is None
