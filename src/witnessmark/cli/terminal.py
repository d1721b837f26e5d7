"""Lays text out for a person at a terminal, and prints what a machine reads.

Everything is printed as it stands: no mark-up is read in it, a control
character is shown as its number, and a sign that the terminal does not know
becomes the nearest plain one. Words carry every meaning; bold is only extra.
"""

import codecs
import json
import os
import shutil
import sys
import textwrap
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import NoReturn, TextIO

import typer

from witnessmark.problem import Problem, render_all

NARROWEST = 40
WIDEST = 92

PLAIN_SIGNS = {
    "…": "...", "–": "-", "—": "-", "−": "-", "×": "x", "·": "*", "•": "*", "→": "->",
    "≥": ">=", "≤": "<=", "‘": "'", "’": "'", "“": '"', "”": '"', "\u00a0": " ", "½": "1/2",
}  # fmt: skip
"""What stands for a sign on a terminal that has only ASCII."""


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


def printable(text: str) -> str:
    """The text with control and direction characters shown as their numbers; lines stay.

    >>> printable("a\\x1b[31mb")
    'a\\\\x1b[31mb'
    """
    if text.replace("\n", "").isprintable():
        return text
    return "".join(sign if _is_seen(sign) else _number(sign) for sign in text)


def _is_seen(sign: str) -> bool:
    """Does it stand where it is written? Spaces of any width do, and line ends are wanted."""
    return sign == "\n" or sign.isprintable() or unicodedata.category(sign) == "Zs"


def _number(sign: str) -> str:
    return repr(sign)[1:-1]


def page_width() -> int:
    """Columns to lay out for: the terminal's, within what reads well."""
    return max(NARROWEST, min(shutil.get_terminal_size((80, 24)).columns, WIDEST))


def print_outline(outline: object) -> None:
    """Print lists and mappings as JSON."""
    print_json(json.dumps(outline, ensure_ascii=False, indent=2))


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


def _json_escape(sign: str) -> str:
    units = sign.encode("utf-16-be", "surrogatepass")
    return "".join(f"\\u{units[at]:02x}{units[at + 1]:02x}" for at in range(0, len(units), 2))


def refuse(problems: Iterable[Problem]) -> NoReturn:
    """Show all problems and end with exit code 2."""
    show_problems(problems)
    raise typer.Exit(2)


def show_problems(problems: Iterable[Problem]) -> None:
    """Show all problems on the error stream, in the order of their places."""
    shown = tuple(problems)
    if shown:
        print_line(render_all(shown), sys.stderr)


def print_line(text: str, stream: TextIO | None = None) -> None:
    """Print a text as it stands."""
    _write(stream or sys.stdout, "\n".join(map(printable, text.split("\n"))) + "\n")


class NotPrintedError(OSError):
    """Where the answer goes takes no more of it."""


def _write(stream: TextIO, text: str) -> None:
    try:
        stream.write(text)
        stream.flush()
    except OSError as fault:
        raise NotPrintedError(fault.errno, fault.strerror) from fault


