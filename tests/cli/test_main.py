"""The console script: help, exit codes, streams; every run ends calmly."""

import os
import shlex
import shutil
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given
from hypothesis import strategies as st
from typer.main import get_command
from typer.testing import CliRunner

from tests.examples import tried_on
from witnessmark import __version__
from witnessmark.cli import main
from witnessmark.cli.commands import app_of

ROOT = Path(__file__).resolve().parents[2]
SCRIPT = Path(sys.executable).with_name("witnessmark")

COMMANDS = {
    "serve": (), "backup": (), "restore": (),
    "demo": (), "examine": (), "decode": (), "compare": (), "next": (), "report": (),
    "field-sheet": (), "picture-request": (), "masked-copy": (),
    "decode-sheet": (), "questions": (), "letter": (), "profile": (),
    "book": (
        "list", "show", "values", "search", "guess", "check", "new", "import", "upgrade",
        "coverage",
    ),
    "case": ("new", "set", "undo", "history", "check", "upgrade"),
    "case add": ("reading", "look", "site", "photo", "paper", "statement"),
}  # fmt: skip
NOTED = {("letter",): "The letter holds the car's number in full.\n"}
"""What a command says beside what it prints."""
ELSEWHERE = [("demo",), ("serve",), ("backup",), ("restore",)]
"""What is run in test_demo.py, and, each in a process of its own, in test_workshop.py."""
PATHS = tuple(
    (*name.split(), *part)
    for name, parts in COMMANDS.items()
    for part in ([(each,) for each in parts] or [()])
)


NEW_CASE = (
    *("case", "new", "my-sprint", "--book", "tarvane-1952-1961", "--id", "my-sprint"),
    *("--claim", "model=solent-sprint", "--claim", "model_year=1955"),
)
PAINTS = """\
table,code,value,meaning,basis,source
paints,07,cream,Cream,published,"Club list, 1974"
"""


def examples(help_text: str) -> list[str]:
    """The command lines shown in a help text; a line that ends in \\ goes on."""
    joined = help_text.replace("\\\n", " ")
    return [line.strip() for line in joined.splitlines() if line.startswith("    witnessmark ")]


@pytest.mark.parametrize("path", [path for path in PATHS if path not in ELSEWHERE], ids=" ".join)
def test_every_help_text_shows_an_example_that_works(type_in, demo_folder, tmp_path, path):
    """The example is run as it stands, beside the demonstration cars."""
    if path in (("book", "import"), ("book", "upgrade")):  # a book of one's own, and a list
        type_in("book", "new", "my-maker-1950-1952")
        (tmp_path / "paints.csv").write_text(PAINTS, "utf-8")
    if path[0] == "case" and path[1:] not in (("new",), ("check",), ("upgrade",)):
        type_in(*NEW_CASE)  # a case of one's own, with a change to be taken back, and a photograph
        type_in("case", "set", "my-sprint", "title=A Sprint")
        picture = next((demo_folder / "clean/exhibits").iterdir())
        for name in ("IMG_0412.jpg", "IMG_0413.jpg"):
            shutil.copy(picture, tmp_path / name)
    shown = type_in(*path, "--help")
    assert (shown.code, shown.err) == (0, "")
    assert type_in(*path, "-h").out == shown.out
    lines = examples(shown.out)
    assert lines, shown.out
    for line in lines:
        words = shlex.split(line)
        assert words[1 : 1 + len(path)] == list(path)
        ended = type_in(*words[1:])
        assert (ended.code, ended.err) == (0, NOTED.get(path, ""))


def test_the_commands_are_those_that_are_tested_here():
    """A new command needs a line in COMMANDS, and with it an example that runs."""
    command = get_command(app_of())
    found = {name: tuple(getattr(each, "commands", {})) for name, each in command.commands.items()}
    (*case, add) = found["case"]
    entries = tuple(command.commands["case"].commands[add].commands)
    assert found | {"case": tuple(case), "case add": entries} == COMMANDS


def test_no_command_at_all_shows_the_help(type_in):
    """witnessmark"""
    ended = type_in()
    assert (ended.code, ended.err) == (0, "")
    assert "Commands:" in ended.out
    assert "..." not in ended.out.split("Commands:")[1]


def test_the_version_is_that_of_the_package(type_in):
    """witnessmark --version"""
    assert type_in("--version").out == f"witnessmark {__version__}\n"


