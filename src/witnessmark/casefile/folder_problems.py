"""Faults of the files of a case: not there, not readable, not what was entered."""

from dataclasses import dataclass

from witnessmark.casefile.problems import PHONE_EXPORT
from witnessmark.problem import Problem


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
            "there is a case here already, {written}"
            if self.written
            else "there is a case here already"
        )


class NotAFile(Problem):
    """A device, a pipe or a folder where a file is needed."""

    says = "this is not a file"
    wants = "a folder with case.json in it, or the path of such a file"


@dataclass(frozen=True)
class ExhibitProblem(Problem):
    """The base of every fault of one exhibit's file."""

    file: str

    @property
    def path(self) -> str:
        """The file as its user finds it."""
        return f"exhibits/{self.file}"


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

    says = "{path!q} is of a kind that is not read"
    wants = "a JPEG, PNG or TIFF picture, or a PDF"


class PhonePicture(ExhibitProblem):
    """A HEIC or AVIF picture, by its first bytes."""

    says = "{path!q} is a picture as phones keep it (HEIC), which is not read"
    wants = PHONE_EXPORT


class MediaTypeDiffers(ExhibitProblem):
    """The ending of the name says one thing, the content another."""

    named: str
    found: str
    says = "{path!q} is named as {named} and holds {found}"
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
        return "{path!q} cannot be made out"
