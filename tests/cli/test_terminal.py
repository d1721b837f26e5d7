"""What a person sees is laid out for their terminal, and is what stands there, nothing else."""

import io
import json
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.cli import terminal
from witnessmark.cli.terminal import prepare_streams, print_json, print_line, print_outline
from witnessmark.outline.records import Outline


class Screen(io.TextIOWrapper):
    """A stream that may say it is a terminal."""

    def __init__(self, encoding: str, is_terminal: bool = False) -> None:
        super().__init__(io.BytesIO(), encoding=encoding, newline="\n")
        self.is_terminal = is_terminal

    def isatty(self) -> bool:
        return self.is_terminal

    def shown(self) -> str:
        self.flush()
        assert isinstance(self.buffer, io.BytesIO)
        return self.buffer.getvalue().decode(self.encoding)


def screen(monkeypatch: pytest.MonkeyPatch, encoding: str, is_terminal: bool = False) -> Screen:
    made = Screen(encoding, is_terminal)
    monkeypatch.setattr("sys.stdout", made)
    prepare_streams()
    return made


@given(st.text())
def test_no_text_can_move_the_cursor_or_turn_the_line_round(text):
    """Control and direction characters are shown as code points; line ends stay, in one form."""
    with pytest.MonkeyPatch.context() as monkeypatch:
        shown = screen(monkeypatch, "utf-8")
        print_line(text)
        seen = shown.shown()
    assert all(sign == "\n" or sign.isprintable() or sign.isspace() for sign in seen)
    assert seen.count("\n") == 1 + len(re.findall(r"\r\n|\r|\n", text))


def test_an_ascii_terminal_gets_the_nearest_plain_signs(monkeypatch):
    """The ellipsis of a reading, a minus, quotes, an accent, a sign that has no plain form."""
    shown = screen(monkeypatch, "ascii")
    print_line("70…43 −0.50 “é” 車")
    assert shown.shown() == '70...43 -0.50 "e" \\u8eca\n'


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "utf-8"])
@given(text=st.text())
def test_json_says_the_same_on_every_terminal(encoding, text):
    """What is read back is what was meant, lone surrogates included."""
    with pytest.MonkeyPatch.context() as monkeypatch:
        shown = screen(monkeypatch, encoding)
        print_json(json.dumps({"reading": text}, ensure_ascii=False))
        assert json.loads(shown.shown()) == {"reading": text}


def test_bold_is_only_for_a_terminal_whose_user_did_not_refuse_it(monkeypatch):
    """Not in a pipe, not with NO_COLOR, not on a dumb terminal."""
    monkeypatch.setenv("TERM", "xterm")
    monkeypatch.delenv("NO_COLOR", raising=False)
    assert title_shown(monkeypatch, is_terminal=True) == "\x1b[1mEngine\x1b[0m\n"
    assert title_shown(monkeypatch, is_terminal=False) == "Engine\n"
    monkeypatch.setenv("TERM", "dumb")
    assert title_shown(monkeypatch, is_terminal=True) == "Engine\n"
    monkeypatch.setenv("TERM", "xterm")
    monkeypatch.setenv("NO_COLOR", "1")
    assert title_shown(monkeypatch, is_terminal=True) == "Engine\n"


def title_shown(monkeypatch: pytest.MonkeyPatch, is_terminal: bool) -> str:
    shown = screen(monkeypatch, "utf-8", is_terminal)
    print_outline(Outline("Engine"))
    return shown.shown()


def test_the_page_is_never_narrower_than_can_be_read(monkeypatch):
    """Nor wider than reads well."""
    monkeypatch.setenv("COLUMNS", "7")
    assert terminal.page_width() == terminal.NARROWEST
    monkeypatch.setenv("COLUMNS", "400")
    assert terminal.page_width() == terminal.WIDEST


def test_what_no_screen_shows_is_escaped_in_json(capsys):
    text = "4\u009b0\u202e\u007f\u00e9"
    print_json(json.dumps({"reading": text}, ensure_ascii=False))
    printed = capsys.readouterr().out
    assert json.loads(printed)["reading"] == text
    assert not {"\u009b", "\u202e", "\u007f"} & set(printed)


@pytest.mark.parametrize(
    "words",
    [
        ("turned\u202e",),
        ("decode", "--turned\u202e"),
        ("decode", "turned\u202e", "plate", "1"),
        ("report", "case", "--paper", "a\u202e4"),
        ("case", "check", "turned\u202e"),
    ],
    ids=["command", "option", "book", "choice", "case"],
)
def test_what_turns_the_line_round_is_shown_as_a_number_wherever_it_was_typed(type_in, words):
    """Also where the command line itself is refused."""
    ended = type_in(*words)
    assert "\u202e" not in ended.out + ended.err
    assert "202e" in (ended.out + ended.err).lower()
