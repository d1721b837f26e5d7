"""A case entered without an editor: `case add`, `case set`, `case undo`, `case history`."""

import json
import os
import shlex
import shutil
import threading
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given
from hypothesis import strategies as st

from tests.examples import tried_on
from tests.test_docs_blocks import blocks
from witnessmark.cli.main import answer

ROOT = Path(__file__).resolve().parents[2]
NEW = (
    *("case", "new", "car", "--book", "tarvane-1952-1961", "--id", "car"),
    *("--claim", "model=solent-sprint", "--claim", "model_year=1955"),
    *("--claim", "body_works=marrick"),
)


@pytest.fixture
def car(type_in: Any, tmp_path: Path, monkeypatch: Any) -> Path:
    """A new case, and two photographs beside it."""
    monkeypatch.setattr("witnessmark.cli.entry.change.who_types", lambda: "anna")
    assert type_in(*NEW).code == 0
    pictures = sorted((ROOT / "demo/clean/exhibits").iterdir())
    for name, picture in zip(("frame.jpg", "pad.jpg"), pictures, strict=False):
        shutil.copy(picture, tmp_path / name)
    return tmp_path / "car"


def case_of(car: Path) -> dict[str, Any]:
    found: dict[str, Any] = json.loads((car / "case.json").read_text("utf-8"))
    return found


def states(car: Path) -> dict[tuple[str, str], str]:
    """How each place, or mark of it, ended, but for those that nobody looked for."""
    return {
        (each["site"], each.get("mark", "")): each["state"]
        for each in case_of(car)["sites"]
        if each["state"] != "not looked for"
    }


def test_the_walk_in_the_page_needs_no_editor(type_in, car, tmp_path):
    """Six commands of docs/case.md, from nothing to an examined car without a fault."""
    shutil.rmtree(car)
    walk = next(text for _, text in blocks("docs/case.md") if "case new my-sprint" in text)
    lines = walk.splitlines()
    assert len(lines) == 6
    for line in lines:
        ended = type_in(*shlex.split(line)[1:])
        assert (ended.code, ended.err) == (0, ""), line
        if line.split()[1] == "case" and "new" not in line:
            assert len(ended.out.splitlines()) <= 3, ended.out
    assert "frame" in ended.out
    case = case_of(tmp_path / "my-sprint")
    marks = ["frame_number", "engine_number", "engine_casting", "body_week"]
    assert [each["mark"] for each in case["readings"]] == marks
    assert case["readings"][1]["exhibits"] == case["readings"][2]["exhibits"] == ["pad"]
    assert {look["site"] for look in case["looks"]} == {"frame_rail", "engine_deck"}


def test_each_place_ends_as_what_was_read_there(type_in, car):
    """Read, illegible, absent; of two marks at one place each by itself until both are settled."""
    ended = type_in(
        *("case", "add", "reading", "car", "frame stamp=4 700143", "block number=~~~"),
        *("seat number=_____", "bulkhead week=DD5"),
    )
    assert ended.out.splitlines()[1] == (
        "Now read: right-hand frame rail; week code on the bulkhead. Now absent: seat pan. "
        "Now found and illegible: block, number."
    ), ended.out
    assert len(ended.out.splitlines()) == 3, "nothing is wrong with what cannot be read"
    assert states(car) == {
        ("frame_rail", ""): "read",
        ("engine_deck", ""): "found and illegible",
        ("seat_pan", ""): "absent",
        ("bulkhead", "body_week"): "read",
    }
    type_in("case", "add", "reading", "car", "bulkhead number=M0931")
    assert states(car)["bulkhead", ""] == "read"
    assert type_in("case", "check", "car").code == 0


def test_a_reading_that_does_not_fit_is_told_with_the_form_and_no_number(type_in, car):
    """It is entered as typed; the example holds codes of the book and ? for a serial number."""
    ended = type_in("case", "add", "reading", "car", "gearbox stamp=12a")
    assert ended.out.splitlines()[-1] == (
        "Gearbox stamping: This does not look like the gearbox stamping. Expected: gearbox number "
        "(5), week code (3); such as ?????035."
    )
    assert case_of(car)["readings"][0]["text"] == "12a"
    ended = type_in("case", "add", "reading", "car", "casting date=C14D")
    told = "Casting date of the block: C14D is no date of its form. Expected: casting date (4); "
    assert ended.out.splitlines()[-1].startswith(told)
    assert told in " ".join(type_in("case", "check", "car").out.split())


