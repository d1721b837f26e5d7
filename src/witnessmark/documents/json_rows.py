"""From the values of a JSON text to the record of an open row, with each fault at its place."""

import re
from dataclasses import dataclass, field
from datetime import date, datetime
from types import MappingProxyType
from typing import Any

from witnessmark.dates import PartialDate
from witnessmark.documents.json_places import JsonPlaces
from witnessmark.documents.lines import KeyPath
from witnessmark.documents.open_row import OpenRow
from witnessmark.documents.problems_json import (
    BadDay,
    BadMoment,
    BadPartialDate,
    FieldMissing,
    FieldWrongKind,
    NotOneOf,
    OutOfBounds,
    TextEmpty,
    TextTooLong,
)
from witnessmark.documents.row import Column
from witnessmark.documents.shapes import Key, Kind
from witnessmark.problem import Problem

_OBJECT, _LIST = "an object in { }", "a list in [ ]"
_HOLDS: MappingProxyType[Kind, tuple[type | tuple[type, ...], str]] = MappingProxyType(
    {
        Kind.TEXT: (str, "a text in double quotes"),
        Kind.PARTIAL_DATE: (str, "a text in double quotes"),
        Kind.NUMBER: (int, "a whole number"),
        Kind.AMOUNT: ((int, float), "a number"),
        Kind.YES_NO: (bool, "true or false"),
        Kind.DAY: (str, "a day in double quotes, such as 2025-03-14"),
        Kind.MOMENT: (str, "a day with a time in double quotes, such as 2025-03-14T10:30"),
        Kind.TEXTS: (list, _LIST),
        Kind.TABLES: (list, _LIST),
        Kind.TABLE: (dict, _OBJECT),
        Kind.CITATIONS: (dict, _OBJECT),
    }
)
"""What JSON has for each kind, and how that is told to a person."""

_DAY = re.compile(r"\d{4}-\d{2}-\d{2}", re.ASCII)
_MOMENT = re.compile(
    r"\d{4}-\d{2}-\d{2}[T ]\d{2}:\d{2}(?::\d{2}(?:[.,]\d+)?)?(?:[Zz]|[+-]\d{2}:?\d{2})?", re.ASCII
)


@dataclass(frozen=True, slots=True)
class Fault:
    """A problem, and the path of the value that it is about."""

    path: KeyPath
    problem: Problem


