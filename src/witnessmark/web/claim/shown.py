"""A field of the case as the page shows it: label, what it is for, what stands in it, and what
the book or the case document says against it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any

from witnessmark.casefile.words import CaseWord
from witnessmark.documents.lines import KeyPath
from witnessmark.documents.open_row import LONGEST_TEXT, OpenRow, as_json
from witnessmark.documents.row import Column
from witnessmark.documents.shapes import Kind
from witnessmark.problem import Problem
from witnessmark.web.claim.parts import Part
from witnessmark.web.shared.desk import Bench
from witnessmark.wording.amounts import capital
from witnessmark.wording.case_words import field_word

SHORT = (
    "client",
    "made_by",
    "place",
    "present",
    "light",
    "access",
    "paper",
    "source",
    "who",
    "title",
)
"""Texts of any use that are a line at most."""
LABELS = {
    "name": "Full name",
    "firm": "Firm",
    "client": "Client",
    "amount": "Amount",
    "currency": "Currency, such as EUR",
    "kind": "What kind of sum",
    "source": "Where it stands: an advertisement, a policy, an invoice",
    "what": "What was lent",
    "lent_by": "Who lent it",
    "who": "Who helped",
    "place": "Where the car stood",
    "present": "Who was there",
    "light": "What light there was",
    "access": "How the car stood: on the ground, on stands, on a lift",
    "moved": "What was taken off or moved, and by whom",
    "qualifications": "What qualifies this person",
    "address": "Address",
    "telephone": "Telephone",
    "compensation": "How the fee is worked out",
    "fee_depends": "Does the fee depend on what is concluded, on a value or on a sale?",
    "reason": "Why",
    "question": "Which question",
    "purpose": "What the answer is for",
    "intended_users": "Who may rely on the report",
    "scope": "What was agreed to be examined",
    "owner_consent": "What the owner agreed to",
    "owner_reply": "What the owner says to the findings",
    "declared_interest": "Any interest in the car, its sale or its owner",
    "earlier_dealings": "Earlier dealings with the car or with the parties",
    "answers_for": "What in the report this person answers for",
    "title": "Title of the case",
    "about": "Of which part",
    "says": "What is said of it",
    "text": "In their words",
    "made_by": "Who says it",
    "built": "When it is said to have been built",
    "origin": "Where it is said to have come from",
    "work": "What is said to have been done to it",
    "work_by": "Who is said to have done it",
    "paper": "The paper that says so",
    "note": "In words",
    "minutes_available": "Minutes there are",
    "by": "Who named it",
    "with_what": "With what",
    "notes": "In words",
}


HINTS = {
    "built": "1955, 1955-03 or 1955-03-14",
    "about": "An assembly, mark or paper of the book, or car",
    "id": "What readings are signed with; empty, it is the last name",
    "returned": "Empty while it is not yet",
}
"""How a field is typed, where its label does not say it and its control does not show it."""


class Control(StrEnum):
    """How a field is typed."""

    LINE = "line"
    LONG = "long"
    CHOICE = "choice"
    DAY = "day"


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One of the words that a field can say."""

    value: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldShown:
    """One field; `offered` is the id of a list of what it can say, `wrong` what is told of it."""

    name: str
    id: str
    label: str
    told: str = ""
    value: str = ""
    control: Control = Control.LINE
    choices: tuple[Choice, ...] = ()
    offered: str = ""
    is_number: bool = False
    wrong: tuple[Problem, ...] = ()
    read: str = ""
    """How what was typed is kept, where that is other than it was typed."""
    lacks: str = ""
    """What does not come to be while the field is empty."""


@dataclass(frozen=True, slots=True)
class Sent:
    """What was sent and could not be saved: shown again as it was typed, with its problems."""

    form: str
    values: Mapping[str, str]
    problems: Sequence[Problem]

    def wrong(self, name: str) -> tuple[Problem, ...]:
        """What is wrong with a field of the form."""
        return tuple(each for each in self.problems if each.source.name == name)


NOTHING_SENT = Sent("", {}, ())


