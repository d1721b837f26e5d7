"""`witnessmark book check`: all faults of a code book at once, each with its place."""

from typing import Annotated

import typer

from witnessmark.catalogue import counted, in_a_row
from witnessmark.cli.arguments import AsJson
from witnessmark.cli.opening import tell_of_book
from witnessmark.cli.problems import NothingThere, render_problem
from witnessmark.cli.terminal import print_outline, print_record, refuse, show_problems
from witnessmark.outline.records import Outline, Paragraph
from witnessmark.source import Source

HELP = """Check a code book: gaps, overlaps, rows without a source, names that refer to nothing.

PATH is the book's folder, or the name of a book that comes with Witnessmark.

\b
Example:
  witnessmark book check tarvane-1952-1961
"""


def book_check(
    path: Annotated[str, typer.Argument(metavar="PATH", help="The book's folder.")],
    json: AsJson = False,
) -> None:
    """Show every fault; exit code 2 where there is one."""
    from witnessmark.codebook import changelog_problems, find_book, open_book

    folder = find_book(path)
    if folder is None:
        wanted = "a folder that holds book.toml, or the name of a shipped book"
        refuse((NothingThere(Source("PATH"), path, "code book", wanted),))
    opened = open_book(folder, anew=True)
    tell_of_book(opened, folder)
    book = opened.book
    problems = opened.problems
    if book is not None:
        problems = (*problems, *changelog_problems(folder, book.version))
    if json:
        record = {
            "book": book.id if book else None,
            "sha256": opened.sha256,
            "problems": [render_problem(problem) for problem in problems],
        }
        print_record(record)
    if problems or book is None:
        show_problems(problems)
        raise typer.Exit(2)
    if not json:
        title = f"{book.title} ({book.id}), version {book.version}: no fault found"
        numbers = (
            counted("{number} mark", "{number} marks", len(book.marks)),
            counted("{number} code", "{number} codes", len(book.codes)),
            counted("{number} rule", "{number} rules", len(book.rules)),
            counted("{number} site", "{number} sites", len(book.sites)),
        )
        told = Paragraph(f"{in_a_row(numbers, ', ')}; SHA-256 {opened.sha256}")
        print_outline(Outline(title, (told,)))
