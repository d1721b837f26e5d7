"""`witnessmark book list`: the code books that are here."""

from witnessmark.answers.picked import picked
from witnessmark.cli.arguments import AsJson
from witnessmark.cli.terminal import print_outline, print_record, show_problems
from witnessmark.codebook import open_book, shipped_books
from witnessmark.outline.records import Heading, Outline, Paragraph

HELP = """\b
Example:
  witnessmark book list
"""


def book_list(json: AsJson = False) -> None:
    """List the shipped books; one that cannot be read is named, and the others still listed."""
    opened = [open_book(folder) for folder in shipped_books()]
    books = [each.book for each in opened if each.book is not None]
    show_problems(problem for each in opened for problem in each.problems)
    if json:
        rows = [
            {
                **picked(book, "id", "title", "maker", "version", "first_year", "last_year"),
                "marks": [mark.id for mark in book.marks],
                "summary": " ".join(book.summary.split()),
            }
            for book in books
        ]
        print_record(rows)
        return
    blocks = (
        block
        for book in books
        for block in (
            Heading(f"{book.id}   {book.title}, version {book.version}"),
            Paragraph(" ".join(book.summary.split())),
        )
    )
    more = (Heading("The marks that a book knows"), Paragraph("witnessmark book show BOOK"))
    print_outline(Outline("Code books", (*blocks, *more)))
