"""The CSV tables: from text to entries of checked values, with a place for each fault."""

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from functools import partial

from witnessmark.codebook.csv_cells import Cell, Row, rows_of
from witnessmark.codebook.entries import Entry, FileText, Value, default_of, frozen
from witnessmark.codebook.problems import WrongKind, shown
from witnessmark.codebook.problems_csv import (
    MissingColumn,
    NoHeader,
    RepeatedColumn,
    UnknownColumn,
    WrongCellCount,
    WrongSeparator,
)
from witnessmark.codebook.shapes import Key, Kind, Shape
from witnessmark.codebook.values import (
    check_number,
    check_text,
    fits_number,
    fits_text,
    missing,
)
from witnessmark.problem import Problem
from witnessmark.source import Source

_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_WHOLE = re.compile(r"-?[0-9]{1,9}")


@dataclass(frozen=True, slots=True)
class CsvParsed:
    """The entries of one table and its problems.

    `is_whole` is False where rows or columns are missing from what was read.
    """

    entries: tuple[Entry, ...]
    problems: tuple[Problem, ...]
    is_whole: bool


def parse_table(file: FileText, shape: Shape) -> CsvParsed:
    """Read one table against its columns; all faults at once, no exception."""
    found, faults = rows_of(file)
    if not found:
        header_missing = NoHeader(Source(file.name, 1), shape.names())
        return CsvParsed((), tuple(faults) or (header_missing,), False)
    header, *rows = found
    header_problems = _check_header(header.cut(), shape)
    problems = [*faults, *header_problems]
    if any(isinstance(problem, WrongSeparator) for problem in header_problems):
        return CsvParsed((), tuple(problems), False)
    is_whole = not faults and not any(isinstance(p, MissingColumn) for p in problems)
    columns = _Columns.of(shape, header.texts)
    entries: list[Entry] = []
    for row in rows:
        if len(row.texts) != len(header.texts):
            source = row.whole()
            problems.append(WrongCellCount(source, len(row.texts), len(header.texts)))
            is_whole = False
            continue
        entry, wrong = _entry(columns, row)
        entries.append(entry)
        problems += wrong
    return CsvParsed(tuple(entries), tuple(problems), is_whole)


def _check_header(header: tuple[Cell, ...], shape: Shape) -> tuple[Problem, ...]:
    """Unknown, repeated and missing columns."""
    line = header[0].source
    for separator in (";", "\t"):
        if len(header) == 1 and separator in line.text:
            column = line.text.index(separator) + 1
            return (WrongSeparator(Source(line.name, line.line, column, 1, line.text), separator),)
    problems: list[Problem] = []
    seen: set[str] = set()
    for cell in header:
        if shape.key(cell.text) is None:
            problems.append(UnknownColumn(cell.source, cell.text, shape.name, shape.names()))
        elif cell.text in seen:
            problems.append(RepeatedColumn(cell.source, cell.text))
        seen.add(cell.text)
    end = Source(line.name, line.line, len(line.text) + 1, 1, line.text)
    problems += [
        MissingColumn(end, key.name, shape.name)
        for key in shape.keys
        if key.required and key.name not in seen
    ]
    return tuple(problems)


@dataclass(frozen=True, slots=True)
class _Column:
    """A declared column that a table has: its place among the cells of a row, and the texts
    that were read in it without fault, for most come again and again."""

    key: Key
    at: int
    known: dict[str, Value]


@dataclass(frozen=True, slots=True)
class _Columns:
    """The declared columns of a table, in their order; `defaults` stand in an empty row."""

    shape: Shape
    defaults: dict[str, Value]
    has: dict[str, _Column]

    @classmethod
    def of(cls, shape: Shape, header: list[str]) -> "_Columns":
        """The columns by the header of a table."""
        place = {name: at for at, name in enumerate(header)}
        has = {k.name: _Column(k, place[k.name], {}) for k in shape.keys if k.name in place}
        return cls(shape, {key.name: default_of(key) for key in shape.keys}, has)


def _entry(columns: _Columns, row: Row) -> tuple[Entry, list[Problem]]:
    """The checked values of one row; a column that is missing was reported with the header."""
    values = dict(columns.defaults)
    problems: list[Problem] = []
    faulty: set[str] = set()
    for name, column in columns.has.items():
        text = row.texts[column.at]
        if text in column.known:
            values[name] = column.known[text]
            continue
        key, place = column.key, partial(row.source, column.at)
        if text == "":
            if key.required:
                problems.append(missing(key, columns.shape, place()))
                faulty.add(name)
            continue
        value, problem = _value(key, text, place)
        if problem is None:
            column.known[text] = value
        else:
            problems.append(problem)
            faulty.add(name)
        if problem is None or key.is_name:
            values[name] = value
    places = _CellPlaces(row, columns.has)
    return Entry(frozen(values), places, row.whole, frozenset(faulty)), problems


def _value(key: Key, text: str, place: Callable[[], Source]) -> tuple[Value, Problem | None]:
    """A cell's value by the kind of its column."""
    if key.kind is Kind.NUMBER:
        if not _WHOLE.fullmatch(text):
            return None, WrongKind(place(), key.name, shown(text), key.kind)
        number = int(text)
        fits = fits_number(key, number)
        return number, None if fits else check_number(key, number, place())
    if key.kind is Kind.TEXTS:
        return tuple(text.split()), None
    if key.kind is Kind.DAY:
        day = _day(text)
        return day, None if day else WrongKind(place(), key.name, shown(text), key.kind)
    fits = fits_text(key, text)
    return text, None if fits else check_text(key, text, place())


def _day(text: str) -> date | None:
    """A day written as 1952-01-01, or None."""
    try:
        return date.fromisoformat(text) if _DAY.fullmatch(text) else None
    except ValueError:
        return None


@dataclass(frozen=True, slots=True)
class _CellPlaces(Mapping[str, Source]):
    """The places of a row's written cells by column, and of the words of a list as `column[0]`."""

    row: Row
    has: dict[str, _Column]

    def _is_written(self, name: object) -> bool:
        return name in self.has and self.row.texts[self.has[str(name)].at] != ""

    def _cell(self, name: str) -> Cell:
        return self.row.cut()[self.has[name].at]

    def __getitem__(self, name: str) -> Source:
        if self._is_written(name):
            return self._cell(name).source
        column, bracket, index = name.removesuffix("]").rpartition("[")
        if not bracket or not self._is_written(column) or not index.isdigit():
            raise KeyError(name)
        places = _words(self._cell(column))
        if int(index) >= len(places):
            raise KeyError(name)
        return places[int(index)]

    def __contains__(self, name: object) -> bool:
        # The columns are asked for again and again: no place is worked out for that.
        if self._is_written(name):
            return True
        try:
            return bool(self[str(name)])
        except KeyError:
            return False

    def __iter__(self) -> Iterator[str]:
        return (name for name in self.has if self._is_written(name))

    def __len__(self) -> int:
        return sum(1 for _ in self)


def _words(cell: Cell) -> list[Source]:
    """The places of the single words of a cell."""
    # In a quoted cell the words stand one further to the right, or more; search for them.
    whole = cell.source
    start = (whole.column or 1) - 1
    places: list[Source] = []
    for word in cell.text.split():
        found = whole.text.find(word, start)
        if found < 0:
            break
        places.append(Source(whole.name, whole.line, found + 1, len(word), whole.text))
        start = found + len(word)
    return places