@dataclass(slots=True)
class JsonRows:
    """Reads rows from values whose places are known, and gathers what is wrong.

    `told` are the paths of values that have been reported before; no record is made of them.
    """

    places: JsonPlaces
    told: frozenset[KeyPath] = frozenset()
    faults: list[Fault] = field(default_factory=list)

    def row[R: OpenRow](self, row: type[R], values: Any, path: KeyPath = ()) -> R | None:
        """The record of an object; None where anything in it is at fault."""
        if not isinstance(values, dict):
            self._wrong_kind(values, _OBJECT, path)
            return None
        before, made = len(self.faults), {}
        columns = row.fields_declared()
        for name, column in columns.items():
            here = (*path, name)
            if name in values:
                made[name] = self._value(column, values[name], here)
            elif column.key.required:
                missing = FieldMissing(self.places.source(here), name, column.key.about)
                self.faults.append(Fault(here, missing))
        unknown = {name: each for name, each in values.items() if name not in columns}
        return None if len(self.faults) > before else row(**made, unknown=unknown)

    def problems(self) -> list[Problem]:
        """What is wrong and has not been reported before."""
        return [each.problem for each in self.faults if each.path not in self.told]

    def _value(self, column: Column, found: Any, path: KeyPath) -> Any:
        key, may_be_null = column.key, column.default() is None
        if found is None and may_be_null:
            return None
        if not _is_of(key.kind, found):
            wanted = f"one of: {', '.join(_listed(key))}" if key.words else _HOLDS[key.kind][1]
            may_be_null = may_be_null and not key.words
            self._wrong_kind(found, wanted + self._or_none(may_be_null, path), path)
            return None
        count = len(self.faults)
        match key.kind:
            case Kind.TABLE:
                return self.row(_row_of(column), found, path)
            case Kind.TABLES | Kind.TEXTS:
                return tuple(
                    self._element(column, each, (*path, n)) for n, each in enumerate(found)
                )
            case Kind.CITATIONS:
                return {name: self._text(key, each, (*path, name)) for name, each in found.items()}
            case Kind.NUMBER | Kind.AMOUNT:
                self._bounded(key, found, path)
            case Kind.TEXT:
                self._text(key, found, path)
            case Kind.DAY | Kind.MOMENT | Kind.PARTIAL_DATE:
                return self._date(key.kind, found, path)
        is_sound = len(self.faults) == count
        return column.read(found) if column.read is not None and is_sound else found

    def _element(self, column: Column, found: Any, path: KeyPath) -> Any:
        """One element of a list."""
        if column.key.kind is Kind.TEXTS:
            return self._text(column.key, found, path)
        if not isinstance(found, dict):
            return self._wrong_kind(
                found, _OBJECT + self._or_none(column.default() is None, path), path
            )
        return self.row(_row_of(column), found, path)

    def _text(self, key: Key, found: Any, path: KeyPath) -> Any:
        """A text as its key wants it."""
        source = self.places.source  # asked only where something is wrong
        if not isinstance(found, str):
            self._wrong_kind(found, _HOLDS[Kind.TEXT][1], path)
        elif key.words and found not in key.words:
            self._report(path, NotOneOf(source(path), found, key.noun, _listed(key)))
        elif key.least and len(found) < key.least:
            self._report(path, TextEmpty(source(path), label(path), key.about))
        elif key.most is not None and len(found) > key.most:
            self._report(path, TextTooLong(source(path), label(path), len(found), key.most))
        elif key.pattern and key.refused and not key.form.fullmatch(found):
            self._report(path, key.refused(source(path), found))
        return found

    def _bounded(self, key: Key, found: float, path: KeyPath) -> None:
        """A number within its bounds."""
        bound = ""
        if key.least is not None and found < key.least:
            bound = f"not below {key.least:.12g}"
        elif key.most is not None and found > key.most:
            bound = f"not above {key.most:.12g}"
        if bound:
            source, typed = self.places.source(path), self.places.typed(path)
            self._report(path, OutOfBounds(source, label(path), typed, bound))

    def _date(self, kind: Kind, found: str, path: KeyPath) -> date | str | None:
        """A day, a moment or a date as exact as it is known; None where it is none."""
        try:
            if kind is Kind.PARTIAL_DATE:
                PartialDate.parse(found)
                return found
            if kind is Kind.DAY:
                return date.fromisoformat(_whole(_DAY, found))
            return datetime.fromisoformat(_whole(_MOMENT, found))
        except ValueError as fault:
            kinds = {Kind.DAY: BadDay, Kind.MOMENT: BadMoment}
            source = self.places.source(path)
            # What is wrong with a partial date is said by the room of dates.
            bad = (
                kinds[kind](source, found) if kind in kinds else BadPartialDate(source, str(fault))
            )
            self._report(path, bad)
            return None

    def _wrong_kind(self, found: Any, wanted: str, path: KeyPath) -> None:
        kind = json_kind(self.places.typed(path))
        self._report(path, FieldWrongKind(self.places.source(path), label(path), kind, wanted))

    def _or_none(self, may_be_none: bool, path: KeyPath) -> str:
        """What is added to a wish where a document may have null, and a command nothing."""
        none = "nothing" if self.places.is_entered(path) else "null"
        return f", or {none}" if may_be_none else ""

    def _report(self, path: KeyPath, problem: Problem) -> None:
        self.faults.append(Fault(path, problem))


def json_kind(typed: str) -> str:
    """What kind of thing was typed, as a sentence calls it.

    >>> json_kind("[1, 2]")
    'a list'
    """
    kinds = {'"': "a text", "{": "an object", "[": "a list"}
    if typed in ("true", "false", "null"):
        return typed
    return kinds.get(typed[:1], "a number")


WHOLE = "the whole"
"""What a text that is no object at all is called."""


def label(path: KeyPath) -> str:
    """The last field of a path, as a reader would point at it.

    >>> label(("sites", 2, "exhibits", 0))
    'exhibits[0]'
    """
    names = [step for step in path if isinstance(step, str)]
    positions = "".join(f"[{step}]" for step in path[-1:] if isinstance(step, int))
    return (names[-1] if names else WHOLE) + positions


def _is_of(kind: Kind, found: Any) -> bool:
    """Is it what JSON has for this kind? True and false are not numbers."""
    return isinstance(found, _HOLDS[kind][0]) and (type(found) is not bool or kind is Kind.YES_NO)


def _row_of(column: Column) -> type[OpenRow]:
    assert column.row is not None
    assert issubclass(column.row, OpenRow)
    return column.row


def _listed(key: Key) -> tuple[str, ...]:
    """The words as a sentence lists them: that nothing may stand there needs no telling."""
    return tuple(filter(None, key.words))


def _whole(form: re.Pattern[str], text: str) -> str:
    """The text, if it is of this form; ValueError if not. Python reads more forms than people
    write, and some of them as what nobody meant."""
    if form.fullmatch(text) is None:
        raise ValueError(text)
    return text
