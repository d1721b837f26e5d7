"""A list in a workbook: the values of one sheet, read within limits."""

import io
import re
import warnings
import zipfile
from collections.abc import Callable, Iterator, Sequence, Set
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from itertools import islice
from math import isfinite
from typing import Any
from xml.etree import ElementTree

from witnessmark.bookmaking.problems import ListTooLarge, Merged, NoList
from witnessmark.bookmaking.sheet import (
    MOST_COLUMNS,
    MOST_ROWS,
    ListCell,
    ListRead,
    ListRow,
    Made,
    SheetPlace,
)
from witnessmark.problem import Problem
from witnessmark.source import Source

MOST_UNPACKED = 24 * 1024 * 1024
"""Bytes of a workbook once it is unpacked."""
MOST_PARTS = 2_000
LAST_ROW = 1_048_576
"""The last row that any sheet has."""
MOST_SHEETS = 50
MOST_MERGED = 20
"""Merged cells beyond this many are not told of."""

BROKEN = "is a workbook that cannot be read: something in it is broken"
REPAIRED = "it opened in a spreadsheet and saved again"
ZIP = b"PK"
COMPOUND = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
LOCKED = "EncryptedPackage".encode("utf-16-le")

Chosen = tuple[str, str] | Problem
"""A sheet and the table that it belongs into, or why none can be chosen."""


def is_workbook(content: bytes) -> bool:
    """Are these the bytes of a workbook, old or new, and not those of a text?"""
    return content.startswith((ZIP, COMPOUND))


def read_workbook_list(
    name: str, content: bytes, choose: Callable[[tuple[str, ...]], Chosen]
) -> ListRead:
    """Read the sheet that `choose` names among those that hold something."""
    refused = _refused(name, content)
    if refused is not None:
        return ListRead((), (refused,))
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            return _read(name, content, choose)
    except Exception:  # in a broken workbook anything can be wrong
        return ListRead((), (NoList(Source(name), BROKEN, REPAIRED),))


def _refused(name: str, content: bytes) -> Problem | None:
    """What is no workbook of today, or would unpack to more than a list can be."""
    place = Source(name)
    if content.startswith(COMPOUND):
        if LOCKED in content:
            return NoList(place, "is locked with a password", "it saved without a password")
        return NoList(place, "is a workbook of the old format", "it saved as .xlsx or as CSV")
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            parts = archive.infolist()
    except Exception:  # a broken archive
        return NoList(place, "is a broken archive")
    if len(parts) > MOST_PARTS or sum(part.file_size for part in parts) > MOST_UNPACKED:
        return ListTooLarge(place, f"{MOST_UNPACKED // 1024 // 1024} megabytes unpacked")
    names = {part.filename for part in parts}
    if any(part.flag_bits & 1 for part in parts):
        return NoList(place, "is locked with a password", "it saved without a password")
    if "[Content_Types].xml" not in names or not any(each.startswith("xl/") for each in names):
        return NoList(place, "is an archive and not a workbook")
    return None


def _read(name: str, content: bytes, choose: Callable[[tuple[str, ...]], Chosen]) -> ListRead:
    """The chosen sheet of a sound workbook."""
    from openpyxl import load_workbook

    book = load_workbook(io.BytesIO(content), read_only=True, data_only=True, keep_links=False)
    try:
        if len(book.worksheets) > MOST_SHEETS:
            return ListRead((), (ListTooLarge(Source(name), f"{MOST_SHEETS} sheets"),))
        sheets = _sheets(book.worksheets)
        chosen = choose(tuple(sheets))
        if not isinstance(chosen, tuple):
            return ListRead((), (chosen,))
        title, table = chosen
        if title not in sheets:
            return ListRead((), table=table, sheet=title)
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            marks = _scan(archive, sheets[title]._worksheet_path)
        return _rows(_Sheet(name, title, table), sheets[title], marks)
    finally:
        book.close()


def _sheets(worksheets: Sequence[Any]) -> dict[str, Any]:
    """The sheets that hold a value, by their names; all where none does."""
    for sheet in worksheets:
        sheet.reset_dimensions()  # what a workbook says of its own size is not always so
    filled = [sheet for sheet in worksheets if any(True for _ in _filled(sheet, frozenset()))]
    return {sheet.title: sheet for sheet in filled or worksheets}


@dataclass(slots=True)
class _Marks:
    """What the values of a sheet do not tell: row and column of each cell whose formula has no
    value, and what is merged; `is_in_order`: each row and cell stands after the one before it;
    `is_wide`: a cell beyond the last column that is read holds something.
    """

    formulas: set[tuple[int, int]] = field(default_factory=set)
    merged: list[str] = field(default_factory=list)
    is_in_order: bool = True
    is_wide: bool = False

    def note(self, row: ElementTree.Element, number: int) -> None:
        """What the cells of a row tell."""
        last = 0
        for at, cell in enumerate(row, 1):
            name = cell.get("r")
            match = _CELL.fullmatch(name or "")
            column = _column(match) if match else at
            self.is_wide = self.is_wide or (column > MOST_COLUMNS and len(cell) > 0)
            if match is not None:
                parts = {part.tag.rpartition("}")[2]: part for part in cell}
                if "f" in parts and not (parts["v"].text if "v" in parts else None):
                    self.formulas.add((number, column))
                if int(match[2]) != number or column <= last:
                    self.is_in_order = False
                last = column
            elif name is not None:
                self.is_in_order = False


