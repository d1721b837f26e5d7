"""The case document: what was claimed, what was brought, what was seen.

Facts as typed and recorded: nothing here reads a number or computes anything.
One document (`case.json`) holds a case; its photographs and papers lie beside
it in `exhibits/`, named by their SHA-256. Fields that this version does not
know are kept and written back.
"""

from datetime import date, datetime
from typing import Annotated, Final, Literal

from pydantic import AfterValidator, BaseModel, ConfigDict, Field

from witnessmark.casefile.words import (
    AttachmentSeen,
    Legibility,
    LookClass,
    Orientation,
    OriginSaid,
    PaperState,
    Seen,
    SiteState,
    WorkBy,
    WorkSaid,
)
from witnessmark.dates import PartialDate

__all__ = [
    "FORMAT",
    "FORMAT_VERSION",
    "Assignment",
    "AttachmentSeen",
    "Casefile",
    "Circumstances",
    "Claim",
    "Day",
    "Examiner",
    "ExhibitEntry",
    "Legibility",
    "LookClass",
    "LookSeen",
    "MarkReading",
    "Name",
    "Orientation",
    "OriginSaid",
    "Override",
    "Paper",
    "PaperState",
    "PartialDateText",
    "Region",
    "Seen",
    "SiteSeen",
    "SiteState",
    "Stakes",
    "StatedPrior",
    "Statement",
    "Text",
    "Title",
    "Visit",
    "Vouched",
    "WorkBy",
    "WorkSaid",
]

FORMAT: Final = "witnessmark-case"
FORMAT_VERSION: Final = 2

Day = date
"""A calendar day, under a name that a field called `date` does not hide."""


def _partial(text: str) -> str:
    PartialDate.parse(text)
    return text


PartialDateText = Annotated[str, AfterValidator(_partial)]
"""A date as exact as it is known: 1955, 1955-03 or 1955-03-14."""

Text = Annotated[str, Field(max_length=20_000)]
Name = Annotated[str, Field(min_length=1, max_length=200)]


class _OpenRecord(BaseModel):
    """Frozen, and keeps fields it does not know."""

    model_config = ConfigDict(frozen=True, extra="allow")


class Examiner(_OpenRecord):
    """The person who reads and signs."""

    id: Name
    name: Name
    qualifications: Text = ""
    declared_interest: Text = ""


class Assignment(_OpenRecord):
    """For whom and why the examination is made, and on what terms."""

    client: Text = ""
    purpose: Text = ""
    intended_users: Text = ""
    scope: Text = ""
    examiners: tuple[Examiner, ...] = ()
    owner_consent: Text = ""
    owner_reply: Text = ""
    minutes_available: int | None = Field(default=None, ge=0, le=10_000)


class Visit(_OpenRecord):
    """When, where and in what conditions the car was seen."""

    date: Day | None = None
    place: Text = ""
    present: Text = ""
    light: Text = ""
    access: Text = ""
    moved: Text = ""


class Statement(_OpenRecord):
    """One thing said about the car, to be set against what was found.

    `about` names what it speaks of: an assembly, a mark or a paper of the book
    ("engine"), or "car". `says` is the statement in the speaker's words, and what
    it declares beforehand stands in fixed words beside it: whence that part came,
    what was done to it and by whom. `paper` is a paper of the book that says so,
    or one that the book does not have, in words.
    """

    about: Name
    says: Text
    origin: OriginSaid = OriginSaid.NOT_SAID
    work: WorkSaid = WorkSaid.NOT_SAID
    work_by: WorkBy = WorkBy.NOT_SAID
    paper: Text = ""


class Claim(_OpenRecord):
    """What is said about the car, and by whom.

    `items` maps an item of the code book ("chassis_number", "model",
    "model_year", "body_works") to the claimed value: the number itself, or the
    canonical value of a code.
    """

    made_by: Text = ""
    text: Text = ""
    items: dict[str, Annotated[str, Field(max_length=200)]] = Field(default_factory=dict)
    built: PartialDateText | None = None
    statements: tuple[Statement, ...] = ()


class Stakes(_OpenRecord):
    """Price asked and what hangs on the answer."""

    price_asked: float | None = Field(default=None, ge=0, le=1e12, allow_inf_nan=False)
    currency: Annotated[str, Field(max_length=12)] = ""
    note: Text = ""


class SiteSeen(_OpenRecord):
    """How one expected site of the book ended, or one mark of it.

    Without `mark` it speaks of the place and of all its marks that have no entry of their own.
    """

    site: Name
    mark: Annotated[str, Field(max_length=200)] = ""
    state: SiteState
    reason: Text = ""
    attachment: AttachmentSeen = AttachmentSeen.IN_PLACE
    exhibits: tuple[Name, ...] = ()


