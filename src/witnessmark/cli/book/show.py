"""`witnessmark book show`: what one code book knows: its names, one of its marks, or all of it."""

from typing import Annotated

import typer

from witnessmark.answers.book_page import book_in_short, book_page, marks_page
from witnessmark.answers.book_shown import render_book
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
from witnessmark.entry import found_marks, unknown_mark

HELP = """\b
Examples:
  witnessmark book show tarvane-1952-1961 --year 1955
  witnessmark book show tarvane-1952-1961 plate-brass --year 1955
"""


def book_show(
    book: BookName,
    mark: Annotated[
        str | None, argument("MARK", "One mark of that book.", completing.marks)
    ] = None,
    year: ModelYear = None,
    model: ModelName = "",
    works: WorksName = "",
    everything: Annotated[bool, typer.Option("--all", help="Show the whole book.")] = False,
    language: LanguageOption = None,
    json: AsJson = False,
) -> None:
    """Show one book, or the part of it that holds for one car; or one mark of it."""
    opened = opened_book(book)
    code_book = opened.book
    assert code_book is not None, "a book that cannot be read has ended the command"
    context = context_of_car(code_book, year, model, works)
    marks = found_marks(code_book, mark, context) if mark is not None else ()
    if mark is not None and not marks:
        refuse((unknown_mark(code_book, mark, "", typed("MARK", mark), context, year="--year"),))
    if json:
        print_record(render_book(code_book, context, opened.sha256, marks))
    elif marks:
        print_outline(marks_page(code_book, marks, context))
    else:
        page = book_page if everything else book_in_short
        print_outline(page(code_book, context))
