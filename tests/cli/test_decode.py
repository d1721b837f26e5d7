"""`witnessmark decode`."""

import json

import pytest
from hypothesis import HealthCheck, given
from hypothesis import strategies as st

from tests.examples import tried_on

BOOK = "tarvane-1952-1961"
CHEVROLET = "chevrolet-1964-1972"
KEYS = [
    "book", "mark", "reading", "normalised", "problems", "alternatives",
    "not_listed_share", "unread", "unread_in_fields", "missing", "slip", "around", "changes",
    "deciding_column", "notes", "of_car", "cars", "mark_name", "described_by", "not_for",
    "contradictions", "points", "rules", "remarks", "sources", "beside",
]  # fmt: skip
"""The published keys."""


@pytest.mark.parametrize(
    ("book", "mark", "reading"),
    [
        (BOOK, "frame_number", "4700143"),
        (BOOK, "frame_number", "3700[38]43"),
        (BOOK, "frame_number", "hello world"),
        (BOOK, "frame_number", "4 70014"),
        (BOOK, "frame_number", "3700[38"),
        (CHEVROLET, "engine_pad", "V0101DZ 19N500123"),
    ],
)
def test_json_has_exactly_the_published_keys(type_in, book, mark, reading):
    """witnessmark decode tarvane-1952-1961 frame_number '3700[38]43' --json"""
    decoded = json.loads(type_in("decode", book, mark, reading, "--json").out)
    assert list(decoded) == KEYS
    assert (decoded["book"], decoded["mark"], decoded["reading"]) == (book, mark, reading)
    for alternative in decoded["alternatives"]:
        assert list(alternative) == ["share", "fields"]
        assert {tuple(each) for each in alternative["fields"]} == {
            ("field", "name", "code", "says", "value", "meaning", "listed", "placeholder",
             "spans", "other_spans", "basis", "source")
        }  # fmt: skip


def test_json_names_every_character_without_a_meaning(type_in):
    """A paint that the book does not list."""
    plate = "SP|700143|40047|99|L2|370|_"
    decoded = json.loads(type_in("decode", BOOK, "plate_brass", plate, "--json").out)
    assert decoded["unread"] == "99"
    assert decoded["unread_in_fields"] == [
        {"field": "paint", "text": "99", "column": 17, "reason": "not listed by the book"}
    ]


@pytest.mark.parametrize(
    ("option", "value", "expected"),
    [("--model", "solent-sprnt", "solent-sprint"), ("--works", "elery", "ellery")],
)
def test_an_unknown_model_or_works_is_answered_with_the_nearest(type_in, option, value, expected):
    """witnessmark decode tarvane-1952-1961 frame_number 4700143 --model solent-sprnt"""
    ended = type_in("decode", BOOK, "frame_number", "4700143", option, value)
    assert (ended.code, ended.out) == (2, "")
    assert f"nearest: {expected}" in ended.err


def test_a_page_says_what_each_field_means_and_numbers_its_source(type_in):
    """witnessmark decode tarvane-1952-1961 frame_number 4700143"""
    ended = type_in("decode", BOOK, "frame_number", "4700143")
    assert (ended.code, ended.err) == (0, "")
    assert ended.out.partition(", version ")[0] == (
        "frame stamping (frame_number): 4700143\n"
        "  4       type figure: Solent Sprint, two litres [1]\n"
        "  700143  chassis number: Sprints of 1955, of 140 in all [1]\n"
        "\n"
        "Sources\n"
        "  [1] invented: Invented for the demonstration; no such maker ever built a car\n"
        "  By the book tarvane-1952-1961"
    )


def test_where_nothing_has_95_per_cent_the_others_are_told_by_what_differs(type_in):
    """An L or an N: two works, each with its share; the sign that decides has a mark under it."""
    ended = type_in("decode", CHEVROLET, "number_plate", "124379[LN]506070")
    lines = ended.out.splitlines()
    assert lines[1].endswith("of what the reading allows:")
    assert sum(line.startswith("  else: plant letter ") for line in lines) == 1
    at = lines.index("  124379[LN]506070")
    assert lines[at + 1] == "        ^ decides between the first two"


