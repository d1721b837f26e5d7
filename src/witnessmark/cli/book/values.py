"""`witnessmark book values`: what can be claimed of one item of a book."""

from typing import Annotated

from witnessmark.answers.book_values import render_values, values_page
from witnessmark.cli import completing
from witnessmark.cli.arguments import (
    AsJson,
    BookName,
    LanguageOption,
    ModelName,
    ModelYear,
    WorksName,
    argument,
)
from witnessmark.cli.opening import context_of_car, opened_book
from witnessmark.cli.problems import typed
from witnessmark.cli.terminal import print_outline, print_record, refuse
from witnessmark.entry import UnknownName

HELP = """\b
Example:
  witnessmark book values tarvane-1952-1961 paint --year 1955
"""


def book_values(
    book: BookName,
    item: Annotated[str, argument("ITEM", "An item of that book.", completing.items)],
    year: ModelYear = None,
    model: ModelName = "",
    works: WorksName = "",
    language: LanguageOption = None,
    json: AsJson = False,
) -> None:
    """List what can be claimed of one item, on one car or on all."""
    code_book = opened_book(book).book
    assert code_book is not None, "a book that cannot be read has ended the command"
    context = context_of_car(code_book, year, model, works)
    asked = code_book.item_named(item)
    if asked is None:
        known = tuple(each.id for each in code_book.items)
        of_book = f"of the book {code_book.id}"
        refuse((UnknownName(typed("ITEM", item), "item", item, of_book, known),))
    if json:
        print_record(render_values(code_book, asked, context))
    else:
        print_outline(values_page(code_book, asked, context))
