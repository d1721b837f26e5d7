"""`witnessmark book list`: the code books that are here."""

from witnessmark.cli.arguments import AsJson
from witnessmark.cli.terminal import Sheet, print_outline, show_problems

SHORT = "List the available code books."

HELP = """List the code books that come with Witnessmark.

\b
Example:
  witnessmark book list
"""


def book_list(json: AsJson = False) -> None:
    """List the shipped books; one that cannot be read is named, and the others still listed."""
    from witnessmark.codebook import open_book, shipped_books

    opened = [open_book(folder) for folder in shipped_books()]
    books = [each.book for each in opened if each.book is not None]
    show_problems(problem for each in opened for problem in each.problems)
    if json:
        rows = [
            {
                "id": book.id,
                "title": book.title,
                "maker": book.maker,
                "version": book.version,
                "first_year": book.first_year,
                "last_year": book.last_year,
                "marks": [mark.id for mark in book.marks],
                "summary": " ".join(book.summary.split()),
            }
            for book in books
        ]
        print_outline(rows)
        return
    sheet = Sheet()
    sheet.title("Code books")
    for book in books:
        sheet.gap()
        sheet.say(f"{book.id}   {book.title}, version {book.version}", 2, hanging=2)
        sheet.say(" ".join(book.summary.split()), 4)
    sheet.gap()
    sheet.say("The marks that a book knows: witnessmark book show BOOK")
    sheet.show()
