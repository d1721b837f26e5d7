"""`witnessmark compare`: the careful amateur's first look."""

import json

import pytest

from tests.published.books import CHEVROLET, FORD, JAGUAR, REAL, VOLKSWAGEN
from tests.published.books import TARVANE as BOOK

PLATE = "plate_brass=SS|700143|10118|07|R2|39/11|_"
NUMBER = "number_plate=124379N506071"

SIX = {
    CHEVROLET: (
        "vin=124379N506071",
        "pad=V0101DZ",
        "partial_number_engine=19N506071",
        "partial_number_gearbox=19N506071",
        "hidden_number_cowl=19N506071",
        "trim tag=ST 69-12437 NOR 123456 BDY\nTR 711\nPNT 72 72\n01B",
    ),
    FORD: (
        "dash_plate=8F02R135071",
        "apron_stamp=8F02R135071",
        "engine_stamp=8F135071",
        "gearbox_stamp=8F135071",
        "hidden_stamp_left=8F02R135071",
        "number_on_papers=8F02R135071",
    ),
    VOLKSWAGEN: (
        "pan_number_1970=110 2 234 567",
        "type_plate_1970=11|110 2 234 567",
        "engine_lettered=AB 0 031 455",
        "works_certificate_1970=110 2 234 567|AB 0 031 455|03.11.1969|19.11.1969",
        "registration_paper_1970=110 2 234 567|AB 0 031 455|03.12.1969",
        "title=110 2 234 567",
    ),
    JAGUAR: (
        "front_frame_number_38=850512",
        "data_plate_38=850512|R5123-9|R4872|EB4021JS",
        "tub_tag_38=R4872",
        "engine_stamp=R5123-9",
        "gearbox_case=EB4021JS",
        "head_stamp=R5123-9",
    ),
    BOOK: (
        "frame_number=4 700143",
        "plate_brass=SP|700143|40047|17|L1|370|_",
        "engine_number=L 40047",
        "wing_chassis_tail=M 0143",
        "despatch_ledger=700143|4|40047|M|0912|17|060655",
        "seat_chassis_tail=M 0143",
    ),
}
"""Six readings of one invented car by each shipped book of a maker."""
assert set(SIX) == {*REAL, BOOK}


def page_of(type_in, *words):
    """The page, its lines without the ends."""
    ended = type_in("compare", *words)
    assert (ended.code, ended.err) == (0, "")
    return ended.out.splitlines()


@pytest.mark.parametrize("book", SIX)
def test_six_agreeing_readings_end_in_one_line_each(type_in, book):
    """The whole answer first; then the car; then six lines."""
    lines = page_of(type_in, book, *SIX[book])
    assert lines[0] == (
        "Consistent with one car: no two of these six readings differ in what both say."
    )
    told = [line for line in lines if "agrees with" in line]
    assert len(told) == 6
    assert all(len(line) <= 80 for line in told)
    assert not {"What differs", "What stays open"} & set(lines)
    assert len([line for line in lines if line]) <= 24


def test_a_day_on_a_paper_is_not_left_open_by_a_car_of_which_only_the_years_are_known(type_in):
    """The numbers of the Jaguar carry no year; its model was built for four."""
    lines = page_of(type_in, JAGUAR, *SIX[JAGUAR], "log_book_38=850512|R5123-9|03.12.1962")
    assert lines[0].startswith("Consistent with one car")
    page = " ".join(" ".join(lines).split())
    assert "Only the year in which the car was built is known" in page
    assert "1948" not in page.split("What this does not show")[0]


def test_the_year_that_one_reading_names_is_told_with_the_mark_that_names_it(type_in):
    lines = page_of(type_in, CHEVROLET, NUMBER, "engine_pad=V0101DZ")
    assert "  The car: 1969, Camaro, Norwood, Ohio, by the number plate." in lines


