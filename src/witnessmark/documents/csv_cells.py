"""A CSV text taken apart into rows of cells, each with its place.

The standard reader gives cells without their columns in the line, so it reads a text of
which every row is one line without a fault, and where somebody asks for a place, or something
is wrong, this one takes the text apart itself: commas, quotes and line ends as in RFC 4180.
Spaces around a cell are left out, rows without anything in them are skipped.
"""

import csv
import re
from dataclasses import dataclass

from witnessmark.documents.entries import FileText
from witnessmark.documents.lines import Lines
from witnessmark.problem import Problem
from witnessmark.source import Source

_QUOTED = re.compile(r'"((?:[^"]|"")*+)"')
# After the quote, so that the search can leap from one to the next.
_ODD_QUOTE = re.compile(r'"(?<![,"\r\n]")(?<!\A")(?![,"\r\n]|\Z)')
_PLAIN = re.compile(r"[^,\r\n]*+")

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

    `starts`: the line on which each row begins, from 0.
    """

    lines: Lines
    texts: list[list[str]]
    starts: list[int]

    def cut(self, row: int) -> tuple[CsvCell, ...]:
        """The cells of a row."""
        cells, _, _ = _taken_row(self.lines, self.starts[row])
        return tuple(cells)

    def whole(self, row: int) -> Source:
        """A row as one place, from its first cell to the end of that line."""
        first = self.cut(row)[0].source
        return Source(first.name, first.line, 1, max(1, len(first.text)), first.text)


def parse_cells(file: FileText) -> CellsParsed:
    """Take a CSV text apart into rows of cells.

    >>> [[c.text for c in row] for row in parse_cells(FileText("t.csv", 'a,"b, c"')).rows]
    [['a', 'b, c']]
    """
    rows, problems = rows_of(file)
    return CellsParsed(tuple(map(rows.cut, range(len(rows.texts)))), tuple(problems))


def rows_of(file: FileText) -> tuple[Rows, list[Problem]]:
    """Every row with anything in it, and what is wrong with quotes."""
    lines = Lines(file.name, file.text)
    sound = _sound_rows(lines)
    if sound is not None:
        return sound, []
    # Late: most tables have no fault, and a mark is decoded sooner.
    from witnessmark.documents.problems_csv import OpenQuote

    rows = Rows(lines, [], [])
    problems: list[Problem] = []
    start = 0
    while start < len(lines.texts):
        cells, faults, after = _taken_row(lines, start)
        problems += faults
        if any(isinstance(fault, OpenQuote) for fault in faults):
            break
        if any(cell.text for cell in cells):
            rows.texts.append([cell.text for cell in cells])
            rows.starts.append(start)
        start = after
    return rows, problems


def _sound_rows(lines: Lines) -> Rows | None:
    """The rows of a text of which every row is one line without a fault.

    None where a quote is out of place or reaches over a line, or where a row has too many
    cells: such a text is taken cell by cell.
    """
    if _ODD_QUOTE.search(lines.text):
        return None
    try:
        read = list(csv.reader(lines.texts, strict=True))
    except csv.Error:
        return None
    if len(read) != len(lines.texts) or max(map(len, read)) > MOST_CELLS:
        return None
    stripped = [list(map(str.strip, row)) for row in read]
    starts = [start for start, texts in enumerate(stripped) if any(texts)]
    return Rows(lines, [stripped[start] for start in starts], starts)


def _taken_row(lines: Lines, index: int) -> tuple[list[CsvCell], list[Problem], int]:
    """The row that begins on this line, cell by cell; its problems; the line after it."""
    from witnessmark.documents.problems_csv import OpenQuote

    text, at = lines.text, lines.starts[index]
    cells: list[CsvCell] = []
    problems: list[Problem] = []
    while True:
        cell, at, problem = _take_cell(text, at, lines)
        cells.append(cell)
        if problem is not None:
            problems.append(problem)
        if isinstance(problem, OpenQuote):
            return cells, problems, len(lines.texts)
        if not text.startswith(",", at) or len(cells) >= MOST_CELLS:
            # Of a line that is nothing but commas, no more is kept than shows that it is wrong.
            return cells, problems, lines.index(at) + 1
        at += 1


def _take_cell(text: str, at: int, lines: Lines) -> tuple[CsvCell, int, Problem | None]:
    """The cell that begins at this offset, the offset after it, and what is wrong with its
    quotes."""
    from witnessmark.documents.problems_csv import AfterQuote, OpenQuote

    quoted = _QUOTED.match(text, at)
    if quoted is None:
        end = _end(_PLAIN, text, at)
        problem = OpenQuote(lines.source(at, at + 1)) if text.startswith('"', at) else None
        return CsvCell(text[at:end].strip(), at, end, lines), end, problem
    end = quoted.end()
    cell = CsvCell(quoted[1].replace('""', '"').strip(), at, end, lines)
    if end < len(text) and text[end] not in ",\r\n":
        return cell, _end(_PLAIN, text, end), AfterQuote(lines.source(end, end + 1))
    return cell, end, None


def _end(pattern: re.Pattern[str], text: str, at: int) -> int:
    match = pattern.match(text, at)
    return match.end() if match else at


def _trimmed(text: str, start: int, end: int) -> tuple[int, int]:
    """The stretch without the spaces around it; an empty cell stays where it begins."""
    stretch = text[start:end]
    if not stretch.strip():
        return start, start + 1
    return start + len(stretch) - len(stretch.lstrip()), start + len(stretch.rstrip())
