"""Faults of a case: of its fields, then of its files, which are not there, not readable or not
what was entered; one class a kind, its sentence written once."""

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
    says = "the {noun} {name!q} appears twice, first on line {first_line}"
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
    "a JPEG of it: set the phone's camera to JPEG before the visit; from a picture already "
    "taken, export a full-size JPEG and keep the original beside the case"
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
    PHONE = "has the ending of a HEIC picture, as phones store them, which cannot be read"
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


class DayBefore(Problem):
    """Two days of which the second comes first: a slip of the pen."""

    what: str
    day: str
    other: str
    other_day: str
    says = "{what}, {day}, lies before {other}, {other_day}"
    wants = "a day not before {other_day}"


class SumLeftOut(Problem):
    """A sum that does not say what it is: no fault of the case, but no document prints it."""

    missing: tuple[str, ...]
    says = "no document prints this sum: it lacks {missing!l}"
    wants = 'an entry in "sums" with kind, currency, date, source and by filled in'


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


class CaseAbsent(Problem):
    """No case at the place that was given."""

    says = "there is no case here"
    wants = "a folder with case.json in it, or the path of such a file"


class CaseUnreadable(Problem):
    """The system refuses to read or write the case."""

    reason: str
    says = "this cannot be read: {reason}"


class CaseUnwritable(Problem):
    """The system refuses to write the case; what was there before is untouched."""

    reason: str
    says = "the case was not written, and nothing was changed: {reason}"


class CaseExists(Problem):
    """A new case would overwrite one that is there; `written` says whose, and since when."""

    written: str = ""

    wants = "another folder"

    @property
    def says(self) -> str:
        """That one is there, and who was first."""
        return (
            "there is already a case here, {written}"
            if self.written
            else "there is already a case here"
        )


class CaseMovedOn(Problem):
    """Another wrote the case while a change of it was being made."""

    written: str

    wants = "the same command again, which reads what is there now"

    @property
    def says(self) -> str:
        """Who was first, where the system tells."""
        if self.written:
            return "the case was changed meanwhile ({written}); nothing was written"
        return "the case was changed meanwhile; nothing was written"


class NothingToUndo(Problem):
    """No change that a command made, or all taken back."""

    says = "there is no change that could be taken back"


class RevisionAbsent(Problem):
    """A revision that was asked for and is not there."""

    says = "there is no such revision"
    wants = "one that `witnessmark case history` lists"


class RevisionBroken(Problem):
    """A file among the revisions that is not what was written there."""

    reason: str
    says = "this is not the revision that was written here: {reason}"
    wants = "the file as it was; or the folder revisions/ moved away, and a new one is begun"


class NotAFile(Problem):
    """A device, a pipe or a folder where a file is needed."""

    says = "this is not a file"
    wants = "a folder with case.json in it, or the path of such a file"


class ExhibitProblem(Problem):
    """The base of every fault of one exhibit's file."""

    file: str

    @property
    def path(self) -> str:
        """The file as its user finds it: one with a folder in its name is not in the case yet."""
        return self.file if "/" in self.file else f"exhibits/{self.file}"


class ExhibitAbsent(ExhibitProblem):
    """The case lists it and the folder does not have it."""

    says = "{path!q} is not there"
    wants = "the file beside the case, in exhibits/"


class ExhibitOutside(ExhibitProblem):
    """A link that leads out of `exhibits/`."""

    says = "{path!q} is a link that leads out of the folder"
    wants = "the file itself"


class ExhibitUnreadable(ExhibitProblem):
    """Not a file, or the system refuses to read it."""

    reason: str
    says = "{path!q} cannot be read: {reason}"


class ExhibitUnwritable(ExhibitProblem):
    """The system refuses to put a file into the case."""

    reason: str
    says = "{path!q} cannot be written, and nothing was changed: {reason}"


class ExhibitTooLarge(ExhibitProblem):
    """More bytes than an exhibit may have."""

    most_megabytes: int
    says = "{path!q} is larger than {most_megabytes} MB"
    wants = "at most {most_megabytes} MB; keep the original, and enter a smaller copy"


class ExhibitChanged(ExhibitProblem):
    """Other bytes than those that were entered."""

    found: str
    entered: str
    says = "{path!q} is not the file that was entered: its SHA-256 is {found}"
    wants = "{entered}"


class MediaTypeUnknown(ExhibitProblem):
    """Content of no kind that an exhibit may have."""

    says = "{path!q} is of a kind that cannot be read"
    wants = "a JPEG, PNG or TIFF picture, or a PDF"


class PhonePicture(ExhibitProblem):
    """A HEIC or AVIF picture, by its first bytes."""

    says = "{path!q} is a HEIC picture, as phones store them, which cannot be read"
    wants = PHONE_EXPORT


class MediaTypeDiffers(ExhibitProblem):
    """The ending of the name says one thing, the content another."""

    named: str
    found: str
    says = "{path!q} is named as {named} but holds {found}"
    wants = "a name whose ending fits what the file holds"


class PictureTooLarge(ExhibitProblem):
    """A picture whose header promises more pixels than we would ever unpack."""

    width_px: int
    height_px: int
    most_megapixels: int
    most_a_side: int
    says = "{path!q} is a picture of {width_px} × {height_px} pixels"

    @property
    def wants(self) -> str:
        """The limit that it passes."""
        if self.width_px * self.height_px > self.most_megapixels * 1_000_000:
            return "at most {most_megapixels} million pixels"
        return "at most {most_a_side} pixels a side"


class RegionOutside(ExhibitProblem):
    """A region for a number that does not lie in the picture."""

    width_px: int
    height_px: int

    @property
    def says(self) -> str:
        """How large the picture is, or that it is none."""
        if not self.width_px:
            return "{path!q} is a PDF, which has no pixels"
        return (
            "the region reaches beyond {path!q}, "
            "which has {width_px} × {height_px} pixels when it stands upright"
        )

    @property
    def wants(self) -> str:
        """What a region is."""
        if not self.width_px:
            return "no regions; a PDF is never shown in a masked copy"
        return "left + width and top + height within the picture"


class ExhibitBroken(ExhibitProblem):
    """A picture or document that breaks off or cannot be made out."""

    is_cut_short: bool
    wants = "a whole file; copy it again from where it came from"

    @property
    def says(self) -> str:
        """How it is broken."""
        if self.is_cut_short:
            return "{path!q} breaks off before its end"
        return "{path!q} cannot be deciphered"
