"""A code book from its texts: read, build, check; all problems at once. A book.toml of format 1
is read as it is."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.book_format import BOOK, FORMAT, FORMAT_VERSION, TABLES
from witnessmark.codebook.checked import is_other_than_shipped
from witnessmark.codebook.draft import draft_book
from witnessmark.codebook.marks import Mark
from witnessmark.codebook.problems_folder import UnknownTable
from witnessmark.codebook.upgrade import changes_from_format_1
from witnessmark.documents.changes import OLD_VERSION, FormatChange, with_changes
from witnessmark.documents.csv_entries import parse_table
from witnessmark.documents.entries import Entry, FileText
from witnessmark.documents.problems import MissingKey, WrongFormat, WrongVersion
from witnessmark.documents.toml_entries import TomlReader, read_toml, too_deep
from witnessmark.documents.toml_places import TomlPlaces
from witnessmark.problem import Problem
from witnessmark.source import Source


@dataclass(frozen=True, slots=True)
class BookOpened:
    """The book, or None where it cannot be built at all, its problems and its digest.

    `sha256` is taken over the sorted names, relative to the folder, and the
    bytes of book.toml and its tables; empty where there is no book.toml on disk. `changes` is what
    differs in a book.toml of the previous format, which is read as it is.
    """

    book: CodeBook | None
    problems: tuple[Problem, ...]
    sha256: str = ""
    changes: tuple[FormatChange, ...] = ()

    @property
    def is_other_than_shipped(self) -> bool:
        """Does it bear the id of a shipped book, and hold something else?"""
        return self.book is not None and is_other_than_shipped(self.sha256, self.book.id)


def parse_book(
    top: FileText,
    tables: tuple[FileText, ...],
    folder_name: str,
    unread: frozenset[str] = frozenset(),
    *,
    is_checked: bool = False,
) -> BookOpened:
    """Read book.toml and its tables. `folder_name` is what the book's id should be.

    `unread` names files of tables that are there and could not be opened. `is_checked`: nothing
    is wrong with the book as a whole.

    A fault does not stop the rest: a value that cannot be used is replaced by
    the harmless default of its key (a basis by memory, which carries no weight), a
    row whose cells do not fit the header is left out. There is no book only
    where book.toml is unreadable, of another format, or without its years.
    """
    toml = parse_top(top)
    problems = list(toml.problems)
    missing = {table for name in unread if (table := table_of(name))}
    entries: dict[str, tuple[Entry, ...]] = {}
    for file in tables:
        table = table_of(file.name)
        if table is None:
            known = tuple(f"{stem}.csv" for stem in TABLES)
            stem = file.name.rpartition("/")[2]
            problems.append(UnknownTable(Source(file.name), stem, known))
            continue
        parsed = parse_table(file, TABLES[table])
        problems += parsed.problems
        if not parsed.is_whole:
            missing.add(table)
        entries[table] = entries.get(table, ()) + parsed.entries
    if toml.book is None or not all(map(toml.book.is_written, ("first_year", "last_year"))):
        return BookOpened(None, tuple(problems))
    draft = draft_book(toml.book, entries, frozenset(missing))
    if not is_checked:
        # Late: all checks and their problems are not loaded for a book that has been checked.
        from witnessmark.codebook.checks.whole import check_book

        problems += check_book(draft, folder_name)
    # What is wrong in a layout is found in each mark that has it, and told once.
    return BookOpened(draft.book(), tuple(dict.fromkeys(problems)), changes=toml.changes)


@dataclass(frozen=True, slots=True)
class TopParsed:
    """The book's top table, or None where it cannot be read at all, and its problems.

    `changes`: what differs in a text of the previous format, which is read as it is.
    """

    book: Entry | None
    problems: tuple[Problem, ...]
    changes: tuple[FormatChange, ...] = ()


def parse_top(file: FileText) -> TopParsed:
    """Read book.toml against its declaration; all faults at once, no exception."""
    read = read_toml(file)
    if read.problem is not None:
        return TopParsed(None, (read.problem,))
    document, places = read.values, read.places
    reader = TomlReader(places, [])
    changes: tuple[FormatChange, ...] = ()
    try:
        if refusal := _refusal(document, places):
            return TopParsed(None, (refusal,))
        if document["format_version"] == OLD_VERSION:
            changes = changes_from_format_1(document)
            document = with_changes(document, changes)
            places.written = {each.now: each.path for each in changes}
        book = _laid_out(reader.entry(BOOK, document, ()), reader.problems)
    except RecursionError:
        return TopParsed(None, (too_deep(file),))
    return TopParsed(book, tuple(reader.problems), changes)


def _laid_out(top: Entry, problems: list[Problem]) -> Entry:
    """The book with the fields of its layouts in each mark that names one, before those of the
    mark's own. A mark without any field is a problem."""
    layouts = {each.text("id"): each.entries("field") for each in top.entries("layout")}
    marks: list[Entry] = []
    for mark in top.entries("mark"):
        named = mark.text("layout")
        fields = (*layouts.get(named, ()), *mark.entries("field"))
        if not (fields or named or mark.is_written("field")):
            problems.append(Mark.shape.by_name["field"].missing(Mark.shape, mark.place))
        marks.append(replace(mark, values={**mark.values, "field": fields}) if named else mark)
    return replace(top, values={**top.values, "mark": tuple(marks)})


def _refusal(document: Mapping[str, object], places: TomlPlaces) -> Problem | None:
    """A file of another format or version is not read any further."""
    found = document.get("format")
    if found != FORMAT:
        shown = found if isinstance(found, str) else "missing" if found is None else "no text"
        return WrongFormat(places.value(("format",)), shown, "code book", f'format = "{FORMAT}"')
    version = document.get("format_version")
    if type(version) is int and version in (FORMAT_VERSION, OLD_VERSION):
        return None
    source, line = places.value(("format_version",)), f"format_version = {FORMAT_VERSION}"
    if version is None:
        return MissingKey(source, "format_version", BOOK.name, line)
    return WrongVersion(source, repr(version)[:20], FORMAT_VERSION, line)


def table_of(file_name: str) -> str | None:
    """The table that a file belongs to: its stem; codes may be spread over codes-*.csv."""
    stem = file_name.rpartition("/")[2].removesuffix(".csv")
    if stem.startswith("codes-"):
        return "codes"
    return stem if stem in TABLES else None
