"""Faults of a case's fields: one class a kind, its sentence written once."""

from dataclasses import dataclass
from enum import StrEnum

from witnessmark.documents.problems_json import shown
from witnessmark.problem import Problem


@dataclass(frozen=True, slots=True)
class WrongVersion(Problem):
    """A document of another format version than this program reads."""

    found: str
    readable: int

    def sentence(self) -> str:
        """Both versions."""
        return f"this is format version {self.found}, this program reads up to {self.readable}"

    def expected(self) -> str:
        """The version read, and where to turn."""
        return f'"format_version": {self.readable}, or a program that reads {self.found}'


@dataclass(frozen=True, slots=True)
class WrongFormat(Problem):
    """A document that is not a case."""

    found: str
    readable: str

    def sentence(self) -> str:
        """The format it names."""
        return f"this is no case: its format is {shown(self.found)}"

    def expected(self) -> str:
        """The format of a case."""
        return f'"format": "{self.readable}"'


@dataclass(frozen=True, slots=True)
class FieldMissing(Problem):
    """A field that every such record needs."""

    field: str
    meaning: str

    def sentence(self) -> str:
        """The field."""
        return f"the field {shown(self.field)} is missing"

    def expected(self) -> str:
        """What the field means."""
        return f'"{self.field}": {self.meaning}' if self.meaning else f'"{self.field}"'


@dataclass(frozen=True, slots=True)
class WrongKind(Problem):
    """A number where a text belongs, and the like."""

    field: str
    found: str
    wanted: str

    def sentence(self) -> str:
        """The field and what it holds."""
        return f"{shown(self.field)} is {self.found}"

    def expected(self) -> str:
        """What it should hold."""
        return self.wanted


@dataclass(frozen=True, slots=True)
class NotOneOf(Problem):
    """A word that is not in the list that the field allows."""

    found: str
    noun: str
    allowed: tuple[str, ...]

    def sentence(self) -> str:
        """The word."""
        return f"{shown(self.found)} is not {self.noun}"

    def expected(self) -> str:
        """The whole list."""
        return "one of: " + ", ".join(self.allowed)


@dataclass(frozen=True, slots=True)
class TextTooLong(Problem):
    """A text beyond the limit of its field."""

    field: str
    length: int
    longest: int

    def sentence(self) -> str:
        """The field and the length of its text."""
        return f"the text of {shown(self.field)} has {self.length} characters"

    def expected(self) -> str:
        """The limit."""
        return f"at most {self.longest}"


@dataclass(frozen=True, slots=True)
class TextEmpty(Problem):
    """An empty text in a field that must say something."""

    field: str
    meaning: str

    def sentence(self) -> str:
        """The field."""
        return f"{shown(self.field)} is empty"

    def expected(self) -> str:
        """What the field means."""
        return self.meaning


@dataclass(frozen=True, slots=True)
class BadPartialDate(Problem):
    """A date as exact as it is known that is none."""

    why: str

    def sentence(self) -> str:
        """What is wrong with it, in the words of the room of dates."""
        return self.why

    def expected(self) -> str:
        """The three forms."""
        return "a year, a month or a day: 1955, 1955-03 or 1955-03-14"


@dataclass(frozen=True, slots=True)
class BadDay(Problem):
    """A day that is not in the calendar or not written as one."""

    found: str

    def sentence(self) -> str:
        """The text."""
        return f"{shown(self.found)} is not a day"

    def expected(self) -> str:
        """The form."""
        return "a day such as 2025-03-14"


@dataclass(frozen=True, slots=True)
class BadMoment(Problem):
    """A day with a time that is not written as one."""

    found: str

    def sentence(self) -> str:
        """The text."""
        return f"{shown(self.found)} is not a day with a time"

    def expected(self) -> str:
        """The forms."""
        return "2025-03-14T10:30, or with its zone 2025-03-14T10:30:00+01:00"


@dataclass(frozen=True, slots=True)
class BadCaseId(Problem):
    """A case id with other characters than a file name can bear everywhere."""

    found: str

    def sentence(self) -> str:
        """The id."""
        return f"{shown(self.found)} cannot name a case"

    def expected(self) -> str:
        """The form."""
        return (
            "1 to 80 of the letters A-Z and a-z, digits, full stop, hyphen and underscore, "
            "a letter or digit first"
        )


