"""A list taken into a table of a book: read, checked, joined with the rows that are there.

Nothing is written here. Either every cell is sound and the book is no worse for
the new rows, and then there is the whole new text of the table; or there are problems.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from witnessmark.bookmaking.list_columns import FILLED, is_heading, match_columns
from witnessmark.bookmaking.list_entries import TypedRows, type_rows
from witnessmark.bookmaking.list_figures import check_figures
from witnessmark.bookmaking.problems import (
    ListTooLarge,
    NoList,
    NoRows,
    WhichSheet,
    WhichTable,
)
from witnessmark.bookmaking.sheet import ListCell, ListRead
from witnessmark.bookmaking.sheet_text import read_text_list
from witnessmark.bookmaking.sheet_workbook import Chosen, is_workbook, read_workbook_list
from witnessmark.bookmaking.table_joining import ImportRead, join_rows
from witnessmark.codebook.book_format import TABLES
from witnessmark.codebook.folder import read_files
from witnessmark.codebook.parse import BookOpened, table_of
from witnessmark.codebook.problems_folder import UnknownTable
from witnessmark.documents.shapes import Shape
from witnessmark.documents.utf8 import printable
from witnessmark.documents.values import fits_text, missing, wrong_text
from witnessmark.problem import Problem
from witnessmark.source import Source

MOST_BYTES = 8 * 1024 * 1024
KNOWN_TABLES = tuple(TABLES)


@dataclass(frozen=True, slots=True)
class ImportWanted:
    """What is asked for: a list into a book's folder.

    `table` is the stem of the table's file, or empty where the list's own name says
    it; `basis` and `source` stand in every row, or are empty.
    """

    folder: Path
    file: Path
    table: str = ""
    basis: str = ""
    source: str = ""


def read_import(wanted: ImportWanted) -> ImportRead:
    """Read the list and join it with its table; whatever is wrong is a problem."""
    files = read_files(wanted.folder)
    if isinstance(files, Problem):
        return ImportRead(None, (files,))
    opened = files.opened()
    if opened.book is None:
        return ImportRead(None, opened.problems)
    read = read_list(wanted.file, wanted.table)
    if not read.table:
        return ImportRead(None, read.problems)
    given = _given(wanted, TABLES[table_of(read.table) or ""])
    typed = _typed(read, wanted, given.cells, opened)
    problems = (*given.problems, *typed.problems)
    if problems:
        return ImportRead(None, problems)
    joined = join_rows(files, read.table, typed, opened.sha256)
    return replace(joined, separator=read.separator, sheet=read.sheet)


def read_list(file: Path, table: str) -> ListRead:
    """The rows of a list and the table it belongs into; an empty one beside problems."""
    name = printable(file)
    content = _content(file, name)
    if not isinstance(content, bytes):
        return ListRead((), (content,))
    stem = file.name.rpartition(".")[0] or file.name
    if is_workbook(content):
        return read_workbook_list(name, content, _chooser(name, stem, table))
    chosen = _chooser(name, stem, table)(("",))
    if not isinstance(chosen, tuple):
        return ListRead((), (chosen,))
    read = read_text_list(name, content, is_heading)
    return ListRead(read.rows, read.problems, chosen[1], read.separator)


def _content(file: Path, name: str) -> bytes | Problem:
    """The bytes of a list, no more than a list can have."""
    place = Source(name)
    try:
        if not file.exists():
            return NoList(place, "is not there")
        # A pipe or a device would wait for ever.
        if not file.is_file():
            return NoList(place, "is a folder" if file.is_dir() else "is not a plain file")
        with file.open("rb") as stream:
            content = stream.read(MOST_BYTES + 1)
    except (OSError, ValueError) as fault:
        reason = (getattr(fault, "strerror", None) or "no file can have this name").lower()
        return NoList(place, f"cannot be read: {reason}")
    if len(content) > MOST_BYTES:
        return ListTooLarge(place, f"{MOST_BYTES // 1024 // 1024} megabytes")
    return content


def _plain(name: str) -> str:
    """The stem of a table's file as a person may have written it."""
    return name.strip().lower().replace(" ", "_").removesuffix(".csv")


