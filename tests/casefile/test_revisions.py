"""Every state of a case is kept, whatever breaks off between two writes."""

import json
import os
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from witnessmark.casefile.revisions import Alteration, Revision, Revisions, digest
from witnessmark.problem import Problem

WHEN = datetime(2026, 11, 30, 14, 5, tzinfo=UTC)


@pytest.fixture
def document(tmp_path: Path) -> Path:
    made = tmp_path / "case.json"
    made.write_text("one", "utf-8")
    return made


def alter(document: Path, text: str, undoes: int | None = None) -> Revision | Problem:
    change = Alteration(text, f"wrote {text}", "anna", WHEN, undoes)
    return Revisions(document).record(document.read_bytes(), change)


def texts(document: Path) -> list[str]:
    found = list(Revisions(document).all())
    return [each.case if isinstance(each, Revision) else each.sentence() for each in found]


def test_a_change_is_kept_with_the_state_before_it(document: Path) -> None:
    """Each a file of its own, chained by the digests."""
    made = alter(document, "two")
    first, second = Revisions(document).all()
    assert made == second
    assert isinstance(first, Revision)
    assert (first.number, first.parent, first.did, first.case) == (1, "", "found like this", "one")
    assert json.loads((document.parent / "revisions/000002.json").read_text("utf-8")) == {
        "format": "witnessmark-revision",
        "format_version": 1,
        "number": 2,
        "parent": digest(b"one"),
        "sha256": digest(b"two"),
        "when": "2026-11-30T14:05:00Z",
        "who": "anna",
        "did": "wrote two",
        "undoes": None,
        "case": "two",
    }
    assert document.read_text("utf-8") == "two"


def test_what_an_editor_wrote_is_a_revision_before_the_next_change(document: Path) -> None:
    alter(document, "two")
    document.write_text("by hand", "utf-8")
    alter(document, "three")
    assert texts(document) == ["one", "two", "by hand", "three"]


@pytest.mark.parametrize("step", ["before the document", "after it"])
def test_a_change_that_broke_off_is_finished(document: Path, monkeypatch: Any, step: str) -> None:
    """The power fails at the renaming, or before the document is replaced."""
    alter(document, "two")
    real, done = Path.replace, []

    def broken(self: Path, target: Path) -> Path:
        goes_on = self.name != "next.json" and step == "after it"
        if goes_on and target.name == "case.json":
            done.append(target)
            return real(self, target)
        raise SystemExit

    monkeypatch.setattr(Path, "replace", broken)
    monkeypatch.setattr(Path, "unlink", lambda *_, **__: None)
    with pytest.raises(SystemExit):
        alter(document, "three")
    monkeypatch.undo()
    assert document.read_text("utf-8") == ("three" if done else "two")
    assert Revisions(document).settle() is None
    assert (document.read_text("utf-8"), texts(document)) == ("three", ["one", "two", "three"])
    assert not (document.parent / "revisions/next.json").exists()


def test_a_full_disk_changes_nothing(document: Path, monkeypatch: Any) -> None:
    alter(document, "two")

    def full(self: Path, target: Path) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", full)
    found = alter(document, "three")
    assert isinstance(found, Problem)
    assert found.sentence() == (
        "the case was not written, and nothing was changed: No space left on device"
    )
    monkeypatch.undo()
    assert (document.read_text("utf-8"), texts(document)) == ("two", ["one", "two"])
    assert sorted(each.name for each in (document.parent / "revisions").iterdir()) == [
        "000001.json",
        "000002.json",
    ]


def test_of_two_who_read_the_same_state_one_writes(document: Path) -> None:
    """The second is told, and what the first wrote stands."""
    was = document.read_bytes()
    alter(document, "theirs")
    found = Revisions(document).record(was, Alteration("ours", "x", "ben", WHEN))
    assert isinstance(found, Problem)
    assert found.sentence().startswith("the case was changed meanwhile (written ")
    assert document.read_text("utf-8") == "theirs"


def test_one_who_is_writing_keeps_others_out(document: Path) -> None:
    """Where the system knows no locks, the file that is to come is one."""
    alter(document, "two")
    (document.parent / "revisions/next.json").write_text("{}", "utf-8")
    found = alter(document, "three")
    assert isinstance(found, Problem)
    assert document.read_text("utf-8") == "two"


def test_undoing_goes_back_step_by_step(document: Path) -> None:
    """What was taken back is passed over; the first state cannot be taken back."""
    alter(document, "two")
    alter(document, "three")
    revisions = Revisions(document)
    for undone, text in ((3, "two"), (2, "one")):
        target = revisions.to_undo()
        assert isinstance(target, Revision)
        assert target.number == undone
        alter(document, text, undoes=undone)
    nothing = revisions.to_undo()
    assert isinstance(nothing, Problem)
    assert nothing.sentence() == "there is no change that could be taken back"


@pytest.mark.parametrize(
    "text",
    ["", "{", "[]", "\x00", '{"format": "witnessmark-revision"}', "[" * 100_000, "12", "null"],
)
def test_a_file_that_is_no_revision_is_a_problem(document: Path, text: str) -> None:
    alter(document, "two")
    (document.parent / "revisions/000002.json").write_text(text, "utf-8")
    found = Revisions(document).read(2)
    assert isinstance(found, Problem)
    assert found.sentence().startswith("this is not the revision that was written here: ")
    assert isinstance(alter(document, "three"), Problem)
    assert document.read_text("utf-8") == "two"


def test_a_revision_whose_text_was_changed_is_a_problem(document: Path) -> None:
    alter(document, "two")
    file = document.parent / "revisions/000002.json"
    file.write_text(file.read_text("utf-8").replace('"two"', '"too"'), "utf-8")
    found = Revisions(document).read(2)
    assert isinstance(found, Problem)
    assert "its text is not that of its SHA-256" in found.sentence()


@pytest.mark.parametrize("field", ["who", "did", "case"])
def test_half_a_sign_in_a_revision_is_a_problem(document: Path, field: str) -> None:
    """JSON can write half of a pair; no text and no database holds it."""
    alter(document, "two")
    file = document.parent / "revisions/000002.json"
    file.write_text(json.dumps(json.loads(file.read_text("utf-8")) | {field: "\ud800"}), "utf-8")
    found = Revisions(document).read(2)
    assert isinstance(found, Problem)
    assert "half a sign" in found.sentence()


def test_a_document_that_is_not_text_is_not_taken_for_one(document: Path) -> None:
    document.write_bytes(b"\xff\xfe")
    assert isinstance(alter(document, "two"), Problem)
    assert document.read_bytes() == b"\xff\xfe"
    assert os.listdir(document.parent / "revisions") == []
