"""For whom, by whom and on what terms: the records of a case that make its report a professional's.

An examiner's own particulars stand here once, as columns of `Signer`: in the case, whose report
prints them, and in the profile that a new case takes them from (profile.py).
"""

from datetime import date

from witnessmark.casefile.words import SumKind
from witnessmark.documents.open_row import OpenRow, named_or_not, noted
from witnessmark.documents.row import (
    amount,
    dated,
    day,
    free_text,
    many_rows,
    named,
    word,
    yes_no,
)
from witnessmark.documents.row import number as whole_number

Day = date
"""A calendar day, under a name that a field called `date` does not hide."""


class Signer(OpenRow):
    """What whoever signs says of themselves in every report alike."""

    qualifications: str = noted("what qualifies this person")
    firm: str = named_or_not("the firm under whose name the report goes out")
    address: str = noted("its address")
    telephone: str = named_or_not("its telephone number")
    declared_interest: str = noted("any interest in the car, its sale or its owner")
    compensation: str = noted("how the fee is worked out")
    fee_depends: bool | None = yes_no(
        "does the fee depend on what is concluded, on a value or on a sale? null: not stated",
        default=None,
    )


class Examiner(Signer, called="an examiner"):
    """The person who reads and signs."""

    id: str = named("a short id that readings refer to")
    name: str = named("the full name")
    answers_for: str = noted("what in the report this person answers for")
    earlier_dealings: str = noted("earlier dealings with the car or with the parties")


class Assistance(OpenRow, called="an assistance"):
    """Somebody who helped and does not sign."""

    who: str = named("who helped")
    with_what: str = noted("with what")


class Assignment(OpenRow, called="an assignment"):
    """For whom and why the examination is made, and on what terms."""

    client: str = noted("who asked for the examination")
    purpose: str = noted("what the answer is for")
    intended_users: str = noted("who may rely on the report")
    scope: str = noted("what was agreed to be examined")
    examiners: tuple[Examiner, ...] = many_rows(
        "the persons who read and sign", Examiner, default=()
    )
    assistance: tuple[Assistance, ...] = many_rows(
        "who helped and does not sign", Assistance, default=()
    )
    owner_consent: str = noted("what the owner agreed to")
    owner_reply: str = noted("what the owner says to the findings")
    minutes_available: int | None = whole_number(
        "minutes there are for the examination, 0 to 10000", 0, 10_000, default=None
    )


class ReportIssue(OpenRow, called="a report"):
    """Under which number, as which issue and on which day the report goes out.

    The day of issue is that on which it is signed; the day of printing stands on every page
    of itself.
    """

    number: str = named_or_not("the examiner's own number of the report; issues share it")
    issue: int = whole_number("which issue it is: 1, then 2 for a supplement", 1, 999, default=1)
    date: Day | None = day("the day of issue, such as 2025-03-14", default=None)


class CustodyEntry(OpenRow, called="a custody entry"):
    """Something lent for the examination: a paper, a loose plate, a part."""

    what: str = named("what was lent")
    lent_by: str = named("who lent it")
    received: Day | None = day("the day it was received, such as 2025-03-14", default=None)
    returned: Day | None = day("the day it was returned; null: not yet", default=None)
    note: str = noted("how it was kept, or anything else")


class Sum(OpenRow, called="a sum"):
    """A sum of money that somebody named; documents print it only with all that says what it is."""

    kind: SumKind = word("what kind of sum it is", SumKind, default=SumKind.NOT_SAID)
    amount: float = amount("the amount", 0, 1e12)
    currency: str = free_text("its currency, such as GBP", most=12, default="")
    date: str | None = dated("of when it is: 2025, 2025-03 or 2025-03-14", default=None)
    source: str = noted("where it stands: an advertisement, a policy, an invoice")
    by: str = named_or_not("who named, paid or estimated it")

    @property
    def missing(self) -> tuple[str, ...]:
        """The fields without which it is printed nowhere, as far as they are empty."""
        told = ("kind", "currency", "date", "source", "by")
        return tuple(name for name in told if not str(getattr(self, name) or "").strip())