def test_what_differs_stands_before_what_stays_open_each_in_a_line_or_two(type_in):
    lines = page_of(
        type_in, CHEVROLET, NUMBER, "partial_number_engine=19N506171",
        "partial_number_gearbox=19N50607[17]",
    )  # fmt: skip
    assert lines[0].startswith("Not consistent with one car left as it was built: these three")
    heads = [lines.index(head) for head in ("What differs", "What stays open")]
    assert heads == sorted(heads)
    page = " ".join(" ".join(lines).split())
    assert "They differ at place 4 of 6 (0 and 1)." in page
    assert "[published]" in page


def test_several_differences_of_one_kind_are_told_once(type_in):
    lines = page_of(
        type_in, CHEVROLET, NUMBER, "partial_number_engine=19N506171",
        "hidden_number_cowl=19N506071",
    )  # fmt: skip
    told = [line for line in lines if line.startswith("  - ")]
    assert len(told) == 1
    assert "Likewise: partial number on the engine pad and hidden partial" in " ".join(
        " ".join(lines).split()
    )


def test_a_number_past_those_reached_is_told_in_the_first_line(type_in):
    lines = page_of(
        type_in, CHEVROLET, "number_plate=124379L600123", "partial_number_engine=19L600123"
    )
    page = " ".join(" ".join(lines).split())
    assert "By the book alone this stays open: sequence number." in page.split("Of the car")[0]
    assert "well above it, the number asks for a reason" in page


def test_a_slip_of_a_reading_is_told_in_a_line(type_in):
    lines = page_of(type_in, CHEVROLET, "number_plate=124379N50607", "engine_pad=V0101DZ")
    assert "  number plate: 12 characters were typed: 1 is missing somewhere." in lines


def test_what_is_not_like_its_mark_is_not_compared(type_in):
    lines = page_of(type_in, CHEVROLET, NUMBER, "engine_pad=hello")
    [told] = [line for line in lines if "hello" in line]
    assert told.endswith("not compared")
    assert "  engine pad stamp: This does not look like the engine pad stamp." in lines


def test_what_is_given_against_what_a_mark_says_is_told(type_in):
    lines = page_of(type_in, CHEVROLET, NUMBER, "engine_pad=V0101DZ", "--year", "1968")
    page = " ".join(" ".join(lines).split())
    assert "The model year was given as 1968, but the number plate says 1969." in page


def test_marks_that_name_different_years_are_told_and_none_is_taken(type_in):
    lines = page_of(type_in, CHEVROLET, NUMBER, "hidden_number_cowl=18N306071")
    page = " ".join(" ".join(lines).split())
    assert (
        "The marks disagree about the model year (the number plate says 1969; the hidden "
        "partial number on the cowl says 1968): none of them was used" in page
    )


def test_the_title_is_taken_as_it_was_typed(type_in):
    words = (CHEVROLET, NUMBER, "title=124379N506017")
    outline = json.loads(type_in("compare", *words, "--json").out)
    [found] = [f for f in outline["findings"] if f["rule"] == "title_against_car"]
    assert found["outcome"] == "differ"
    assert outline["readings"][-1]["mark"] == "title"
    assert outline["title"]["mark"] == "number_plate"


@pytest.mark.parametrize(
    ("option", "known"),
    [(("--model", "Camaro"), "camaro"), (("--works", "Norwood"), "norwood")],
)
def test_model_and_works_can_be_given(type_in, option, known):
    words = ("engine_pad=V0101DZ", "block_cast_date=L208", *option, "--json")
    outline = json.loads(type_in("compare", CHEVROLET, *words).out)
    assert known in [each["value"] for each in outline["of_car"]]


def test_all_shows_every_comparison_with_its_source(type_in):
    lines = page_of(type_in, BOOK, "frame_number=3700143", PLATE, "--all")
    page = " ".join(" ".join(lines).split())
    outline = json.loads(type_in("compare", BOOK, "frame_number=3700143", PLATE, "--json").out)
    for each in outline["findings"]:
        assert each["observation"] in page
        assert each["source"] in page
    assert all(limit in page for limit in outline["does_not_show"])


