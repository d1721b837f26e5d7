"""A case folder taken into the store and written out again is the same to the byte."""

import json
import shutil
from dataclasses import replace
from pathlib import Path

import pytest

from tests.store.cases import AT, CASE, picture
from witnessmark import store
from witnessmark.casefile import open_case
from witnessmark.casefile.revisions import Alteration, Revisions, digest

ROOT = Path(__file__).resolve().parents[2]


def contents(folder: Path) -> dict[str, bytes]:
    return {
        p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()
    }


def case_folder(tmp_path, when=AT):
    """A case with two pictures, one of which the last revision no longer lists."""
    folder = tmp_path / "in"
    (folder / "exhibits").mkdir(parents=True)
    listed = []
    for n, name in enumerate(("frame 1.png", "old.png")):
        content = picture(n)
        (folder / "exhibits" / name).write_bytes(content)
        listed.append({"id": f"e{n}", "file": name, "sha256": digest(content)})
    first = json.dumps({**json.loads(CASE), "exhibits": listed})
    second = "\ufeff" + json.dumps({**json.loads(CASE), "exhibits": listed[:1]}, indent=1)
    document = folder / "case.json"
    document.write_text(first, "utf-8")
    change = Alteration(second, "took a picture out", "brook", when)
    Revisions(document).record(first.encode(), change)
    undone = replace(change, case=first, undoes=2, did="took back")
    Revisions(document).record(second.encode("utf-8"), undone)
    Revisions(document).record(first.encode(), change)
    return folder


@pytest.mark.parametrize("when", [AT, AT.replace(tzinfo=None)], ids=["offset", "no-offset"])
@pytest.mark.usefixtures("home")
def test_in_and_out_again_is_the_same_to_the_byte(tmp_path, when):
    folder = case_folder(tmp_path, when)
    # A revision that another program has laid out otherwise, with a field of its own.
    file = folder / "revisions" / "000003.json"
    told = {**json.loads(file.read_text("utf-8")), "seal": "wax"}
    file.write_text(json.dumps(told, ensure_ascii=False), "utf-8")
    taken = store.folder_in(folder, AT)
    assert (taken.kept.number, taken.problems, taken.left) == (4, (), ())
    assert [each.undoes for each in store.revisions("sprint")] == [None, None, 2, None]
    assert store.folder_out("sprint", tmp_path / "out") == ()
    assert contents(tmp_path / "out") == contents(folder)


@pytest.mark.usefixtures("home")
def test_what_is_changed_here_is_read_by_the_commands(tmp_path):
    store.folder_in(case_folder(tmp_path), AT)
    head = store.head("sprint")
    store.revise("sprint", 4, head.text.replace("V206", "V2?6"), who="a", did="read", at=AT)
    store.folder_out("sprint", tmp_path / "out")
    opened = open_case(tmp_path / "out")
    assert opened.problems == ()
    assert opened.casefile.readings[0].text == "V2?6"
    last = Revisions(tmp_path / "out" / "case.json").read(5)
    assert (last.did, last.parent, last.when) == ("read", head.sha256, AT)
    with pytest.raises(store.NotKeptError, match="there is already a case here"):
        store.folder_out("sprint", tmp_path / "out")


@pytest.mark.usefixtures("home")
def test_a_case_without_revisions_begins_with_one(tmp_path):
    shutil.copytree(ROOT / "demo" / "panel", tmp_path / "panel")
    (tmp_path / "panel" / "exhibits" / "stray.txt").write_text("of nobody")
    taken = store.folder_in(tmp_path / "panel", AT)
    assert (taken.kept.number, taken.kept.did) == (1, "found like this")
    assert (taken.problems, taken.left) == ((), ("stray.txt",))
    store.folder_out("panel", tmp_path / "out")
    out, was = contents(tmp_path / "out"), contents(tmp_path / "panel")
    assert out.keys() - was.keys() == {"revisions/000001.json"}
    assert all(out[name] == was[name] for name in was if name != "exhibits/stray.txt")
    with pytest.raises(store.NotKeptError, match="there is already a case 'panel'"):
        store.folder_in(tmp_path / "panel", AT)


