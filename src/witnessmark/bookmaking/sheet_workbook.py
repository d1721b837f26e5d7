"""A list in a workbook: the values of one sheet, read within limits."""

import io
import re
import warnings
import zipfile
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
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
"""A sheet and the table that it belongs in, or why none can be chosen."""


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
    """What is not a present-day workbook, or would unpack to more than a list can be."""
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


@dataclass(frozen=True, slots=True)
class _Marks:
    """What the values of a sheet do not tell: cells such as C7 whose formula has no value,
    and what is merged; `is_in_order`: each row and cell stands after the one before it;
    `is_wide`: a cell beyond the last column that is read holds something.
    """

    formulas: frozenset[str]
    merged: tuple[str, ...]
    is_in_order: bool
    is_wide: bool


def _scan(archive: zipfile.ZipFile, path: str) -> _Marks:
    """Go through the sheet's own text once."""
    formulas: set[str] = set()
    merged: list[str] = []
    last_row, is_in_order, is_wide = 0, True, False
    with archive.open(path) as text:
        for _, element in ElementTree.iterparse(text):
            tag = element.tag.rpartition("}")[2]
            if tag == "row":
                row = int(float(element.get("r") or last_row + 1))
                is_in_order = is_in_order and last_row < row <= LAST_ROW
                is_in_order = is_in_order and _cells_in_order(element, row)
                if not is_in_order:
                    break
                is_wide = is_wide or _is_wide(element)
                last_row = row
                formulas |= _unvalued(element)
                element.clear()
            elif tag == "mergeCell":
                merged.append(element.get("ref", ""))
    return _Marks(frozenset(formulas), tuple(merged), is_in_order, is_wide)


_CELL = re.compile(r"([A-Z]{1,3})([0-9]{1,7})")


def _cells_in_order(row: ElementTree.Element, number: int) -> bool:
    """Does each cell stand in its row, after the one before it?"""
    last = (0, "")
    for cell in row:
        match = _CELL.fullmatch(cell.get("r", ""))
        if match is None:
            if cell.get("r") is not None:
                return False
            continue
        column = (len(match[1]), match[1])
        if int(match[2]) != number or column <= last:
            return False
        last = column
    return True


def _is_wide(row: ElementTree.Element) -> bool:
    """Does a cell that holds something stand beyond the last column that is read?"""
    last = letters(MOST_COLUMNS)
    for at, cell in enumerate(row, 1):
        match = _CELL.fullmatch(cell.get("r", ""))
        beyond = (len(match[1]), match[1]) > (len(last), last) if match else at > MOST_COLUMNS
        if beyond and len(cell):
            return True
    return False


def _unvalued(row: ElementTree.Element) -> set[str]:
    """The cells of a row that hold a formula and no value."""
    found: set[str] = set()
    for cell in row:
        parts = {part.tag.rpartition("}")[2]: part for part in cell}
        if "f" in parts and not (parts["v"].text if "v" in parts else None):
            found.add(cell.get("r", ""))
    return found


@dataclass(frozen=True, slots=True)
class _Sheet:
    """The file, the sheet in it and the table that it belongs in."""

    name: str
    title: str
    table: str

    def cell(self, row: int, column: int, text: str) -> SheetPlace:
        """The place of a cell."""
        where = f"{self.title}!{letters(column)}{row}"
        return SheetPlace(self.name, row, 1, max(1, len(text)), text, where)


def letters(column: int) -> str:
    """A column as spreadsheets name it, from 1.

    >>> letters(1), letters(26), letters(27)
    ('A', 'Z', 'AA')
    """
    name = ""
    while column > 0:
        column, rest = divmod(column - 1, 26)
        name = chr(ord("A") + rest) + name
    return name


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
    problems += [
        Merged(_merged_place(sheet, ref), ref)
        for ref in marks.merged[:MOST_MERGED]
        if _touches(ref, width)
    ]
    return ListRead(rows, tuple(problems), sheet.table, sheet=sheet.title)


def _width(values: tuple[object, ...]) -> int:
    """How many cells there are up to the last that is not empty."""
    return next((at for at in range(len(values), 0, -1) if values[at - 1] is not None), 0)


def _row(sheet: _Sheet, number: int, values: tuple[object, ...], width: int) -> ListRow | None:
    """A row of this many cells; None where all of them hold but spaces."""
    cells = tuple(_cell(sheet, number, at, value) for at, value in enumerate(values[:width], 1))
    return ListRow(cells, cells[0].source) if any(map(_holds, cells)) else None


class _NoValue:
    """Stands for a formula whose value the workbook does not hold."""


def _filled(worksheet: Any, formulas: frozenset[str]) -> Iterator[tuple[int, tuple[object, ...]]]:
    """The rows that hold something, each with its number; `formulas` have no value."""
    lacking: dict[int, set[str]] = {}
    for name in formulas:
        match = _CELL.fullmatch(name)
        if match is not None:
            lacking.setdefault(int(match[2]), set()).add(match[1])
    rows = worksheet.iter_rows(max_row=LAST_ROW, max_col=MOST_COLUMNS, values_only=True)
    for number, row in enumerate(rows, 1):
        columns = lacking.get(number)
        if columns:
            named = enumerate(row, 1)
            row = tuple(_NoValue() if letters(at) in columns else value for at, value in named)
        if row.count(None) < len(row):
            yield number, row


def _holds(cell: ListCell) -> bool:
    return bool(cell.text) or cell.made is not Made.TEXT


def _cell(sheet: _Sheet, row: int, column: int, value: object) -> ListCell:
    """A value as a text, and what the spreadsheet has made of it."""
    text, made = _told(value)
    return ListCell(text, sheet.cell(row, column, text), made)


def _told(value: object) -> tuple[str, Made]:
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


def _merged_place(sheet: _Sheet, ref: str) -> SheetPlace:
    """The first cell of what is merged."""
    match = _CELL.match(ref)
    row = int(match[2]) if match else 1
    first = match[0] if match else "A1"
    return SheetPlace(sheet.name, row, 1, 1, "", f"{sheet.title}!{first}")


def _touches(ref: str, width: int) -> bool:
    """Does it begin in a column of the list?"""
    match = _CELL.match(ref)
    return match is None or (len(match[1]), match[1]) <= (len(letters(width)), letters(width))
