"""A list that somebody typed: rows of cells, from a CSV text or from a workbook.

Every cell keeps its place, so that a wrong one can be pointed at: file, line and
column of a text, sheet and cell of a workbook.
"""

from dataclasses import dataclass
from enum import StrEnum
from typing import override

from witnessmark.problem import Problem
from witnessmark.source import Source

MOST_ROWS = 20_000
MOST_COLUMNS = 200


class Made(StrEnum):
    """What a spreadsheet has made of a cell."""

    TEXT = "text"
    NUMBER = "number"
    DATE = "date"
    TIME = "time"
    TRUTH = "true or false"
    ERROR = "error"
    FORMULA = "formula"


@dataclass(frozen=True, slots=True)
class SheetPlace(Source):
    """A cell of a workbook: `cell` is its sheet and cell, `line` its row, `text` its text."""

    cell: str = ""

    @override
    def place(self) -> str:
        return f"{self.name}:{self.cell}"


@dataclass(frozen=True, slots=True)
class ListCell:
    """One cell: its text without spaces around it, where it stands, what was made of it."""

    text: str
    source: Source
    made: Made = Made.TEXT

    @property
    def holds(self) -> bool:
        """Is there something in it?"""
        return bool(self.text) or self.made is not Made.TEXT


@dataclass(frozen=True, slots=True)
class ListRow:
    """One row that is not empty, and the place of the row as a whole."""

    cells: tuple[ListCell, ...]
    place: Source


@dataclass(frozen=True, slots=True)
class ListRead:
    """The rows of a list, the headings first, and what is wrong with the list as a whole.

    `separator` names what stands between the cells of a text ("a semicolon"); it is
    empty for a workbook, whose rows are all of one length. `table` is the stem of
    the table's file that the list belongs into.
    """

    rows: tuple[ListRow, ...]
    problems: tuple[Problem, ...] = ()
    table: str = ""
    separator: str = ""
    sheet: str = ""
