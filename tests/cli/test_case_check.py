"""`witnessmark case check`."""

import json

import pytest

from tests.published.books import VOLKSWAGEN, opened
from witnessmark.casefile import Casefile, Claim
from witnessmark.entry import claim_read


@pytest.mark.parametrize("car", ["clean", "no-papers", "panel", "altered", "swapped", "dressed"])
def test_the_demonstration_cars_have_no_fault(type_in, demo_folder, car):
    """A fault of a case is not a judgement of its car."""
    ended = type_in("case", "check", f"demo/{car}")
    assert (ended.code, ended.err) == (0, "")
    assert "no fault found" in ended.out


def test_every_fault_is_shown_with_its_place(type_in, demo_folder):
    """Two site states that are none."""
    document = demo_folder / "clean/case.json"
    text = document.read_text("utf-8")
    document.write_text(text.replace('"state": "read"', '"state": "maybe"', 2), "utf-8")
    ended = type_in("case", "check", "demo/clean")
    assert (ended.code, ended.out) == (2, "")
    assert ended.err.count("'maybe'") >= 2
    assert ended.err.count("^^^^^^^") >= 2


def test_what_a_report_for_somebody_else_lacks_is_told_in_order_of_weight(type_in, demo_folder):
    """A sum with its place in the document; a case that lacks nothing is told nothing."""
    assert "this is missing" not in type_in("case", "check", "demo/clean").out
    document = demo_folder / "altered/case.json"
    case = json.loads(document.read_text("utf-8"))
    case["assignment"] |= {"scope": "", "owner_consent": ""}
    case["assignment"]["examiners"][0]["name"] = "Calder"
    case["visit"] |= {"light": " ", "access": ""}
    case["exhibits"][0]["caption"] = ""
    for each in case["exhibits"]:
        each["shows_whole_car"] = False
    case["sums"] = [{"kind": "asking price", "amount": 12000, "currency": "GBP"}]
    document.write_text(json.dumps(case), "utf-8")
    told = " ".join(type_in("case", "check", "demo/altered").out.split())
    wanted = (
        "The examiner Calder has no full name.",
        "It is not said what was agreed to be examined.",
        "It is not said what the owner agreed to.",
        "1 place was not looked at: rear axle casing.",
        "It is not said what light there was.",
        "It is not said how the car stood.",
        "No photograph shows the whole car.",
        "1 photograph has no caption:",
        "No document prints this sum: it lacks date, source, by.",
    )
    assert "no fault found" in told, told
    at = [told.find(each) for each in wanted]
    assert -1 not in at, told
    assert at == sorted(at)
    assert "case.json:1:" in told


def test_json_tells_the_same_faults(type_in, demo_folder):
    """witnessmark case check demo/clean --json"""
    assert json.loads(type_in("case", "check", "demo/clean", "--json").out) == {
        "case": "clean",
        "problems": [],
    }
    (demo_folder / "clean/case.json").write_text("{", "utf-8")
    ended = type_in("case", "check", "demo/clean", "--json")
    outline = json.loads(ended.out)
    assert ended.code == 2
    assert outline["case"] is None
    assert list(outline["problems"][0]) == [
        "file", "line", "column", "width", "sentence", "expected"
    ]  # fmt: skip


def test_a_reading_that_its_mark_cannot_have_is_a_fault_of_the_case(type_in, demo_folder):
    """A set that is not closed, in a reading of the case."""
    document = demo_folder / "clean/case.json"
    case = json.loads(document.read_text("utf-8"))
    case["readings"][0]["text"] = "37[0"
    document.write_text(json.dumps(case), "utf-8")
    ended = type_in("case", "check", "demo/clean")
    assert (ended.code, ended.out) == (2, "")
    assert ended.err


def test_a_book_beside_the_case_comes_before_one_where_we_are(type_in, demo_folder, own_book):
    """The one where we are is no book at all."""
    beside = demo_folder / "clean/my-book"
    own_book.rename(beside)
    (demo_folder.parent / "my-book").mkdir()
    toml = beside / "book.toml"
    toml.write_text(toml.read_text("utf-8").replace('"tarvane-1952-1961"', '"my-book"'), "utf-8")
    case = demo_folder / "clean/case.json"
    text = case.read_text("utf-8").replace('"tarvane-1952-1961"', '"my-book"')
    case.write_text(text, "utf-8")
    ended = type_in("case", "check", "demo/clean")
    assert (ended.code, ended.err) == (0, "")


def test_a_claimed_number_is_said_as_the_car_bears_it():
    """117 428 906 of 1967 is 428906 and not 0428906: the pan has no place for that nought."""
    items = {"model": "beetle", "model_year": "1967", "chassis_number": "117 428 906"}
    case = Casefile(id="x", book=VOLKSWAGEN, claim=Claim(items=items))
    assert claim_read(case, opened(VOLKSWAGEN)) == (
        "Of the claim this is read: chassis number 428906.",
    )
