"""The case document: what was claimed, what was brought, what was seen.

Facts as typed and recorded: nothing here reads a number or computes anything.
One document (`case.json`) holds a case; its photographs and papers lie beside
it in `exhibits/`, named by their SHA-256. Fields that this version does not
know are kept and written back.
"""

from datetime import date
from typing import Final

from witnessmark.casefile.assignment_records import (
    Assignment,
    Assistance,
    CustodyEntry,
    Examiner,
    ReportIssue,
    Sum,
)
from witnessmark.casefile.problems import BadCaseId
from witnessmark.casefile.seen_records import (
    ExhibitEntry,
    LookSeen,
    MarkReading,
    Paper,
    PaperSays,
    Region,
    SiteSeen,
    Title,
)
from witnessmark.casefile.words import (
    AttachmentSeen,
    Legibility,
    LookClass,
    Orientation,
    OriginSaid,
    PaperKind,
    PaperState,
    Seen,
    SiteState,
    SumKind,
    WorkBy,
    WorkSaid,
)
from witnessmark.documents.open_row import (
    LONGEST_TEXT,
    OpenRow,
    names,
    noted,
)
from witnessmark.documents.row import (
    amount,
    dated,
    day,
    form,
    free_text,
    many_rows,
    named,
    named_texts,
    number,
    one_row,
    word,
)