@pytest.mark.parametrize(
    "words",
    [
        ("nothing",),
        ("book", "nothing"),
        ("decode",),
        ("decode", "tarvane-1952-1961", "engine_number"),
        ("decode", "a", "b", "c", "d"),
        ("decode", "--year", "x", "a", "b", "c"),
        ("examine", "--jso", "demo/clean"),
        ("next", "demo/clean"),
        ("next", "demo/clean", "--minutes", "-3"),
    ],
    ids=" ".join,
)
def test_a_line_that_is_no_command_gets_exit_code_2(type_in, words):
    """What is wrong stands on the error stream, nothing on the other."""
    ended = type_in(*words)
    assert (ended.code, ended.out) == (2, "")
    assert ended.err


@tried_on(100, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    path=st.sampled_from([path for path in PATHS if path not in ELSEWHERE]),
    words=st.lists(
        st.one_of(
            st.text(max_size=20),
            st.sampled_from(
                ["--json", "--year", "--minutes", "--out", "--", "-", "1955", "tarvane-1952-1961",
                 "plate_brass", "[38]?~_…|", "frame_number=3[38", "\0", "\udcff", "x" * 5000, "/"]
            ),
        ),
        max_size=5,
    ),
)  # fmt: skip
def test_no_line_whatever_ends_in_anything_but_an_answer_or_a_problem(type_in, path, words):
    """Exit code 0 or 2, and never a traceback."""
    if path == ("case", "new"):  # that it may write is tried elsewhere
        words = [*words, "--book", "no such book"]
    if path == ("book", "new"):
        words = [*words, "--first-year", "1"]
    ended = type_in(*path, *words)
    assert ended.code in (0, 2), ended.err
    assert ended.code == 0 or ended.err


def test_typed_text_in_brackets_comes_out_as_it_went_in(type_in):
    """A name with mark-up in it is shown with its brackets."""
    ended = type_in("decode", "[bold]book[/bold]", "x", "y")
    assert "'[bold]book[/bold]' is not a code book" in ended.err


def test_typed_control_characters_never_reach_the_terminal(type_in):
    """An escape sequence in a path is shown, not obeyed."""
    ended = type_in("examine", "\x1b[2J\x1b]0;x\x07")
    assert ended.code == 2
    assert "\x1b" not in ended.err
    assert "‹U+001B›[2J" in ended.err


def test_a_fault_of_our_own_is_one_calm_sentence(type_in, monkeypatch):
    """The place of the fault is shown only to who asks for it."""

    def broken() -> None:
        raise KeyError("a table\nthat is not there")

    monkeypatch.setattr("witnessmark.cli.book.list_books.shipped_books", broken)
    ended = type_in("book", "list")
    assert (ended.code, ended.out) == (1, "")
    assert ended.err.count("\n") == 1
    assert ended.err.startswith("Witnessmark met a fault of its own and stopped (KeyError")


def test_who_asks_for_it_is_shown_the_place_of_a_fault(capsys, monkeypatch):
    """WITNESSMARK_DEBUG=1"""

    def broken() -> None:
        raise KeyError("here")

    monkeypatch.setattr("witnessmark.cli.book.list_books.shipped_books", broken)
    monkeypatch.setenv("WITNESSMARK_DEBUG", "1")
    assert main.answer(["book", "list"]) == 1
    assert "in broken" in capsys.readouterr().err


def test_ctrl_c_ends_without_a_word(type_in, monkeypatch):
    """Exit code 130, as shells have it."""

    def stopped() -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("witnessmark.cli.book.list_books.shipped_books", stopped)
    ended = type_in("book", "list")
    assert (ended.code, ended.out, ended.err.strip()) == (130, "", "")


def test_the_commands_run_in_the_usual_runner_too():
    """For who embeds the commands or tests them."""
    ended = CliRunner().invoke(app_of(), ["book", "list"])
    assert ended.exit_code == 0
    assert "tarvane-1952-1961" in ended.stdout


def script(*words: str, **extra: str) -> subprocess.CompletedProcess[bytes]:
    """Run the installed script as a shell would."""
    environment = {**os.environ, "COLUMNS": "60", **extra}
    return subprocess.run(
        [SCRIPT, *words], capture_output=True, check=False, env=environment, cwd=ROOT
    )


