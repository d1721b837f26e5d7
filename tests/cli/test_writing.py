"""A file is written whole or not at all."""

import os
import threading
from pathlib import Path

import pytest
import typer

from witnessmark.cli.writing import write_upgraded, write_whole


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


def test_what_another_has_changed_since_it_was_read_is_not_brought_over(tmp_path, capsys):
    """Theirs stays, nothing is kept beside it, and it is said who was first."""
    file = tmp_path / "case.json"
    file.write_bytes(b"theirs")
    with pytest.raises(typer.Exit) as ended:
        write_upgraded(file, None, b"as it was read", b"brought over", "case")
    assert ended.value.exit_code == 2
    assert f"{file} was changed (written by " in capsys.readouterr().err
    assert (file.read_bytes(), list(tmp_path.iterdir())) == (b"theirs", [file])


def test_of_two_who_bring_one_file_over_at_once_one_does(tmp_path, capsys):
    """The second finds it changed; what the first kept is what there was."""
    file = tmp_path / "book.toml"
    file.write_bytes(b"old")
    codes = []

    def bring_over(now: bytes) -> None:
        try:
            write_upgraded(file, None, b"old", now, "book")
            codes.append(0)
        except typer.Exit as end:
            codes.append(end.exit_code)

    threads = [threading.Thread(target=bring_over, args=(each,)) for each in (b"one", b"two")]
    for each in threads:
        each.start()
    for each in threads:
        each.join()
    assert sorted(codes) == [0, 2]
    assert file.read_bytes() in (b"one", b"two")
    assert (tmp_path / "book.format-1.toml").read_bytes() == b"old"


def test_a_new_file_never_takes_the_place_of_another(tmp_path):
    """What was put there a moment ago stands."""
    file = tmp_path / "new.json"
    file.write_bytes(b"theirs")
    problem = write_whole(file, b"ours", may_replace=False)
    assert problem is not None
    assert problem.render().startswith(f"{file} already exists (written by ")
    assert file.read_bytes() == b"theirs"
