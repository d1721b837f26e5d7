"""New rows joined with a table of a book on disk, and what the whole book says to them."""

import re
import tempfile
from collections import Counter
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from shutil import copyfile

from witnessmark.bookmaking.list_entries import TypedPlaces, TypedRow, TypedRows, csv_line
from witnessmark.bookmaking.problems import OtherRow
from witnessmark.codebook.book_format import TABLES
from witnessmark.codebook.folder import MOST_BYTES, TABLE_FOLDER, TOP_FILE, BookOpened, open_book
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
class Joining:
    """The joined table, or None and the problems; `is_about_book` as for the import."""

    joined: Joined | None
    problems: tuple[Problem, ...] = ()
    is_about_book: bool = False


@dataclass(frozen=True, slots=True)
class _StandingRow:
    """A row that is there: what it says, and where."""

    values: dict[str, Value]
    place: str
    is_typed: bool


def join_rows(folder: Path, stem: str, typed: TypedRows, opened: BookOpened) -> Joining:
    """Join typed rows with the table in `tables/STEM.csv`."""
    root = folder.resolve()
    name, table = f"{TABLE_FOLDER}/{stem}.csv", table_of(stem) or ""
    path = (root / name).resolve()
    files = _files(root, table)
    faults = _faults(root, table, files, opened)
    if not faults and not path.is_relative_to(root):
        faults = (OutsideFolder(Source(f"{_plain(root)}/{name}")),)
    if faults:
        return Joining(None, faults)
    new = _sort_out(table, typed, files)
    if new.problems:
        return Joining(None, new.problems)
    file_name = f"{_plain(root)}/{name}"
    kept = _kept(next((f for f in files if f.name == file_name), None), table, new.rows)
    text = kept.text + "".join(
        csv_line([row.text(column) for column in kept.names]) + kept.line_end for row in new.rows
    )
    before, after = _opened(root, name, kept.text), _opened(root, name, text)
    first_line = len(_LINE_END.findall(kept.text)) + 1
    places = TypedPlaces(new.rows, kept.names, first_line, file_name)
    worse = _worse(before, after, places)
    if worse:
        return Joining(None, worse, is_about_book=True)
    added, there, repeated = len(new.rows), new.there, new.repeated
    joined = Joined(
        path=path,
        name=name,
        text=text,
        added=added,
        there=there,
        repeated=repeated,
        left=after.problems,
        of_book=opened.sha256,
    )
    return Joining(joined)


def _plain(root: Path) -> str:
    """The folder's name as problems show it."""
    return root.name.encode("utf-8", "backslashreplace").decode("utf-8")


def _files(root: Path, table: str) -> tuple[FileText, ...]:
    """The files of a table that can be read, named as their problems name them."""
    found: list[FileText] = []
    for path in sorted((root / TABLE_FOLDER).glob("*.csv")):
        if table_of(path.name) == table and not path.name.startswith((".", "~")):
            content = _content(root, path)
            if content is not None:
                name = f"{_plain(root)}/{TABLE_FOLDER}/{path.name}"
                found.append(FileText(name, content.removeprefix("\ufeff")))
    return tuple(found)


def _content(root: Path, path: Path) -> str | None:
    """The text of a plain file inside the folder, or None."""
    try:
        if not path.resolve().is_relative_to(root) or not path.is_file():
            return None
        with path.open("rb") as stream:
            content = stream.read(MOST_BYTES + 1)
        return content.decode("utf-8") if len(content) <= MOST_BYTES else None
    except (OSError, ValueError, RuntimeError):
        return None


def _faults(
    root: Path, table: str, files: tuple[FileText, ...], opened: BookOpened
) -> tuple[Problem, ...]:
    """What is wrong with the table as it stands: new rows are not joined to a broken one."""
    read = {file.name for file in files}
    problems: list[Problem] = []
    for file in files:
        problems += parse_table(file, TABLES[table]).problems
    start = f"{_plain(root)}/{TABLE_FOLDER}/"
    unread = [
        problem
        for problem in opened.problems
        if problem.source.name.startswith(start)
        and problem.source.name not in read
        and table_of(problem.source.name) == table
    ]
    return (*problems, *unread)


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


def _opened(root: Path, name: str, text: str) -> BookOpened:
    """The book as it would be with this text for one table, read in a folder of its own."""
    with tempfile.TemporaryDirectory(prefix="witnessmark-") as folder:
        copy = Path(folder) / root.name
        (copy / TABLE_FOLDER).mkdir(parents=True)
        for path in _copied(root):
            with suppress(OSError):  # what cannot be read is a problem of the book, after as before
                copyfile(path, copy / path.relative_to(root))
        (copy / name).write_bytes(text.encode("utf-8"))
        return open_book(copy)


def _copied(root: Path) -> Iterator[Path]:
    """The files of a book that are read: plain ones, inside the folder, none too large."""
    for path in (root / TOP_FILE, *(root / TABLE_FOLDER).glob("*.csv")):
        inside = path.is_file() and path.resolve().is_relative_to(root)
        if inside and path.stat().st_size <= MOST_BYTES:
            yield path


def _worse(before: BookOpened, after: BookOpened, places: TypedPlaces) -> tuple[Problem, ...]:
    """The problems that stand where none stood before, each where its row was typed."""

    def place(problem: Problem) -> tuple[str, int | None, int | None]:
        source = problem.source
        return (source.name, source.line, source.column)

    more = Counter(map(place, after.problems)) - Counter(map(place, before.problems))
    return tuple(places.moved(problem) for problem in after.problems if more[place(problem)])
