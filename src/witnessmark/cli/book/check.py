"""`witnessmark book check`: all faults of a code book at once, each with its place."""

from collections.abc import Iterator
from typing import Annotated

from witnessmark.bookmaking.list_ends import list_ends
from witnessmark.catalogue import counted, in_a_row, said
from witnessmark.cli.arguments import AsJson, argument
from witnessmark.cli.opening import tell_of_book
from witnessmark.cli.problems import NothingThere
from witnessmark.cli.terminal import print_outline, refuse, refuse_unless_sound
from witnessmark.codebook import CodeBook, changelog_problems, find_book, open_book
from witnessmark.codebook.listed import ListIs
from witnessmark.outline.records import Outline, Paragraph
from witnessmark.source import Source

HELP = """PATH is the book's folder, or the name of a book that comes with Witnessmark.

\b
Example:
  witnessmark book check tarvane-1952-1961
"""


def book_check(
    path: Annotated[str, argument("PATH", "The book's folder.")],
    json: AsJson = False,
) -> None:
    """Show every fault; exit code 2 where there is one."""
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
    checked = {
        "book": book.id if book else None,
        "sha256": opened.sha256,
        "lists": {} if book is None else {each.name: each.listed.value for each in list_ends(book)},
    }
    refuse_unless_sound(checked, problems, is_read=book is not None, as_json=json)
    if book is not None and not json:
        title = f"{book.title} ({book.id}), version {book.version}: no fault found"
        numbers = (
            counted("{number} mark", "{number} marks", len(book.marks)),
            counted("{number} code", "{number} codes", len(book.codes)),
            counted("{number} rule", "{number} rules", len(book.rules)),
            counted("{number} place", "{number} places", len(book.sites)),
        )
        told = Paragraph(f"{in_a_row(numbers, ', ')}; SHA-256 {opened.sha256}")
        print_outline(Outline(title, (told, *_ends(book))))


def _ends(book: CodeBook) -> Iterator[Paragraph]:
    """Which lists hold all that there was, which do not, and of which nobody says."""
    ends = list_ends(book)
    names = {
        listed: in_a_row(dict.fromkeys(e.name for e in ends if e.listed is listed), ", ")
        for listed in ListIs
    }
    if lists := names[ListIs.COMPLETE]:
        yield Paragraph(said("Complete lists: {lists}.", lists=lists))
    if lists := names[ListIs.PARTIAL]:
        yield Paragraph(said("Lists known to have gaps: {lists}.", lists=lists))
    if lists := names[ListIs.UNKNOWN]:
        yield Paragraph(said("Lists that may be complete or not: {lists}.", lists=lists))
