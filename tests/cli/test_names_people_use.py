"""Names that people use are understood at the command line and in a case."""

import json

import pytest

BOOK = "tarvane-1952-1961"
CHEVROLET = "chevrolet-1964-1972"


@pytest.mark.parametrize("mark", ["frame_number", "Frame-Number", "frame stamp", "RAIL NUMBER"])
def test_a_mark_is_decoded_by_any_of_its_names(type_in, mark):
    """witnessmark decode tarvane-1952-1961 "frame stamp" 4700143"""
    ended = type_in("decode", BOOK, mark, "4700143", "--json")
    assert (ended.code, ended.err) == (0, "")
    assert json.loads(ended.out)["mark"] == "frame_number"


@pytest.mark.parametrize("model", ["solent-sprint", "Solent Sprint", "SOLENT-SPRINT"])
def test_a_model_is_named_in_any_case(type_in, model):
    """witnessmark decode tarvane-1952-1961 frame_number 4700143 --model "Solent Sprint" """
    ended = type_in("decode", BOOK, "frame_number", "4700143", "--model", model)
    assert (ended.code, ended.err) == (0, "")


def test_a_works_is_named_by_what_stands_in_brackets(type_in):
    """witnessmark decode chevrolet-1964-1972 number_plate 124379L506070 --works "Van Nuys" """
    words = ("decode", CHEVROLET, "number_plate", "124379L506070", "--model", "Camaro")
    ended = type_in(*words, "--works", "Van Nuys")
    assert (ended.code, ended.err) == (0, "")


def test_marks_are_compared_by_any_of_their_names(type_in):
    """witnessmark compare tarvane-1952-1961 "rail number=4 700143" "engine stamp=L 40047" """
    ended = type_in("compare", BOOK, "rail number=4 700143", "engine stamp=L 40047", "--json")
    assert (ended.code, ended.err) == (0, "")
    assert [each["mark"] for each in json.loads(ended.out)["decodings"]] == [
        "frame_number",
        "engine_number",
    ]


def test_a_claim_in_any_case_is_written_as_the_book_does(type_in, tmp_path):
    """witnessmark case new car --book ... --id car --claim model=Camaro --claim works=NORWOOD"""
    ended = type_in(
        "case", "new", "car", "--book", CHEVROLET, "--id", "car",
        "--claim", "model=Camaro", "--claim", "works=NORWOOD", "--claim", "engine=302-Z28",
    )  # fmt: skip
    assert (ended.code, ended.err) == (0, "")
    written = json.loads((tmp_path / "car" / "case.json").read_text("utf-8"))
    assert written["claim"]["items"] == {
        "model": "camaro",
        "works": "norwood",
        "engine": "302-z28",
    }


def test_a_case_is_checked_in_the_words_of_the_trade(type_in, demo_folder):
    """Its frame_number as the rail number, its model as people write it."""
    path = demo_folder / "clean" / "case.json"
    text = path.read_text("utf-8").replace('"solent-sprint"', '"Solent Sprint"')
    path.write_text(text.replace('"mark": "frame_number"', '"mark": "Rail Number"'), "utf-8")
    ended = type_in("case", "check", "demo/clean")
    assert (ended.code, ended.err) == (0, "")