def test_what_is_under_one_per_cent_is_shown_where_all_is_asked_for(type_in):
    """Four other engine plants, each of which would be a misread letter."""
    words = ("decode", CHEVROLET, "engine_pad", "V0101DZ", "--year", "1969")
    page = type_in(*words).out
    assert "else:" not in page
    assert "--all (4 meanings under 1 %)" in " ".join(page.split())
    told = " ".join(type_in(*words, "--all").out.split())
    assert "else: engine plant F, Flint Motor (under 1 %)" in told
    assert "--all" not in told


def test_sources_stand_on_one_line_each_and_whole_where_all_is_asked_for(type_in):
    """[1] stands at every field that rests on it."""
    words = ("decode", CHEVROLET, "number_plate", "124379N506070")
    page = type_in(*words).out
    _, _, sources = page.partition("\nSources\n")
    cited = [line for line in sources.splitlines() if line.startswith("  [")]
    assert [line[:6] for line in cited] == ["  [1] ", "  [2] ", "  [3] "]
    assert max(map(len, page.splitlines())) <= 80
    assert "division: Chevrolet [1]" in page
    assert "http://camaros.org/numbers.shtml" not in page
    assert "http://camaros.org/numbers.shtml" in type_in(*words, "--all").out


def test_a_date_of_the_car_s_own_years_comes_first(type_in):
    """A pad says month and day; the year that is given says the rest."""
    page = type_in("decode", CHEVROLET, "engine_pad", "V0101DZ", "--year", "1969").out
    assert "  0101  month and day: 1 January 1969 [1]\n" in page
    assert "The code 0101 alone may also be one of 9 dates" in page
    open_year = " ".join(type_in("decode", CHEVROLET, "engine_pad", "V0101DZ").out.split())
    assert "More: --year N narrows it" in open_year


def test_remarks_are_those_that_hold_for_the_car(type_in):
    """What is known of 1969 alone is not said of a pad whose year is open; --remarks has it."""
    words = ("decode", CHEVROLET, "engine_pad", "V0525CNR", "--year", "1970")
    zl1 = "On a ZL1 the casting date"
    assert zl1 not in type_in(*words).out
    assert zl1 not in type_in(*words, "--remarks").out
    assert zl1 in type_in(*words[:-1], "1969", "--remarks").out
    pad = type_in("decode", CHEVROLET, "engine_pad", "V0101DZ")
    assert zl1 not in pad.out


def test_a_slip_comes_first_with_what_was_expected(type_in):
    """A figure too few, somewhere: exit code 0, and an example that names no car."""
    ended = type_in("decode", BOOK, "frame_number", "4 70014")
    assert (ended.code, ended.err) == (0, "")
    lines = ended.out.splitlines()
    assert "1" in lines[1]
    assert "missing" in lines[1]
    expected = next(line for line in lines if line.startswith("  Expected: "))
    assert expected.startswith("  Expected: type figure (1), chassis number (6); such as ")
    assert expected.endswith("??????")


def test_a_slip_is_pointed_at_where_its_place_is_known(type_in):
    """A letter where figures stand."""
    lines = type_in("decode", CHEVROLET, "number_plate", "1243J9N506070").out.splitlines()
    assert lines[1:3] == [
        "  1243J9N506070",
        "      ^ The letter J stands where the body style has figures.",
    ]


def test_a_slip_in_a_plate_is_pointed_at_in_its_own_row(type_in):
    """Rows as they stand on the plate; the third has a figure that no window takes."""
    rows = "SP|700143|\n40047|17|L2|3J0|_"
    lines = type_in("decode", BOOK, "plate_brass", rows).out.splitlines()
    at = next(k for k, line in enumerate(lines) if line.lstrip().startswith("^"))
    assert lines[at - 1] == "  40047|17|L2|3J0|_"
    assert lines[at].index("^") == lines[at - 1].index("J")


def test_what_is_nothing_like_the_mark_has_no_share_and_no_meaning(type_in):
    """A pad's stamp typed for the number plate: how to ask for it."""
    ended = type_in("decode", CHEVROLET, "number_plate", "V0525CNR")
    assert (ended.code, ended.err) == (0, "")
    assert "This does not look like the number plate" in ended.out
    assert "%" not in ended.out
    assert f"witnessmark decode {CHEVROLET} engine_pad V0525CNR" in ended.out
    decoded = json.loads(type_in("decode", CHEVROLET, "number_plate", "V0525CNR", "--json").out)
    assert decoded["alternatives"] == []
    assert decoded["not_listed_share"] is None
    assert decoded["slip"]["others"] == ["engine_pad"]