def test_a_blind_reading_is_one_whose_reader_did_not_know_the_claimed_number(type_in, car):
    type_in("case", "add", "reading", "car", "block number=S28117", "--blind")
    assert case_of(car)["readings"][0]["claim_known"] is False


def test_a_photograph_is_kept_byte_for_byte_and_named_where_it_shows_something(
    type_in, car, tmp_path
):
    type_in("case", "add", "reading", "car", "block number=L 40047")
    ended = type_in("case", "add", "photo", "car", "pad.jpg=block number,seat pan", "frame.jpg")
    assert ended.out.splitlines()[0] == "pad: 1200 × 800 upright; frame: 1200 × 800 upright"
    case = case_of(car)
    entry = next(each for each in case["exhibits"] if each["id"] == "pad")
    kept = car / "exhibits" / entry["file"]
    assert kept.read_bytes() == (tmp_path / "pad.jpg").read_bytes()
    assert (kept.stem, entry["number_regions"]) == (entry["sha256"], None)
    assert case["readings"][0]["exhibits"] == ["pad"]
    assert {s["site"] for s in case["sites"] if s["exhibits"]} == {"engine_deck", "seat_pan"}
    again = type_in("case", "add", "photo", "car", "pad.jpg=scuttle")
    assert again.out.startswith("pad: in the case already")
    assert len(case_of(car)["exhibits"]) == 2
    assert type_in("case", "add", "photo", "car", "frame.jpg=car").code == 0
    assert [each["shows_whole_car"] for each in case_of(car)["exhibits"]] == [False, True]


def test_a_paper_that_no_book_lists_has_a_kind_and_says_something(type_in, car):
    """It is no fault of the case, stands in the report beside the claim, and weighs nothing."""
    type_in("case", "set", "car", "--claim", "paint=oxblood")
    said = ("--says", "chassis number=700143", "--says", "paint=coach-black")
    letter = ("case", "add", "paper", "car", "Letter of 1998=in hand", "--kind", "archive letter")
    assert type_in(*letter, *said).out.startswith("Letter of 1998: in hand\n")
    (paper,) = case_of(car)["papers"]
    assert (paper["mark"], paper["kind"], paper["says"][1]["value"]) == (
        "",
        "archive letter",
        "coach-black",
    )
    assert type_in("case", "check", "car").code == 0
    told = " ".join(type_in("examine", "car", "--all").out.split())
    assert "Letter of 1998" in told
    assert type_in("case", "add", "paper", "car", "Letter of 1998=lost").code == 0
    assert [each["state"] for each in case_of(car)["papers"]] == ["lost"]
    refused = type_in("case", "add", "paper", "car", "Bill of 1961=in hand")
    assert refused.err.splitlines()[0] == "PAPER=STATE: the book lists no paper 'Bill of 1961'"


@pytest.mark.parametrize("typed", ["13", "Oxblood", "13: oxblood", "oxblood"])
def test_a_claim_is_typed_as_it_stands_on_the_car(type_in, car, typed):
    """By the code, in words, or by the book's own name."""
    assert type_in("case", "set", "car", "--claim", f"paint={typed}").code == 0
    assert case_of(car)["claim"]["items"]["paint"] == "oxblood"


def test_a_code_that_other_cars_have_is_told_with_what_it_is_there(type_in, car):
    """Of later years; nothing is guessed, nothing written."""
    ended = type_in("case", "set", "car", "--claim", "package=T")
    assert ended.code == 2
    assert "no package 'T' on a car as it is claimed" in ended.err, ended.err