@pytest.mark.usefixtures("home")
def test_what_was_written_by_other_means_is_one_more_revision(tmp_path):
    folder = case_folder(tmp_path)
    (folder / "case.json").write_text(CASE, "utf-8")
    assert store.folder_in(folder, AT).kept.number == 5
    assert store.head("sprint").text == CASE


@pytest.mark.usefixtures("home")
def test_an_exhibit_that_is_not_what_was_entered_stays_behind_and_is_named(tmp_path):
    folder = case_folder(tmp_path)
    (folder / "exhibits" / "frame 1.png").write_bytes(picture(7))
    (folder / "exhibits" / "old.png").unlink()
    (problem,) = store.folder_in(folder, AT).problems
    assert "'exhibits/frame 1.png' is not the file that was entered" in problem.sentence()
    (problem,) = store.folder_out("sprint", tmp_path / "out")
    assert problem.sentence() == "'exhibits/frame 1.png' is not there"


@pytest.mark.usefixtures("home")
def test_a_name_that_leads_elsewhere_is_written_by_nobody(tmp_path):
    kept = store.keep_exhibit(picture(1), "a.png", AT)
    entry = {"id": "a", "file": "../../up.png", "sha256": kept.sha256}
    store.begin(json.dumps({**json.loads(CASE), "exhibits": [entry]}), "", "", AT)
    (problem,) = store.folder_out("sprint", tmp_path / "a" / "out")
    assert problem.sentence() == "the file name '../../up.png' leads out of the folder"
    assert set(contents(tmp_path)) == {"a/out/case.json", "a/out/revisions/000001.json"}


@pytest.mark.usefixtures("home")
def test_a_folder_whose_revisions_are_spoilt_is_refused_whole(tmp_path):
    folder = case_folder(tmp_path)
    file = folder / "revisions" / "000002.json"
    file.write_text(file.read_text("utf-8").replace("V206", "V999"), "utf-8")
    with pytest.raises(store.NotKeptError, match=r"000002.json: this is not the revision"):
        store.folder_in(folder, AT)
    with pytest.raises(store.NotKeptError, match="there is no case here"):
        store.folder_in(tmp_path / "nowhere", AT)
    with pytest.raises(store.NotKeptError, match="there is no case 'sprint'"):
        store.folder_out("sprint", tmp_path / "out")
    assert store.cases() == ()
    assert not (tmp_path / "out").exists()


@pytest.mark.usefixtures("home")
def test_a_case_that_was_worked_on_elsewhere_meets_what_was_done_here(tmp_path):
    store.folder_in(case_folder(tmp_path), AT)
    store.folder_out("sprint", tmp_path / "out")
    head = store.head("sprint").text
    store.revise("sprint", 4, head.replace("A Sprint", "The Sprint"), who="a", did="", at=AT)
    document = tmp_path / "out" / "case.json"
    content = picture(5)
    (tmp_path / "out" / "exhibits" / "new.png").write_bytes(content)
    values = json.loads(head.removeprefix("\ufeff"))
    values["exhibits"].append({"id": "n", "file": "new.png", "sha256": digest(content)})
    change = Alteration(json.dumps(values), "added a picture", "brook", AT)
    Revisions(document).record(head.encode("utf-8"), change)
    values["readings"][0]["text"] = "V2?6"
    document.write_text(json.dumps(values), "utf-8")  # and by other means
    found, problems = store.folder_back(tmp_path / "out", who="brook", at=AT)
    assert (found.kept.number, found.beside, problems) == (6, (), ())
    assert found.kept.did == "brought back: added a picture; found like this"
    assert json.loads(found.kept.text.removeprefix("\ufeff")) == {
        **values,
        "title": "The Sprint, before a purchase",
    }
    assert store.exhibit_path(digest(content)).is_file()
    again, _ = store.folder_back(tmp_path / "out", who="brook", at=AT)
    assert not again.is_new
    (tmp_path / "other").mkdir()
    (tmp_path / "other" / "case.json").write_text(CASE, "utf-8")
    with pytest.raises(store.NotKeptError, match="there is already a case 'sprint'"):
        store.folder_back(tmp_path / "other", who="", at=AT)