def test_words_that_are_no_reading_are_told_where_the_marks_are(type_in):
    """witnessmark decode tarvane-1952-1961 frame_number 'hello world'"""
    ended = type_in("decode", BOOK, "frame_number", "hello world")
    assert ended.code == 0
    assert "This does not look like the frame stamping." in ended.out
    assert f"witnessmark book show {BOOK}" in ended.out
    assert "Sources" not in ended.out


@pytest.mark.parametrize(
    ("book", "mark", "reading"),
    [
        (CHEVROLET, "number_plate", "124379N999999"),
        ("ford-1964-1973", "dash_plate", "8R01J037614"),
        (BOOK, "frame_number", "4 799999"),
    ],
)
def test_a_number_in_no_series_of_its_cars_is_told_so(type_in, book, mark, reading):
    """Not one of which the book lists no series: there nothing is added."""
    said = " ".join(type_in("decode", book, mark, reading).out.split())
    assert "not in any series that the book lists for such a car" in said
    said = type_in("decode", CHEVROLET, "number_plate", "136379Z100101").out
    assert "none of the series" not in " ".join(said.split())


def test_two_marks_typed_together_are_both_decoded(type_in):
    """A pad with the serial behind it: the serial says which January it was."""
    ended = type_in("decode", CHEVROLET, "engine_pad", "V0101DZ 19N500123")
    assert "month and day: 1 January 1969" in ended.out
    first, _, second = ended.out.partition("\nTyped with it: ")
    assert "Left over" not in first
    assert second.split(":")[0].startswith("partial number on the engine pad")
    assert "year digit: model year 1969" in second
    words = ("decode", CHEVROLET, "engine_pad", "V0101DZ 19N500123", "--json")
    decoded = json.loads(type_in(*words).out)
    assert decoded["unread"] == ""
    assert decoded["beside"]["mark"] == "partial_number_engine"
    assert decoded["beside"]["reading"] == "19N500123"
    assert list(decoded["beside"]) == KEYS


def test_a_year_that_the_mark_contradicts_is_told(type_in):
    """The number says 1969; --year says 1968."""
    words = ("decode", CHEVROLET, "number_plate", "124379N506070", "--year", "1968")
    sentence = "The model year was given as 1968; the mark itself says 1969."
    assert sentence in type_in(*words).out
    assert json.loads(type_in(*words, "--json").out)["contradictions"] == [
        {"item": "model year", "given": "1968", "said": "1969", "sentence": sentence}
    ]


def test_words_around_a_reading_are_named(type_in):
    """What stood behind the number in an advertisement."""
    page = type_in("decode", CHEVROLET, "number_plate", "124379N506070 (on the dash)").out
    assert "\n  Ignored as not part of the mark: " in page
    assert "model year 1969" in page


def test_a_mark_may_be_named_with_hyphens_and_capitals(type_in):
    """Frame-Number is frame_number."""
    named = type_in("decode", BOOK, "Frame-Number", "4700143")
    assert named.code == 0
    assert named.out == type_in("decode", BOOK, "frame_number", "4700143").out


def test_of_marks_that_people_call_the_same_the_one_that_was_typed_is_decoded(type_in):
    """A vin of 1969, and one of 1972."""
    decoded = json.loads(type_in("decode", CHEVROLET, "vin", "124379N506070", "--json").out)
    assert decoded["mark"] == "number_plate"
    decoded = json.loads(type_in("decode", CHEVROLET, "VIN", "1Q87L2N500001", "--json").out)
    assert decoded["mark"] == "number_plate_1972"


def test_a_name_of_several_marks_of_which_none_fits_is_answered_with_all(type_in):
    """Nobody can say of which plate these words are no reading."""
    ended = type_in("decode", CHEVROLET, "vin", "hello world")
    assert (ended.code, ended.out) == (2, "")
    assert ended.err.startswith("MARK: 'vin' is a common name for 3 marks\n")
    assert "number_plate_1964, number_plate, number_plate_1972" in ended.err


