"""`witnessmark book show`: what one code book knows, mark by mark."""

from typing import Annotated

import typer

from witnessmark.answers.book_page import MOST_VALUES, book_page
from witnessmark.answers.book_shown import render_book
from witnessmark.cli.arguments import AsJson, BookName, LanguageOption, ModelYear
from witnessmark.cli.opening import context_of_year, opened_book
from witnessmark.cli.terminal import print_outline, print_record

HELP = """\b
Example:
  witnessmark book show tarvane-1952-1961 --year 1955
"""

AllValues = Annotated[bool, typer.Option("--values", help="Show every value of every item.")]


def book_show(
    book: BookName,
    year: ModelYear = None,
    values: AllValues = False,
    language: LanguageOption = None,
    json: AsJson = False,
) -> None:
    """Show one book, or the part of it that holds for one year."""
    opened = opened_book(book)
    code_book = opened.book
    assert code_book is not None, "a book that cannot be read has ended the command"
    context = context_of_year(code_book, year)
    if json:
        print_record(render_book(code_book, context, opened.sha256))
    else:
        print_outline(book_page(code_book, context, None if values else MOST_VALUES))
