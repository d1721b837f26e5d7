"""A file is written whole or not at all."""

import os
from pathlib import Path

import pytest

from witnessmark.cli.writing import write_whole


def test_a_file_that_could_not_be_written_leaves_the_old_one(tmp_path, monkeypatch):
    """The disk fills up at the last step; what stood there still stands, and nothing beside it."""

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    report = tmp_path / "panel.pdf"
    report.write_bytes(b"the old report")
    monkeypatch.setattr(os, "replace", full)
    problem = write_whole(report, b"the new report")
    assert problem is not None
    assert problem.render() == (
        f"cannot write {report}: No space left on device; nothing was written\n"
        "expected a folder that can be written to"
    )
    assert report.read_bytes() == b"the old report"
    assert list(tmp_path.iterdir()) == [report]


def test_ctrl_c_in_the_middle_leaves_nothing_behind(tmp_path, monkeypatch):
    """No file beside the one that was to be written."""

    def stop(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "fsync", stop)
    with pytest.raises(KeyboardInterrupt):
        write_whole(tmp_path / "panel.pdf", b"report")
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_is_not_there_is_a_problem(tmp_path):
    """Not an exception."""
    problem = write_whole(tmp_path / "none" / "panel.pdf", b"report")
    assert problem is not None
    assert "No such file or directory; nothing was written" in problem.render()


def test_others_may_read_the_file_as_the_user_allows(tmp_path):
    """The permissions are those of any new file, not those of a temporary one."""
    made, plain = tmp_path / "panel.pdf", tmp_path / "plain"
    assert write_whole(made, b"report") is None
    plain.write_bytes(b"report")
    assert mode(made) == mode(plain)


def mode(path: Path) -> int:
    return path.stat().st_mode
