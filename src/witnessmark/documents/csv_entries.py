"""The CSV tables: from text to entries of checked values, with a place for each fault."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from itertools import repeat, starmap

from witnessmark.dates import PartialDate
from witnessmark.documents.csv_cells import CsvCell, Rows, rows_of
from witnessmark.documents.entries import Entry, FileText, Value
from witnessmark.documents.problems import WrongKind
from witnessmark.documents.shapes import Key, Kind, Shape
from witnessmark.problem import Problem, shown
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
    rows, faults = rows_of(file)
    if not rows.texts:
        from witnessmark.documents.problems_csv import NoHeader

        header_missing = NoHeader(Source(file.name, 1), shape.names())
        return CsvParsed((), tuple(faults) or (header_missing,), False)
    header_problems = _check_header(rows, shape)
    problems = [*faults, *header_problems]
    is_whole = not faults
    if header_problems:
        from witnessmark.documents.problems_csv import MissingColumn, WrongSeparator

        if any(isinstance(problem, WrongSeparator) for problem in header_problems):
            return CsvParsed((), tuple(problems), False)
        is_whole = is_whole and not any(isinstance(p, MissingColumn) for p in problems)
    fitting: list[int] = []
    count = len(rows.texts[0])
    for row in range(1, len(rows.texts)):
        if len(rows.texts[row]) == count:
            fitting.append(row)
            continue
        from witnessmark.documents.problems_csv import WrongCellCount

        problems.append(WrongCellCount(rows.whole(row), len(rows.texts[row]), count))
        is_whole = False
    entries, wrong = _entries(shape, rows, fitting) if fitting else ([], [])
    return CsvParsed(tuple(entries), (*problems, *wrong), is_whole)


def _check_header(rows: Rows, shape: Shape) -> tuple[Problem, ...]:
    """Unknown, repeated and missing columns."""
    names = set(rows.texts[0])
    if len(names) == len(rows.texts[0]) and {*shape.required} <= names <= shape.by_name.keys():
        return ()
    # Late, as all problems of this module: most tables have none, and a mark is decoded sooner.
    from witnessmark.documents.problems_csv import (
        MissingColumn,
        RepeatedColumn,
        UnknownColumn,
        WrongSeparator,
    )

    header = rows.cut(0)
    line = header[0].source
    for separator in (";", "\t"):
        if len(header) == 1 and separator in line.text:
            column = line.text.index(separator) + 1
            return (WrongSeparator(Source(line.name, line.line, column, 1, line.text), separator),)
    problems: list[Problem] = []
    seen: set[str] = set()
    for cell in header:
        if cell.text not in shape.by_name:
            problems.append(UnknownColumn(cell.source, cell.text, shape.names(), shape.name))
        elif cell.text in seen:
            problems.append(RepeatedColumn(cell.source, cell.text))
        seen.add(cell.text)
    end = Source(line.name, line.line, len(line.text) + 1, 1, line.text)
    problems += [
        MissingColumn(end, name, shape.name) for name in shape.required if name not in seen
    ]
    return tuple(problems)


@dataclass(frozen=True, slots=True)
class _TableColumn:
    """A declared column that a table has: its place among the cells of a row, the value of each
    text in it, for most come again and again, and the texts that are faulty. `values` is None
    where every text is its own value."""

    key: Key
    at: int
    values: Mapping[str, Value] | None
    faulty: frozenset[str]

    @classmethod
    def of(cls, key: Key, at: int, texts: tuple[str, ...]) -> "_TableColumn":
        """Every text read once; a faulty one gives what stands in for it."""
        wanting = frozenset({""} if key.required and "" in texts else ())
        if key.is_free and key.stands_in == "":
            return cls(key, at, None, wanting)
        read = {text: _value(key, text) for text in set(texts) - {""}}
        faulty = frozenset(text for text, value in read.items() if value is None)
        read.update((text, text if key.is_name else key.stands_in) for text in faulty)
        read[""] = key.stands_in
        return cls(key, at, read, wanting | faulty)

    def read(self, texts: tuple[str, ...]) -> Iterable[Value]:
        """The values of these texts."""
        return texts if self.values is None else map(self.values.__getitem__, texts)


def _entries(shape: Shape, rows: Rows, fitting: list[int]) -> tuple[list[Entry], list[Problem]]:
    """The checked values of rows that have a cell for each column, and what is wrong with them; a
    column that is missing was reported with the header."""
    texts = list(zip(*(rows.texts[row] for row in fitting), strict=True))
    place = {name: at for at, name in enumerate(rows.texts[0])}
    columns = {
        name: _TableColumn.of(key, place[name], texts[place[name]])
        for name, key in shape.by_name.items()
        if name in place
    }
    read = [
        columns[name].read(texts[place[name]])
        if name in columns
        else repeat(key.stands_in, len(fitting))
        for name, key in shape.by_name.items()
    ]
    names = tuple(shape.by_name)
    values = (dict(zip(names, found, strict=True)) for found in zip(*read, strict=True))
    placed = zip(values, (_CellPlaces(rows, row, columns) for row in fitting), strict=True)
    if not any(each.faulty for each in columns.values()):
        return list(starmap(Entry, placed)), []
    entries: list[Entry] = []
    problems: list[Problem] = []
    for own, places in placed:
        faults = _faults(shape, places)
        problems += faults.values()
        entries.append(Entry(own, places, frozenset(faults)))
    return entries, problems


def _faults(shape: Shape, places: "_CellPlaces") -> dict[str, Problem]:
    """What is wrong with the cells of a row, by column."""
    texts = places.rows.texts[places.row]
    return {
        name: _fault(column.key, shape, texts[column.at], places.cell(name).source)
        for name, column in places.columns.items()
        if texts[column.at] in column.faulty
    }


def _value(key: Key, text: str) -> Value:
    """The value of a cell that is not empty by the kind of its column; None where it is faulty."""
    match key.kind:
        case Kind.TEXT:
            return text if key.fits_text(text) else None
        case Kind.NUMBER:
            is_number = _WHOLE.fullmatch(text) and key.fits_number(int(text))
            return int(text) if is_number else None
        case Kind.DAY:
            return _day(text)
        case Kind.PARTIAL_DATE:
            return text if not _wrong_date(text) else None
        case _:
            return tuple(text.split())


def _fault(key: Key, shape: Shape, text: str, source: Source) -> Problem:
    """What is wrong with a faulty cell."""
    if text == "":
        return key.missing(shape, source)
    if key.kind is Kind.TEXT:
        return key.wrong_text(text, source)
    if key.kind is Kind.NUMBER and _WHOLE.fullmatch(text):
        return key.wrong_number(int(text), source)
    if key.kind is Kind.PARTIAL_DATE:
        from witnessmark.documents.problems_json import BadPartialDate

        return BadPartialDate(source, _wrong_date(text))
    return WrongKind(source, key.name, shown(text), key.kind)


def _wrong_date(text: str) -> str:
    """Why it is no date as exact as it is known; empty where it is one."""
    try:
        PartialDate.parse(text)
    except ValueError as fault:
        return str(fault)
    return ""


def _day(text: str) -> date | None:
    """A day written as 1952-01-01, or None."""
    try:
        return date.fromisoformat(text) if _DAY.fullmatch(text) else None
    except ValueError:
        return None


@dataclass(slots=True)
class _CellPlaces:
    """The places of a row's written cells by column."""

    rows: Rows
    row: int
    columns: Mapping[str, _TableColumn]

    def whole(self) -> Source:
        """The whole row."""
        return self.rows.whole(self.row)

    def cell(self, name: str) -> CsvCell:
        """The cell of a column."""
        return self.rows.cut(self.row)[self.columns[name].at]

    def __contains__(self, name: object) -> bool:
        column = self.columns.get(str(name))
        return column is not None and self.rows.texts[self.row][column.at] != ""

    def source(self, name: str, index: int | None) -> Source:
        """A cell, or one word of it."""
        cell = self.cell(name)
        words = _words(cell) if index is not None else []
        return words[index] if index is not None and index < len(words) else cell.source


def _words(cell: CsvCell) -> list[Source]:
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
