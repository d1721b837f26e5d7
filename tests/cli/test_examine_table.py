"""`witnessmark examine CASE... --csv`."""

import csv
import io
import json

import pytest

from witnessmark.cli.answer import examine_table

pytestmark = pytest.mark.usefixtures("demo_folder")

TWO = ("demo/swapped", "demo/panel")


def rows(out):
    """The rows as a machine reads them."""
    return list(csv.DictReader(io.StringIO(out)))


def test_many_cases_are_a_row_for_each_question_of_each(type_in):
    """witnessmark examine demo/swapped demo/panel --csv"""
    ended = type_in("examine", *TWO, "--csv")
    assert (ended.code, ended.err) == (0, "")
    found = rows(ended.out)
    assert list(dict.fromkeys(row["case"] for row in found)) == ["swapped", "panel"]
    engine = next(r for r in found if (r["case"], r["about"]) == ("swapped", "engine"))
    assert (engine["question"], engine["lr"], engine["log10_lr"]) == ("core", "0.0001", "-4.000")
    assert "reads 00194; the claimed chassis number is 600283" in engine["first_misfit"]
    open_item = next(r for r in found if (r["case"], r["about"]) == ("swapped", "works"))
    assert (open_item["lr"], open_item["standing"]) == ("", "cannot be established")


def test_the_ratios_are_those_of_the_whole_examination(type_in):
    """At base rates, as --json has them."""
    opinion = json.loads(type_in("examine", "demo/swapped", "--json").out)
    told = {
        (each["question"], each["about"]): each["log10_lr"]
        for each in opinion["answer"]["conclusions"]
    }
    for row in rows(type_in("examine", "demo/swapped", "--csv").out):
        if row["log10_lr"]:
            whole = max(-4.0, min(4.0, told[row["question"], row["about"]]))
            assert float(row["log10_lr"]) == pytest.approx(whole, abs=6e-4)


def test_a_case_with_a_fault_has_no_row_and_stops_no_other(type_in, tmp_path):
    """Its problem stands on the error stream with its place."""
    (tmp_path / "bad").mkdir()
    (tmp_path / "bad/case.json").write_text('{"format": "witnessmark-case",', "utf-8")
    ended = type_in("examine", "bad", "nowhere", "demo/swapped", "--csv")
    assert ended.code == 2
    assert {row["case"] for row in rows(ended.out)} == {"swapped"}
    first, second = ended.err.index("bad/case.json:1:"), ended.err.index("nowhere: ")
    assert first < second


def test_cases_in_two_processes_give_the_same_rows(type_in):
    """In the order in which they were named."""
    asked = ("examine", "nowhere", "demo/swapped", "--csv")
    one, other = type_in(*asked), type_in(*asked, "--jobs", "2")
    assert one == other


def test_a_fault_of_our_own_in_one_case_stops_no_other(type_in, monkeypatch):
    """It is told in a line that names the case, and the exit code says so."""
    right = examine_table._rows_of

    def rows_of(path):
        if path == "demo/panel":
            raise KeyError("bolted")
        return right(path)

    monkeypatch.setattr(examine_table, "_rows_of", rows_of)
    ended = type_in("examine", "demo/panel", "demo/swapped", "--csv")
    assert ended.code == 1
    assert ended.err.startswith("demo/panel: Witnessmark met a fault of its own (KeyError: ")
    assert {row["case"] for row in rows(ended.out)} == {"swapped"}


def test_a_page_is_of_one_case(type_in):
    """witnessmark examine demo/clean demo/panel"""
    ended = type_in("examine", "demo/clean", "demo/panel")
    assert (ended.code, ended.out) == (2, "")
    assert ended.err == (
        "CASE: 2 cases were given, and a page is about one\n    demo/panel\n    "
        "^^^^^^^^^^\nexpected one CASE, or --csv for many\n"
    )