@dataclass(frozen=True, slots=True)
class BadDigest(Problem):
    """A text that is not a SHA-256."""

    found: str

    def sentence(self) -> str:
        """The text."""
        return f"{shown(self.found)} is not a SHA-256"

    def expected(self) -> str:
        """The form."""
        return "64 digits, 0-9 and a-f in small letters"


@dataclass(frozen=True, slots=True)
class OutOfBounds(Problem):
    """A number outside the bounds of its field."""

    field: str
    found: str
    bound: str

    def sentence(self) -> str:
        """The field and its number."""
        return f"{shown(self.field)} is {self.found}"

    def expected(self) -> str:
        """The bound that it passes."""
        return f"a number {self.bound}"


@dataclass(frozen=True, slots=True)
class FieldRefused(Problem):
    """A value that cannot be used, for a reason we have no word for yet."""

    field: str
    meaning: str

    def sentence(self) -> str:
        """The field."""
        return f"the value of {shown(self.field)} cannot be used"

    def expected(self) -> str:
        """What the field means."""
        return self.meaning


@dataclass(frozen=True, slots=True)
class NamedTwice(Problem):
    """Two entries where one is meant: two states of a site, two values of a row."""

    noun: str
    name: str
    first_line: int

    def sentence(self) -> str:
        """What stands twice, and where it stood first."""
        return f"the {self.noun} {shown(self.name)} stands twice, first on line {self.first_line}"

    def expected(self) -> str:
        """One."""
        return f"one entry for each {self.noun}"


@dataclass(frozen=True, slots=True)
class ExhibitUnknown(Problem):
    """A reference to an exhibit that the case does not list."""

    exhibit: str
    known: tuple[str, ...]

    def sentence(self) -> str:
        """The id."""
        return f"no exhibit of this case is called {shown(self.exhibit)}"

    def expected(self) -> str:
        """The exhibits there are, when they are few enough to help."""
        if not self.known:
            return 'an entry with this id in "exhibits", which is empty'
        if len(self.known) > 12:
            return f'one of the {len(self.known)} ids in "exhibits"'
        return "one of: " + ", ".join(self.known)


class NameFault(StrEnum):
    """Why a name cannot be the name of a file in `exhibits/`."""

    FOLDER = "names a folder"
    UP = "leads out of the folder"
    DRIVE = "names a drive or a stream"
    HIDDEN = "is hidden"
    UNREADABLE = "holds a character that cannot be seen"
    FORBIDDEN = "holds a character that some systems forbid"
    EDGE = "begins or ends with a space or a full stop"
    RESERVED = "is the name of a device on some systems"
    LONG = "is too long for some systems"
    ENDING = "has an ending that no exhibit has"


@dataclass(frozen=True, slots=True)
class ExhibitNameRefused(Problem):
    """A file name that could lead elsewhere or break on another machine."""

    file: str
    fault: NameFault

    def sentence(self) -> str:
        """The name and its fault."""
        return f"the file name {shown(self.file)} {self.fault}"

    def expected(self) -> str:
        """The form."""
        return (
            "a plain file name such as frame-1.jpg, "
            "ending in .jpg, .jpeg, .png, .tif, .tiff or .pdf"
        )


@dataclass(frozen=True, slots=True)
class BuiltAfterOpening(Problem):
    """The claim dates the car after the case: a slip of the pen."""

    built: str
    opened: str

    def sentence(self) -> str:
        """Both dates."""
        return f"the car is said to be built in {self.built}, after the case was opened"

    def expected(self) -> str:
        """The later bound."""
        return f"a date not after {self.opened}"


@dataclass(frozen=True, slots=True)
class CopyCircle(Problem):
    """Papers copied from one another in a circle: none of them could be the first."""

    marks: tuple[str, ...]

    def sentence(self) -> str:
        """The way round."""
        if len(self.marks) == 1:
            return f"the paper {shown(self.marks[0])} is said to be copied from itself"
        way = " from ".join(shown(mark) for mark in (*self.marks, self.marks[0]))
        return f"papers are said to be copied in a circle: {way}"

    def expected(self) -> str:
        """An end."""
        return "the mark that the first of them was copied from, or nothing"