def _scan(archive: zipfile.ZipFile, path: str) -> _Marks:
    """Go through the sheet's own text once, as long as it is in order."""
    marks, last_row = _Marks(), 0
    with archive.open(path) as text:
        for _, element in ElementTree.iterparse(text):
            tag = element.tag.rpartition("}")[2]
            if tag == "row":
                row = int(float(element.get("r") or last_row + 1))
                marks.is_in_order = last_row < row <= LAST_ROW
                marks.note(element, row)
                if not marks.is_in_order:
                    break
                last_row = row
                element.clear()
            elif tag == "mergeCell":
                marks.merged.append(element.get("ref", ""))
    return marks


_CELL = re.compile(r"([A-Z]{1,3})([0-9]{1,7})")


def _column(cell: re.Match[str]) -> int:
    """The column of a cell by its letters, from 1."""
    from openpyxl.utils import column_index_from_string

    return column_index_from_string(cell[1])


@dataclass(frozen=True, slots=True)
class _Sheet:
    """The file, the sheet in it and the table that it belongs into."""

    name: str
    title: str
    table: str

    def cell(self, row: int, column: int, text: str) -> SheetPlace:
        """The place of a cell."""
        from openpyxl.utils import get_column_letter

        where = f"{self.title}!{get_column_letter(column)}{row}"
        return SheetPlace(self.name, row, 1, max(1, len(text)), text, where)


def _rows(sheet: _Sheet, worksheet: Any, marks: _Marks) -> ListRead:
    """All rows that hold something, each as long as the longest."""
    problems: list[Problem] = []
    if not marks.is_in_order:
        problems.append(NoList(Source(sheet.name), BROKEN, REPAIRED))
    found = list(islice(_filled(worksheet, marks.formulas), MOST_ROWS + 2))
    if len(found) > MOST_ROWS + 1:
        problems.append(ListTooLarge(Source(sheet.name), f"{MOST_ROWS:,} rows"))
    width = max((_width(values) for _, values in found), default=0)
    if marks.is_wide:
        problems.append(ListTooLarge(Source(sheet.name), f"{MOST_COLUMNS} columns"))
    rows = tuple(row for each in found if (row := _row(sheet, *each, width)) is not None)
    problems += _merged(sheet, marks.merged, width)
    return ListRead(rows, tuple(problems), sheet.table, sheet=sheet.title)


def _width(values: tuple[object, ...]) -> int:
    """How many cells there are up to the last that is not empty."""
    return next((at for at in range(len(values), 0, -1) if values[at - 1] is not None), 0)


def _row(sheet: _Sheet, number: int, values: tuple[object, ...], width: int) -> ListRow | None:
    """A row of this many cells; None where all of them hold but spaces."""
    told = map(_told, values[:width])
    cells = tuple(
        ListCell(text, sheet.cell(number, at, text), made)
        for at, (text, made) in enumerate(told, 1)
    )
    return ListRow(cells, cells[0].source) if any(cell.holds for cell in cells) else None


class _NoValue:
    """Stands for a formula whose value the workbook does not hold."""


def _filled(
    worksheet: Any, formulas: Set[tuple[int, int]]
) -> Iterator[tuple[int, tuple[object, ...]]]:
    """The rows that hold something, each with its number; `formulas` have no value."""
    lacking = {row for row, _ in formulas}
    rows = worksheet.iter_rows(max_row=LAST_ROW, max_col=MOST_COLUMNS, values_only=True)
    for number, row in enumerate(rows, 1):
        if number in lacking:
            named = enumerate(row, 1)
            row = tuple(_NoValue() if (number, at) in formulas else value for at, value in named)
        if row.count(None) < len(row):
            yield number, row


def _told(value: object) -> tuple[str, Made]:
    """A value as a text, and what the spreadsheet has made of it."""
    match value:
        case None:
            return "", Made.TEXT
        case _NoValue():
            return "", Made.FORMULA
        case bool():
            return str(value).upper(), Made.TRUTH
        case int():
            return str(value), Made.NUMBER
        case float() if not isfinite(value):
            return str(value), Made.ERROR
        case float():
            return str(int(value)) if value.is_integer() else repr(value), Made.NUMBER
        case datetime() if value.time() == time():
            return value.date().isoformat(), Made.DATE
        case datetime():
            return value.isoformat(" "), Made.DATE
        case date():
            return value.isoformat(), Made.DATE
        case time() | timedelta():
            return str(value), Made.TIME
    text = str(value).strip()
    return text, Made.ERROR if text in ERRORS else Made.TEXT


ERRORS = frozenset(
    ("#N/A", "#VALUE!", "#REF!", "#NAME?", "#DIV/0!", "#NUM!", "#NULL!", "#SPILL!", "#CALC!")
)


def _merged(sheet: _Sheet, refs: list[str], width: int) -> Iterator[Problem]:
    """What is merged and begins in a column of the list, at its first cell."""
    for ref in refs[:MOST_MERGED]:
        match = _CELL.match(ref)
        row, first = (int(match[2]), match[0]) if match else (1, "A1")
        if match is None or _column(match) <= width:
            yield Merged(SheetPlace(sheet.name, row, 1, 1, "", f"{sheet.title}!{first}"), ref)
