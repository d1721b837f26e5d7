"""`witnessmark book import`: a list from a spreadsheet, taken into a table of a book."""

import sys
from pathlib import Path
from typing import Annotated

import typer

from witnessmark.bookmaking.table_import import ImportWanted, read_import
from witnessmark.bookmaking.table_joining import ImportRead, Joined
from witnessmark.casefile import who_wrote
from witnessmark.catalogue import counted
from witnessmark.cli.arguments import argument, option
from witnessmark.cli.problems import ChangedMeanwhile, NotWritable, why
from witnessmark.cli.terminal import known, print_line, print_outline, refuse, show_problems
from witnessmark.cli.writing import only_writer, write_whole
from witnessmark.codebook import open_book
from witnessmark.outline.records import Outline, Paragraph
from witnessmark.source import Source

HELP = """The first line holds the headings: the names of the table's columns, in any order.
Each wrong cell is shown with its place. Nothing is written unless every cell is
valid and the new rows add no error to the book. Existing rows are kept, and
duplicates are not added.

\b
Example:
  witnessmark book import my-maker-1950-1952 paints.csv --table codes
"""


def book_import(
    folder: Annotated[Path, argument("FOLDER", "The book's folder.")],
    file: Annotated[Path, argument("FILE", "The list: .xlsx or CSV.")],
    table: Annotated[str, option("TABLE", "The table; by default the name of the list.")] = "",
    basis: Annotated[str, option("BASIS", "The basis of every row.")] = "",
    source: Annotated[str, option("SOURCE", "The source of every row.")] = "",
) -> None:
    """Add the rows, all or none."""
    read = read_import(ImportWanted(folder, file, table, basis, source))
    joined = read.joined
    if joined is None:
        show_problems(read.problems)
        if read.is_about_book:
            print_line(
                "Every cell can be read, but with these rows the book would have faults "
                "that it does not have now; nothing was written.",
                sys.stderr,
            )
        else:
            print_line("Nothing was written.", sys.stderr)
        raise typer.Exit(2)
    if joined.added:
        _write(folder, joined)
    _show(folder, joined, read)
    show_problems(joined.left)


def _write(folder: Path, joined: Joined) -> None:
    """The table in one step, if the book is still the one that the rows were joined with; the
    tables' folder is made where the book had none."""
    try:
        with only_writer(folder):
            if open_book(folder).sha256 != joined.of_book:
                refuse((_changed(folder),))
            joined.path.parent.mkdir(exist_ok=True)
            known(write_whole(joined.path, joined.text.encode("utf-8")))
    except OSError as fault:
        refuse((NotWritable(Source(""), str(joined.path.parent), why(fault)),))


def _changed(folder: Path) -> ChangedMeanwhile:
    """The file of the book that was written last, and by whom."""
    files = [
        path for path in (folder / "book.toml", *folder.glob("tables/*.csv")) if path.is_file()
    ]
    path = max(files, key=lambda each: each.stat().st_mtime, default=folder)
    return ChangedMeanwhile(Source(""), str(path), who_wrote(path))


def _show(folder: Path, joined: Joined, read: ImportRead) -> None:
    """What was done, and what the book lacks after it as before."""
    told = []
    if read.separator:
        told.append(f"The cells of the list are separated by {read.separator}.")
    if read.sheet:
        told.append(f"Read from the sheet {read.sheet!r}.")
    for rows, reason in ((joined.there, "in the book already"), (joined.repeated, "given twice")):
        if rows:
            told.append(f"{_rows(rows)} left out: {reason}.")
    if joined.left:
        faults = counted("{number} fault", "{number} faults", len(joined.left))
        told.append(f"The book still has {faults}, none from these rows:")
    else:
        told.append("The book has no fault.")
    title = f"{_rows(joined.added)} added to {folder / joined.name}"
    print_outline(Outline(title, tuple(map(Paragraph, told))))


def _rows(number: int) -> str:
    return counted("{number} row", "{number} rows", number) if number else "no rows"