def test_plain_fields_are_set_and_emptied(type_in, car):
    type_in("case", "set", "car", "title=A Sprint", "minutes_available=90", "price_asked=1200.5")
    type_in(
        "case", "set", "car", "claim.text=So it is.", "place=A barn", "--claim", "paint=oxblood"
    )
    case = case_of(car)
    assert (case["title"], case["assignment"]["minutes_available"]) == ("A Sprint", 90)
    assert (case["stakes"]["price_asked"], case["visit"]["place"]) == (1200.5, "A barn")
    assert (case["claim"]["text"], case["claim"]["items"]["paint"]) == ("So it is.", "oxblood")
    type_in("case", "set", "car", "title=", "minutes_available=", "--claim", "paint=")
    case = case_of(car)
    assert (case["title"], case["assignment"]["minutes_available"]) == ("", None)
    assert "paint" not in case["claim"]["items"]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("reading car frame-stamp", "MARK=READING: 'frame-stamp' is not MARK=READING"),
        ("reading car 'vin=1'", "MARK=READING: 'vin' is not a mark of the book"),
        ("reading car 'frame stamp=4 70[01'", "    frame stamp=4 70[01\n                    ^\n"),
        ("reading car 'frame stamp=1' --when noon", "--when: 'noon' is not a day with a time"),
        ("reading car 'frame stamp=1' --photo p", "--photo: no exhibit of this case is called 'p'"),
        ("reading nowhere 'frame stamp=1'", "nowhere: there is no case here"),
        ("look car scuttle=fine", "    scuttle=fine\n            ^^^^\nexpected one of: factory"),
        ("look car scuttle:rivets=factory", "            ^^^^^^\nexpected one of: surface"),
        ("site car scuttle=gone", "PLACE=STATE: 'gone' is not a site state\n"),
        ("site car attic=read", "PLACE=STATE: 'attic' is not a place of the book"),
        ("photo car none.jpg", "'none.jpg' cannot be read: No such file or directory"),
        ("photo car car/case.json", "is of a kind that cannot be read"),
        ("photo car pad.jpg=moon", "            ^^^^\nexpected one of: scuttle"),
        ("paper car 'build card=here'", "PAPER=STATE: 'here' is not a paper state"),
        ("paper car 'x=lost' --kind leaflet", "--kind: 'leaflet' is not a kind of paper"),
        ("paper car 'x=lost' --kind affidavit --says age=1", "ITEM=VALUE: 'age' is not an item"),
        ("statement car 'roof=Ours.'", "ABOUT=WORDS: 'roof' is not a part of the book"),
        ("statement car 'engine=Ours.' --origin new", "--origin: 'new' is not an origin that"),
        ("reading car 'frame stamp=\udcff'", "there is half a character (U+DCFF"),
        ("reading car 'frame stamp=\x01'", "there is a control character (U+0001)"),
    ],
)
def test_what_is_wrong_is_shown_where_it_was_typed_and_nothing_is_written(
    type_in, car, words, told
):
    before = (car / "case.json").read_bytes()
    ended = type_in("case", "add", *shlex.split(words))
    assert ended.code == 2
    assert ended.err.count(told) == 1
    assert (car / "case.json").read_bytes() == before
    assert not (car / "revisions").exists()


@pytest.mark.parametrize(
    ("pair", "told"),
    [
        ("built=1955-15", "FIELD=VALUE: '1955-15' has no month 15\n"),
        ("visit.date=14.3.2025", "FIELD=VALUE: '14.3.2025' is not a day\n"),
        ("minutes_available=many", "FIELD=VALUE: 'minutes_available' is a text\n"),
        ("minutes_available=many", "expected a whole number, or nothing\n"),
        ("minutes_available=-3", "FIELD=VALUE: 'minutes_available' is -3\n"),
        ("price_asked=nan", "FIELD=VALUE: 'price_asked' is a text\n"),
        ("titel=x", "FIELD=VALUE: 'titel' is not a field of a case\n"),
        ("paint=oxblood", "expected --claim 'paint=oxblood'\n"),
        ("id=x", "FIELD=VALUE: 'id' is not a field of a case\n"),
        ("title", "FIELD=VALUE: 'title' is not FIELD=VALUE\n"),
        ("", "FIELD=VALUE: '' is not FIELD=VALUE\n"),
        ("title=" + "x" * 20_001, "the text of 'title' has 20001 characters\n"),
    ],
)
def test_a_field_that_cannot_be_so_is_refused(type_in, car, pair, told):
    ended = type_in("case", "set", "car", *filter(None, (pair,)))
    assert (ended.code, told in ended.err) == (2, True), ended.err


def test_unknown_fields_and_the_layout_of_the_document_stay(type_in, car):
    """Only what was entered differs, line by line."""
    document = car / "case.json"
    text = document.read_text("utf-8").replace('"title": ""', '"later" : [1,  2.50], "title":""')
    document.write_text(text, "utf-8")
    type_in("case", "add", "site", "car", "seat pan=absent")
    now = document.read_text("utf-8")
    assert now.replace('"state": "absent"', '"state": "not looked for"') == text