def test_an_unknown_mark_is_answered_with_the_nearest(type_in):
    """witnessmark decode tarvane-1952-1961 framenumber 3700143"""
    ended = type_in("decode", BOOK, "framenumbr", "3700143")
    assert (ended.code, ended.out) == (2, "")
    assert ended.err.startswith(
        "MARK: 'framenumbr' is not a mark of the book tarvane-1952-1961\n"
        "    framenumbr\n"
        "    ^^^^^^^^^^\n"
        "expected a known one; nearest: frame_number"
    )


@pytest.mark.parametrize("reading", ["3700[38", "", "37\t\x00", "]"])
def test_a_reading_that_cannot_be_read_is_a_problem_with_its_place(type_in, reading):
    """Exit code 2, the problem on the error stream, no half page on the other."""
    ended = type_in("decode", BOOK, "frame_number", reading)
    assert (ended.code, ended.out) == (2, "")
    assert ended.err.startswith("reading")


def test_json_says_what_is_wrong_with_a_reading(type_in):
    """The problems stand in the JSON as well, and the exit code is 2."""
    ended = type_in("decode", BOOK, "frame_number", "3700[38", "--json")
    assert ended.code == 2
    assert json.loads(ended.out)["problems"]


def test_what_the_book_does_not_list_is_said_and_is_no_fault(type_in):
    """A paint that no row has: exit code 0."""
    ended = type_in("decode", BOOK, "plate_brass", "SP|700143|40047|99|L2|370|_")
    assert (ended.code, ended.err) == (0, "")
    assert "  99      paint: not listed by the book\n" in ended.out


def test_a_mark_of_other_years_is_decoded_and_said_to_be_of_other_years(type_in):
    """The brass plate went in 1957; a car of 1958 with one is a finding, not a fault."""
    words = ("decode", BOOK, "plate_brass", "SP|700143|40047|17|L2|370|_", "--year", "1958")
    ended = type_in(*words)
    assert (ended.code, ended.err) == (0, "")
    sentence = "The book has the brass chassis plate for 1952 to 1957, not for 1958."
    assert sentence in ended.out
    assert json.loads(type_in(*words, "--json").out)["not_for"] == [sentence]


def test_a_field_that_was_left_empty_says_something(type_in):
    """The window for extras."""
    ended = type_in("decode", BOOK, "plate_brass", "SP|700143|40047|17|L2|370|_")
    assert "extras: no extras ordered" in ended.out


def test_what_the_normalised_form_says_otherwise_is_told_once_for_each_reason(type_in):
    """Two letters O in a number that never has one."""
    page = " ".join(type_in("decode", BOOK, "frame_number", "47OO143").out.split())
    assert "Read as 4700143." in page
    assert page.count("At places 3 and 4 of what was typed: ") == 1


SIGNS = st.one_of(st.text(alphabet="0123456789MSPX[]?~_….| ", max_size=30), st.text(max_size=12))


@tried_on(60, few=15, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(mark=st.sampled_from(["plate_brass", "frame_number", "engine_casting"]), reading=SIGNS)
def test_whatever_is_typed_is_decoded_or_is_a_problem(type_in, mark, reading):
    """Exit code 0 with a page, or 2 with problems; the JSON is whole either way."""
    page = type_in("decode", "--", BOOK, mark, reading)
    machine = type_in("decode", "--json", "--", BOOK, mark, reading)
    decoded = json.loads(machine.out)
    assert page.code == machine.code == (2 if decoded["problems"] else 0)
    assert bool(page.out) == (page.code == 0)
    assert bool(page.err) == (page.code == 2)
    assert all(sign == "\n" or sign.isprintable() or sign.isspace() for sign in page.out)
    assert "\x1b" not in page.out + page.err
    assert decoded["reading"] == reading
    shares = [each["share"] for each in decoded["alternatives"]]
    assert shares == sorted(shares, reverse=True)
    assert all(0 <= share <= 1 for share in shares)
    assert (decoded["not_listed_share"] is None) == (
        (decoded["slip"] or {}).get("kind") == "unlike"
    )