def test_the_script_answers_on_an_ascii_terminal():
    """The ellipsis of what was typed becomes three dots; JSON says the same in escapes."""
    ascii_only = {"PYTHONIOENCODING": "ascii", "NO_COLOR": "1"}
    words = ("decode", "tarvane-1952-1961", "frame_number", "37001…")
    page = script(*words, **ascii_only)
    assert (page.returncode, page.stderr) == (0, b"")
    assert b"37001..." in page.stdout
    assert page.stdout.isascii()
    machine = script(*words, "--json", **ascii_only)
    assert b'"37001\\u2026"' in machine.stdout


def test_the_script_keeps_to_a_narrow_terminal():
    """Sixty columns: no line is longer."""
    page = script("book", "show", "tarvane-1952-1961").stdout.decode()
    assert max(len(line) for line in page.splitlines()) <= 60


def test_a_reader_that_stops_reading_is_no_fault():
    """witnessmark book show ... | true"""
    with subprocess.Popen(
        [SCRIPT, "book", "show", "tarvane-1952-1961", "--json"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    ) as running:
        assert running.stdout is not None
        assert running.stderr is not None
        running.stdout.close()
        said = running.stderr.read()
        code = running.wait()
    assert said == b""
    assert code in (-signal.SIGPIPE, 0)


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
@pytest.mark.parametrize("unbuffered", ["", "1"])
@pytest.mark.parametrize("words", [("book", "list"), ("--help",)], ids=" ".join)
def test_a_full_disk_is_one_calm_sentence(words, unbuffered):
    """witnessmark book list > /dev/full; a help text, which the command library prints, too."""
    with open("/dev/full", "wb") as full:
        ended = subprocess.run(
            [SCRIPT, *words],
            stdout=full,
            stderr=subprocess.PIPE,
            env={**os.environ, "PYTHONUNBUFFERED": unbuffered},
            check=False,
        )
    assert ended.returncode == 2
    assert ended.stderr.decode() == (
        "The answer could not be printed (No space left on device).\n"
        "expected room where it is printed to\n"
    )


def test_a_folder_for_temporary_files_that_is_not_there_stops_nothing(tmp_path):
    """TMPDIR=/nowhere witnessmark field-sheet bare: the next best folder is taken."""
    bare, out = str(tmp_path / "bare"), tmp_path / "sheet.pdf"
    book, claim = ("--book", "tarvane-1952-1961"), ("--claim", "model_year=1955")
    assert script("case", "new", bare, "--id", "bare", *book, *claim).returncode == 0
    nowhere = str(tmp_path / "nowhere")
    ended = script("field-sheet", bare, "--out", str(out), TMPDIR=nowhere)
    assert (ended.returncode, ended.stderr) == (0, b"")
    assert out.read_bytes().startswith(b"%PDF-")


def test_problems_reach_the_shell_as_exit_code_2():
    """witnessmark examine nowhere"""
    ended = script("examine", "nowhere")
    assert (ended.returncode, ended.stdout) == (2, b"")
    assert b"there is no case here" in ended.stderr


def test_a_full_disk_is_told_in_a_sentence(type_in, monkeypatch):
    """It is no fault of our own."""

    def full(*_: object, **__: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("witnessmark.cli.opening.open_book", full)
    ended = type_in("book", "show", "tarvane-1952-1961")
    assert (ended.code, ended.out) == (2, "")
    assert ended.err.startswith("There is no room to write (No space left on device); ")
    assert ended.err.endswith("\nexpected room there, or another folder named in TMPDIR\n")


def test_no_folder_for_temporary_files_is_told_in_a_sentence(type_in, monkeypatch):
    """Each that could take them is missing or full."""

    def none(*_: object, **__: object) -> str:
        raise FileNotFoundError(2, "No usable temporary directory found in ['/tmp']")

    monkeypatch.setattr("tempfile.gettempdir", none)
    monkeypatch.setattr("witnessmark.cli.opening.open_book", none)
    ended = type_in("book", "show", "tarvane-1952-1961")
    assert (ended.code, ended.out) == (2, "")
    assert ended.err == (
        "No folder takes temporary files: each is missing, full or closed to this user. "
        "No half-written file was left.\n"
        "expected room there, or another folder named in TMPDIR\n"
    )
