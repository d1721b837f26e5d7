"""Faults of the files of a case: not there, not readable, not what was entered."""

from dataclasses import dataclass

from witnessmark.casefile.json_problems import shown
from witnessmark.casefile.problems import PHONE_EXPORT
from witnessmark.problem import Problem


@dataclass(frozen=True, slots=True)
class CaseAbsent(Problem):
    """No case at the place that was given."""

    def sentence(self) -> str:
        """That it is not there."""
        return "there is no case here"

    def expected(self) -> str:
        """What to give."""
        return "a folder with case.json in it, or the path of such a file"


@dataclass(frozen=True, slots=True)
class CaseUnreadable(Problem):
    """The system refuses to read or write the case."""

    reason: str

    def sentence(self) -> str:
        """The system's reason."""
        return f"this cannot be read: {self.reason}"


@dataclass(frozen=True, slots=True)
class CaseUnwritable(Problem):
    """The system refuses to write the case; what was there before is untouched."""

    reason: str

    def sentence(self) -> str:
        """The system's reason."""
        return f"the case was not written, and nothing was changed: {self.reason}"


@dataclass(frozen=True, slots=True)
class CaseExists(Problem):
    """A new case would overwrite one that is there; `written` says whose, and since when."""

    written: str = ""

    def sentence(self) -> str:
        """That one is there, and who was first."""
        return f"there is a case here already{', ' if self.written else ''}{self.written}"

    def expected(self) -> str:
        """What to give."""
        return "another folder"


@dataclass(frozen=True, slots=True)
class NotAFile(Problem):
    """A device, a pipe or a folder where a file is needed."""

    def sentence(self) -> str:
        """That it is not a file."""
        return "this is not a file"

    def expected(self) -> str:
        """What to give."""
        return "a folder with case.json in it, or the path of such a file"


@dataclass(frozen=True, slots=True)
class NotUtf8(Problem):
    """Bytes that are no text in UTF-8."""

    byte: int
    looks_like: str

    def sentence(self) -> str:
        """The byte, and the encoding it may come from."""
        hint = f"; the file looks like {self.looks_like}" if self.looks_like else ""
        return f"the byte 0x{self.byte:02X} is no character in UTF-8{hint}"

    def expected(self) -> str:
        """The encoding."""
        return "a file saved as UTF-8"


@dataclass(frozen=True, slots=True)
class ExhibitProblem(Problem):
    """The base of every fault of one exhibit's file."""

    file: str

    def path(self) -> str:
        """The file as its user finds it."""
        return shown(f"exhibits/{self.file}")


@dataclass(frozen=True, slots=True)
class ExhibitAbsent(ExhibitProblem):
    """The case lists it and the folder does not have it."""

    def sentence(self) -> str:
        """The file."""
        return f"{self.path()} is not there"

    def expected(self) -> str:
        """Where it belongs."""
        return "the file beside the case, in exhibits/"


@dataclass(frozen=True, slots=True)
class ExhibitOutside(ExhibitProblem):
    """A link that leads out of `exhibits/`."""

    def sentence(self) -> str:
        """The file."""
        return f"{self.path()} is a link that leads out of the folder"

    def expected(self) -> str:
        """What belongs there."""
        return "the file itself"


@dataclass(frozen=True, slots=True)
class ExhibitUnreadable(ExhibitProblem):
    """Not a file, or the system refuses to read it."""

    reason: str

    def sentence(self) -> str:
        """The file and the reason."""
        return f"{self.path()} cannot be read: {self.reason}"


@dataclass(frozen=True, slots=True)
class ExhibitTooLarge(ExhibitProblem):
    """More bytes than an exhibit may have."""

    most_megabytes: int

    def sentence(self) -> str:
        """The file."""
        return f"{self.path()} is larger than {self.most_megabytes} MB"

    def expected(self) -> str:
        """What to do."""
        return f"at most {self.most_megabytes} MB; keep the original, and enter a smaller copy"


@dataclass(frozen=True, slots=True)
class ExhibitChanged(ExhibitProblem):
    """Other bytes than those that were entered."""

    found: str
    entered: str

    def sentence(self) -> str:
        """The file and the digest of what is there."""
        return f"{self.path()} is not the file that was entered: its SHA-256 is {self.found}"

    def expected(self) -> str:
        """The digest that was entered."""
        return self.entered


@dataclass(frozen=True, slots=True)
class MediaTypeUnknown(ExhibitProblem):
    """Content of no kind that an exhibit may have."""

    def sentence(self) -> str:
        """The file."""
        return f"{self.path()} is of a kind that is not read"

    def expected(self) -> str:
        """The kinds."""
        return "a JPEG, PNG or TIFF picture, or a PDF"


@dataclass(frozen=True, slots=True)
class PhonePicture(ExhibitProblem):
    """A HEIC or AVIF picture, by its first bytes."""

    def sentence(self) -> str:
        """The file and its kind."""
        return f"{self.path()} is a picture as phones keep it (HEIC), which is not read"

    def expected(self) -> str:
        """How to export it."""
        return PHONE_EXPORT


@dataclass(frozen=True, slots=True)
class MediaTypeDiffers(ExhibitProblem):
    """The ending of the name says one thing, the content another."""

    named: str
    found: str

    def sentence(self) -> str:
        """Both."""
        return f"{self.path()} is named as {self.named} and holds {self.found}"

    def expected(self) -> str:
        """What to do."""
        return "a name whose ending fits what the file holds"


@dataclass(frozen=True, slots=True)
class PictureTooLarge(ExhibitProblem):
    """A picture whose header promises more pixels than we would ever unpack."""

    width_px: int
    height_px: int
    most_megapixels: int
    most_a_side: int

    def sentence(self) -> str:
        """The file and its size."""
        size = f"{self.width_px} × {self.height_px} pixels"
        return f"{self.path()} is a picture of {size}"

    def expected(self) -> str:
        """The limit."""
        if self.width_px * self.height_px > self.most_megapixels * 1_000_000:
            return f"at most {self.most_megapixels} million pixels"
        return f"at most {self.most_a_side} pixels a side"


@dataclass(frozen=True, slots=True)
class RegionOutside(ExhibitProblem):
    """A region for a number that does not lie in the picture."""

    width_px: int
    height_px: int

    def sentence(self) -> str:
        """The file, and how large it is."""
        if not self.width_px:
            return f"{self.path()} is a PDF, which has no pixels"
        size = f"{self.width_px} × {self.height_px} pixels"
        return f"the region reaches beyond {self.path()}, which has {size} when it stands upright"

    def expected(self) -> str:
        """What a region is."""
        if not self.width_px:
            return "no regions; a PDF is never shown in a masked copy"
        return "left + width and top + height within the picture"


@dataclass(frozen=True, slots=True)
class ExhibitBroken(ExhibitProblem):
    """A picture or document that breaks off or cannot be made out."""

    is_cut_short: bool

    def sentence(self) -> str:
        """The file and how it is broken."""
        if self.is_cut_short:
            return f"{self.path()} breaks off before its end"
        return f"{self.path()} cannot be made out"

    def expected(self) -> str:
        """What to do."""
        return "a whole file; copy it again from where it came from"
