"""The rows of a list, checked cell by cell as the rows of the table they will be.

The list is written as a table's text and read as any table is, so that what is
checked is what will stand in the book; each fault is then shown where it was typed.
"""

import re
import unicodedata
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, fields, replace
from typing import Any

from witnessmark.bookmaking.list_columns import ColumnMatch
from witnessmark.bookmaking.problems import (
    CellError,
    FormulaUnread,
    MadeDate,
    MadeNumber,
    MadeTruth,
    RowLength,
    Unseen,
)
from witnessmark.bookmaking.sheet import ListCell, ListRow, Made
from witnessmark.documents.csv_entries import parse_table
from witnessmark.documents.entries import Entry, FileText
from witnessmark.documents.shapes import Key, Kind, Shape
from witnessmark.problem import Problem
from witnessmark.source import Source

KEPT_FIGURES = 15
"""Figures of a number that a spreadsheet keeps."""

_WHOLE = re.compile(r"(-?[0-9]+)[.,]0+")
_UNSEEN = ("Cc", "Cf", "Cs", "Zl", "Zp")


@dataclass(frozen=True, slots=True)
class TypedRow:
    """One row: its cells by column, in the order of the table, and where it stands."""

    cells: dict[str, ListCell]
    place: Source

    def text(self, column: str) -> str:
        """The text in this column, or an empty one."""
        return self.cells[column].text if column in self.cells else ""


@dataclass(frozen=True, slots=True)
class TypedRows:
    """The rows of a list with an entry for each, and what is wrong with their cells.

    Where something is wrong there are no entries.
    """

    rows: tuple[TypedRow, ...]
    entries: tuple[Entry, ...]
    problems: tuple[Problem, ...]


def type_rows(
    rows: tuple[ListRow, ...],
    columns: ColumnMatch,
    shape: Shape,
    filled: dict[str, ListCell],
    separator: str,
) -> TypedRows:
    """Check the rows under the headings; `filled` holds cells that are the same in each row."""
    problems: list[Problem] = []
    typed: list[TypedRow] = []
    spoilt: set[Source] = set()
    for row in rows:
        if len(row.cells) != len(columns.names):
            wanted = len(columns.names)
            problems.append(RowLength(row.place, len(row.cells), wanted, separator))
            continue
        by_name = dict(zip(columns.names, row.cells, strict=True)) | filled
        cells: dict[str, ListCell] = {}
        for key in shape.keys:
            if key.name in by_name:
                cell, problem = _typed(key, by_name[key.name])
                cells[key.name] = cell
                if problem is not None:
                    problems.append(problem)
                    spoilt.add(cell.source)
        typed.append(TypedRow(cells, row.place))
    names = tuple(key.name for key in shape.keys if key.name in {*columns.names, *filled})
    text = "\n".join(map(csv_line, [names, *([row.text(n) for n in names] for row in typed)]))
    parsed = parse_table(FileText("", text), shape)
    places = TypedPlaces(tuple(typed), names, 2)
    found = (places.moved(problem) for problem in parsed.problems)
    problems += [problem for problem in found if problem.source not in spoilt]
    return TypedRows(tuple(typed), () if problems else parsed.entries, tuple(problems))


def _typed(key: Key, cell: ListCell) -> tuple[ListCell, Problem | None]:
    """The cell as the table would hold it, and what has become of it before it came here."""
    unseen = next((c for c in cell.text if unicodedata.category(c) in _UNSEEN), "")
    if unseen:
        at = cell.source.text.find(unseen, max(0, (cell.source.column or 1) - 1))
        place = replace(cell.source, column=at + 1, width=1) if at >= 0 else cell.source
        return replace(cell, text="", source=cell.source), Unseen(place, unseen)
    problem = _made(key, cell)
    if problem is not None:
        return replace(cell, text=""), problem
    whole = _WHOLE.fullmatch(cell.text) if key.kind is Kind.NUMBER else None
    return (replace(cell, text=whole[1]) if whole else cell), None


def _made(key: Key, cell: ListCell) -> Problem | None:
    """What the spreadsheet has made of the cell, where that is not what was typed."""
    match cell.made:
        case Made.FORMULA:
            return FormulaUnread(cell.source)
        case Made.ERROR:
            return CellError(cell.source, cell.text)
        case Made.TRUTH:
            return MadeTruth(cell.source, key.name)
        case Made.TIME:
            return MadeDate(cell.source, key.name, "time")
        case Made.DATE if key.kind is not Kind.DAY:
            return MadeDate(cell.source, key.name)
        case Made.NUMBER if key.kind is not Kind.NUMBER:
            if sum(character.isdigit() for character in cell.text) > KEPT_FIGURES:
                how = f"of more than {KEPT_FIGURES} figures the last are lost"
                return MadeNumber(cell.source, key.name, how)
    return None


def csv_line(texts: Sequence[str]) -> str:
    """A row of a table as it is written, without its line end.

    >>> csv_line(["07", "leather, tan"])
    '07,"leather, tan"'
    """
    return ",".join(_quoted(text) for text in texts)


def _quoted(text: str) -> str:
    if any(sign in text for sign in ',"\r\n'):
        return '"' + text.replace('"', '""') + '"'
    return text


@dataclass(frozen=True, slots=True)
class TypedPlaces:
    """Where the cells of written rows were typed: row after row, from the line `first_line`.

    `names` are the columns as they are written.
    """

    rows: tuple[TypedRow, ...]
    names: tuple[str, ...]
    first_line: int
    file: str = ""

    def moved(self, problem: Problem) -> Problem:
        """The problem at the place where the row was typed; others stay where they are."""
        moved: dict[str, Any] = {
            field.name: self._typed(value)
            for field in fields(problem)
            if isinstance(value := getattr(problem, field.name), Source)
        }
        return replace(problem, **moved)

    def is_typed(self, place: Source) -> bool:
        """Does the place lie in one of the rows?"""
        at = (place.line or 0) - self.first_line
        return place.name == self.file and 0 <= at < len(self.rows)

    def _typed(self, place: Source) -> Source:
        if not self.is_typed(place):
            return place
        row = self.rows[(place.line or 0) - self.first_line]
        whole = place.column is None or (place.column == 1 and place.width >= len(place.text))
        if whole and len(self.names) > 1:
            return row.place
        starts = list(self._starts(row))
        name = self.names[max(0, bisect_right(starts, place.column or 1) - 1)]
        return row.cells[name].source if name in row.cells else row.place

    def _starts(self, row: TypedRow) -> Iterator[int]:
        """The columns, from 1, at which the cells of a row begin."""
        at = 1
        for name in self.names:
            yield at
            at += len(_quoted(row.text(name))) + 1
