"""What the store gives: frozen records of what is kept."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from witnessmark.problem import Problem


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptChange:
    """How one state of a case document came about.

    `at` bears the offset it was made with; it is None, or bears none, only in a revision that was
    taken over from a folder that says no more.
    """

    case: str
    number: int
    parent: str
    sha256: str
    at: datetime | None
    who: str
    did: str
    undoes: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptRevision(KeptChange):
    """One state of a case document, whole, and how it came about."""

    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptCase:
    """A case that is held, and whether it was put away."""

    id: str
    made_at: datetime
    is_put_away: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptBeside:
    """A place of a case that two people wrote differently: the document of `revision` says
    `theirs` at `path`, and `mine` is kept here. `ABSENT` stands for what was not there."""

    id: int
    case: str
    revision: int
    path: tuple[str | int, ...]
    base: Any
    theirs: Any
    mine: Any
    who: str
    at: datetime
    settled_at: datetime | None
    settled_by: str
    kept: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Revised:
    """What became of a change: the revision that stands now, whether it is a new one, and what
    two people wrote differently."""

    kept: KeptRevision
    beside: tuple[KeptBeside, ...]
    is_new: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptExhibit:
    """A photograph or document that was received; an upright picture's size, 0 for a PDF."""

    sha256: str
    size: int
    media_type: str
    width_px: int
    height_px: int
    file: str
    at: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptReport:
    """A report as it was issued, and the digests of its documents by their names."""

    id: int
    case: str
    number: str
    issue: int
    revision: int
    kind: str
    by: str
    at: datetime
    files: Mapping[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenOver:
    """A case that was taken over from a folder: the revision that stands, what is wrong with
    exhibits, which then stayed behind, and files that no revision lists, which did as well."""

    kept: KeptRevision
    problems: tuple[Problem, ...]
    left: tuple[str, ...]