__all__ = [
    "FORMAT",
    "FORMAT_VERSION",
    "Assignment",
    "Assistance",
    "AttachmentSeen",
    "Casefile",
    "Circumstances",
    "Claim",
    "CustodyEntry",
    "Day",
    "Examiner",
    "ExhibitEntry",
    "Legibility",
    "LookClass",
    "LookSeen",
    "MarkReading",
    "Orientation",
    "OriginSaid",
    "Override",
    "Paper",
    "PaperKind",
    "PaperSays",
    "PaperState",
    "Region",
    "ReportIssue",
    "Seen",
    "SiteSeen",
    "SiteState",
    "Stakes",
    "StatedPrior",
    "Statement",
    "Sum",
    "SumKind",
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


class Visit(OpenRow, called="a visit"):
    """When, where and in what conditions the car was seen."""

    date: Day | None = day("the day of the visit, such as 2025-03-14", default=None)
    place: str = noted("where the car stood")
    present: str = noted("who was there")
    light: str = noted("what light there was")
    access: str = noted("how the car stood: on the ground, on stands, on a lift")
    moved: str = noted("what was taken off or moved, and by whom")


class Statement(OpenRow, called="a statement"):
    """One thing said about the car, to be set against what was found.

    `about` names what it speaks of: an assembly, a mark or a paper of the book
    ("engine"), or "car". `says` is the statement in the speaker's words, and what
    it declares beforehand stands in fixed words beside it: where that part came from,
    what was done to it and by whom. `paper` is a paper of the book that says so,
    or one that the book does not have, in words.
    """

    about: str = named("an assembly, mark or paper of the book, or car")
    says: str = free_text("the statement in the speaker's words", most=LONGEST_TEXT)
    origin: OriginSaid = word(
        "where the part is said to have come from, declared before anybody looked",
        OriginSaid,
        default=OriginSaid.NOT_SAID,
    )
    work: WorkSaid = word(
        "what is said to have been done to it", WorkSaid, default=WorkSaid.NOT_SAID
    )
    work_by: WorkBy = word("who is said to have done it", WorkBy, default=WorkBy.NOT_SAID)
    paper: str = noted("the paper that says so: a paper mark of the book, or any other in words")


class Claim(OpenRow, called="a claim"):
    """What is said about the car, and by whom.

    `items` maps an item of the code book ("chassis_number", "model",
    "model_year", "body_works") to the claimed value: the number itself, or the
    canonical value of a code.
    """

    made_by: str = noted("who says it")
    text: str = noted("the claim in the words of whoever makes it")
    items: dict[str, str] = named_texts(
        "items of the code book and the values claimed for them", 200, default={}
    )
    built: str | None = dated(
        "when the car is said to have been built: 1955, 1955-03 or 1955-03-14", default=None
    )
    statements: tuple[Statement, ...] = many_rows(
        "single statements, to be set against what was found", Statement, default=()
    )


class Stakes(OpenRow, called="the stakes"):
    """What hangs on the answer; a price asked for with neither day nor source is read and not
    printed (see `sums`)."""

    price_asked: float | None = amount(
        "the price asked, which no document prints: it belongs in sums, with its date and source",
        0,
        1e12,
        default=None,
    )
    currency: str = free_text("its currency, such as GBP", most=12, default="")
    note: str = noted("anything else, in words")


class StatedPrior(OpenRow, called="a stated prior"):
    """Prior odds that the examiner states for a question, with the reason."""

    question: str = named("the question whose prior odds are stated")
    odds: float = amount("the prior odds, above 0", 1e-9, 1e9)
    reason: str = free_text("why", least=1, most=LONGEST_TEXT)


class Override(OpenRow, called="an override"):
    """Another value for one assumed row of the model, with the reason. A share lies between 0
    and 1; how many times more often something happens may be any value above 0."""

    row: str = named("the assumed row of the model")
    value: float = amount("its value in this case, between 0 and 1", 1e-9, 1000)
    reason: str = free_text("why", least=1, most=LONGEST_TEXT)


class Vouched(OpenRow, called="a vouched row"):
    """A row of the code book from memory that an examiner answers for, with the reason.

    `row` is the row's id, `table:code` for a code, `item:first` for a series of numbers.
    """

    row: str = named("the row of the code book, from memory: its id, table:code, or item:first")
    by: str = named("who answers for it: the id of an examiner, or a name")
    reason: str = free_text("why", least=1, most=LONGEST_TEXT)


class Circumstances(OpenRow, called="circumstances"):
    """What the examiner takes as known when weighing; always shown."""

    prior_odds: tuple[StatedPrior, ...] = many_rows(
        "prior odds that the examiner states", StatedPrior, default=()
    )
    overrides: tuple[Override, ...] = many_rows(
        "assumed rows that have another value in this case", Override, default=()
    )
    vouched: tuple[Vouched, ...] = many_rows(
        "rows from memory that an examiner answers for", Vouched, default=()
    )
    notes: str = noted("what else is taken as known")


class Casefile(OpenRow, called="a case"):
    """The whole case document."""

    format: str = word("the word that says this is a case", (FORMAT,), default=FORMAT)
    format_version: int = number(
        "the version of this format", FORMAT_VERSION, FORMAT_VERSION, default=FORMAT_VERSION
    )
    id: str = form(
        "a short name for the case, fit for a file name",
        r"[A-Za-z0-9][A-Za-z0-9._-]{0,79}",
        refused=BadCaseId,
    )
    title: str = noted("a title for people")
    book: str = named("the code book: the name of a shipped one, or a path")
    beside: tuple[str, ...] = names(
        "further code books beside it, for what cars of any maker carry: dated-parts"
    )
    opened: date | None = day("the day the case was opened, such as 2025-03-14", default=None)
    claim: Claim = one_row("what is said about the car", Claim, default=Claim())
    assignment: Assignment = one_row(
        "for whom and why the examination is made", Assignment, default=Assignment()
    )
    visit: Visit = one_row(
        "when, where and in what conditions the car was seen", Visit, default=Visit()
    )
    report: ReportIssue = one_row(
        "under which number, as which issue and on which day the report is issued",
        ReportIssue,
        default=ReportIssue(),
    )
    custody: tuple[CustodyEntry, ...] = many_rows(
        "what was lent for the examination", CustodyEntry, default=()
    )
    stakes: Stakes = one_row("what hangs on the answer", Stakes, default=Stakes())
    sums: tuple[Sum, ...] = many_rows("sums that were named", Sum, default=())
    sites: tuple[SiteSeen, ...] = many_rows(
        "how each expected site ended; a site not listed was not looked for", SiteSeen, default=()
    )
    readings: tuple[MarkReading, ...] = many_rows(
        "transcripts of marks, as typed", MarkReading, default=()
    )
    looks: tuple[LookSeen, ...] = many_rows(
        "how the metal around marks looked", LookSeen, default=()
    )
    papers: tuple[Paper, ...] = many_rows(
        "papers, of the book and any other, and where they are", Paper, default=()
    )
    title_paper: Title = one_row("the title or registration paper", Title, default=Title())
    exhibits: tuple[ExhibitEntry, ...] = many_rows(
        "photographs and documents received, in the folder exhibits/", ExhibitEntry, default=()
    )
    circumstances: Circumstances = one_row(
        "what is taken as known when weighing", Circumstances, default=Circumstances()
    )
