"""The CSV tables: from text to entries of checked values, with a place for each fault.

The standard reader gives cells without their columns in the line, so this one
takes the text apart itself: commas, quotes and line ends as in RFC 4180. Spaces
around a cell are left out, rows without anything in them are skipped.
"""

import re
from bisect import bisect_right
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from functools import partial

from witnessmark.codebook.entries import Entry, FileText, Value, default_of, frozen
from witnessmark.codebook.problems import WrongKind, shown
from witnessmark.codebook.problems_csv import (
    AfterQuote,
    MissingColumn,
    NoHeader,
    OpenQuote,
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

_QUOTED = re.compile(r'"((?:[^"]|"")*+)"')
_CELL_OF_LINE = re.compile(r'(?:"((?:[^"]|"")*+)"|([^",]*+))(,|\Z)')
_PLAIN = re.compile(r"[^,\r\n]*+")
_LINE_END = re.compile(r"\r\n|\n|\r")
_LINE = re.compile(r"[^\r\n]*+")
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_WHOLE = re.compile(r"-?[0-9]{1,9}")

MOST_CELLS = 200
"""Cells of a row beyond this many are not read: no table has so many columns."""


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell: its text without quotes and spaces around it, and where it stands.

    The place is worked out when it is asked for: a sound table has thousands of
    cells, and nobody asks.
    """

    text: str
    start: int
    end: int
    lines: "_Lines"

    @property
    def source(self) -> Source:
        """Where it stands; an empty cell where it begins."""
        return self.lines.source(*_trimmed(self.lines.text, self.start, self.end))


@dataclass(frozen=True, slots=True)
class CellsParsed:
    """The rows of a table, the header among them, and the problems of quotes."""

    rows: tuple[tuple[Cell, ...], ...]
    problems: tuple[Problem, ...]


@dataclass(frozen=True, slots=True)
class CsvParsed:
    """The entries of one table and its problems.

    `is_whole` is False where rows or columns are missing from what was read.
    """

    entries: tuple[Entry, ...]
    problems: tuple[Problem, ...]
    is_whole: bool


def parse_cells(file: FileText) -> CellsParsed:
    """Take a CSV text apart into rows of cells.

    >>> [[c.text for c in row] for row in parse_cells(FileText("t.csv", 'a,"b, c"')).rows]
    [['a', 'b, c']]
    """
    lines = _Lines.of(file)
    text, at = file.text, 0
    problems: list[Problem] = []
    rows: list[tuple[Cell, ...]] = []
    row: list[Cell] = []
    while True:
        if not row and (sound := _sound_row(text, at, lines)) is not None:
            if any(cell.text for cell in sound.cells):
                rows.append(sound.cells)
            if sound.end >= len(text):
                return CellsParsed(tuple(rows), tuple(problems))
            at = _end(_LINE_END, text, sound.end)
            continue
        taken = _take_cell(text, at, lines)
        row.append(taken.cell)
        at = taken.end
        if taken.problem is not None:
            problems.append(taken.problem)
            if isinstance(taken.problem, OpenQuote):
                return CellsParsed(tuple(rows), tuple(problems))
        if text.startswith(",", at) and len(row) < MOST_CELLS:
            at += 1
            continue
        # Of a line that is nothing but commas, no more is kept than shows that it is wrong.
        at = _end(_LINE, text, at)
        if any(cell.text for cell in row):
            rows.append(tuple(row))
        row = []
        if at >= len(text):
            return CellsParsed(tuple(rows), tuple(problems))
        at = _end(_LINE_END, text, at)


@dataclass(frozen=True, slots=True)
class _SoundRow:
    """A row that is one line without a fault, and the offset of its line's end."""

    cells: tuple[Cell, ...]
    end: int


def _sound_row(text: str, at: int, lines: "_Lines") -> _SoundRow | None:
    """The line that begins here, cut at its commas.

    None where a quote is out of place or reaches over the line, or where there are too
    many cells: such a line is taken cell by cell.
    """
    end = _end(_LINE, text, at)
    line = text[at:end]
    if line.count(",") >= MOST_CELLS:
        return None
    cells: list[Cell] = []
    if '"' not in line:
        for stretch in line.split(","):
            cells.append(Cell(stretch.strip(), at, at + len(stretch), lines))
            at += len(stretch) + 1
        return _SoundRow(tuple(cells), end)
    reached = 0
    while (found := _CELL_OF_LINE.match(line, reached)) is not None:
        quoted, plain, separator = found.groups()
        written = plain if quoted is None else quoted.replace('""', '"')
        cells.append(Cell(written.strip(), at + found.start(), at + found.start(3), lines))
        if not separator:
            return _SoundRow(tuple(cells), end)
        reached = found.end()
    return None


@dataclass(frozen=True, slots=True)
class _Taken:
    """A cell, the offset after it, and what is wrong with its quotes."""

    cell: Cell
    end: int
    problem: Problem | None = None


def _take_cell(text: str, at: int, lines: "_Lines") -> _Taken:
    """The cell that begins at this offset."""
    quoted = _QUOTED.match(text, at)
    if quoted is None:
        end = _end(_PLAIN, text, at)
        cell = Cell(text[at:end].strip(), at, end, lines)
        problem = OpenQuote(lines.source(at, at + 1)) if text.startswith('"', at) else None
        return _Taken(cell, end, problem)
    end = quoted.end()
    cell = Cell(quoted[1].replace('""', '"').strip(), at, end, lines)
    if end < len(text) and text[end] not in ",\r\n":
        return _Taken(cell, _end(_PLAIN, text, end), AfterQuote(lines.source(end, end + 1)))
    return _Taken(cell, end)


def parse_table(file: FileText, shape: Shape) -> CsvParsed:
    """Read one table against its columns; all faults at once, no exception."""
    cells = parse_cells(file)
    if not cells.rows:
        header_missing = NoHeader(Source(file.name, 1), shape.names())
        return CsvParsed((), cells.problems or (header_missing,), False)
    header, *rows = cells.rows
    header_problems = _check_header(header, shape)
    problems = [*cells.problems, *header_problems]
    if any(isinstance(problem, WrongSeparator) for problem in header_problems):
        return CsvParsed((), tuple(problems), False)
    is_whole = not cells.problems and not any(isinstance(p, MissingColumn) for p in problems)
    entries: list[Entry] = []
    for row in rows:
        if len(row) != len(header):
            problems.append(WrongCellCount(_whole_row(row), len(row), len(header)))
            is_whole = False
            continue
        by_column = {name.text: cell for name, cell in zip(header, row, strict=True)}
        entry, faults = _entry(shape, by_column, partial(_whole_row, row))
        entries.append(entry)
        problems += faults
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


def _entry(
    shape: Shape, cells: dict[str, Cell], place: Callable[[], Source]
) -> tuple[Entry, tuple[Problem, ...]]:
    """The checked values of one row; a column that is missing was reported with the header."""
    values: dict[str, Value] = {}
    written: dict[str, Cell] = {}
    problems: list[Problem] = []
    faulty: set[str] = set()
    for key in shape.keys:
        values[key.name] = default_of(key)
        cell = cells.get(key.name)
        if cell is None:
            continue
        if cell.text == "":
            if key.required:
                problems.append(missing(key, shape, cell.source))
                faulty.add(key.name)
            continue
        written[key.name] = cell
        value, problem = _value(key, cell)
        if problem is None:
            values[key.name] = value
        else:
            problems.append(problem)
            faulty.add(key.name)
            if key.is_name:
                values[key.name] = value
    places = _CellPlaces(written)
    return Entry(frozen(values), places, place, frozenset(faulty)), tuple(problems)


def _value(key: Key, cell: Cell) -> tuple[Value, Problem | None]:
    """A cell's value by the kind of its column."""
    if key.kind is Kind.NUMBER:
        if not _WHOLE.fullmatch(cell.text):
            return None, WrongKind(cell.source, key.name, shown(cell.text), key.kind)
        number = int(cell.text)
        fits = fits_number(key, number)
        return number, None if fits else check_number(key, number, cell.source)
    if key.kind is Kind.TEXTS:
        return tuple(cell.text.split()), None
    if key.kind is Kind.DAY:
        day = _day(cell.text)
        return day, None if day else WrongKind(cell.source, key.name, shown(cell.text), key.kind)
    fits = fits_text(key, cell.text)
    return cell.text, None if fits else check_text(key, cell.text, cell.source)


def _day(text: str) -> date | None:
    """A day written as 1952-01-01, or None."""
    try:
        return date.fromisoformat(text) if _DAY.fullmatch(text) else None
    except ValueError:
        return None


@dataclass(frozen=True, slots=True)
class _CellPlaces(Mapping[str, Source]):
    """The places of a row's cells by column, and of the words of a list as `column[0]`."""

    cells: dict[str, Cell]

    def __getitem__(self, name: str) -> Source:
        if name in self.cells:
            return self.cells[name].source
        column, bracket, index = name.removesuffix("]").rpartition("[")
        if not bracket or column not in self.cells or not index.isdigit():
            raise KeyError(name)
        places = _words(self.cells[column])
        if int(index) >= len(places):
            raise KeyError(name)
        return places[int(index)]

    def __contains__(self, name: object) -> bool:
        # The columns are asked for again and again: no place is worked out for that.
        if name in self.cells:
            return True
        try:
            return bool(self[str(name)])
        except KeyError:
            return False

    def __iter__(self) -> Iterator[str]:
        return iter(self.cells)

    def __len__(self) -> int:
        return len(self.cells)


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


def _whole_row(row: tuple[Cell, ...]) -> Source:
    """The row as one place, from its first cell to the end of that line."""
    first = row[0].source
    return Source(first.name, first.line, 1, max(1, len(first.text)), first.text)


def _end(pattern: re.Pattern[str], text: str, at: int) -> int:
    match = pattern.match(text, at)
    return match.end() if match else at


def _trimmed(text: str, start: int, end: int) -> tuple[int, int]:
    """The stretch without the spaces around it; an empty cell stays where it begins."""
    stretch = text[start:end]
    if not stretch.strip():
        return start, start + 1
    return start + len(stretch) - len(stretch.lstrip()), start + len(stretch.rstrip())


@dataclass(frozen=True, slots=True)
class _Lines:
    """The physical lines of a text and where each starts."""

    name: str
    text: str
    starts: tuple[int, ...]
    texts: tuple[str, ...]

    @classmethod
    def of(cls, file: FileText) -> "_Lines":
        ends = list(_LINE_END.finditer(file.text))
        starts = (0, *(end.end() for end in ends))
        stops = (*(end.start() for end in ends), len(file.text))
        texts = tuple(file.text[a:b] for a, b in zip(starts, stops, strict=True))
        return cls(file.name, file.text, starts, texts)

    def source(self, start: int, end: int) -> Source:
        """The place of a stretch, cut at the end of its first line."""
        index = bisect_right(self.starts, start) - 1
        text = self.texts[index]
        column = start - self.starts[index] + 1
        width = min(end - start, len(text) - column + 1)
        return Source(self.name, index + 1, column, max(1, width), text)
