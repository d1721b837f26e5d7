"""Faults in a reading as it was typed: one class for each sentence."""

from dataclasses import dataclass
from unicodedata import name as unicode_name

from witnessmark.problem import Problem

LONGEST_READING = 500
"""Longest text of one reading, in characters."""

A_SET = "two or more characters such as [38], or ? for a place that cannot be read"


@dataclass(frozen=True, slots=True)
class TooLong(Problem):
    """The text is longer than any mark."""

    length: int

    def sentence(self) -> str:
        """Names the length."""
        return f"the reading is {self.length} characters long"

    def expected(self) -> str:
        """Names the limit."""
        return f"at most {LONGEST_READING} characters"


@dataclass(frozen=True, slots=True)
class NothingTyped(Problem):
    """The text holds no sign at all."""

    def sentence(self) -> str:
        """Says so."""
        return "nothing was typed"

    def expected(self) -> str:
        """Shows what stands for an unreadable mark."""
        return "at least one sign; … for a mark of which nothing can be read, _ for one left empty"


@dataclass(frozen=True, slots=True)
class NotASign(Problem):
    """A code point that no mark can carry: a control character, half a character."""

    character: str

    def sentence(self) -> str:
        """Names the code point."""
        point = f"U+{ord(self.character):04X}"
        name = unicode_name(self.character, "")
        return f"{point}{f' ({name.lower()})' if name else ''} cannot stand on a mark"

    def expected(self) -> str:
        """Says what can."""
        return "a character as it stands on the metal, or a sign of the notation"


@dataclass(frozen=True, slots=True)
class OpenSet(Problem):
    """A bracket that is never closed."""

    def sentence(self) -> str:
        """Says so."""
        return "this [ is never closed"

    def expected(self) -> str:
        """Shows a set."""
        return A_SET


@dataclass(frozen=True, slots=True)
class NotOpened(Problem):
    """A closing bracket without an opening one."""

    def sentence(self) -> str:
        """Says so."""
        return "this ] closes nothing"

    def expected(self) -> str:
        """Shows a set."""
        return A_SET


@dataclass(frozen=True, slots=True)
class SetInSet(Problem):
    """A bracket inside brackets."""

    def sentence(self) -> str:
        """Says so."""
        return "a set stands inside a set"

    def expected(self) -> str:
        """Shows a set."""
        return A_SET


@dataclass(frozen=True, slots=True)
class EmptySet(Problem):
    """Brackets without a character."""

    def sentence(self) -> str:
        """Says so."""
        return "this set names no character"

    def expected(self) -> str:
        """Shows a set."""
        return A_SET


@dataclass(frozen=True, slots=True)
class SignInSet(Problem):
    """A sign that is no character, inside brackets."""

    sign: str

    def sentence(self) -> str:
        """Names the sign."""
        return f"{self.sign} cannot stand in a set"

    def expected(self) -> str:
        """Shows a set."""
        return A_SET


@dataclass(frozen=True, slots=True)
class TooManyWindows(Problem):
    """More windows than the plate has."""

    mark_name: str
    windows: int

    def sentence(self) -> str:
        """Names the mark and its windows."""
        has = "1 window" if self.windows == 1 else f"{self.windows} windows"
        return f"| begins window {self.windows + 1}, and the {self.mark_name} has {has}"

    def expected(self) -> str:
        """Says how many signs fit."""
        return f"at most {self.windows - 1} of the sign |"