def test_what_none_of_it_shows_is_said_in_three_lines(type_in):
    lines = page_of(type_in, BOOK, "frame_number=3700143", PLATE)
    limits = lines[lines.index("What this does not show") + 1 :]
    assert len(limits) <= 5
    assert "when or by whom" in " ".join(limits)


@pytest.mark.parametrize(
    "words",
    [
        (CHEVROLET, *SIX[CHEVROLET]),
        (CHEVROLET, NUMBER, "partial_number_engine=19N506171", "title=124379N506017"),
        (CHEVROLET, "number_plate=124379L600123", "partial_number_engine=19L600123"),
        (CHEVROLET, NUMBER, "engine_pad=hello", "--year", "1968"),
        (BOOK, "frame_number=2582063", "seat_chassis_tail=E20?3"),
    ],
)
def test_json_holds_everything_that_the_page_says(type_in, words):
    """Word for word, but for headings and the layout."""
    outline = json.loads(type_in("compare", *words, "--json").out)
    lines = page_of(type_in, *words)
    page = " ".join(" ".join(lines).split())
    assert page.startswith(outline["answer"])
    for each in (*outline["differing"], *outline["open"], *outline["known"]):
        assert " ".join(each.split()) in page
    for each in outline["readings"]:
        assert all(told in page for told in each["told"])
    for names in (outline["alike"], outline["in_order"], outline["together"]):
        assert ", ".join(names) in page
    said = json.dumps(outline)
    told = [line[4:] for line in lines if line.startswith("  - ")]
    assert all(json.dumps(line)[1:-1] in said for line in told)


def test_json_has_these_keys_in_this_order(type_in):
    """witnessmark compare ... --json"""
    ended = type_in("compare", BOOK, "frame_number=3700143", PLATE, "--year", "1955", "--json")
    outline = json.loads(ended.out)
    assert list(outline) == [
        "book", "beside", "version", "answer", "year", "of_car", "known", "contradictions",
        "readings", "alike", "in_order", "together", "differing", "open", "silent", "untested",
        "decodings", "title", "findings", "does_not_show",
    ]  # fmt: skip
    assert outline["year"] == 1955
    assert [each["mark"] for each in outline["decodings"]] == ["frame_number", "plate_brass"]
    assert list(outline["findings"][0]) == [
        "rule", "topic", "outcome", "subjects", "observation", "inference", "basis", "source",
        "agreement_share", "strength", "brief",
    ]  # fmt: skip
    assert outline["does_not_show"]


def test_all_faults_of_all_pairs_are_shown_at_once(type_in):
    """No equals sign, an unknown mark, a set that is not closed."""
    ended = type_in("compare", BOOK, "3700143", "fram_number=3700143", "frame_number=37[0")
    assert (ended.code, ended.out) == (2, "")
    assert "'3700143' is not MARK=READING" in ended.err
    assert "'fram_number' is not a mark of the book" in ended.err
    assert "frame_number:1:" in ended.err


@pytest.mark.parametrize("mark", ["frame_number", "title"])
def test_a_reading_beyond_all_length_is_a_problem(type_in, mark):
    ended = type_in("compare", BOOK, PLATE, f"{mark}={'7' * 900}")
    assert (ended.code, ended.out) == (2, "")
    assert "has 900 characters" in ended.err


def test_one_reading_is_nothing_to_compare(type_in):
    """witnessmark compare tarvane-1952-1961 frame_number=3700143"""
    ended = type_in("compare", BOOK, "frame_number=3700143")
    assert (ended.code, ended.out) == (2, "")
    assert ended.err == (
        "MARK=READING: 1 reading is not enough to compare\nexpected at least two of MARK=READING\n"
    )
