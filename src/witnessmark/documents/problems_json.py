"""Faults of a case's text as JSON, before anybody asks what the fields mean."""

from enum import StrEnum

from witnessmark.problem import Problem


class JsonSlip(StrEnum):
    """What people and programs get wrong when they write JSON."""

    EMPTY = "there is nothing in it"
    ENDS = "the text ends here, before the case does"
    GOES_ON = "the text goes on after the end of the case"
    COMMA_MISSING = "a comma is missing here"
    COMMA_TOO_MANY = "there is a comma too many before this bracket"
    COLON_MISSING = "a colon is missing here"
    KEY_UNQUOTED = "this field name is not in double quotes"
    TEXT_UNQUOTED = "this text is not in double quotes"
    TEXT_NOT_CLOSED = "the quote that opens this text is not closed on its line"
    COMMENT = "this is a comment, and JSON has none"
    ESCAPE = "this is not an escape that JSON knows"
    WRONG_BRACKET = "this bracket closes nothing that is open"
    NOT_A_VALUE = "this is not a value"


class MalformedJson(Problem):
    """The text stops being JSON here; nothing after it could be read."""

    slip: JsonSlip
    wanted: str = ""
    says = "{slip}"
    wants = "{wanted}"


class NotAnObject(Problem):
    """The document is a list, a text or a number."""

    kind: str
    says = "a case is one object, and this is {kind}"
    wants = '{{ "format": "witnessmark-case", … }}'


class DuplicateKey(Problem):
    """One object names a field twice; one of the two values would be lost."""

    key: str
    first_line: int
    says = "{key!q} appears twice in one object, first on line {first_line}"
    wants = "each field once"


class NotANumber(Problem):
    """NaN and Infinity, which some programs write and JSON does not have."""

    word: str
    says = "{word} is not a number that a case can hold"
    wants = "a finite number, or null"


class NumberTooLong(Problem):
    """A number of very many digits, or beyond what a machine number holds."""

    digits: int
    says = "this number of {digits} characters is too large to be one"
    wants = "a number below 1e308, written with at most 300 characters"


class UnreadableCharacter(Problem):
    """A control character or half a surrogate pair in a text."""

    code_point: int

    @property
    def says(self) -> str:
        """What it is."""
        if self.code_point == 0:
            return "there is a NUL character (U+0000) in this text"
        if self.is_half:
            return "there is half a character (U+{code_point:04X}, a lone surrogate) in this text"
        return "there is a control character (U+{code_point:04X}) in this text"

    @property
    def wants(self) -> str:
        """What can stand instead."""
        if self.is_half:
            return "the character itself, or both halves of its pair"
        return r"characters that can be read; a line end is \n, a tab \t"

    @property
    def is_half(self) -> bool:
        """Is it one of a pair that stands alone?"""
        return 0xD800 <= self.code_point <= 0xDFFF


class TooManyProblems(Problem):
    """The list was cut: a thousand problems help nobody."""

    shown_count: int
    says = "there is more wrong after this; only the first {shown_count} are shown"


class TooManyValues(Problem):
    """More values than any case has."""

    most: int
    says = "there are more than {most} values in this text"
    wants = "a case; anything long belongs in a file in exhibits/"


class TooLarge(Problem):
    """A text larger than any case."""

    most_megabytes: int
    says = "a case is never larger than {most_megabytes} MB, and this is"
    wants = "photographs and papers as files in exhibits/"


class FieldMissing(Problem):
    """A field that every such record needs."""

    field: str
    meaning: str
    says = "the field {field!q} is missing"

    @property
    def wants(self) -> str:
        """The field, with its meaning where it has one."""
        return '"{field}": {meaning}' if self.meaning else '"{field}"'


class FieldWrongKind(Problem):
    """A number where a text belongs, and the like."""

    field: str
    found: str
    wanted: str
    says = "{field!q} is {found}"
    wants = "{wanted}"


class NotOneOf(Problem):
    """A word that is not in the list that the field allows."""

    found: str
    noun: str
    allowed: tuple[str, ...]
    says = "{found!q} is not {noun}"
    wants = "one of: {allowed!l}"


class TextTooLong(Problem):
    """A text beyond the limit of its field."""

    field: str
    length: int
    longest: float
    says = "the text of {field!q} has {length} characters"
    wants = "at most {longest}"


class TextEmpty(Problem):
    """An empty text in a field that must say something."""

    field: str
    meaning: str
    says = "{field!q} is empty"
    wants = "{meaning}"


class BadPartialDate(Problem):
    """A date as exact as it is known that is none."""

    why: str
    says = "{why}"
    wants = "a year, a month or a day: 1955, 1955-03 or 1955-03-14"


class BadDay(Problem):
    """A day that is not in the calendar or not written as one."""

    found: str
    says = "{found!q} is not a day"
    wants = "a day such as 2025-03-14"


class BadMoment(Problem):
    """A day with a time that is not written as one."""

    found: str
    says = "{found!q} is not a day with a time"
    wants = "2025-03-14T10:30, or with its zone 2025-03-14T10:30:00+01:00"


class OutOfBounds(Problem):
    """A number outside the bounds of its field."""

    field: str
    found: str
    bound: str
    says = "{field!q} is {found}"
    wants = "a number {bound}"
