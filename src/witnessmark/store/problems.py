"""What cannot be kept, or is not as it was kept: one class a kind, its sentence written once."""

from collections.abc import Iterable

from witnessmark.problem import Problem, render_all
from witnessmark.source import Source


class NotKeptError(ValueError):
    """Something was refused, and nothing was changed; `problems` say what is wrong with it."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__(render_all(self.problems))


class CharacterNotHeld(Problem):
    """A character that no text of the store can hold."""

    code_point: str
    says = "the character U+{code_point} cannot be kept"
    wants = "the text without it"


def readable(**texts: str) -> None:
    """Refuse texts, each by its name, with a character that one of the databases does not take."""
    faults = (
        CharacterNotHeld(Source(name), f"{ord(sign):04X}")
        for name, text in texts.items()
        for sign in text
        if sign == "\0" or "\ud800" <= sign <= "\udfff"
    )
    if found := tuple(faults):
        raise NotKeptError(found[:1])


class CaseHeld(Problem):
    """A new case with the name of one that is there."""

    case: str
    says = "there is already a case {case!q}"
    wants = "another id"


class CaseNotHeld(Problem):
    """A case that is asked for and not there."""

    case: str
    says = "there is no case {case!q}"


class RevisionNotHeld(Problem):
    """A revision that is asked for and not there."""

    case: str
    number: int
    says = "the case {case!q} has no revision {number}"


class CaseOtherwiseNamed(Problem):
    """A change that would give a case another id."""

    found: str
    case: str
    says = "the document names the case {found!q}"
    wants = "{case!q}, the name it has here"


class NoDocument(Problem):
    """A text that is JSON, and no object with an id."""

    says = "this is no case document"
    wants = 'an object with "format": "witnessmark-case" and an "id"'


class BesideNotHeld(Problem):
    """A difference that is asked for and not there."""

    number: int
    says = "there is no difference {number} to settle"


class ExhibitNotHeld(Problem):
    """An exhibit that is asked for and not there."""

    sha256: str
    says = "no exhibit has the SHA-256 {sha256!q}"


class ReportHeld(Problem):
    """An issue of a report that went out already."""

    number: str
    issue: int
    says = "issue {issue} of the report {number!q} has been issued"
    wants = "the next issue, as a supplement"


class HomeInUse(Problem):
    """A backup would be put back over what is there."""

    held: str
    says = "this workshop already holds something: {held}"
    wants = "an empty one"


class NotABackup(Problem):
    """A file that is no backup, or one that breaks off."""

    reason: str
    says = "this is no whole backup: {reason}"
    wants = "the zip file that `witnessmark backup` wrote"


class BackupSpoilt(Problem):
    """A file in a backup that is not what was written there; nothing of it was taken."""

    file: str
    reason: str
    says = "{file!r} in the backup is not what was written there: {reason}"
    wants = "another backup, or another copy of this one; nothing was changed here"


class FromANewerVersion(Problem):
    """A workshop or a backup that a later version has written."""

    found: str
    says = "a newer version of Witnessmark has written this ({found})"
    wants = "that version, or a newer one"


class BackupUnwritten(Problem):
    """The system refuses to write a backup, or to read what belongs in it."""

    reason: str
    says = "no backup was made: {reason}"


class NotRestored(Problem):
    """The system refuses to write what a backup holds; no case is there yet."""

    reason: str
    says = "the backup was not put back: {reason}"
    wants = "the same command again, once that is mended"
