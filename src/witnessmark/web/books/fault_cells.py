"""Faults of a table shown where they stand: the row with its headings, and the cell."""

from bisect import bisect_right
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Protocol

from witnessmark.bookmaking.sheet import ListRead, SheetPlace
from witnessmark.documents.csv_cells import Rows, rows_of
from witnessmark.documents.entries import FileText
from witnessmark.outline.records import Block, Pointed
from witnessmark.problem import Problem
from witnessmark.source import Source

NEIGHBOURS = 2
"""Columns shown on either side of the faulty one, beside the first."""
LONGEST_LINE = 240


class _Cell(Protocol):
    """A cell of a table or of a list."""

    @property
    def text(self) -> str:
        """What stands in it."""

    @property
    def source(self) -> Source:
        """Where it stands."""


@dataclass(frozen=True, slots=True)
class ColumnShown:
    """A column of a faulty row: its heading and its cell; `is_gap` stands for several left out."""

    heading: str
    text: str
    is_wrong: bool = False
    is_gap: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class FaultShown:
    """A fault with its place in words, and the columns around it; of what is no table the line."""

    problem: Problem
    file: str
    place: str
    columns: tuple[ColumnShown, ...] = ()
    is_whole_row: bool = False
    line: tuple[Block, ...] = ()


def faults_of_book(files: Mapping[str, bytes], problems: Sequence[Problem]) -> list[FaultShown]:
    """The faults of a book, each at its cell; `files` by their place in the book's folder."""
    tables: dict[str, Rows] = {}
    shown: list[FaultShown] = []
    for problem in problems:
        file = problem.source.name.partition("/")[2] or problem.source.name
        if file.endswith(".csv") and file in files and problem.source.line is not None:
            if file not in tables:
                text = files[file].decode("utf-8", "replace").removeprefix("\ufeff")
                tables[file], _ = rows_of(FileText(problem.source.name, text))
            shown.append(_in_table(problem, file, tables[file]))
        else:
            shown.append(_in_text(problem, file))
    return shown


def faults_of_list(read: ListRead, problems: Sequence[Problem]) -> list[FaultShown]:
    """The faults of a list that was to be taken in, each at its cell."""
    shown: list[FaultShown] = []
    for problem in problems:
        lines = [row.place.line for row in read.rows]
        at = lines.index(problem.source.line) if problem.source.line in lines else -1
        if at < 0 or problem.source.name not in read.rows[at].place.name:
            shown.append(_in_text(problem, problem.source.name))
        else:
            shown.append(_shown(problem, "", read.rows[0].cells, read.rows[at].cells))
    return shown


def place_words(source: Source) -> str:
    """Line and column, or the cell of a sheet."""
    if isinstance(source, SheetPlace):
        return f"cell {source.cell}"
    if source.line is None:
        return ""
    column = "" if source.column is None else f", column {source.column}"
    return f"line {source.line}{column}"


def _in_text(problem: Problem, file: str) -> FaultShown:
    source = problem.source
    line: tuple[Block, ...] = ()
    if source.column is not None and 0 < len(source.text) <= LONGEST_LINE:
        line = (Pointed(source.text, source.column, ""),)
    return FaultShown(problem=problem, file=file, place=place_words(source), line=line)


def _in_table(problem: Problem, file: str, rows: Rows) -> FaultShown:
    """The row that begins on the line of the fault, or before it where a cell has several."""
    at = bisect_right(rows.starts, (problem.source.line or 1) - 1) - 1
    if at < 0:
        return _in_text(problem, file)
    return _shown(problem, file, rows.cut(0), rows.cut(at))


def _shown(
    problem: Problem, file: str, heads: Sequence[_Cell], cells: Sequence[_Cell]
) -> FaultShown:
    source = problem.source
    is_whole = source.column is None or (
        len(cells) > 1 and source.column == 1 and source.width >= len(source.text)
    )
    at = None if is_whole else _cell_at(cells, source)
    columns = tuple(_columns([e.text for e in heads], [e.text for e in cells], at))
    place = f"line {source.line}" if at is None else place_words(source)
    return FaultShown(
        problem=problem, file=file, place=place, columns=columns, is_whole_row=at is None
    )


def _cell_at(cells: Sequence[_Cell], source: Source) -> int:
    """The cell in which a place lies."""
    places = [each.source for each in cells]
    if source in places:
        return places.index(source)
    wanted = (source.line or 0, source.column or 0)
    before = [(each.line or 0, each.column or 0) <= wanted for each in places]
    return max(0, sum(before) - 1)


def _columns(heads: list[str], texts: list[str], at: int | None) -> Iterator[ColumnShown]:
    """The first column, and those around the faulty one; the first few of a faulty row."""
    middle = NEIGHBOURS if at is None else at
    wanted = {0, *range(middle - NEIGHBOURS, middle + NEIGHBOURS + 1)}
    count = max(len(heads), len(texts))
    last = -1
    for n in sorted(each for each in wanted if 0 <= each < count):
        if n > last + 1:
            yield ColumnShown("…", "…", is_gap=True)
        head = heads[n] if n < len(heads) else ""
        text = texts[n] if n < len(texts) else ""
        yield ColumnShown(head, text, is_wrong=n == at)
        last = n
    if last < count - 1:
        yield ColumnShown("…", "…", is_gap=True)