@dataclass(slots=True)
class Sheet:
    """A page under way: paragraphs and tables, wrapped to `width` and printed at the end."""

    width: int = field(default_factory=page_width)
    lines: list[str] = field(default_factory=list)

    def title(self, text: str) -> None:
        """The first line of a page."""
        self._bold(text, "")

    def heading(self, text: str) -> None:
        """A line that opens a part of the page."""
        self.gap()
        self._bold(text, "")

    def gap(self) -> None:
        """One empty line, never two, and none at the top."""
        if self.lines and self.lines[-1]:
            self.lines.append("")

    def say(self, text: str, indent: int = 0, hanging: int = 0) -> None:
        """A paragraph; lines after the first stand `hanging` further in."""
        for paragraph in printable(text).split("\n"):
            self.lines.extend(self._wrap(paragraph, " " * indent, " " * (indent + hanging)))

    def exactly(self, text: str, indent: int = 0) -> None:
        """Lines that must not be wrapped: a reading with a mark under it."""
        self.lines.extend(" " * indent + printable(line) for line in text.split("\n"))

    def pointed_at(self, text: str, column: int, said: str, indent: int = 0) -> None:
        """The line of a text that holds this column, from 1, and what is said of the sign there
        below it, behind a ^; where that leaves too little room, on the next line."""
        before = text[: column - 1].split("\n")
        line = before[-1] + text[column - 1 :].split("\n")[0]
        at = len(printable(before[-1].replace("\t", " ")))
        self.exactly(line.replace("\t", " "), indent)
        start = " " * (indent + at) + "^"
        if len(start) <= self.width // 2:
            self.lines.extend(self._wrap(f"{start} {printable(said)}", "", " " * len(start)))
        else:
            self.exactly(start)
            self.say(said, indent)

    def height(self, text: str, indent: int = 0, hanging: int = 0) -> int:
        """How many lines a paragraph takes."""
        lines = printable(text).split("\n")
        return sum(len(self._wrap(each, " " * indent, " " * (indent + hanging))) for each in lines)

    def lines_told(self) -> int:
        """Lines of the page so far that are not empty."""
        return sum(bool(line) for line in self.lines)

    def pair(self, label: str, text: str, label_width: int, indent: int = 2) -> None:
        """A label and what it stands for; the text keeps to its own column."""
        start = " " * indent + printable(label).replace("\n", " ").ljust(label_width) + "  "
        if len(start) > self.width // 2:
            self.say(label, indent)
            self.say(text, indent + 4)
            return
        first, *others = printable(text).split("\n")
        self.lines.extend(self._wrap(first, start, " " * len(start)) or [start.rstrip()])
        for each in others:
            self.lines.extend(self._wrap(each, " " * len(start), " " * len(start)))

    def pairs(self, rows: Iterable[tuple[str, str]], indent: int = 2) -> None:
        """Labels in one column, texts in the next."""
        kept = [(label, text) for label, text in rows if text]
        width = max((len(printable(label)) for label, _ in kept), default=0)
        for label, text in kept:
            self.pair(label, text, width, indent)

    def table(self, rows: Iterable[tuple[str, ...]], indent: int = 2) -> None:
        """Columns as wide as their longest cell, the last one wrapped.

        Where the others leave the last too little room, its text goes below.
        """
        kept = [tuple(printable(cell).replace("\n", " ") for cell in row) for row in rows]
        if not kept:
            return
        widths = [max(len(row[at]) for row in kept) for at in range(len(kept[0]) - 1)]
        for *cells, last in kept:
            start = " " * indent + "".join(
                cell.ljust(width) + "  " for cell, width in zip(cells, widths, strict=True)
            )
            if len(start) > self.width * 2 // 3:
                self.lines.extend(self._wrap(start.strip(), " " * indent, " " * (indent + 2)))
                self.lines.extend(self._wrap(last, " " * (indent + 4), " " * (indent + 4)))
            else:
                self.lines.extend(self._wrap(last, start, " " * len(start)) or [start.rstrip()])

    def show(self) -> None:
        """Print the page."""
        bold, normal = ("\x1b[1m", "\x1b[0m") if _may_style() else ("", "")
        marked = (
            bold + line[1:] + normal if line.startswith(_BOLD) else line for line in self.lines
        )
        _write(sys.stdout, "\n".join(marked) + "\n")

    def _bold(self, text: str, indent: str) -> None:
        self.lines.extend(_BOLD + line for line in self._wrap(printable(text), indent, indent))

    def _wrap(self, text: str, first: str, others: str) -> list[str]:
        """Wrapped at spaces only, so that paths and numbers stay whole; no % begins a line."""
        lines = textwrap.wrap(
            text.replace(" %", _JOINED),
            self.width,
            initial_indent=first,
            subsequent_indent=others,
            break_long_words=False,
            break_on_hyphens=False,
        )
        return [line.replace(_JOINED, " %") for line in lines]


_JOINED = "\x03%"
"""Stands for a blank and a % while a text is wrapped; no text can hold it."""

_BOLD = "\x02"
"""Opens a line that may be set bold; no text can hold it, since it is not printable."""


def _may_style() -> bool:
    """Bold on a terminal that can show it, unless the user asked for none."""
    return (
        sys.stdout.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"
    )


def shortened(text: str, most: int) -> str:
    """A text of at most so many characters; what is too long ends in ... behind a word.

    >>> shortened("VIN, Cowl Tag, and other Numbers", 20)
    'VIN, Cowl Tag ...'
    """
    if len(text) <= most:
        return text
    return text[: most - 3].rpartition(" ")[0].rstrip(" ,;:(") + " ..."


def percent(share: float) -> str:
    """A share in whole per cent; what is not nothing is never shown as nothing.

    The words of an Opinion have their own, finer form in wording; this one
    spares the first look at a number the import of all that.

    >>> percent(0.5), percent(0.00001), percent(0.99999)
    ('50 %', 'under 1 %', 'over 99 %')
    """
    if 0 < share < 0.01:
        return "under 1 %"
    if 0.99 < share < 1:
        return "over 99 %"
    return f"{share * 100:.0f} %"


def count(number: int, noun: str) -> str:
    """A number with its noun.

    >>> count(1, "mark"), count(2, "mark"), count(0, "look")
    ('1 mark', '2 marks', 'no looks')
    """
    return f"{number or 'no'} {noun}{'' if number == 1 else 's'}"
