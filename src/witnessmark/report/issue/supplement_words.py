"""Entries and values of a case in the words of the page, so that two of them can be compared."""

from collections.abc import Iterable, Mapping
from datetime import date, datetime
from enum import StrEnum

from witnessmark.casefile.records import Vouched, WorkBy
from witnessmark.catalogue import as_said, said
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
