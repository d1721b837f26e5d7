"""Faults of a case's text as JSON, before anybody asks what the fields mean."""

from dataclasses import dataclass
from enum import StrEnum

from witnessmark.problem import Problem

LONGEST_SHOWN = 60
"""Longest value that a sentence repeats, in characters."""


def shown(value: object) -> str:
    """A value as a sentence repeats it: quoted, on one line, cut when long."""
    text = value if isinstance(value, str) else str(value)
    if len(text) <= LONGEST_SHOWN:
        return repr(text)
    return repr(text[: LONGEST_SHOWN - 1] + "…")


class Slip(StrEnum):
    """What people and programs get wrong when they write JSON."""

    EMPTY = "there is nothing in it"
    ENDS = "the text ends here, before the case does"
    GOES_ON = "the text goes on after the end of the case"
    COMMA_MISSING = "a comma is missing here"
    COMMA_TOO_MANY = "a comma too many stands before this bracket"
    COLON_MISSING = "a colon is missing here"
    KEY_UNQUOTED = "this field name is not in double quotes"
    TEXT_UNQUOTED = "this text is not in double quotes"
    TEXT_NOT_CLOSED = "the quote that opens this text is not closed on its line"
    COMMENT = "a comment stands here, and JSON has none"
    ESCAPE = "this is not an escape that JSON knows"
    WRONG_BRACKET = "this bracket closes nothing that is open"
    NOT_A_VALUE = "this is not a value"


@dataclass(frozen=True, slots=True)
class MalformedJson(Problem):
    """The text stops being JSON here; nothing after it could be read."""

    slip: Slip
    wanted: str = ""

    def sentence(self) -> str:
        """The slip, in words."""
        return self.slip.value

    def expected(self) -> str:
        """What could have stood here."""
        return self.wanted


@dataclass(frozen=True, slots=True)
class NotAnObject(Problem):
    """The document is a list, a text or a number."""

    kind: str

    def sentence(self) -> str:
        """What it is instead."""
        return f"a case is one object, and this is {self.kind}"

    def expected(self) -> str:
        """How a case opens."""
        return '{ "format": "witnessmark-case", … }'


@dataclass(frozen=True, slots=True)
class TooDeep(Problem):
    """Lists in lists in lists: refused before anything walks down."""

    deepest: int

    def sentence(self) -> str:
        """The depth at which it stopped."""
        return f"lists and objects stand more than {self.deepest} deep"

    def expected(self) -> str:
        """The depth that is read."""
        return f"at most {self.deepest}, and a case needs 5"


@dataclass(frozen=True, slots=True)
class DuplicateKey(Problem):
    """One object names a field twice; one of the two values would be lost."""

    key: str
    first_line: int

    def sentence(self) -> str:
        """The name, and where it stood first."""
        return f"{shown(self.key)} stands twice in one object, first on line {self.first_line}"

    def expected(self) -> str:
        """Each once."""
        return "each field once"


@dataclass(frozen=True, slots=True)
class NotANumber(Problem):
    """NaN and Infinity, which some programs write and JSON does not have."""

    word: str

    def sentence(self) -> str:
        """The word."""
        return f"{self.word} is not a number that a case can hold"

    def expected(self) -> str:
        """What can stand instead."""
        return "a finite number, or null"


@dataclass(frozen=True, slots=True)
class NumberTooLong(Problem):
    """A number of very many digits, or beyond what a machine number holds."""

    digits: int

    def sentence(self) -> str:
        """How long it is."""
        return f"this number of {self.digits} characters is too large to be one"

    def expected(self) -> str:
        """What can stand instead."""
        return "a number below 1e308, written with at most 300 characters"


@dataclass(frozen=True, slots=True)
class UnreadableCharacter(Problem):
    """A control character or half a surrogate pair in a text."""

    code_point: int

    def sentence(self) -> str:
        """The character by its number, and what it is."""
        code = f"U+{self.code_point:04X}"
        if self.code_point == 0:
            return f"a NUL character ({code}) stands in this text"
        if 0xD800 <= self.code_point <= 0xDFFF:
            return f"half a character ({code}, a lone surrogate) stands in this text"
        return f"a control character ({code}) stands in this text"

    def expected(self) -> str:
        """What can stand instead."""
        if 0xD800 <= self.code_point <= 0xDFFF:
            return "the character itself, or both halves of its pair"
        return r"characters that can be read; a line end is \n, a tab \t"


@dataclass(frozen=True, slots=True)
class TooManyProblems(Problem):
    """The list was cut: a thousand problems help nobody."""

    shown_count: int

    def sentence(self) -> str:
        """How many were shown."""
        return f"there is more wrong after this; only the first {self.shown_count} are shown"


@dataclass(frozen=True, slots=True)
class TooManyValues(Problem):
    """More values than any case has."""

    most: int

    def sentence(self) -> str:
        """The limit."""
        return f"there are more than {self.most} values in this text"

    def expected(self) -> str:
        """Where larger things belong."""
        return "a case; what is long belongs into a file in exhibits/"


@dataclass(frozen=True, slots=True)
class TooLarge(Problem):
    """A text larger than any case."""

    most_megabytes: int

    def sentence(self) -> str:
        """The limit."""
        return f"a case is never larger than {self.most_megabytes} MB, and this is"

    def expected(self) -> str:
        """Where larger things belong."""
        return "photographs and papers as files in exhibits/"
