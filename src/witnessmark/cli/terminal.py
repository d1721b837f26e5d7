"""Prints an outline for a person at a terminal, and a record for a machine.

Everything is printed as it stands: a control character is shown as its code point, and a
sign that the terminal does not know becomes the nearest plain one.
"""

import codecs
import json
import os
import shutil
import sys
import unicodedata
from collections.abc import Iterable, Mapping
from typing import NoReturn, TextIO

import typer

from witnessmark.cli.problems import render_problem
from witnessmark.outline.letters import visible
from witnessmark.outline.records import Outline
from witnessmark.outline.text import TextLine, text_lines
from witnessmark.problem import Problem, render_all

NARROWEST = 40
WIDEST = 92

PLAIN_SIGNS = {
    "…": "...", "–": "-", "—": "-", "−": "-", "×": "x", "·": "*", "•": "*", "→": "->",
    "≥": ">=", "≤": "<=", "‘": "'", "’": "'", "“": '"', "”": '"', "\u00a0": " ", "½": "1/2",
    "‹": "<", "›": ">",
}  # fmt: skip
"""What stands for a sign on a terminal that has only ASCII."""

BOLD = "1"
COLOURS = {"for": "32", "against": "31", "quiet": "2", "note": "2", "lead": "2"}
"""How a line of each tone is shown: green, red, faint. The words say the same without."""


def prepare_streams() -> None:
    """Let no sign that the terminal lacks stop the answer."""
    codecs.register_error("witnessmark-plain", _plain)
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="witnessmark-plain")


def _plain(fault: UnicodeError) -> tuple[str, int]:
    """The error handler of the streams: plain signs for those that cannot be encoded."""
    if not isinstance(fault, UnicodeEncodeError):
        raise fault
    return "".join(map(_plain_sign, fault.object[fault.start : fault.end])), fault.end


def _plain_sign(sign: str) -> str:
    """The nearest ASCII text; a letter without its accent, else its number."""
    if sign in PLAIN_SIGNS:
        return PLAIN_SIGNS[sign]
    letters = unicodedata.normalize("NFKD", sign).encode("ascii", "ignore").decode()
    return letters or sign.encode("ascii", "backslashreplace").decode()


def page_width() -> int:
    """Columns to lay out for: the terminal's, within what reads well."""
    return max(NARROWEST, min(shutil.get_terminal_size((80, 24)).columns, WIDEST))


def print_outline(outline: Outline) -> None:
    """Print an outline as a page, laid out for the terminal and in its colours, if it has any."""
    lines = text_lines(outline, page_width())
    styled = _styled if _may_style() else lambda line: line.text
    _write(sys.stdout, "\n".join(map(styled, lines)) + "\n")


def _styled(line: TextLine) -> str:
    """The line as a terminal shows it bold, faint or in colour."""
    codes = [*([BOLD] if line.is_bold else []), *filter(None, [COLOURS.get(line.tone)])]
    return f"\x1b[{';'.join(codes)}m{line.text}\x1b[0m" if codes and line.text else line.text


def print_record(record: object) -> None:
    """Print lists and mappings as JSON."""
    print_json(json.dumps(record, ensure_ascii=False, indent=2))


def print_json(text: str) -> None:
    """Print a JSON text with what no screen shows escaped: controls, marks of direction, halves
    of pairs; on a terminal that is not UTF-8 every sign beyond ASCII."""
    is_utf8 = (sys.stdout.encoding or "ascii").lower().replace("_", "-") in ("utf-8", "utf8")
    if not (text.isascii() and text.replace("\n", "").isprintable()):
        text = "".join(
            sign if _is_seen(sign) and (is_utf8 or sign.isascii()) else _json_escape(sign)
            for sign in text
        )
    _write(sys.stdout, text.rstrip("\n") + "\n")


def _is_seen(sign: str) -> bool:
    """Does it stand where it is written? Spaces of any width do, and line ends are wanted."""
    return sign == "\n" or sign.isprintable() or unicodedata.category(sign) == "Zs"


def _json_escape(sign: str) -> str:
    units = sign.encode("utf-16-be", "surrogatepass")
    return "".join(f"\\u{units[at]:02x}{units[at + 1]:02x}" for at in range(0, len(units), 2))


def refuse(problems: Iterable[Problem]) -> NoReturn:
    """Show all problems and end with exit code 2."""
    show_problems(problems)
    raise typer.Exit(2)


def known[T](found: T | Problem) -> T:
    """What was asked for; a problem ends the command."""
    if isinstance(found, Problem):
        refuse((found,))
    return found


def show_problems(problems: Iterable[Problem]) -> None:
    """Show all problems on the error stream, in the order of their places."""
    shown = tuple(problems)
    if shown:
        print_line(render_all(shown), sys.stderr)


def refuse_unless_sound(
    checked: Mapping[str, object], problems: tuple[Problem, ...], *, is_read: bool, as_json: bool
) -> None:
    """What came of a check, for a machine where that is asked for; problems, or that it could
    not be read at all, end the command."""
    if as_json:
        print_record({**checked, "problems": list(map(render_problem, problems))})
    if problems or not is_read:
        refuse(problems)


def print_line(text: str, stream: TextIO | None = None) -> None:
    """Print a text as it stands."""
    _write(stream or sys.stdout, visible(text) + "\n")


class NotPrintedError(OSError):
    """Where the answer goes takes no more of it."""


def _write(stream: TextIO, text: str) -> None:
    try:
        stream.write(text)
        stream.flush()
    except OSError as fault:
        raise NotPrintedError(fault.errno, fault.strerror) from fault


def _may_style() -> bool:
    """Bold and colours on a terminal that can show them, unless the user asked for none."""
    return (
        sys.stdout.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"
    )
