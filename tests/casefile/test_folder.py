"""A case is opened from whatever lies on a disk, and written whole or not at all."""

import os
from datetime import datetime
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.examples import tried_on
from witnessmark.casefile import Casefile, open_case, render_casefile, write_case
from witnessmark.problem import render_all

SPRINT = Casefile(id="sprint", book="tarvane")
TEXT = render_casefile(SPRINT)


def test_a_case_is_opened_by_its_folder_or_by_its_document(tmp_path):
    assert write_case(tmp_path / "sprint", TEXT) == ()
    for path in (tmp_path / "sprint", tmp_path / "sprint" / "case.json"):
        opened = open_case(path)
        assert opened.problems == ()
        assert opened.casefile == SPRINT
        assert opened.exhibits.folder == tmp_path / "sprint" / "exhibits"


def test_a_case_in_the_folder_one_stands_in_is_opened(tmp_path, monkeypatch):
    write_case(tmp_path, TEXT.replace('"opened": null', '"opened": 3'))
    monkeypatch.chdir(tmp_path)
    (problem,) = open_case(Path(".")).problems
    assert problem.source.place() == "case.json:8:13"


def test_a_case_that_is_not_there_is_told(tmp_path):
    expected = (
        ": there is no case here\n"
        "expected a folder with case.json in it, or the path of such a file"
    )
    assert render_all(open_case(tmp_path).problems) == f"{tmp_path}/case.json" + expected
    assert render_all(open_case(tmp_path / "gone").problems) == f"{tmp_path}/gone" + expected


def test_a_device_a_pipe_or_a_folder_in_the_place_of_a_case_is_told(tmp_path):
    (tmp_path / "case.json").mkdir()
    os.mkfifo(tmp_path / "pipe")
    for path in (tmp_path, tmp_path / "pipe", Path("/dev/zero")):
        (problem,) = open_case(path).problems
        assert problem.sentence() in ("this is not a file", "there is no case here")
    assert open_case(tmp_path / "pipe").problems[0].render() == (
        f"{tmp_path}/pipe: this is not a file\n"
        "expected a folder with case.json in it, or the path of such a file"
    )


def test_a_case_that_the_system_refuses_is_told(tmp_path, monkeypatch):
    def refuse(*_):
        raise PermissionError(13, "Permission denied")

    write_case(tmp_path, TEXT)
    monkeypatch.setattr(Path, "open", refuse)
    assert render_all(open_case(tmp_path).problems) == (
        f"{tmp_path}/case.json: this cannot be read: Permission denied"
    )


def test_a_case_larger_than_any_case_is_refused_unread(tmp_path):
    with (tmp_path / "case.json").open("wb") as stream:
        stream.truncate(20_000_000_000)
    assert render_all(open_case(tmp_path).problems) == (
        f"{tmp_path}/case.json: a case is never larger than 5 MB, and this is\n"
        "expected photographs and papers as files in exhibits/"
    )


def test_a_byte_that_is_no_utf8_is_shown_in_its_line(tmp_path):
    (tmp_path / "case.json").write_bytes(b'{\r\n  "id": "a",\r\n  "title": "\xc3\xa9t\xe9"\r\n}')
    assert render_all(open_case(tmp_path).problems) == (
        f"{tmp_path}/case.json:3:15: the byte 0xE9 is not a UTF-8 character\n"
        '      "title": "ét\N{REPLACEMENT CHARACTER}"\n'
        "                  ^\n"
        "expected a file saved as UTF-8"
    )


def test_a_file_saved_in_two_byte_characters_is_recognised(tmp_path):
    (tmp_path / "case.json").write_bytes('{"id": "a"}'.encode("utf-16"))
    (problem,) = open_case(tmp_path).problems
    assert problem.sentence() == (
        "the byte 0xFF is not a UTF-8 character; the file looks like UTF-16"
    )


@pytest.mark.parametrize("name", ["a\0b", "\udc80", "x" * 5000, ""])
def test_a_path_that_no_file_can_have_is_answered(name, tmp_path):
    opened = open_case(tmp_path / name)
    assert opened.casefile is None
    render_all(opened.problems).encode("utf-8")
    assert opened.problems


@tried_on(300)
@given(st.text())
def test_any_path_is_answered(name):
    opened = open_case(Path("nowhere") / "at-all" / name.lstrip("/").replace("..", ""))
    assert opened.casefile is None
    assert len(opened.problems) == 1
    render_all(opened.problems).encode("utf-8")


def test_what_was_there_stays_when_a_case_cannot_be_written(tmp_path, monkeypatch):
    write_case(tmp_path, TEXT)

    def refuse(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", refuse)
    assert render_all(write_case(tmp_path, "{}")) == (
        f"{tmp_path}/case.json: the case was not written, and nothing was changed: "
        "No space left on device"
    )
    assert (tmp_path / "case.json").read_text("utf-8") == TEXT
    assert os.listdir(tmp_path) == ["case.json"]


def test_a_new_case_never_overwrites_one(tmp_path):
    write_case(tmp_path, TEXT)
    os.utime(tmp_path / "case.json", (0, 0))
    first = f"written by {tmp_path.owner()} at {datetime.fromtimestamp(0).isoformat(' ')}"
    assert render_all(write_case(tmp_path, "{}", may_replace=False)) == (
        f"{tmp_path}/case.json: there is already a case here, {first}\nexpected another folder"
    )
    assert (tmp_path / "case.json").read_text("utf-8") == TEXT
    assert write_case(tmp_path, "{}") == ()
    assert (tmp_path / "case.json").read_text("utf-8") == "{}"


@pytest.mark.parametrize("knows_links", [True, False], ids=["a disk", "a memory card"])
def test_of_two_who_open_a_case_in_one_folder_at_once_one_is_told(
    tmp_path, monkeypatch, knows_links
):
    """Both find the folder empty; the other one's case is put there at the last moment."""
    flush, link = os.fsync, os.link

    def other_is_faster(handle):
        flush(handle)
        monkeypatch.setattr(os, "fsync", flush)
        assert write_case(tmp_path, TEXT, may_replace=False) == ()

    def no_link(one, other):
        raise OSError(1, "Operation not permitted")

    monkeypatch.setattr(os, "fsync", other_is_faster)
    monkeypatch.setattr(os, "link", link if knows_links else no_link)
    (problem,) = write_case(tmp_path, "{}", may_replace=False)
    assert problem.sentence().startswith("there is already a case here, written by ")
    assert (tmp_path / "case.json").read_text("utf-8") == TEXT
    assert os.listdir(tmp_path) == ["case.json"]


def test_a_folder_that_cannot_be_made_is_told(tmp_path):
    (tmp_path / "sprint").write_text("a file")
    (problem,) = write_case(tmp_path / "sprint", TEXT)
    assert problem.sentence().startswith("the case was not written, and nothing was changed: ")
    (problem,) = write_case(tmp_path / "a\0b", TEXT)
    assert problem.sentence() == (
        "the case was not written, and nothing was changed: no file can have this name"
    )
