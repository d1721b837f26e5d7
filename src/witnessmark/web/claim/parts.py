"""The parts of the page: which fields of the case each holds, in which order."""

from dataclasses import dataclass
from typing import Any

from witnessmark.casefile import Casefile
from witnessmark.casefile.records import (
    Assignment,
    Assistance,
    Circumstances,
    Claim,
    CustodyEntry,
    Examiner,
    Stakes,
    StatedPrior,
    Statement,
    Sum,
    Visit,
)
from witnessmark.documents.open_row import OpenRow


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """Fields of one record of the case, or of each entry of a list (`entry` says what one is)."""

    id: str
    title: str
    lead: str = ""
    path: str
    row: type[OpenRow]
    names: tuple[str, ...]
    entry: str = ""
    is_folded: bool = False
    """Folded away: most cases need it not."""

    @property
    def is_list(self) -> bool:
        """Has it any number of entries?"""
        return bool(self.entry)

    def there(self, casefile: Casefile) -> Any:
        """The record, or the entries, as the case has them."""
        found: Any = casefile
        for name in filter(None, self.path.split(".")):
            found = getattr(found, name)
        return found

    def entries(self, casefile: Casefile) -> tuple[OpenRow, ...]:
        """The entries of a list."""
        found: tuple[OpenRow, ...] = tuple(self.there(casefile))
        return found


PRIOR_ODDS = "prior-odds"

PARTS: tuple[Part, ...] = (
    Part(
        id="said",
        title="What is said",
        path="claim",
        row=Claim,
        names=("made_by", "text", "built"),
    ),
    Part(
        id="statements",
        is_folded=True,
        title="Single statements",
        lead="One thing said about one part, to be set against what is found. What is declared "
        "beforehand and then found so is no contradiction.",
        path="claim.statements",
        row=Statement,
        names=("about", "says", "origin", "work", "work_by", "paper"),
        entry="statement",
    ),
    Part(
        id="sums",
        is_folded=True,
        title="Sums named",
        lead="A sum is printed only with its kind, currency, date, source and by whom.",
        path="sums",
        row=Sum,
        names=("kind", "amount", "currency", "date", "source", "by"),
        entry="sum",
    ),
    Part(
        id="stakes",
        is_folded=True,
        title="What hangs on the answer",
        path="stakes",
        row=Stakes,
        names=("note",),
    ),
    Part(
        id="assignment",
        title="For whom and why",
        path="assignment",
        row=Assignment,
        names=(
            *("client", "purpose", "intended_users", "scope", "owner_consent"),
            *("minutes_available", "owner_reply"),
        ),
    ),
    Part(
        id="visit",
        title="The visit",
        path="visit",
        row=Visit,
        names=("date", "place", "present", "light", "access", "moved"),
    ),
    Part(
        id="examiners",
        title="Who reads and signs",
        path="assignment.examiners",
        row=Examiner,
        names=(
            *("name", "id", "firm", "address", "telephone", "qualifications", "answers_for"),
            *("declared_interest", "earlier_dealings", "compensation", "fee_depends"),
        ),
        entry="examiner",
    ),
    Part(
        id="assistance",
        is_folded=True,
        title="Who helps and does not sign",
        path="assignment.assistance",
        row=Assistance,
        names=("who", "with_what"),
        entry="person",
    ),
    Part(
        id="custody",
        is_folded=True,
        title="What was lent for the examination",
        path="custody",
        row=CustodyEntry,
        names=("what", "lent_by", "received", "returned", "note"),
        entry="thing lent",
    ),
    Part(
        id="circumstances",
        is_folded=True,
        title="What is taken as known",
        path="circumstances",
        row=Circumstances,
        names=("notes",),
    ),
    Part(
        id=PRIOR_ODDS,
        is_folded=True,
        title="Before any of the marks",
        lead="Only if you wish: how often such a car is as claimed, before anything was read. The "
        "workshop has no opinion on it and proposes none; without it the report gives the "
        "ratios alone, and the reader brings the odds.",
        path="circumstances.prior_odds",
        row=StatedPrior,
        names=("question", "odds", "reason"),
        entry="question",
    ),
)

TITLED = Part(id="title", title="", path="", row=Casefile, names=("title", "opened"))
BY_ID = {each.id: each for each in (TITLED, *PARTS)}
