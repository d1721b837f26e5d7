"""`witnessmark questions` and `witnessmark letter`."""

import json

import pytest

from tests.worked.opened import CARS, case_of


@pytest.mark.parametrize("car", CARS)
def test_no_run_of_a_claimed_number_stands_in_the_questions(car, type_in, demo_folder):
    """Nor more than twelve of them."""
    ended = type_in("questions", f"demo/{car}")
    if car == "altered":  # a matter for the authority: the seller is not to be asked
        assert (ended.code, ended.out, ended.err[:10]) == (2, "", "Stop here:")
        assert max(map(len, ended.err.splitlines())) <= 80
        return
    assert (ended.code, ended.err) == (0, "")
    for item, number in case_of(car).claim.items.items():
        if item.endswith("_number"):
            assert [
                n for at in range(len(number) - 2) if (n := number[at : at + 3]) in ended.out
            ] == []
    assert "\n13. " not in ended.out


@pytest.mark.parametrize("to", ["archive", "title-office", "earlier-owner"])
def test_a_letter_holds_the_number_in_full_and_says_so(to, type_in, demo_folder):
    """witnessmark letter demo/clean archive"""
    ended = type_in("letter", "demo/clean", to)
    assert ended.code == 0
    assert case_of("clean").claim.items["chassis_number"] in ended.out
    assert ended.err == "The letter holds the car's number in full.\n"


def test_a_letter_about_a_car_without_a_number_is_refused(type_in, demo_folder):
    """The problem says how the number is entered."""
    path = demo_folder / "clean/case.json"
    case = json.loads(path.read_text())
    case["claim"]["items"].pop("chassis_number")
    path.write_text(json.dumps(case))
    ended = type_in("letter", "demo/clean", "archive")
    assert (ended.code, ended.out) == (2, "")
    assert "--claim chassis_number=NUMBER" in ended.err


def test_no_file_that_stands_there_is_replaced(type_in, demo_folder, tmp_path):
    """Whatever it is."""
    (tmp_path / "kept.txt").write_text("kept")
    assert type_in("questions", "demo/clean", "--out", "kept.txt").code == 2
    assert (tmp_path / "kept.txt").read_text() == "kept"


def test_under_a_stop_no_earlier_owner_is_written_to(type_in, demo_folder):
    """And the reason is a screen of its own; archive and title office are asked all the same."""
    ended = type_in("letter", "demo/altered", "earlier-owner")
    lines = ended.err.splitlines()
    assert (ended.code, ended.out, ended.err[:10]) == (2, "", "Stop here:")
    assert "no owner is to be asked" in " ".join(lines)
    assert max(map(len, lines)) <= 80
    assert len(lines) <= 24
    for to in ("archive", "title-office"):
        assert type_in("letter", "demo/altered", to).code == 0


def test_under_a_stop_no_pictures_are_asked_for(type_in, demo_folder, tmp_path):
    """Neither as a message nor as a page; it is the rule of the questions."""
    for how in (("--text",), ()):
        ended = type_in("picture-request", "demo/altered", *how)
        assert (ended.code, ended.out, ended.err[:10]) == (2, "", "Stop here:")
        assert "the seller is not to be asked" in " ".join(ended.err.splitlines())
    assert list(tmp_path.glob("*.pdf")) == []


def test_a_letter_names_the_number_as_the_book_does(type_in, demo_folder):
    """What is a part of the whole number is called that."""
    ended = type_in("letter", "demo/clean", "archive")
    number = case_of("clean").claim.items["chassis_number"]
    assert f"chassis number {number}\n" in ended.out
