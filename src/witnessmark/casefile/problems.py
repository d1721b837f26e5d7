"""Faults of a case's fields: one class a kind, its sentence written once."""

from enum import StrEnum

from witnessmark.problem import Problem, shown


class BadCaseId(Problem):
    """A case id with other characters than a file name can bear everywhere."""

    found: str
    says = "{found!q} cannot name a case"
    wants = (
        "1 to 80 of the letters A-Z and a-z, digits, full stop, hyphen and underscore, a "
        "letter or digit first"
    )


class BadDigest(Problem):
    """A text that is not a SHA-256."""

    found: str
    says = "{found!q} is not a SHA-256"
    wants = "64 digits, 0-9 and a-f in small letters"


class NamedTwice(Problem):
    """Two entries where one is meant: two states of a site, two values of a row."""

    noun: str
    name: str
    first_line: int
    says = "the {noun} {name!q} stands twice, first on line {first_line}"
    wants = "one entry for each {noun}"


class ExhibitUnknown(Problem):
    """A reference to an exhibit that the case does not list."""

    exhibit: str
    known: tuple[str, ...]
    says = "no exhibit of this case is called {exhibit!q}"

    @property
    def wants(self) -> str:
        """The exhibits there are, when they are few enough to help."""
        if not self.known:
            return 'an entry with this id in "exhibits", which is empty'
        return (
            "one of: {known!l}"
            if len(self.known) <= 12
            else 'one of the {known!n} ids in "exhibits"'
        )


PHONE_EXPORT = (
    "a JPEG of it: set the phone's camera to JPEG before the visit; of a picture that is taken, "
    "export a JPEG in full size, and keep the original beside the case"
)
"""What is done with a picture in the form that phones keep."""


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
    PHONE = "ends as a picture as phones keep it (HEIC), which is not read"
    ENDING = "has an ending that no exhibit has"


class ExhibitNameRefused(Problem):
    """A file name that could lead elsewhere or break on another machine."""

    file: str
    fault: NameFault
    says = "the file name {file!q} {fault}"

    @property
    def wants(self) -> str:
        """The form; of a phone's picture, how to export it."""
        if self.fault is NameFault.PHONE:
            return PHONE_EXPORT
        return (
            "a plain file name such as frame-1.jpg, "
            "ending in .jpg, .jpeg, .png, .tif, .tiff or .pdf"
        )


class BuiltAfterOpening(Problem):
    """The claim dates the car after the case: a slip of the pen."""

    built: str
    opened: str
    says = "the car is said to be built in {built}, after the case was opened"
    wants = "a date not after {opened}"


class CopyCircle(Problem):
    """Papers copied from one another in a circle: none of them could be the first."""

    marks: tuple[str, ...]
    wants = "the mark that the first of them was copied from, or nothing"

    @property
    def says(self) -> str:
        """The way round, which can be a short one."""
        if len(self.marks) == 1:
            return "the paper {way} is said to be copied from itself"
        return "papers are said to be copied in a circle: {way}"

    @property
    def way(self) -> str:
        """The one paper, or all of them and the first again."""
        round_trip = self.marks if len(self.marks) == 1 else (*self.marks, self.marks[0])
        return " from ".join(map(shown, round_trip))
