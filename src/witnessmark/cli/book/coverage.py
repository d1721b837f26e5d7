"""`witnessmark book coverage`: what the books know, and what they do not."""

from pathlib import Path
from typing import Annotated

from witnessmark.answers.books_listed import listed_book, listed_books, render_listed
from witnessmark.bookmaking.listing import BookListed, list_book
from witnessmark.bookmaking.listing_page import render_listing_page
from witnessmark.catalogue import counted
from witnessmark.cli.arguments import AsJson, argument, option
from witnessmark.cli.opening import faultless, opened_book
from witnessmark.cli.terminal import print_line, print_outline, print_record
from witnessmark.cli.writing import refuse_what_is_not_ours, write_or_refuse
from witnessmark.codebook import shipped_books

HELP = """For each mark, field and year, the applicable rows are counted by basis; then comes
what is missing. Without BOOK, a summary of all books that come with Witnessmark.

\b
Example:
  witnessmark book coverage tarvane-1952-1961
"""


def book_coverage(
    book: Annotated[str, argument("[BOOK]", "A code book: its name, or its folder.")] = "",
    json: AsJson = False,
    write: Annotated[Path | None, option("FILE", "Write the full page as Markdown.")] = None,
) -> None:
    """Count the rows of one book, or of all shipped ones."""
    opened = (opened_book(book),) if book else tuple(map(faultless, shipped_books()))
    listed = [list_book(each.book, each.sha256) for each in opened if each.book is not None]
    if write is not None:
        _write(write, listed)
    if json:
        rendered = [render_listed(each) for each in listed]
        print_record(rendered[0] if book else rendered)
        return
    if write is not None:
        print_line(f"{counted('{number} book', '{number} books', len(listed))} written to {write}")
    else:
        print_outline(listed_book(listed[0]) if book else listed_books(listed))


def _write(path: Path, listed: list[BookListed]) -> None:
    page = render_listing_page(listed)
    heading = page.partition("\n")[0].encode()
    refuse_what_is_not_ours(path, heading, "such a page", "--write")
    write_or_refuse(path, page.encode("utf-8"))