@dataclass(frozen=True, slots=True)
class PageShown:
    """The page of one case, and what came back to it."""

    bench: Bench
    sent: Sent = field(default=NOTHING_SENT)
    offered: Mapping[str, str] = field(default_factory=dict)
    """Ids of lists by the name of the field that they are for."""
    choices: Mapping[str, tuple[Choice, ...]] = field(default_factory=dict)
    """The words of fields whose words hang on the book."""

    def fields(self, part: Part, entry: OpenRow | None, at: int | None) -> tuple[FieldShown, ...]:
        """The fields of a part, or of an entry of its list; of a new one where there is none."""
        form = form_name(part, at)
        columns = part.row.fields_declared()
        return tuple(
            self._field(columns[name], name, entry, form, path=_path(part, at, name))
            for name in part.names
        )

    def _field(
        self, column: Column, name: str, entry: OpenRow | None, form: str, path: KeyPath
    ) -> FieldShown:
        value = "" if entry is None else as_typed(getattr(entry, name))
        choices = self.choices.get(name) or _choices(column)
        is_sent = self.sent.form == form
        return FieldShown(
            name=name,
            id=f"{form}-{name}",
            label=LABELS.get(name) or capital(field_word(name)),
            told=_about(column, name),
            value=self.sent.values.get(name, value) if is_sent else value,
            control=_control(column, name, choices),
            choices=choices,
            offered=self.offered.get(name, ""),
            is_number=column.key.kind in (Kind.NUMBER, Kind.AMOUNT),
            wrong=self.sent.wrong(name) if is_sent else self.against(path) if entry else (),
        )

    def against(self, path: KeyPath) -> tuple[Problem, ...]:
        """What the book says against what stands at this path of the case."""
        places = self.bench.on.opened.places
        here = (places.source(path), places.key_source(path)) if self.bench.faults else ()
        return tuple(each for each in self.bench.faults if each.source in here)


def plain_field(
    column: Column, name: str, value: str, wrong: tuple[Problem, ...] = ()
) -> FieldShown:
    """A field of a record that is in no case."""
    choices = _choices(column)
    return FieldShown(
        name=name,
        id=f"own-{name}",
        label=LABELS.get(name) or capital(field_word(name)),
        told=_about(column, name),
        value=value,
        control=_control(column, name, choices),
        choices=choices,
        wrong=wrong,
    )


def _about(column: Column, name: str) -> str:
    """How the field is typed, where its label does not say it."""
    if name == "date" and column.key.kind is Kind.PARTIAL_DATE:
        return "2025, 2025-03 or 2025-03-14"
    return HINTS.get(name, "")


def form_name(part: Part, at: int | None) -> str:
    """The form of a part, of the entry at this place, or of a new entry."""
    if not part.is_list:
        return part.id
    return f"{part.id}-{'new' if at is None else at}"


def _path(part: Part, at: int | None, name: str) -> KeyPath:
    steps = tuple(filter(None, part.path.split(".")))
    return (*steps, name) if at is None else (*steps, at, name)


def as_typed(value: Any) -> str:
    """A value of the case as it stands in a field.

    >>> as_typed(None), as_typed(False), as_typed(165000.0), as_typed("1955-05")
    ('', 'no', '165000', '1955-05')
    """
    match value:
        case None:
            return ""
        case bool():
            return "yes" if value else "no"
        case float():
            return f"{value:.15g}"
    return str(as_json(value))


def _control(column: Column, name: str, choices: tuple[Choice, ...]) -> Control:
    if choices:
        return Control.CHOICE
    if column.key.kind is Kind.DAY:
        return Control.DAY
    is_long = column.key.most == LONGEST_TEXT and name not in SHORT
    return Control.LONG if is_long else Control.LINE


def _choices(column: Column) -> tuple[Choice, ...]:
    """The words of a closed list, with what each says; yes and no where it asks for them."""
    if column.key.kind is Kind.YES_NO:
        return tuple(
            Choice(value=value, words=words)
            for value, words in (("", "not stated"), ("yes", "yes"), ("no", "no"))
        )
    words = column.read if isinstance(column.read, type) else None
    if words is None or not issubclass(words, CaseWord):
        return ()
    return tuple(
        Choice(value=each.value, words=f"{each.value}: {each.says}" if each.value else each.says)
        for each in words
    )
