"""`witnessmark profile`, and the examiner that a new case takes from it."""

import json
import os

import pytest

SET = ("profile", "--name", "Ines Calder", "--firm", "Calder & Brook", "--fee-independent")
NEW = ("case", "new", "c", "--book", "tarvane-1952-1961", "--id", "c")


@pytest.fixture
def kept(tmp_path):
    """The file of the profile, in the folder of settings that `type_in` names and does not make."""
    return tmp_path / "settings/witnessmark/profile.toml"


def examiners(tmp_path):
    return json.loads((tmp_path / "c/case.json").read_text("utf-8"))["assignment"]["examiners"]


def test_what_is_set_is_kept_and_shown_and_the_rest_stays(type_in, kept):
    type_in(*SET)
    ended = type_in("profile", "--telephone", " 0110 555 0142 ", "--firm", "")
    assert (ended.code, ended.err) == (0, "")
    assert kept.read_text("utf-8") == (
        'name = "Ines Calder"\ntelephone = "0110 555 0142"\nfee_depends = false\n'
    )
    shown = type_in("profile", "--show")
    assert shown.out == ended.out == type_in("profile").out
    told = [" ".join(line.split()) for line in shown.out.splitlines()[-3:]]
    assert told == [
        "name Ines Calder", "telephone 0110 555 0142", "fee depends on what is concluded no",
    ]  # fmt: skip


def test_a_new_case_takes_its_examiner_from_the_profile(type_in, tmp_path, kept):
    """And holds it: what is set or deleted afterwards changes no case."""
    type_in(*SET)
    assert "The examiner is Ines Calder, from the profile." in type_in(*NEW).out
    type_in("profile", "--forget")
    (examiner,) = examiners(tmp_path)
    assert (examiner["id"], examiner["name"], examiner["firm"], examiner["fee_depends"]) == (
        *("calder", "Ines Calder", "Calder & Brook", False),
    )
    assert type_in("case", "check", "c").code == 0


def test_without_a_profile_a_new_case_names_nobody(type_in, tmp_path, kept):
    assert type_in("profile").out.startswith("No profile is kept in ")
    assert "examiner" not in type_in(*NEW).out
    assert examiners(tmp_path) == []


def test_what_is_forgotten_is_gone_with_its_folder(type_in, kept):
    type_in(*SET)
    assert (type_in("profile", "--forget").code, kept.parent.exists()) == (0, False)
    ended = type_in("profile", "--forget")
    assert (ended.code, ended.out) == (0, f"No profile is kept in {kept}.\n")
    ended = type_in("profile", "--forget", "--name", "A")
    assert (ended.code, ended.err) == (
        2, "--forget: '--forget' deletes the profile\nexpected --forget alone\n",
    )  # fmt: skip


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--firm", "x"), "--name: 'name' is empty"),
        (("--name", " "), "--name: 'name' is empty"),
        (("--name", "x" * 201), "--name: the text of 'name' has 201 characters"),
        (("--name", "A", "--interest", "\x01"), "--interest: there is a control character"),
        (("--name", "A", "--address", "\ud800"), "--address: there is half a character"),
    ],
)
def test_what_no_case_could_hold_is_refused_and_nothing_is_written(type_in, kept, words, told):
    ended = type_in("profile", *words)
    assert (ended.code, ended.out) == (2, "")
    assert ended.err.startswith(told)
    assert not kept.exists()


@pytest.mark.parametrize("content", [b"name = ", b"\xff\xfe", b"name = 1\n", b"", None])
def test_a_profile_that_cannot_be_read_stops_whoever_needs_it_and_stays(
    type_in, tmp_path, kept, content
):
    """None is a folder where the file should be."""
    kept.parent.mkdir(parents=True)
    kept.mkdir() if content is None else kept.write_bytes(content)
    for words in (NEW, SET, ("profile", "--show")):
        ended = type_in(*words)
        assert (ended.code, ended.out) == (2, "")
        assert str(kept) in ended.err
    assert not (tmp_path / "c").exists()
    assert kept.is_dir() if content is None else kept.read_bytes() == content


def test_a_place_that_cannot_be_written_is_told(type_in, kept):
    """A file stands where the folder of settings should."""
    kept.parent.parent.write_text("x")
    ended = type_in(*SET)
    assert (ended.code, ended.out) == (2, "")
    assert f"cannot write {kept}: " in ended.err


@pytest.mark.parametrize("named", ["", "settings"])
def test_a_folder_of_settings_that_is_not_named_from_the_root_is_none(
    type_in, tmp_path, monkeypatch, named
):
    """As the XDG rules say; and without any home there is a problem and no file."""
    monkeypatch.setenv("XDG_CONFIG_HOME", named)
    type_in(*SET)
    assert os.listdir(tmp_path) == ["home"]
    monkeypatch.setenv("HOME", "nowhere")
    ended = type_in(*SET)
    assert (ended.code, ended.out) == (2, "")
    assert "no home folder is known to this system" in ended.err
    assert os.listdir(tmp_path) == ["home"]