class MarkReading(_OpenRecord):
    """One person's transcript of one mark, as typed (see docs/notation.md).

    `again` is True where it was read again after something did not fit, or by a second person
    who knew neither the claim nor the first reading. `claim_known`: did the reader know the
    claimed number? None where nobody noted it, which is taken as known.
    """

    mark: Name
    text: Annotated[str, Field(max_length=500)]
    legibility: Legibility = Legibility.CLEAR
    orientation: Orientation = Orientation.UPRIGHT
    seen: Seen = Seen.IN_PERSON
    again: bool = False
    claim_known: bool | None = None
    by: Text = ""
    when: datetime | None = None
    exhibits: tuple[Name, ...] = ()
    note: Text = ""


class LookSeen(_OpenRecord):
    """How the metal around a mark looked: one feature of one site.

    `outcome` is factory, doubtful or disturbed, or an outcome that the book
    lists for this feature. `again` as in a `MarkReading`.
    """

    site: Name
    feature: Name = "surface"
    outcome: Name
    seen: Seen = Seen.IN_PERSON
    again: bool = False
    by: Text = ""
    when: datetime | None = None
    exhibits: tuple[Name, ...] = ()
    note: Text = ""


class Paper(_OpenRecord):
    """A paper of the book: where it is and, for a copy, what it was copied from.

    What it says is a `MarkReading` of the paper's mark. A paper whose
    `copied_from` names another mark counts as that one's echo, not as a witness.
    `asked_in_vain` names sources of the book (archive, register) that do not have it.
    """

    mark: Name
    state: PaperState
    copied_from: Annotated[str, Field(max_length=200)] = ""
    asked_in_vain: tuple[Name, ...] = ()
    note: Text = ""
    exhibits: tuple[Name, ...] = ()


class Title(_OpenRecord):
    """The number on the title or registration paper."""

    number: Annotated[str, Field(max_length=200)] = ""
    issued_by: Text = ""
    seen: Seen = Seen.IN_PERSON
    exhibits: tuple[Name, ...] = ()


class Region(_OpenRecord):
    """A rectangle of a picture that shows a number, in pixels of the upright picture.

    Upright is the picture as it is looked at, turned as its camera notes say;
    `left` and `top` count from its upper left corner.
    """

    left: int = Field(ge=0, le=1_000_000)
    top: int = Field(ge=0, le=1_000_000)
    width: int = Field(ge=1, le=1_000_000)
    height: int = Field(ge=1, le=1_000_000)


class ExhibitEntry(_OpenRecord):
    """A photograph or document received: its file name in `exhibits/` and its digest.

    `number_regions`: where it shows numbers; empty where somebody looked and it
    shows none; None where nobody has looked, and then no masked copy shows it.
    """

    id: Name
    file: Name
    sha256: Annotated[str, Field(pattern=r"^[0-9a-f]{64}$")]
    caption: Text = ""
    taken_by: Text = ""
    taken_at: datetime | None = None
    number_regions: tuple[Region, ...] | None = None


class StatedPrior(_OpenRecord):
    """Prior odds that the examiner states for a question, with the reason."""

    question: Name
    odds: float = Field(ge=1e-9, le=1e9, allow_inf_nan=False)
    reason: Annotated[str, Field(min_length=1, max_length=20_000)]


class Override(_OpenRecord):
    """Another value for one assumed row of the model, with the reason. A share lies between 0
    and 1; how many times more often something happens may be any value above 0."""

    row: Name
    value: float = Field(ge=1e-9, le=1000, allow_inf_nan=False)
    reason: Annotated[str, Field(min_length=1, max_length=20_000)]


class Vouched(_OpenRecord):
    """A row of the code book from memory that an examiner answers for, with the reason.

    `row` is the row's id, `table:code` for a code, `item:first` for a series of numbers.
    """

    row: Name
    by: Name
    reason: Annotated[str, Field(min_length=1, max_length=20_000)]


class Circumstances(_OpenRecord):
    """What the examiner takes as known when weighing; always shown."""

    prior_odds: tuple[StatedPrior, ...] = ()
    overrides: tuple[Override, ...] = ()
    vouched: tuple[Vouched, ...] = ()
    notes: Text = ""


class Casefile(_OpenRecord):
    """The whole case document."""

    format: Literal["witnessmark-case"] = FORMAT
    format_version: Literal[2] = FORMAT_VERSION
    id: Annotated[str, Field(pattern=r"^[A-Za-z0-9][A-Za-z0-9._-]{0,79}$")]
    title: Text = ""
    book: Name
    beside: tuple[Name, ...] = ()
    opened: date | None = None
    claim: Claim = Claim()
    assignment: Assignment = Assignment()
    visit: Visit = Visit()
    stakes: Stakes = Stakes()
    sites: tuple[SiteSeen, ...] = ()
    readings: tuple[MarkReading, ...] = ()
    looks: tuple[LookSeen, ...] = ()
    papers: tuple[Paper, ...] = ()
    title_paper: Title = Title()
    exhibits: tuple[ExhibitEntry, ...] = ()
    circumstances: Circumstances = Circumstances()
