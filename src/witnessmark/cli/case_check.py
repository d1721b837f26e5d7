"""`witnessmark case check`: all faults of a case at once, each with its place."""

from pathlib import Path
from typing import TYPE_CHECKING

import typer

from witnessmark.cli.arguments import AsJson, CasePath
from witnessmark.cli.opening import books_of_case, tell_format
from witnessmark.cli.rendering import problem_outline
from witnessmark.cli.terminal import Sheet, count, print_outline, show_problems

if TYPE_CHECKING:
    from witnessmark.casefile.records import Casefile
    from witnessmark.codebook.book import CodeBook

SHORT = "Check a case for errors."

HELP = """Check a case: its document, its exhibits, and its readings by its code book.

\b
Example:
  witnessmark case check demo/clean
"""


def case_check(case: CasePath, json: AsJson = False) -> None:
    """Show every fault; exit code 2 where there is one."""
    from witnessmark.casefile import open_case, unread_fields
    from witnessmark.examination import check_case

    opened = open_case(Path(case))
    tell_format(opened, case)
    casefile, problems, book = opened.casefile, opened.problems, None
    if casefile is not None:
        book = books_of_case(opened, casefile).book
        problems = (*problems, *check_case(casefile, opened.places, book))
    if json:
        outline = {
            "case": casefile.id if casefile else None,
            "problems": [problem_outline(problem) for problem in problems],
        }
        print_outline(outline)
    if problems or casefile is None or book is None:
        show_problems(problems)
        raise typer.Exit(2)
    if not json:
        sheet = Sheet()
        sheet.title(f"{casefile.title or casefile.id}: no fault found")
        sheet.say(
            f"{count(len(casefile.readings), 'reading')}, "
            f"{count(len(casefile.looks), 'look')}, "
            f"{count(len(casefile.sites), 'site')}, "
            f"{count(len(casefile.papers), 'paper')}, "
            f"{count(len(casefile.exhibits), 'exhibit')}",
            2,
        )
        for each in unread_fields(casefile, opened.places):
            place = each.source.place()
            sheet.say(f"{place}: the field “{each.field}” is kept and not read: is it misspelt?", 2)
        for told in _typing(casefile, book):
            sheet.say(f"- {told}", 2, hanging=2)
        sheet.show()


def _typing(casefile: "Casefile", book: "CodeBook") -> tuple[str, ...]:
    """What was typed in a form that its mark has not: no fault of the document, and told."""
    from witnessmark.examination import book_names, car_marks, in_book_words
    from witnessmark.wording import Names, typing_sentences

    car = car_marks(in_book_words(casefile, book), book)
    return typing_sentences(car.decodings, Names(book_names(car)))