def test_undo_tells_what_it_took_back_and_history_lists_all(type_in, car):
    before = (car / "case.json").read_bytes()
    type_in("case", "add", "site", "car", "seat pan=absent")
    type_in("case", "set", "car", "title=A Sprint")
    assert type_in("case", "undo", "car").out.splitlines()[0] == "Took back: set: title: A Sprint"
    ended = type_in("case", "undo", "car")
    assert ended.out.splitlines() == [
        "Took back: add site: Seat pan: absent",
        "Revision 5: the case is as it was at 1.",
    ]
    assert (car / "case.json").read_bytes() == before
    assert type_in("case", "undo", "car").err.startswith("car/case.json: there is no change that")
    assert type_in("case", "undo", "car", "--to", "3").code == 0
    assert case_of(car)["title"] == "A Sprint"
    listed = json.loads(type_in("case", "history", "car", "--json").out)
    assert [(each["number"], each["undoes"], each["who"]) for each in listed] == [
        (1, None, ""),
        (2, None, "anna"),
        (3, None, "anna"),
        *[(n, undoes, listed[3]["who"]) for n, undoes in ((4, 3), (5, 2), (6, None))],
    ]
    assert "set: title: A Sprint" in type_in("case", "history", "car").out


def test_undo_takes_back_what_an_editor_broke(type_in, car):
    """What no command can read any more is kept, and the case is again what it was."""
    type_in("case", "set", "car", "title=A Sprint")
    good = (car / "case.json").read_bytes()
    (car / "case.json").write_bytes(good[:-5])
    assert type_in("case", "set", "car", "title=x").code == 2
    assert type_in("case", "undo", "car").code == 0
    assert (car / "case.json").read_bytes() == good


def test_a_case_of_the_previous_format_is_converted_first(type_in, car):
    document = car / "case.json"
    text = document.read_text("utf-8").replace('"format_version": 2', '"format_version": 1')
    document.write_text(text, "utf-8")
    ended = type_in("case", "set", "car", "title=x")
    assert "expected `witnessmark case upgrade car` first" in ended.err


def test_two_who_enter_at_once_both_have_their_entry(car):
    """The second waits for the first, and reads what it wrote."""
    pairs = ("frame stamp=4 700143", "block number=L 40047", "seat number=M0931")
    threads = [
        threading.Thread(target=answer, args=(("case", "add", "reading", "car", pair),))
        for pair in pairs
    ]
    for each in threads:
        each.start()
    for each in threads:
        each.join()
    assert len(case_of(car)["readings"]) == 3
    assert len(os.listdir(car / "revisions")) == 4


def test_a_full_disk_leaves_the_case_as_it_was(type_in, car, monkeypatch):
    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    before = (car / "case.json").read_bytes()
    monkeypatch.setattr(Path, "replace", full)
    ended = type_in("case", "set", "car", "title=x")
    assert ended.code == 2
    assert "nothing was changed: No space left on device" in ended.err
    monkeypatch.undo()
    assert (car / "case.json").read_bytes() == before


ENTRIES = (
    ("add", "reading", "car", "frame stamp=4 70[08]143", "bulkhead week=DD5"),
    ("add", "look", "car", "scuttle=doubtful"),
    ("add", "site", "car", "frame rail=not accessible", "--reason", "Undertray."),
    ("add", "photo", "car", "pad.jpg=scuttle"),
    ("add", "paper", "car", "build card=refused"),
    ("add", "statement", "car", "engine=Exchanged.", "--origin", "supplied new"),
    ("set", "car", "title=A Sprint", "--claim", "paint=oxblood"),
)


@tried_on(60, 6, suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(st.lists(st.sampled_from((*ENTRIES, None)), max_size=5))
def test_any_entries_and_undos_give_the_same_case_back(type_in, car, steps):
    """As many undos as entries that stand, and the document is what it was to the byte."""
    shutil.rmtree(car / "revisions", ignore_errors=True)
    document, stack = car / "case.json", [(car / "case.json").read_bytes()]
    for step in (*steps, *[None] * len(steps)):
        if step is not None and type_in("case", *step).out.startswith("Nothing changed"):
            continue
        if step is not None:
            stack.append(document.read_bytes())
            continue
        ended = type_in("case", "undo", "car")
        assert ended.code == (0 if len(stack) > 1 else 2)
        del stack[max(1, len(stack) - 1) :]
        assert document.read_bytes() == stack[-1]
    assert len(stack) == 1
