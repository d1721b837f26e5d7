"""What the tests of the commands share: a terminal to type at, and the demonstration cars."""

import shutil
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.examined import examined_once
from witnessmark.cli.main import answer

ROOT = Path(__file__).resolve().parents[2]


@dataclass(frozen=True, slots=True)
class Ended:
    """How a command ended: exit code, what it printed, what stood on the error stream."""

    code: int
    out: str
    err: str


Terminal = Callable[..., Ended]


@pytest.fixture
def type_in(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> Terminal:
    """Type a command line in a folder of its own; `demo` lies in it as in the repository.

    What another test has had examined is not examined again.
    """
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.delenv("WITNESSMARK_DEBUG", raising=False)
    # No test reads or writes the profile of whoever runs it.
    monkeypatch.setenv("HOME", str(tmp_path / "home"))
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "settings"))
    monkeypatch.setattr("witnessmark.cli.cases.examine", examined_once)

    def typed(*words: str) -> Ended:
        code = answer(words)
        printed = capsys.readouterr()
        assert "Traceback" not in printed.out + printed.err
        return Ended(code, printed.out, printed.err)

    return typed


@pytest.fixture
def demo_folder(tmp_path: Path) -> Path:
    """A copy of the demonstration cars, to be changed at will."""
    return Path(shutil.copytree(ROOT / "demo", tmp_path / "demo"))


@pytest.fixture
def own_book(tmp_path: Path) -> Path:
    """A copy of the demonstration book, to be changed at will."""
    shipped = ROOT / "src/witnessmark/codebook/books/tarvane-1952-1961"
    return Path(shutil.copytree(shipped, tmp_path / "tarvane-1952-1961"))
