"""What cannot be kept, or is not as it was kept: one class a kind, its sentence written once."""

from collections.abc import Iterable

from witnessmark.problem import Problem, render_all


class NotKeptError(ValueError):
    """Something was refused, and nothing was changed; `problems` say what is wrong with it."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__(render_all(self.problems))


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
