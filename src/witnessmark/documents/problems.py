"""Problems of one text at a time: what cannot be read, and what a key or cell may not hold."""

from dataclasses import dataclass
from difflib import get_close_matches
from functools import lru_cache
from typing import override

from witnessmark.problem import Problem

SHOWN = 60
"""Most characters of a faulty value that are repeated in a sentence."""

MOST_COMPARED = 200
"""Most names among which the nearest is sought."""


def shown(value: str) -> str:
    """A value in quotes, cut where it is long."""
    return repr(value if len(value) <= SHOWN else value[: SHOWN - 1] + "…")


def one_of(words: tuple[str, ...]) -> str:
    """The words that are allowed, as a list for people."""
    return f"one of: {', '.join(words)}"


def nearest(word: str, known: tuple[str, ...]) -> str:
    """What was probably meant, or else what there is if that is short."""
    if close := near_word(word, known):
        return f"{close!r}, which is the nearest"
    return one_of(known) if 0 < len(known) <= 12 else ""


def characters(counts: tuple[int, ...]) -> str:
    """Lengths in words: "4 characters", "1 or 2 characters"."""
    return f"{' or '.join(str(n) for n in counts)} character{'' if counts == (1,) else 's'}"


@lru_cache(maxsize=1024)
def near_word(word: str, known: tuple[str, ...]) -> str:
    """The known word that is written most like this one, or an empty text."""
    return next(iter(get_close_matches(word[:SHOWN], known[:MOST_COMPARED], 1)), "")


@dataclass(frozen=True, slots=True)
class NotUtf8(Problem):
    """The bytes are no UTF-8."""

    byte: int

    @override
    def sentence(self) -> str:
        return f"the byte 0x{self.byte:02X} here is not UTF-8 text"

    @override
    def expected(self) -> str:
        return "a file saved as UTF-8"


@dataclass(frozen=True, slots=True)
class NotToml(Problem):
    """The text of book.toml breaks the rules of TOML; `reason` is the parser's own."""

    reason: str

    @override
    def sentence(self) -> str:
        return f"this is not TOML: {self.reason}"

    @override
    def expected(self) -> str:
        return "one `key = value` a line, under [headers], each text in double quotes"


@dataclass(frozen=True, slots=True)
class TooDeep(Problem):
    """Keys or lists are nested beyond all use."""

    @override
    def sentence(self) -> str:
        return "keys or lists are nested too deeply"

    @override
    def expected(self) -> str:
        return "the few levels that the format has"


@dataclass(frozen=True, slots=True)
class UnknownKey(Problem):
    """A key that the table does not have."""

    key: str
    shape: str
    known: tuple[str, ...]

    @override
    def sentence(self) -> str:
        return f"{shown(self.key)} is not a key of {self.shape}"

    @override
    def expected(self) -> str:
        return nearest(self.key, self.known) or one_of(self.known)


@dataclass(frozen=True, slots=True)
class MissingKey(Problem):
    """A key that must be there is not, or is empty."""

    key: str
    shape: str
    wanted: str

    @override
    def sentence(self) -> str:
        return f"{self.shape} needs {self.key!r}"

    @override
    def expected(self) -> str:
        return self.wanted


@dataclass(frozen=True, slots=True)
class WrongKind(Problem):
    """A value is of another kind than the key holds."""

    key: str
    found: str
    wanted: str

    @override
    def sentence(self) -> str:
        return f"{self.key!r} is {self.found} here"

    @override
    def expected(self) -> str:
        return self.wanted


@dataclass(frozen=True, slots=True)
class UnknownWord(Problem):
    """A text is none of the words that the key knows."""

    key: str
    found: str
    words: tuple[str, ...]

    @override
    def sentence(self) -> str:
        return f"{shown(self.found)} is not a word for {self.key!r}"

    @override
    def expected(self) -> str:
        return one_of(self.words)


@dataclass(frozen=True, slots=True)
class WrongForm(Problem):
    """A text does not have the form that the key asks for."""

    key: str
    found: str
    wanted: str

    @override
    def sentence(self) -> str:
        return f"{shown(self.found)} does not have the form of {self.key!r}"

    @override
    def expected(self) -> str:
        return self.wanted


@dataclass(frozen=True, slots=True)
class OutOfRange(Problem):
    """A number is too small or too large."""

    key: str
    found: int
    least: int
    most: int

    @override
    def sentence(self) -> str:
        size = "too small" if self.found < self.least else "too large"
        number = str(self.found) if abs(self.found) < 10**12 else "a number of many digits"
        return f"{number} is {size} for {self.key!r}"

    @override
    def expected(self) -> str:
        if self.least == self.most:
            return str(self.least)
        return f"{self.least} to {self.most}"
