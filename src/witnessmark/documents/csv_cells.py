"""A CSV text taken apart into rows of cells, each with its place.

The standard reader gives cells without their columns in the line, so it reads a text of
which every row is one line without a fault, and where somebody asks for a place, or something
is wrong, this one takes the text apart itself: separators, quotes and line ends as in RFC 4180.
Spaces around a cell are left out, rows without anything in them are skipped.
"""

import csv
import re
from dataclasses import dataclass
from functools import cache

from witnessmark.documents.entries import FileText
from witnessmark.documents.lines import Lines
from witnessmark.problem import Problem
from witnessmark.source import Source

_QUOTED = re.compile(r'"((?:[^"]|"")*+)"')

MOST_CELLS = 200
"""Cells of a row beyond this many are not read: no table has so many columns."""


@dataclass(frozen=True, slots=True)
class CsvCell:
    """One cell: its text without quotes and spaces around it, and where it stands."""

    text: str
    start: int
    end: int
    lines: Lines

    @property
    def source(self) -> Source:
        """Where it stands; an empty cell where it begins."""
        return self.lines.source(*_trimmed(self.lines.text, self.start, self.end))


@dataclass(frozen=True, slots=True)
class CellsParsed:
    """The rows of a table, the header among them, and the problems of quotes."""

    rows: tuple[tuple[CsvCell, ...], ...]
    problems: tuple[Problem, ...]


@dataclass(frozen=True, slots=True)
class Rows:
    """The rows with anything in them: their texts, and what cuts a row into cells with their
    places when somebody asks; a sound table has thousands of cells, and nobody does.

    `starts`: the line on which each row begins, from 0; `separator`: what stands between cells.
    """

    lines: Lines
    texts: list[list[str]]
    starts: list[int]
    separator: str

    def cut(self, row: int) -> tuple[CsvCell, ...]:
        """The cells of a row."""
        cells, _, _ = _taken_row(self.lines, self.starts[row], self.separator)
        return tuple(cells)

    def whole(self, row: int) -> Source:
        """A row as one place, from its first cell to the end of that line."""
        first = self.cut(row)[0].source
        return Source(first.name, first.line, 1, max(1, len(first.text)), first.text)


def parse_cells(file: FileText, separator: str = ",") -> CellsParsed:
    """Take a CSV text apart into rows of cells.

    >>> [[c.text for c in row] for row in parse_cells(FileText("t.csv", 'a,"b, c"')).rows]
    [['a', 'b, c']]
    """
    rows, problems = rows_of(file, separator)
    return CellsParsed(tuple(map(rows.cut, range(len(rows.texts)))), tuple(problems))


def rows_of(file: FileText, separator: str = ",") -> tuple[Rows, list[Problem]]:
    """Every row with anything in it, and what is wrong with quotes."""
    lines = Lines(file.name, file.text)
    sound = _sound_rows(lines, separator)
    if sound is not None:
        return sound, []
    # Late: most tables have no fault, and a mark is decoded sooner.
    from witnessmark.documents.problems_csv import OpenQuote

    rows = Rows(lines, [], [], separator)
    problems: list[Problem] = []
    start = 0
    while start < len(lines.texts):
        cells, faults, after = _taken_row(lines, start, separator)
        problems += faults
        if any(isinstance(fault, OpenQuote) for fault in faults):
            break
        if any(cell.text for cell in cells):
            rows.texts.append([cell.text for cell in cells])
            rows.starts.append(start)
        start = after
    return rows, problems


def _sound_rows(lines: Lines, separator: str) -> Rows | None:
    """The rows of a text of which every row is one line without a fault.

    None where a quote is out of place or reaches over a line, or where a row has too many
    cells: such a text is taken cell by cell.
    """
    if _odd_quote(separator).search(lines.text):
        return None
    try:
        read = list(csv.reader(lines.texts, delimiter=separator, strict=True))
    except csv.Error:
        return None
    if len(read) != len(lines.texts) or max(map(len, read)) > MOST_CELLS:
        return None
    stripped = [[text.strip() for text in row] for row in read]
    starts = [start for start, texts in enumerate(stripped) if any(texts)]
    if len(starts) < len(stripped):
        stripped = [stripped[start] for start in starts]
    return Rows(lines, stripped, starts, separator)


def _taken_row(
    lines: Lines, index: int, separator: str
) -> tuple[list[CsvCell], list[Problem], int]:
    """The row that begins on this line, cell by cell; its problems; the line after it."""
    from witnessmark.documents.problems_csv import OpenQuote

    text, at = lines.text, lines.starts[index]
    cells: list[CsvCell] = []
    problems: list[Problem] = []
    while True:
        cell, at, problem = _take_cell(text, at, lines, separator)
        cells.append(cell)
        if problem is not None:
            problems.append(problem)
        if isinstance(problem, OpenQuote):
            return cells, problems, len(lines.texts)
        if not text.startswith(separator, at) or len(cells) >= MOST_CELLS:
            # Of a line that is nothing but separators, no more is kept than shows that it is wrong.
            return cells, problems, lines.index(at) + 1
        at += 1


def _take_cell(
    text: str, at: int, lines: Lines, separator: str
) -> tuple[CsvCell, int, Problem | None]:
    """The cell that begins at this offset, the offset after it, and what is wrong with its
    quotes."""
    from witnessmark.documents.problems_csv import AfterQuote, OpenQuote

    quoted = _QUOTED.match(text, at)
    if quoted is None:
        end = _end(text, at, separator)
        problem = OpenQuote(lines.source(at, at + 1)) if text.startswith('"', at) else None
        return CsvCell(text[at:end].strip(), at, end, lines), end, problem
    end = quoted.end()
    cell = CsvCell(quoted[1].replace('""', '"').strip(), at, end, lines)
    if end < len(text) and text[end] not in f"{separator}\r\n":
        return cell, _end(text, end, separator), AfterQuote(lines.source(end, end + 1))
    return cell, end, None


@cache
def _odd_quote(separator: str) -> re.Pattern[str]:
    # After the quote, so that the search can leap from one to the next.
    return re.compile(rf'"(?<![{separator}"\r\n]")(?<!\A")(?![{separator}"\r\n]|\Z)')


@cache
def _cell_end(separator: str) -> re.Pattern[str]:
    return re.compile(rf"[{separator}\r\n]|\Z")


def _end(text: str, at: int, separator: str) -> int:
    """The offset at which a cell without quotes ends."""
    match = _cell_end(separator).search(text, at)
    return match.start() if match else len(text)


def _trimmed(text: str, start: int, end: int) -> tuple[int, int]:
    """The stretch without the spaces around it; an empty cell stays where it begins."""
    stretch = text[start:end]
    if not stretch.strip():
        return start, start + 1
    return start + len(stretch) - len(stretch.lstrip()), start + len(stretch.rstrip())
