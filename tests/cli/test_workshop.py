"""The workshop's own commands, each in a process of its own, as people give them."""

import subprocess
import sys
from pathlib import Path
from socket import socket
from time import monotonic, sleep
from urllib.request import urlopen

RUN = "from witnessmark.cli.main import run; run()"


def command(*words: str) -> tuple[str, ...]:
    """The command line of a process."""
    return (sys.executable, "-c", RUN, *words)


def given(*words: str, folder: Path) -> subprocess.CompletedProcess[str]:
    """What a command printed, once it has ended."""
    return subprocess.run(
        command(*words), cwd=folder, capture_output=True, text=True, timeout=120, check=False
    )


def test_a_workshop_is_opened_backed_up_while_it_is_open_and_put_back(tmp_path):
    """Closed, it says so; a backup goes into an empty workshop and into no other."""
    with socket() as free:
        free.bind(("127.0.0.1", 0))
        port = str(free.getsockname()[1])
    words = command("serve", "--home", "shop", "--port", port, "--quiet")
    serving = subprocess.Popen(words, cwd=tmp_path, stdout=subprocess.PIPE, text=True)
    try:
        until = monotonic() + 60
        while monotonic() < until:
            try:
                with urlopen(f"http://127.0.0.1:{port}/", timeout=10) as answer:
                    assert answer.url.endswith("/first-owner")
                    break
            except OSError:
                sleep(0.1)
        (tmp_path / "shop" / "books").mkdir()
        (tmp_path / "shop" / "books" / "note.txt").write_text("a list to come", "utf-8")
        kept = given("backup", "workshop.zip", "--home", "shop", folder=tmp_path)
        assert (kept.returncode, kept.stderr) == (0, "")
    finally:
        serving.terminate()
    said, _ = serving.communicate(timeout=30)
    assert serving.returncode == 0
    assert said.startswith(f"The workshop is open at http://127.0.0.1:{port}/\n")
    assert said.endswith("The workshop is closed.\n")
    back = given("restore", "workshop.zip", "--home", "restored", folder=tmp_path)
    assert (back.returncode, back.stderr) == (0, "")
    assert (tmp_path / "restored/books/note.txt").read_text("utf-8") == "a list to come"
    again = given("restore", "workshop.zip", "--home", "restored", folder=tmp_path)
    assert again.returncode == 2
    assert "books" in again.stderr


def test_what_is_no_backup_is_told_and_an_older_one_is_not_written_over(tmp_path):
    """Each with its file."""
    (tmp_path / "photo.zip").write_bytes(b"no zip")
    refused = given("restore", "photo.zip", "--home", "shop", folder=tmp_path)
    assert refused.returncode == 2
    assert refused.stderr.startswith("photo.zip")
    kept = given("backup", "photo.zip", "--home", "shop", folder=tmp_path)
    assert kept.returncode == 2
    assert (tmp_path / "photo.zip").read_bytes() == b"no zip"
