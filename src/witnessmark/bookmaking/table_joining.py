"""New rows joined with a table of a book on disk, and what the whole book says to them."""

import re
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

from witnessmark.bookmaking.list_entries import TypedPlaces, TypedRow, TypedRows, csv_line
from witnessmark.bookmaking.problems import OtherRow
from witnessmark.codebook.book_format import TABLES
from witnessmark.codebook.folder import TABLE_FOLDER, BookFiles, source_in
from witnessmark.codebook.parse import table_of
from witnessmark.codebook.problems_folder import OutsideFolder
from witnessmark.documents.csv_cells import parse_cells
from witnessmark.documents.csv_entries import parse_table
from witnessmark.documents.entries import Entry, FileText, Value
from witnessmark.problem import Problem
from witnessmark.source import Source

_LINE_END = re.compile(r"\r\n|\n|\r")
ONCE = ("works", "body_families", "models", "runs")
"""Tables in which an id stands once, whatever the years."""
NAMED_BY = {
    "codes": ("table", "code"),
    "series": ("item", "first", "last"),
    "features": ("site", "id"),
}
"""The columns that name a row; the id where a table is not listed."""
NAMES = {
    "codes": "the code {1!r} of {0!r}",
    "series": "the range {1!r} to {2!r} of {0!r}",
    "features": "the feature {1!r} of {0!r}",
}
"""How a row is named in a sentence, by those columns."""
APPLYING = ("first_year", "last_year", "works", "models")


@dataclass(frozen=True, slots=True, kw_only=True)
class Joined:
    """The whole new text of one table.

    `path` is where it goes, `name` that place from the book's folder; `added` rows are
    new, `there` stood in the book already and `repeated` stood in the list twice.
    `left` is what the book lacks after as before, `of_book` the digest of the book that the
    rows were joined with.
    """

    path: Path
    name: str
    text: str
    added: int
    there: int
    repeated: int
    left: tuple[Problem, ...]
    of_book: str


@dataclass(frozen=True, slots=True)
class ImportRead:
    """The table with the new rows, or None, and the problems.

    `is_about_book`: every cell is sound, and the problems are those that the book
    would have with the new rows and has not without them. `separator` and `sheet`
    say how the list was read.
    """

    joined: Joined | None
    problems: tuple[Problem, ...] = ()
    is_about_book: bool = False
    separator: str = ""
    sheet: str = ""


@dataclass(frozen=True, slots=True)
class _StandingRow:
    """A row that is there: what it says, and where."""

    values: dict[str, Value]
    place: str
    is_typed: bool


def join_rows(book: BookFiles, stem: str, typed: TypedRows, sha256: str) -> ImportRead:
    """Join typed rows with the table in `tables/STEM.csv`; `sha256` is the book's digest."""
    name, table = f"{TABLE_FOLDER}/{stem}.csv", table_of(stem) or ""
    path = (book.root / name).resolve()
    file_name = source_in(book.root, name).name
    of_table = [file for file in book.tables if table_of(file.name) == table]
    files = tuple(file.text for file in of_table if file.text)
    # New rows are not joined to a broken table.
    faults = [problem for file in files for problem in parse_table(file, TABLES[table]).problems]
    faults += [file.problem for file in of_table if file.problem]
    if not faults and not path.is_relative_to(book.root):
        faults = [OutsideFolder(Source(file_name))]
    new = _sort_out(table, typed, files)
    if problems := tuple(faults) or new.problems:
        return ImportRead(None, problems)
    kept = _kept(next((f for f in files if f.name == file_name), None), table, new.rows)
    text = kept.text + "".join(
        csv_line([row.text(column) for column in kept.names]) + kept.line_end for row in new.rows
    )
    before = book.with_table(name, kept.text).opened().problems
    after = book.with_table(name, text).opened().problems
    first_line = len(_LINE_END.findall(kept.text)) + 1
    worse = _worse(before, after, TypedPlaces(new.rows, kept.names, first_line, file_name))
    if worse:
        return ImportRead(None, worse, is_about_book=True)
    joined = Joined(
        path=path,
        name=name,
        text=text,
        added=len(new.rows),
        there=new.there,
        repeated=new.repeated,
        left=after,
        of_book=sha256,
    )
    return ImportRead(joined)


@dataclass(frozen=True, slots=True)
class _New:
    """The rows that are new, how many are not, and those that contradict others."""

    rows: tuple[TypedRow, ...]
    there: int
    repeated: int
    problems: tuple[Problem, ...]


