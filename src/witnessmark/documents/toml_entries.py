"""TOML: from text to entries of checked values, with a place for each fault."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from operator import methodcaller
from typing import TypeGuard, cast

import tomli

from witnessmark.documents.entries import Entry, FileText, Value
from witnessmark.documents.lines import KeyPath, Lines
from witnessmark.documents.problems import (
    NotToml,
    TooDeep,
    UnknownKey,
    WrongKind,
)
from witnessmark.documents.shapes import Key, Kind, Shape
from witnessmark.documents.toml_places import TomlPlaces
from witnessmark.documents.values import (
    fits_number,
    fits_text,
    missing,
    wrong_number,
    wrong_text,
)
from witnessmark.problem import Problem
from witnessmark.source import Source

_PLACE = re.compile(r" \(at (?:line (\d+), column (\d+)|end of document)\)\Z")
_MANY_DOTS = 40
# The parser's time grows with the square of a dotted key's parts.
_LONG_KEY = re.compile(
    r"""(?<![\w-])(?:(?:"[^"\n]*+"|'[^'\n]*+'|[\w-]++)[ \t]*+\.[ \t]*+){40}""", re.ASCII
)
# What the parser gives up on without a word about the place.
_DEEP = re.compile(r"(?:\[\s*+){40}|(?:\{[^{}\n]*+){40}")
_LONG_NUMBER = re.compile(r"[0-9][0-9_]{4000}")


@dataclass(frozen=True, slots=True)
class TomlRead:
    """The values of a text, and the places of them; or the problem that there are none."""

    values: Mapping[str, object]
    places: TomlPlaces
    problem: Problem | None = None


def read_toml(file: FileText) -> TomlRead:
    """The values of a text, not yet held against any declaration; no exception."""
    places = TomlPlaces(file.name, file.text.replace("\r\n", "\n"))
    most_dots = max(map(methodcaller("count", "."), file.text.split("\n")))
    if most_dots >= _MANY_DOTS and _LONG_KEY.search(file.text):
        return TomlRead({}, places, TooDeep(_place_of(_LONG_KEY, file)))
    try:
        return TomlRead(tomli.loads(file.text), places)
    except RecursionError:
        return TomlRead({}, places, too_deep(file))
    except ValueError as fault:
        # Not only its own error: a number of thousands of digits is a plain ValueError.
        return TomlRead({}, places, _syntax(file, str(fault)))


def too_deep(file: FileText) -> Problem:
    """Lists or tables in one another beyond what can be walked through."""
    return TooDeep(_place_of(_DEEP, file))


def _place_of(pattern: re.Pattern[str], file: FileText) -> Source:
    """Where a pattern first stands in a file; the file as a whole where it does not."""
    match = pattern.search(file.text)
    if match is None:
        return Source(file.name)
    return Lines(file.name, file.text).source(match.start(), match.start() + 1)


def _syntax(file: FileText, message: str) -> Problem:
    """The parser's complaint with its place."""
    match = _PLACE.search(message)
    reason = message[: match.start()] if match else message
    reason = reason[:1].lower() + reason[1:160]
    lines = file.text.replace("\r\n", "\n").split("\n")
    if match and match[1]:
        number, column = int(match[1]), int(match[2])
    elif match:
        number, column = len(lines), len(lines[-1]) + 1
    else:
        return NotToml(_place_of(_LONG_NUMBER, file), "a number cannot have so many digits")
    text = lines[number - 1] if number <= len(lines) else ""
    return NotToml(Source(file.name, number, column, 1, text), reason)


def _is_sound(found: object, key: Key) -> TypeGuard[str | int | bool]:
    """Is this the value of a key that holds a single one, and without fault? Most are."""
    kind = key.kind
    if kind is Kind.TEXT:
        return isinstance(found, str) and found != "" and fits_text(key, found)
    if kind is Kind.NUMBER:
        return type(found) is int and fits_number(key, found)
    return kind is Kind.YES_NO and isinstance(found, bool)


