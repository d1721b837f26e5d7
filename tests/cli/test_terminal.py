"""What a person sees is laid out for their terminal, and is what stands there, nothing else."""

import doctest
import io
import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.cli import terminal
from witnessmark.cli.terminal import Sheet, prepare_streams, print_json, print_line, printable


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


def test_text_in_brackets_is_printed_as_it_stands(monkeypatch):
    """Brackets are part of the notation and must never be taken for mark-up."""
    shown = screen(monkeypatch, "utf-8")
    sheet = Sheet(width=60)
    sheet.title("[bold]10[38]7[/bold]")
    sheet.say("[red]x[/red] \\[y]", 2)
    sheet.table([("[link=a]b", "[/]")])
    sheet.show()
    assert shown.shown() == "[bold]10[38]7[/bold]\n  [red]x[/red] \\[y]\n  [link=a]b  [/]\n"


@given(st.text())
def test_no_text_can_move_the_cursor_or_turn_the_line_round(text):
    """Control and direction characters are shown as numbers; line ends stay."""
    seen = printable(text)
    assert all(sign == "\n" or sign.isprintable() or sign.isspace() for sign in seen)
    assert "\x1b" not in seen
    assert "\u202e" not in seen
    assert seen.count("\n") == text.count("\n")


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
    sheet = Sheet(width=60)
    sheet.title("Engine")
    sheet.show()
    return shown.shown()


@given(
    rows=st.lists(
        st.tuples(st.text("ab -…[", max_size=40), st.text("xy ", max_size=200)), max_size=5
    ),
    width=st.integers(40, 92),
)
def test_lines_stay_within_the_width_unless_one_word_is_longer(rows, width):
    """A path or a number is never broken to fit."""
    sheet = Sheet(width=width)
    sheet.table(rows)
    sheet.pairs(rows)
    for line in sheet.lines:
        longest_word = max((len(word) for word in line.split()), default=0)
        assert len(line) <= width or longest_word > width // 3 or len(line.split()) == 1


def test_a_narrow_page_sets_long_cells_below_each_other():
    """With no room left beside it, the text goes under its label."""
    sheet = Sheet(width=40)
    sheet.table([("tail of the chassis number on the seat pan", "M0143")])
    assert sheet.lines == [
        "  tail of the chassis number on the seat",
        "    pan",
        "      M0143",
    ]


def test_the_page_is_never_narrower_than_can_be_read(monkeypatch):
    """Nor wider than reads well."""
    monkeypatch.setenv("COLUMNS", "7")
    assert terminal.page_width() == terminal.NARROWEST
    monkeypatch.setenv("COLUMNS", "400")
    assert terminal.page_width() == terminal.WIDEST


def test_the_examples_in_the_docstrings_hold():
    """Of the terminal: shares, counts, what is printable."""
    tried = doctest.testmod(terminal)
    assert tried.attempted >= 3
    assert tried.failed == 0


def test_a_sign_is_pointed_at_in_its_own_line():
    """A reading of two rows, a tab in it: the mark stands under the sign that is meant."""
    sheet = Sheet(width=60)
    sheet.pointed_at("ST 69\nTR\t7J1", 11, "a letter stands where figures do", 2)
    assert sheet.lines == ["  TR 7J1", "      ^ a letter stands where figures do"]


def test_what_is_said_of_a_sign_far_to_the_right_stands_on_the_next_line():
    """Else there would be no room for it."""
    sheet = Sheet(width=40)
    sheet.pointed_at("1" * 35, 30, "a letter stands where figures do", 2)
    assert sheet.lines[1:] == [" " * 31 + "^", "  a letter stands where figures do"]


def test_no_line_begins_with_the_sign_of_a_percentage():
    """A number stays with its %."""
    sheet = Sheet(width=40)
    sheet.say("of all that a plate can say it has some 74 %")
    assert sheet.lines == ["of all that a plate can say it has some", "74 %"]


def test_a_paragraph_is_measured_before_it_is_laid_out():
    """As many lines as it takes then."""
    sheet = Sheet(width=40)
    text = "one or two words more than stand on one line\nand a line of its own"
    height = sheet.height(text, 2, 2)
    sheet.say(text, 2, 2)
    sheet.gap()
    assert height == sheet.lines_told() == 3


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
    assert "\\u202e" in ended.out + ended.err
