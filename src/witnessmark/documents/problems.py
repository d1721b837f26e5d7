"""Problems of one text at a time: what cannot be read, and what a key or cell may not hold."""

from difflib import get_close_matches
from functools import lru_cache

from witnessmark.problem import VALUE_SHOWN, Problem

MOST_COMPARED = 200
"""Most names among which the nearest is sought."""


def one_of(words: tuple[str, ...]) -> str:
    """The words that are allowed, as a list for people."""
    return f"one of: {', '.join(words)}"


@lru_cache(maxsize=1024)
def near_word(word: str, known: tuple[str, ...]) -> str:
    """The known word that is written most like this one, or an empty text."""
    return next(iter(get_close_matches(word[:VALUE_SHOWN], known[:MOST_COMPARED], 1)), "")


class NotUtf8(Problem):
    """Bytes that are no text in UTF-8."""

    byte: int
    looks_like: str
    wants = "a file saved as UTF-8"

    @property
    def says(self) -> str:
        """With the encoding that it may come from."""
        if self.looks_like:
            return (
                "the byte 0x{byte:02X} is not a UTF-8 character; the file looks like {looks_like}"
            )
        return "the byte 0x{byte:02X} is not a UTF-8 character"


class WrongFormat(Problem):
    """A document that is of another format; `wanted` is the line that it should have."""

    found: str
    noun: str
    wanted: str
    says = "this is not a {noun}: its format is {found!q}"
    wants = "{wanted}"


class WrongVersion(Problem):
    """A document of another version of its format than this program reads; `line` is how it
    gives the version that is read."""

    found: str
    readable: int
    line: str
    says = "this is format version {found}, this program reads up to {readable}"
    wants = "{line}, or a program that reads {found}"


class NotToml(Problem):
    """The text of book.toml breaks the rules of TOML; `reason` is the parser's own."""

    reason: str
    says = "this is not TOML: {reason}"
    wants = "one `key = value` a line, under [headers], each text in double quotes"


class TooDeep(Problem):
    """Lists or keys are nested beyond all use; `deepest` where the reader counts levels."""

    deepest: int = 0
    wants = "only as many levels as the format has"

    @property
    def says(self) -> str:
        """With the limit, where there is one."""
        if self.deepest:
            return "lists and objects are nested more than {deepest} deep"
        return "keys or lists are nested too deeply"


class Unknown(Problem):
    """The base of a name that is none of the known ones: the nearest of them is wanted, or all."""

    name: str
    known: tuple[str, ...]
    wants_else = "one of: {known!l}"

    @property
    def near(self) -> str:
        """What was probably meant, or an empty text."""
        return near_word(self.name, self.known)

    @property
    def wants(self) -> str:
        """The nearest, or all where they are few, or else what the kind says then."""
        if self.near:
            return "{near!r}, which is the nearest"
        return "one of: {known!l}" if 0 < len(self.known) <= 12 else self.wants_else


class UnknownKey(Unknown):
    """A key that the table does not have."""

    shape: str
    says = "{name!q} is not a key of {shape}"


class MissingKey(Problem):
    """A key that must be there is not, or is empty."""

    key: str
    shape: str
    wanted: str
    says = "{shape} needs {key!r}"
    wants = "{wanted}"


class WrongKind(Problem):
    """A value is of another kind than the key holds."""

    key: str
    found: str
    wanted: str
    says = "{key!r} is {found} here"
    wants = "{wanted}"


class UnknownWord(Problem):
    """A text is none of the words that the key knows."""

    key: str
    found: str
    words: tuple[str, ...]
    says = "{found!q} is not one of the words for {key!r}"
    wants = "one of: {words!l}"


class WrongForm(Problem):
    """A text does not have the form that the key asks for."""

    key: str
    found: str
    wanted: str
    says = "{found!q} does not have the form of {key!r}"
    wants = "{wanted}"


class OutOfRange(Problem):
    """A number is too small or too large."""

    key: str
    found: int
    least: float
    most: float

    @property
    def says(self) -> str:
        """Which of the two; very many digits are not repeated."""
        if abs(self.found) >= 10**12:
            if self.found < self.least:
                return "a number of many digits is too small for {key!r}"
            return "a number of many digits is too large for {key!r}"
        if self.found < self.least:
            return "{found} is too small for {key!r}"
        return "{found} is too large for {key!r}"

    @property
    def wants(self) -> str:
        """One number or a range."""
        return "{least}" if self.least == self.most else "{least} to {most}"