def _sort_out(table: str, typed: TypedRows, files: tuple[FileText, ...]) -> _New:
    """Which rows of the list are new?"""
    known: dict[object, list[_StandingRow]] = {}
    for file in files:
        for entry in parse_table(file, TABLES[table]).entries:
            there_already = _StandingRow(_values(entry), _of_row(entry.place), False)
            known.setdefault(_key(table, entry), []).append(there_already)
    rows: list[TypedRow] = []
    problems: list[Problem] = []
    there = repeated = 0
    for row, entry in zip(typed.rows, typed.entries, strict=True):
        values = _values(entry)
        alike = known.setdefault(_key(table, entry), [])
        same = next((each for each in alike if each.values == values), None)
        others = [each for each in alike if not _are_disputed(each.values, values)]
        if same is not None:
            there, repeated = there + (not same.is_typed), repeated + same.is_typed
        elif others:
            problems.append(_other(table, row, values, others[0]))
        else:
            alike.append(_StandingRow(values, _of_row(row.place), True))
            rows.append(row)
    return _New(tuple(rows), there, repeated, tuple(problems))


def _of_row(place: Source) -> str:
    """A row of a text by its line; a cell of a sheet as it is."""
    return Source(place.name, place.line).place() if type(place) is Source else place.place()


def _key(table: str, entry: Entry) -> object:
    """What no two rows of a table have in common, unless sources disagree."""
    names = NAMED_BY.get(table, ("id",))
    named = tuple(entry.text(name) for name in names)
    if table in ONCE:
        return named
    values = _values(entry)
    return (*named, *(values.get(name) for name in APPLYING))


def _values(entry: Entry) -> dict[str, Value]:
    """What a row says; the words of a list in no order."""
    return {
        name: tuple(sorted(map(str, value))) if isinstance(value, tuple) else value
        for name, value in entry.values.items()
    }


def _are_disputed(one: dict[str, Value], other: dict[str, Value]) -> bool:
    """Do both rows say that sources disagree?"""
    return one.get("disputed") == other.get("disputed") == "yes"


def _other(table: str, row: TypedRow, values: dict[str, Value], known: _StandingRow) -> Problem:
    """The problem of a row that says something else than one that is there."""
    names = NAMED_BY.get(table, ("id",))
    column = next(name for name in values if values[name] != known.values[name])
    named = NAMES.get(table, "the id {!r}").format(*(row.text(name) for name in names))
    there, here = (_told(each[column]) for each in (known.values, values))
    source = row.cells[column].source if column in row.cells else row.place
    return OtherRow(source, named, column, there, here, known.place)


def _told(value: Value) -> str:
    """A value as it stands in a cell."""
    if value is None:
        return ""
    return " ".join(map(str, value)) if isinstance(value, tuple) else str(value)


@dataclass(frozen=True, slots=True)
class _StandingTable:
    """The table as it stands, ready for more lines: its text, its columns, its line end."""

    text: str
    names: tuple[str, ...]
    line_end: str


def _kept(file: FileText | None, table: str, rows: tuple[TypedRow, ...]) -> _StandingTable:
    """The rows that are there; written anew only where a column has to be added."""
    shape = TABLES[table]
    if file is None:
        return _StandingTable(csv_line(shape.names()) + "\n", shape.names(), "\n")
    cells = parse_cells(file).rows
    names = tuple(cell.text for cell in cells[0])
    end = _LINE_END.search(file.text)
    line_end = end[0] if end else "\n"
    used = [name for name in shape.names() if any(row.text(name) for row in rows)]
    added = tuple(name for name in used if name not in names)
    if not added:
        is_ended = file.text.endswith(("\n", "\r"))
        return _StandingTable(file.text + ("" if is_ended else line_end), names, line_end)
    lines = [(*names, *added)]
    lines += [(*(cell.text for cell in row), *("" for _ in added)) for row in cells[1:]]
    return _StandingTable("".join(csv_line(line) + line_end for line in lines), lines[0], line_end)


def _worse(
    before: tuple[Problem, ...], after: tuple[Problem, ...], places: TypedPlaces
) -> tuple[Problem, ...]:
    """The problems that stand where none stood before, each where its row was typed."""

    def place(problem: Problem) -> tuple[str, int | None, int | None]:
        source = problem.source
        return (source.name, source.line, source.column)

    more = Counter(map(place, after)) - Counter(map(place, before))
    return tuple(places.moved(problem) for problem in after if more[place(problem)])
