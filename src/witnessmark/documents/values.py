"""One value against its declaration, the same for book.toml and for the tables."""

from witnessmark.documents.problems import (
    MissingKey,
    OutOfRange,
    UnknownWord,
    WrongForm,
    one_of,
)
from witnessmark.documents.shapes import Key, Kind, Shape
from witnessmark.problem import Problem
from witnessmark.source import Source


def fits_text(key: Key, value: str) -> bool:
    """Is nothing wrong with a text that is not empty?"""
    if key.words:
        return value in key.words
    return not key.pattern or key.form.fullmatch(value) is not None


def fits_number(key: Key, value: int) -> bool:
    """Is nothing wrong with a number?"""
    return (key.least is None or key.least <= value) and (key.most is None or value <= key.most)


def wrong_text(key: Key, value: str, source: Source) -> Problem:
    """The fault of a text that does not fit."""
    if key.words:
        return UnknownWord(source, key.name, value, key.words)
    return WrongForm(source, key.name, value, key.pattern_name)


def wrong_number(key: Key, value: int, source: Source) -> Problem:
    """The fault of a number that does not fit."""
    least = key.least if key.least is not None else value
    most = key.most if key.most is not None else value
    return OutOfRange(source, key.name, value, least, most)


def missing(key: Key, shape: Shape, source: Source) -> Problem:
    """The problem of a required key that is missing or empty."""
    return MissingKey(source, key.name, shape.name, wanted(key))


def wanted(key: Key) -> str:
    """What a key holds, for a person."""
    if key.words:
        return one_of(key.words)
    if key.pattern_name:
        return key.pattern_name
    if key.kind is Kind.NUMBER and key.least is not None and key.most is not None:
        return f"{key.kind} from {key.least} to {key.most}"
    return str(key.kind)
