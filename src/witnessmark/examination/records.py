"""The Opinion: the examined whole, remembering what it was made from."""

from dataclasses import dataclass, field
from enum import StrEnum

from witnessmark.agreement.records import Finding, Outcome
from witnessmark.casefile.records import Casefile, SiteState
from witnessmark.codebook.records import CarContext
from witnessmark.decoding.records import Decoding, illegible_marks
from witnessmark.examination.looks import LookLeft
from witnessmark.examination.place_records import PlaceOutcome, SiteOutcome, places_of
from witnessmark.problem import Problem
from witnessmark.reading import WORKING
from witnessmark.weighing import Answer, Steadiness, Weighed, names_of_question, weighed


@dataclass(frozen=True, slots=True)
class BookVersion:
    """The code book an Opinion used: its id, version and the SHA-256 of its files.

    `is_other_than_shipped`: it bears the id of a book that came with the program and held
    something else. Two versions are the same by their digest, whatever came with the program.
    """

    id: str
    title: str
    version: str
    sha256: str
    is_other_than_shipped: bool = field(default=False, compare=False)


class DisclosureOutcome(StrEnum):
    """How a statement about the car stands against what was found."""

    AGREES = "agrees"
    DIFFERS = "differs"
    OPEN = "open"
    NOT_SAID = "not said"
    AS_DECLARED = "as declared"


@dataclass(frozen=True, slots=True)
class Disclosed:
    """One statement about the car against what was found: it agrees, differs or is open, or was
    found as declared."""

    about: str
    says: str
    found: str
    outcome: DisclosureOutcome
    declared: str = ""


@dataclass(frozen=True, slots=True)
class Limitation:
    """What the Opinion does not cover, in its own words. `paper`: the mark of the paper of which
    it says no more than where that is, which whoever tells of the papers tells too."""

    sentence: str
    paper: str = field(default="", metadata=WORKING)


class NamedKind(StrEnum):
    """What an id stands for."""

    MARK = "mark"
    ITEM = "item"
    ASSEMBLY = "assembly"
    PIECE = "piece"
    SITE = "site"
    MODEL = "model"
    WORKS = "works"
    CLAIMED = "claimed"


@dataclass(frozen=True, slots=True)
class Named:
    """The name that the code book gives to one of its ids.

    The same id can stand for a mark and for an item. What is claimed has an item's id with the
    claimed value after it.
    """

    kind: NamedKind
    id: str
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Opinion:
    """The examined whole, ready to report: what was found and weighed, and, where it was asked
    for, how far that rests on assumed rates. `disturbed` are the sites that look so, `looks`
    what is left to look at; `beside` are the further books beside `book`, `title` is the number
    on the title decoded, where it is a whole number of the car; `declared` are the marks on parts
    that were declared not to be the first ones, and found so, `declared_questions` the questions
    of which that was said ("core engine")."""

    casefile: Casefile
    book: BookVersion
    context: CarContext
    sites: tuple[SiteOutcome, ...]
    decodings: tuple[Decoding, ...]
    findings: tuple[Finding, ...]
    answer: Answer
    steadiness: Steadiness | None
    disturbed: tuple[str, ...]
    looks: tuple[LookLeft, ...]
    disclosure: tuple[Disclosed, ...]
    limitations: tuple[Limitation, ...]
    problems: tuple[Problem, ...]
    names: tuple[Named, ...] = ()
    beside: tuple[BookVersion, ...] = ()
    title: Decoding | None = None
    declared: tuple[str, ...] = ()
    declared_questions: tuple[str, ...] = ()
    is_at_once: bool = field(default=False, metadata=WORKING)
    """It was asked for at once: what each thing noted does, and what is left to look at, was not
    worked out."""

    def is_as_declared(self, finding: Finding) -> bool:
        """Does it differ only in that a part is not the first one, as was declared and found?"""
        return finding.outcome is Outcome.DIFFER and any(
            each.mark in self.declared for each in finding.subjects
        )

    def is_declared(self, conclusion: Weighed) -> bool:
        """Was it declared, and found, that the first proposition of this question is not true?"""
        return (
            names_of_question(conclusion.question, conclusion.about)[0] in self.declared_questions
        )

    @property
    def weighed(self) -> tuple[Weighed, ...]:
        """Every conclusion with its steadiness and the prior odds stated for it."""
        return weighed(self.answer, self.steadiness, self.casefile.circumstances)

    @property
    def places(self) -> tuple[PlaceOutcome, ...]:
        """Every place with its number, and what ended there."""
        return places_of(self.sites)

    @property
    def illegible_marks(self) -> tuple[str, ...]:
        """The ids of marks that were found and of which nobody made out a character."""
        read = {each.mark for each in self.decodings}
        found = (
            mark
            for site in self.sites
            if site.state is SiteState.FOUND_ILLEGIBLE
            for mark in site.marks
            if mark not in read
        )
        return tuple(dict.fromkeys((*illegible_marks(self.decodings), *found)))