@dataclass(frozen=True, slots=True)
class TomlReader:
    """Reads tables by their shapes and gathers the problems."""

    places: TomlPlaces
    problems: list[Problem]

    def entry(self, shape: Shape, table: Mapping[str, object], path: KeyPath) -> Entry:
        """The checked values of one table."""
        values: dict[str, Value] = dict(shape.defaults)
        faulty: set[str] = set()
        wanting = (name for name in shape.required if name not in table)
        for name in (*table, *wanting):
            key = shape.by_name.get(name)
            if key is None:
                source = self.places.key((*path, name))
                self.problems.append(UnknownKey(source, name, shape.names(), shape.name))
                continue
            found = table.get(name)
            if _is_sound(found, key):
                values[name] = found
                continue
            before = len(self.problems)
            values[name] = self._value(key, shape, table, path)
            # What is wrong inside a table is its own fault, not this key's.
            if len(self.problems) > before and key.shape is None:
                faulty.add(name)
        return Entry(values, _TablePlaces(self.places, table, path), frozenset(faulty))

    def _value(self, key: Key, shape: Shape, table: Mapping[str, object], path: KeyPath) -> Value:
        """The checked value of one key, or its default beside a problem."""
        found = table.get(key.name)
        # An empty text says no more than a cell left empty in a table.
        if found is None or found == "" or (key.required and found == []):
            if key.required:
                is_there = key.name in table
                where = (
                    self.places.value((*path, key.name)) if is_there else self.places.table(path)
                )
                self.problems.append(missing(key, shape, where))
            return key.stands_in
        value = self._checked(key, found, (*path, key.name))
        return key.stands_in if value is None else value

    def _checked(self, key: Key, found: object, path: KeyPath) -> Value:
        """The value as its kind; None beside a problem."""
        match key.kind:
            case Kind.TEXT if isinstance(found, str):
                self.problems.append(wrong_text(key, found, self.places.value(path)))
                return found if key.is_name else None
            case Kind.NUMBER if type(found) is int:
                return self._number(key, found, path)
            case Kind.DAY if isinstance(found, date) and not isinstance(found, datetime):
                return found
            case Kind.TEXTS | Kind.NUMBERS | Kind.TABLES if isinstance(found, list):
                each = (self._element(key, one, (*path, at)) for at, one in enumerate(found))
                return cast(Value, tuple(one for one in each if one is not None))
            case Kind.TABLE if isinstance(found, dict) and key.shape:
                return (self.entry(key.shape, found, path),)
            case Kind.CITATIONS if isinstance(found, dict):
                return (self._citations(found, path),)
        self._wrong_kind(key, found, path)
        return None

    def _number(self, key: Key, found: int, path: KeyPath) -> int | None:
        """The number if nothing is wrong with it."""
        if fits_number(key, found):
            return found
        self.problems.append(wrong_number(key, found, self.places.value(path)))
        return None

    def _element(self, key: Key, found: object, path: KeyPath) -> str | int | Entry | None:
        """A text, number or table of a list; None for what is left out, beside a problem."""
        match key.kind:
            case Kind.TEXTS if isinstance(found, str):
                return found
            case Kind.NUMBERS if type(found) is int:
                return self._number(key, found, path)
            case Kind.TABLES if isinstance(found, dict) and key.shape:
                return self.entry(key.shape, found, path)
        self._wrong_kind(key, found, path)
        return None

    def _wrong_kind(self, key: Key, found: object, path: KeyPath) -> None:
        source = self.places.value(path)
        self.problems.append(WrongKind(source, key.name, kind_of(found), key.kind))

    def _citations(self, found: Mapping[str, object], path: KeyPath) -> Entry:
        """The table of sources, whose keys are the author's own."""
        values: dict[str, Value] = {}
        for name, citation in found.items():
            if isinstance(citation, str) and citation.strip():
                values[name] = citation.strip()
            else:
                source = self.places.value((*path, name))
                kind = "an empty text" if isinstance(citation, str) else kind_of(citation)
                self.problems.append(WrongKind(source, name, kind, "the source as cited in full"))
        return Entry(values, _TablePlaces(self.places, values, path))


@dataclass(slots=True)
class _TablePlaces:
    """The places of what is written in a table."""

    places: TomlPlaces
    table: Mapping[str, object]
    path: KeyPath

    def __contains__(self, name: object) -> bool:
        return name in self.table

    def source(self, name: str, index: int | None) -> Source:
        """The value of a key, or one element of it."""
        return self.places.value((*self.path, name, *(() if index is None else (index,))))

    def whole(self) -> Source:
        """The table itself."""
        return self.places.table(self.path)


def kind_of(value: object) -> str:
    """The kind of a TOML value, named for a person."""
    names: tuple[tuple[type, str], ...] = (
        (bool, "true or false"),
        (int, "a whole number"),
        (float, "a number with a point"),
        (str, "a text"),
        (datetime, "a date with a time"),
        (date, "a date"),
        (list, "a list"),
        (dict, "a table"),
    )
    return next((name for kind, name in names if isinstance(value, kind)), "a time")
