"""What changed in a case between an issued report and now: added, withdrawn, changed.

Pure: two case documents in, a list of changes out, in the words of the page. Readings, looks,
sites, papers, exhibits and statements are followed one by one; everything else is only said
to have changed.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum
from typing import Any

from witnessmark.casefile.records import Casefile, Vouched, WorkBy
from witnessmark.catalogue import as_said, marked, said
from witnessmark.documents.open_row import OpenRow
from witnessmark.examination.disclosure import BY_WORDS
from witnessmark.wording import Names, date_text, moment_text
from witnessmark.wording.case_words import (
    feature_word,
    field_word,
    look_word,
    question_words,
    vouched_sentence,
)
from witnessmark.wording.conclusions import row_words
from witnessmark.wording.terms import term

UNNAMED = Names()
"""Every id is read as words."""

NO_IS_NEWS = ("claim_known", "fee_depends")
"""Fields of which "no" says something: that a reader did not know the claim, that a fee is free."""
BARE = ("text", "says")
"""Fields that stand without their name: what was read or said."""


class ChangeKind(StrEnum):
    """How an entry of the case changed, as a page says it."""

    ADDED = marked("Added")
    WITHDRAWN = marked("Withdrawn")
    CHANGED = marked("Changed")


class CasePart(StrEnum):
    """The parts of a case whose changes are told, as a page names them."""

    CLAIM = marked("The claim")
    STATEMENT = marked("Statement")
    ASSIGNMENT = marked("The assignment")
    VISIT = marked("The visit")
    SITE = marked("Place")
    READING = marked("Reading")
    LOOK = marked("Look")
    PAPER = marked("Paper")
    TITLE = marked("The title")
    EXHIBIT = marked("Exhibit")
    CIRCUMSTANCES = marked("What is taken as known")
    OTHER = marked("The case")


@dataclass(frozen=True, slots=True)
class CaseChange:
    """One change: which part, of which mark, site or field, and what was there and is there now.

    `about` is an id of the book or of an exhibit, or the name of a field.
    """

    part: CasePart
    kind: ChangeKind
    about: str
    before: str
    now: str


LISTS = (
    (CasePart.SITE, "sites", ("site", "mark")),
    (CasePart.READING, "readings", ("mark", "by")),
    (CasePart.LOOK, "looks", ("site", "feature", "by")),
    (CasePart.PAPER, "papers", ("mark", "name")),
    (CasePart.EXHIBIT, "exhibits", ("id",)),
)
"""Lists of the case with the fields that say which entry is which."""

RECORDS = (
    (CasePart.ASSIGNMENT, "assignment"),
    (CasePart.VISIT, "visit"),
    (CasePart.TITLE, "title_paper"),
    (CasePart.CIRCUMSTANCES, "circumstances"),
)


def case_changes(before: Casefile, now: Casefile, names: Names = UNNAMED) -> tuple[CaseChange, ...]:
    """Every change of the case, part by part, in the order of the document.

    Under which number and issue a report goes out is no change: it stands on the cover.
    """
    old, new = ({**each.values(), "report": None} for each in (before, now))
    old_claim, new_claim = old.pop("claim").values(), new.pop("claim").values()
    statements = (old_claim.pop("statements"), new_claim.pop("statements"))
    found = _of_record(CasePart.CLAIM, old_claim, new_claim, names)
    for part, name in RECORDS:
        found += _of_record(part, old.pop(name).values(), new.pop(name).values(), names)
    found += _of_list(CasePart.STATEMENT, *statements, ("about",), names)
    for part, name, keys in LISTS:
        found += _of_list(part, old.pop(name), new.pop(name), keys, names)
    found += _of_record(CasePart.OTHER, old, new, names)
    order = tuple(CasePart)
    return tuple(sorted(found, key=lambda each: order.index(each.part)))


def _of_record(
    part: CasePart, old: dict[str, Any], new: dict[str, Any], names: Names
) -> list[CaseChange]:
    """The fields of one record that are not as they were."""
    found = []
    for name in dict.fromkeys((*old, *new)):
        was, stands = (value_text(each.get(name), name, names) for each in (old, new))
        if was != stands:
            found.append(CaseChange(part, _kind(was, stands), name, was, stands))
    return found


def _of_list(
    part: CasePart,
    old: Iterable[OpenRow],
    new: Iterable[OpenRow],
    keys: tuple[str, ...],
    names: Names,
) -> list[CaseChange]:
    """Entries added, withdrawn or changed; several of one key are followed in their order."""
    before, now = _keyed(old, keys), _keyed(new, keys)
    found = []
    for key in dict.fromkeys((*before, *now)):
        was, stands = before.get(key), now.get(key)
        if was != stands:
            texts = (_entry(was, stands, keys, names), _entry(stands, was, keys, names))
            kind = (
                ChangeKind.ADDED
                if was is None
                else ChangeKind.WITHDRAWN
                if stands is None
                else ChangeKind.CHANGED
            )
            about = next(filter(None, key))
            found.append(CaseChange(part, kind, about, *texts))
    return found


def _keyed(
    entries: Iterable[OpenRow], keys: tuple[str, ...]
) -> dict[tuple[str, ...], dict[str, Any]]:
    """The fields of each entry by what it is about, by whom, and its place among several."""
    found: dict[tuple[str, ...], dict[str, Any]] = {}
    for each in (entry.values() for entry in entries):
        base = tuple(str(each.get(name, "")) for name in keys)
        count = 0
        while (*base, str(count)) in found:
            count += 1
        found[(*base, str(count))] = each
    return found


def _entry(
    each: dict[str, Any] | None, other: dict[str, Any] | None, keys: tuple[str, ...], names: Names
) -> str:
    """What an entry says: its fields, or beside another only those that differ."""
    if each is None:
        return ""
    told = {
        name: value
        for name, value in each.items()
        if name not in keys[:1] and (other is None or other.get(name) != value)
    }
    return entry_text(told, names)


def _kind(was: str, stands: str) -> ChangeKind:
    if not was:
        return ChangeKind.ADDED
    return ChangeKind.CHANGED if stands else ChangeKind.WITHDRAWN


def entry_text(fields: Mapping[str, object], names: Names) -> str:
    """What an entry says: each field with its name, what was read or said without one."""
    told = []
    for name, value in fields.items():
        text = value_text(value, name, names)
        if text:
            told.append(text if name in BARE else _labelled(field_word(name), text))
    return "; ".join(told)


def value_text(value: object, name: str, names: Names) -> str:
    """A value of the case, of the field `name`, as a reader can compare it; an empty one is ""."""
    match value:
        case None:
            return ""
        case WorkBy():
            return as_said(BY_WORDS[value]) if value else ""
        case StrEnum():
            return term(value) if value else ""
        case bool():
            return said("yes") if value else said("no") if name in NO_IS_NEWS else ""
        case Vouched():
            return vouched_sentence(value)
        case str():
            return _named(value, name, names)
        case datetime():
            return moment_text(value)
        case date():
            return date_text(value)
        case float():
            return f"{value:,}".removesuffix(".0")
        case OpenRow():
            told = value.values().items()
            return _fields(((field_word(key), key, each) for key, each in told), names)
        case Mapping():
            return _fields(((names.item(key), "", each) for key, each in value.items()), names)
        case list() | tuple():
            return "; ".join(text for each in value if (text := value_text(each, name, names)))
        case _:
            return str(value)


def _fields(fields: Iterable[tuple[str, str, object]], names: Names) -> str:
    """The fields of a record, each given with its label and its name."""
    told = ((label, value_text(value, name, names)) for label, name, value in fields)
    return ", ".join(_labelled(label, text) for label, text in told if text)


def _labelled(label: str, text: str) -> str:
    return said("{item}: {value}", item=label, value=text)


def _named(text: str, name: str, names: Names) -> str:
    """The text itself, or the words for an id of the model, the case or the book."""
    match name:
        case "feature":
            return feature_word(text)
        case "outcome":
            return look_word(text)
        case "question":
            return question_words(text, names)
        case "row":
            return row_words(text)
        case "item":
            return names.item(text)
        case "mark" | "paper" | "copied_from":
            return names.mark_or_words(text)
        case _:
            return text
