"""What is named and is no file is refused at once: nobody waits for a pipe."""

import os

import pytest

from witnessmark.cli.writing import NotReadError, read_named


@pytest.fixture
def pipe(tmp_path):
    """A pipe that nobody writes into."""
    os.mkfifo(tmp_path / "pipe")
    return "pipe"


@pytest.mark.parametrize("option", ["--out", "--language", "--supplement-to"])
def test_a_pipe_is_refused(type_in, demo_folder, pipe, option):
    because = ("--because", "a reason") if option == "--supplement-to" else ()
    ended = type_in("report", "demo/panel", option, pipe, *because)
    assert ended.code == 2
    assert "expected" in ended.err


@pytest.mark.parametrize("name", ["", "-", "."])
def test_what_names_no_file_is_refused(type_in, demo_folder, tmp_path, name):
    ended = type_in("report", "demo/panel", "--out", name)
    assert ended.code == 2
    assert "does not name a file" in ended.err
    assert not (tmp_path / "-").exists()


def test_a_device_without_end_is_refused(type_in, demo_folder):
    ended = type_in("report", "demo/panel", "--language", "/dev/zero")
    assert ended.code == 2
    assert "it is not a file" in ended.err


def test_a_translation_in_another_encoding_is_refused(type_in, demo_folder, tmp_path):
    (tmp_path / "latin.po").write_bytes(b'msgid ""\nmsgstr ""\n"\xe4"\n')
    for name in ("latin.po", "none.po", "."):
        ended = type_in("report", "demo/panel", "--language", name)
        assert ended.code == 2
        assert "cannot be read as a translation" in ended.err


def test_a_file_that_is_too_large_is_not_read(tmp_path):
    large = tmp_path / "large"
    large.write_bytes(b"12345")
    assert read_named(large, 5) == b"12345"
    with pytest.raises(NotReadError):
        read_named(large, 4)
