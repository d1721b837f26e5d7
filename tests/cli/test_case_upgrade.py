"""`witnessmark case upgrade`."""

import json

import pytest

OLD = """{
  "format": "witnessmark-case", "format_version": 1, "id": "old", "book": "tarvane-1952-1961",
  "claim": {"items": {"model": "solent-sprint", "model_year": "1955"},
            "statements": [{"about": "engine", "says": "Its own.", "original": true}]},
  "shelf": "A 4"
}
"""
NEW = OLD.replace('"format_version": 1', '"format_version": 2').replace(
    '"original": true', '"origin": "first"'
)


@pytest.fixture
def old_case(demo_folder):
    """A case of format 1 in a folder of its own."""
    folder = demo_folder.parent / "old"
    folder.mkdir()
    (folder / "case.json").write_text(OLD, "utf-8")
    return folder


def test_a_case_is_brought_over_and_the_old_one_kept_beside_it(type_in, old_case):
    """witnessmark case upgrade old"""
    ended = type_in("case", "upgrade", "old")
    assert (ended.code, ended.err) == (0, "")
    assert ended.out.splitlines() == [
        "old/case.json: 2 fields converted",
        '  old/case.json:2:33: "format_version": 1 is now "format_version": 2',
        '  old/case.json:4:68: "original": true is now "origin": "first"',
        "  The original is kept in old/case.format-1.json.",
    ]
    assert (old_case / "case.json").read_text("utf-8") == NEW
    assert (old_case / "case.format-1.json").read_text("utf-8") == OLD


def test_an_examination_says_what_is_otherwise_and_why(type_in, old_case):
    """Of a case that was brought over, and of one that is read as it is; of no other."""
    changed = 'old/case.json:4:68: "original": true is now "origin": "first"'
    for brought_over in (False, True):
        if brought_over:
            type_in("case", "upgrade", "old")
        told = " ".join(type_in("examine", "old").out.split())
        assert (
            changed.replace("case.json", "case.format-1.json" if brought_over else "case.json")
            in told
        )
        assert "A ratio may have moved for that reason alone" in told
    (old_case / "case.format-1.json").unlink()
    assert "moved for that reason alone" not in " ".join(type_in("examine", "old").out.split())


def test_a_second_time_nothing_is_written(type_in, old_case):
    type_in("case", "upgrade", "old")
    ended = type_in("case", "upgrade", "old/case.json")
    assert (ended.code, ended.err) == (0, "")
    assert ended.out == "old/case.json is already in format 2; nothing was written.\n"
    assert sorted(each.name for each in old_case.iterdir()) == ["case.format-1.json", "case.json"]


def test_with_out_the_case_stays_as_it_is(type_in, old_case):
    ended = type_in("case", "upgrade", "old", "--out", "new.json")
    assert (ended.code, ended.err) == (0, "")
    assert (old_case.parent / "new.json").read_text("utf-8") == NEW
    assert [each.name for each in old_case.iterdir()] == ["case.json"]
    assert (old_case / "case.json").read_text("utf-8") == OLD


def test_nothing_that_is_there_is_written_over(type_in, old_case):
    """Neither what --out names nor another case under the name of the kept one."""
    again = type_in("case", "upgrade", "old", "--out", "old/case.json")
    assert (again.code, again.out) == (2, "")
    assert "already exists; nothing was written" in again.err
    (old_case / "case.format-1.json").write_text("another", "utf-8")
    ended = type_in("case", "upgrade", "old")
    assert (ended.code, ended.out) == (2, "")
    assert "already exists and is another case; nothing was written" in ended.err
    assert (old_case / "case.json").read_text("utf-8") == OLD
    assert (old_case / "case.format-1.json").read_text("utf-8") == "another"


def test_a_byte_order_mark_and_line_ends_of_another_system_stay(type_in, old_case):
    content = ("\ufeff" + OLD.replace("\n", "\r\n")).encode()
    (old_case / "case.json").write_bytes(content)
    assert type_in("case", "upgrade", "old").code == 0
    assert (old_case / "case.json").read_bytes() == ("\ufeff" + NEW.replace("\n", "\r\n")).encode()
    assert (old_case / "case.format-1.json").read_bytes() == content


@pytest.mark.parametrize("text", ["{", OLD.replace("true", '"yes"'), OLD.replace("old", "../o")])
def test_a_case_with_a_fault_is_left_as_it_is(type_in, old_case, text):
    (old_case / "case.json").write_text(text, "utf-8")
    ended = type_in("case", "upgrade", "old")
    assert (ended.code, ended.out) == (2, "")
    assert ended.err.startswith("old/case.json:")
    assert [each.name for each in old_case.iterdir()] == ["case.json"]


def test_a_field_that_now_has_a_meaning_makes_way_and_is_named(type_in, old_case):
    text = OLD.replace('"original": true', '"work": ["by hand"]')
    (old_case / "case.json").write_text(text, "utf-8")
    out = " ".join(type_in("case", "upgrade", "old").out.split())
    assert '"work" is now "work_of_format_1": kept and, as before, not read' in out
    statement = json.loads((old_case / "case.json").read_text("utf-8"))["claim"]["statements"][0]
    assert statement["work_of_format_1"] == ["by hand"]


@pytest.mark.parametrize("command", ["case check old", "examine old", "next old --minutes 60"])
def test_any_other_command_reads_it_as_it_is_and_says_so(type_in, old_case, command):
    """On the error stream, so that what a program reads is what it always was."""
    before = type_in(*command.split())
    assert before.code == 0
    assert before.err == (
        "old/case.json is in format 1 and was read as format 2; "
        "`witnessmark case upgrade old` converts it.\n"
    )
    type_in("case", "upgrade", "old")
    now = type_in(*command.split())
    assert (now.code, now.err) == (0, "")
    # An examination names the places of what is otherwise in the case as it was.
    assert now.out.replace("case.format-1.json", "case.json") == before.out
