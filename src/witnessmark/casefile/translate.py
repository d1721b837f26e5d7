"""What the field checks found, in our own sentences and with a place."""

from collections.abc import Callable, Iterable
from enum import StrEnum
from types import MappingProxyType

from pydantic_core import ErrorDetails

from witnessmark.casefile.fields import FieldAt, field_at, label
from witnessmark.casefile.problems import (
    BadCaseId,
    BadDay,
    BadDigest,
    BadMoment,
    BadPartialDate,
    FieldMissing,
    FieldRefused,
    NotOneOf,
    OutOfBounds,
    TextEmpty,
    TextTooLong,
    WrongKind,
)
from witnessmark.casefile.records import (
    AttachmentSeen,
    Legibility,
    Orientation,
    OriginSaid,
    PaperState,
    Seen,
    SiteState,
    WorkBy,
    WorkSaid,
)
from witnessmark.documents.json_places import JsonPlaces
from witnessmark.documents.lines import KeyPath
from witnessmark.problem import Problem
from witnessmark.source import Source

NOUNS: MappingProxyType[type[StrEnum], str] = MappingProxyType(
    {
        SiteState: "a site state",
        Seen: "a way of having seen something",
        Legibility: "a legibility",
        Orientation: "an orientation",
        PaperState: "a paper state",
        AttachmentSeen: "a way for a part to be there",
        OriginSaid: "an origin that can be declared",
        WorkSaid: "work that can be declared",
        WorkBy: "one who can have done work",
    }
)
"""What a word of each list is called."""

_WANTED = {
    "string_type": "a text in double quotes",
    "int_type": "a whole number",
    "float_type": "a number",
    "bool_type": "true or false",
    "tuple_type": "a list in [ ]",
    "dict_type": "an object in { }",
    "model_type": "an object in { }",
    "date_type": "a day in double quotes, such as 2025-03-14",
    "datetime_type": "a day with a time in double quotes, such as 2025-03-14T10:30",
}
_BOUNDS = {
    "greater_than_equal": ("ge", "not below"),
    "less_than_equal": ("le", "not above"),
    "greater_than": ("gt", "above"),
    "less_than": ("lt", "below"),
}


def translate(error: ErrorDetails, places: JsonPlaces) -> Problem:
    """One fault as a problem: `error` is one entry of the field checks' own list."""
    path: KeyPath = tuple(step for step in error["loc"] if step != "[key]")
    kind = error["type"]
    field = field_at(path)
    source = places.source(path)
    if kind == "missing":
        return FieldMissing(source, label(path), field.meaning())
    if kind == "enum" and not isinstance(error["input"], str):
        words = ", ".join(listed_words(field.words or ()))
        return WrongKind(source, label(path), json_kind(places.typed(path)), f"one of: {words}")
    if kind in _WANTED:
        wanted = _WANTED[kind] + (", or null" if field.may_be_null else "")
        return WrongKind(source, label(path), json_kind(places.typed(path)), wanted)
    if kind in _BOUNDS:
        key, words = _BOUNDS[kind]
        bound = f"{words} {error.get('ctx', {}).get(key, 0):.12g}"
        return OutOfBounds(source, label(path), places.typed(path), bound)
    if kind in _BY_TEXT:
        return _BY_TEXT[kind](source, path, field, error)
    return FieldRefused(source, label(path), field.meaning())


def json_kind(typed: str) -> str:
    """What kind of thing was typed, as a sentence calls it.

    >>> json_kind("[1, 2]")
    'a list'
    """
    kinds = {'"': "a text", "{": "an object", "[": "a list"}
    if typed in ("true", "false", "null"):
        return typed
    return kinds.get(typed[:1], "a number")


def listed_words(words: Iterable[StrEnum]) -> tuple[str, ...]:
    """The words as a sentence lists them: an empty one as its two quotes."""
    return tuple(word.value or '""' for word in words)


def _not_one_of(source: Source, path: KeyPath, field: FieldAt, error: ErrorDetails) -> Problem:
    found = error["input"]
    if field.words is None:
        return FieldRefused(source, label(path), field.meaning())
    return NotOneOf(source, found, NOUNS[field.words], listed_words(field.words))


def _too_long(source: Source, path: KeyPath, field: FieldAt, error: ErrorDetails) -> Problem:
    longest = int(error.get("ctx", {}).get("max_length", 0))
    return TextTooLong(source, label(path), len(error["input"]), longest)


def _too_short(source: Source, path: KeyPath, field: FieldAt, error: ErrorDetails) -> Problem:
    return TextEmpty(source, label(path), field.meaning())


def _bad_form(source: Source, path: KeyPath, field: FieldAt, error: ErrorDetails) -> Problem:
    if field.name == "sha256":
        return BadDigest(source, error["input"])
    return BadCaseId(source, error["input"])


def _bad_day(source: Source, path: KeyPath, field: FieldAt, error: ErrorDetails) -> Problem:
    return BadDay(source, str(error["input"]))


def _bad_moment(source: Source, path: KeyPath, field: FieldAt, error: ErrorDetails) -> Problem:
    return BadMoment(source, str(error["input"]))


def _bad_partial(source: Source, path: KeyPath, field: FieldAt, error: ErrorDetails) -> Problem:
    # The sentence is our own: the room of dates wrote it.
    return BadPartialDate(source, str(error.get("ctx", {}).get("error", "")))


_BY_TEXT: dict[str, Callable[[Source, KeyPath, FieldAt, ErrorDetails], Problem]] = {
    "enum": _not_one_of,
    "string_too_long": _too_long,
    "string_too_short": _too_short,
    "string_pattern_mismatch": _bad_form,
    "date_parsing": _bad_day,
    "date_from_datetime_parsing": _bad_day,
    "datetime_parsing": _bad_moment,
    "datetime_from_date_parsing": _bad_moment,
    "value_error": _bad_partial,
}
