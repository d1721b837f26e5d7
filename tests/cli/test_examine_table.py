"""`witnessmark examine CASE CASE...`: a row for each."""

import csv
import io
import json
import math

import pytest

from witnessmark.cli.answer import examine_table

pytestmark = pytest.mark.usefixtures("demo_folder")

TWO = ("demo/swapped", "demo/panel")


def rows(out):
    """The rows as a machine reads them."""
    return list(csv.DictReader(io.StringIO(out)))


def test_a_case_is_a_row_with_a_column_for_each_question(type_in, tmp_path):
    """witnessmark examine demo/swapped demo/panel --csv cases.csv"""
    ended = type_in("examine", *TWO, "--csv", "cases.csv")
    assert (ended.code, ended.out, ended.err) == (0, "cases.csv\n", "")
    swapped, panel = rows((tmp_path / "cases.csv").read_text("utf-8"))
    assert (swapped["case"], panel["case"]) == ("swapped", "panel")
    assert swapped["core engine"] == "0.0001"
    assert "reads 00194; the claimed chassis number is 600283" in swapped["first_misfit"]
    assert swapped["item works"] == "cannot be established"
    assert panel["identity shell"] == ""  # it stands on a frame
    assert type_in("examine", *TWO, "--csv", "cases.csv").code == 0  # a table of ours is replaced


def test_the_ratios_are_those_of_the_whole_examination(type_in):
    """At base rates, as --json has them."""
    opinion = json.loads(type_in("examine", "demo/swapped", "--json").out)
    told = {
        f"{each['question']} {each['about']}": each["log10_lr"]
        for each in opinion["answer"]["conclusions"]
    }
    [row] = rows(type_in("examine", "demo/swapped", "--csv", "-").out)
    ratios = {name: row[name] for name in told if row[name][:1].isdecimal()}
    assert len(ratios) > 10
    for name, ratio in ratios.items():
        assert math.log10(float(ratio)) == pytest.approx(max(-4, min(4, told[name])), abs=3e-3)


def test_several_cases_are_a_screen_without_a_file(type_in):
    """witnessmark examine demo/swapped demo/panel"""
    ended = type_in("examine", *TWO)
    assert (ended.code, ended.err) == (0, "")
    lines = ended.out.splitlines()
    assert max(map(len, lines)) <= 80
    assert [line.split()[0] for line in lines if "engine" in line] == ["swapped", "panel"]


def test_a_file_that_is_no_table_of_ours_is_left_alone(type_in, tmp_path):
    (tmp_path / "letter.csv").write_text("Dear Sir", "utf-8")
    ended = type_in("examine", *TWO, "--csv", "letter.csv")
    assert (ended.code, ended.out) == (2, "")
    assert "already exists and is not a table of cases" in ended.err
    assert (tmp_path / "letter.csv").read_text("utf-8") == "Dear Sir"


def test_a_case_with_a_fault_has_no_row_and_stops_no_other(type_in, tmp_path):
    """Its problem stands on the error stream with its place."""
    (tmp_path / "bad").mkdir()
    (tmp_path / "bad/case.json").write_text('{"format": "witnessmark-case",', "utf-8")
    ended = type_in("examine", "bad", "nowhere", "demo/swapped", "--csv", "-")
    assert ended.code == 2
    assert {row["case"] for row in rows(ended.out)} == {"swapped"}
    first, second = ended.err.index("bad/case.json:1:"), ended.err.index("nowhere: ")
    assert first < second


def test_cases_in_two_processes_give_the_same_rows(type_in):
    """In the order in which they were named."""
    asked = ("examine", "nowhere", "demo/swapped", "--csv", "-")
    one, other = type_in(*asked), type_in(*asked, "--jobs", "2")
    assert one == other


def test_a_fault_of_our_own_in_one_case_stops_no_other(type_in, monkeypatch):
    """It is told in a line that names the case, and the exit code says so."""
    right = examine_table._row_of

    def row_of(path):
        if path == "demo/panel":
            raise KeyError("bolted")
        return right(path)

    monkeypatch.setattr(examine_table, "_row_of", row_of)
    ended = type_in("examine", "demo/panel", "demo/swapped", "--csv", "-")
    assert ended.code == 1
    assert ended.err.startswith("demo/panel: Witnessmark met a fault of its own (KeyError: ")
    assert {row["case"] for row in rows(ended.out)} == {"swapped"}


@pytest.mark.parametrize("option", [("--why", "engine"), ("--all",), ("--json",)])
def test_what_is_of_one_case_is_not_asked_of_several(type_in, option):
    ended = type_in("examine", *TWO, *option)
    assert (ended.code, ended.out) == (2, "")
    assert ended.err == (
        "CASE: 2 cases were given, and --why, --all and --json are about one\n    demo/panel\n    "
        "^^^^^^^^^^\nexpected one CASE, or none of these\n"
    )
