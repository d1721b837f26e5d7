"""A code book from its texts: read, build, check; all problems at once."""

from dataclasses import dataclass

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.book_format import TABLES
from witnessmark.codebook.draft import TableEntries, draft_book
from witnessmark.codebook.parse_top import parse_top
from witnessmark.codebook.problems_folder import UnknownTable
from witnessmark.documents.changes import FormatChange
from witnessmark.documents.csv_entries import parse_table
from witnessmark.documents.entries import Entry, FileText
from witnessmark.problem import Problem
from witnessmark.source import Source


@dataclass(frozen=True, slots=True)
class BookParsed:
    """The book, or None where it cannot be built at all, and its problems.

    `changes`: what stands otherwise in a book.toml of the format before, which is read as it is.
    """

    book: CodeBook | None
    problems: tuple[Problem, ...]
    changes: tuple[FormatChange, ...] = ()


def parse_book(
    top: FileText,
    tables: tuple[FileText, ...],
    folder_name: str,
    unread: frozenset[str] = frozenset(),
    *,
    is_checked: bool = False,
) -> BookParsed:
    """Read book.toml and its tables. `folder_name` is what the book's id should be.

    `unread` names files of tables that are there and could not be opened. `is_checked`: nothing
    is wrong with the book as a whole.

    A fault does not stop the rest: a value that cannot be used is replaced by
    the harmless default of its key (a basis by memory, which never argues), a
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
    if toml.book is None or not has_years(toml.book):
        return BookParsed(None, tuple(problems))
    draft = draft_book(
        toml.book, tuple(TableEntries(*each) for each in entries.items()), frozenset(missing)
    )
    if not is_checked:
        # Late: all checks and their problems are not loaded for a book that has been checked.
        from witnessmark.codebook.checks.whole import check_book

        problems += check_book(draft, folder_name)
    return BookParsed(draft.book(), tuple(problems), toml.changes)


def table_of(file_name: str) -> str | None:
    """The table that a file belongs to: its stem; codes may be spread over codes-*.csv."""
    stem = file_name.rpartition("/")[2].removesuffix(".csv")
    if stem.startswith("codes-"):
        return "codes"
    return stem if stem in TABLES else None


def has_years(book: Entry) -> bool:
    """Are both years of the book written and without fault?"""
    return book.is_written("first_year") and book.is_written("last_year")