def _is_table(name: str) -> bool:
    """Is this the stem of a table's file, such as codes or codes-paint?"""
    return table_of(f"{name}.csv") is not None and name.replace("-", "").replace("_", "").isalnum()


def _chooser(name: str, stem: str, wanted: str) -> Callable[[tuple[str, ...]], Chosen]:
    """Chooses a sheet by its name, and with it the table."""

    def choose(sheets: tuple[str, ...]) -> Chosen:
        place = Source(name)
        named = tuple(sheet for sheet in sheets if _is_table(_plain(sheet)))
        table = _plain(wanted)
        if table and not _is_table(table):
            typed = Source("--table", None, 1, len(wanted), wanted)
            return UnknownTable(typed, wanted, KNOWN_TABLES)
        if not table and len(named) > 1:
            return WhichTable(place, named, KNOWN_TABLES)
        if not table:
            table = _plain(named[0]) if named else _plain(stem)
        if not _is_table(table):
            return WhichTable(place, (), KNOWN_TABLES)
        sheet = next((each for each in sheets if _plain(each) == table), None)
        if sheet is None and len(sheets) > 1:
            return WhichSheet(place, table, sheets)
        return (sheet if sheet is not None else "".join(sheets[:1])), table

    return choose


@dataclass(frozen=True, slots=True)
class _Given:
    """The cells that options fill in every row, by column."""

    cells: dict[str, ListCell]
    problems: tuple[Problem, ...]


def _given(wanted: ImportWanted, shape: Shape) -> _Given:
    """Basis and source for the whole list, where they are given."""
    cells: dict[str, ListCell] = {}
    problems: list[Problem] = []
    for name, text in zip(FILLED, (wanted.basis, wanted.source), strict=True):
        key = shape.key(name)
        if key is not None and text:
            place = Source(f"--{name}", None, 1, len(text), text)
            stripped = text.strip()
            if not stripped:
                problems.append(missing(key, shape, place))
            elif not fits_text(key, stripped):
                problems.append(wrong_text(key, stripped, place))
            cells[name] = ListCell(stripped, place)
    return _Given(cells, tuple(problems))


def _typed(
    read: ListRead, wanted: ImportWanted, given: dict[str, ListCell], opened: BookOpened
) -> TypedRows:
    """The rows of the list, every fault of a heading or cell at once."""
    table = table_of(read.table) or ""
    shape = TABLES[table]
    if len(read.rows) < 2 and not read.problems:
        name = f"{printable(wanted.file)}:{read.sheet}" if read.sheet else printable(wanted.file)
        place = read.rows[0].place if read.rows else Source(name)
        empty = NoRows(place, shape.names(), bool(read.rows))
        return TypedRows((), (), (empty,))
    if not read.rows:
        return TypedRows((), (), read.problems)
    places = {name: cell.source for name, cell in given.items()}
    columns = match_columns(read.rows, shape, places)
    problems = (*read.problems, *columns.problems)
    typed = type_rows(read.rows[1:], columns, shape, given, read.separator)
    assert opened.book is not None, "a book that cannot be read has ended the import"
    figures = check_figures(opened.book, table, typed.rows)
    # Under headings that are wrong half of the cells would be missed.
    found = problems if columns.problems else (*problems, *typed.problems, *figures)
    return TypedRows(typed.rows, () if found else typed.entries, _in_order(found, read))


def _in_order(problems: tuple[Problem, ...], read: ListRead) -> tuple[Problem, ...]:
    """The problems of a row in the order of its cells, whatever found them."""
    order = {cell.source: at for row in read.rows for at, cell in enumerate(row.cells)}
    return tuple(sorted(problems, key=lambda problem: order.get(problem.source, -1)))
