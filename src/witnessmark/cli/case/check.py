"""`witnessmark case check`: all faults of a case at once, each with its place."""

from pathlib import Path
from typing import TYPE_CHECKING

import typer

from witnessmark.catalogue import counted, in_a_row, said
from witnessmark.cli.arguments import AsJson, CasePath
from witnessmark.cli.opening import books_of_case, tell_format
from witnessmark.cli.problems import render_problem
from witnessmark.cli.terminal import print_outline, print_record, show_problems
from witnessmark.outline.records import Bullets, Outline, Paragraph

if TYPE_CHECKING:
    from witnessmark.casefile.records import Casefile
    from witnessmark.codebook.book import CodeBook

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
        record = {
            "case": casefile.id if casefile else None,
            "problems": [render_problem(problem) for problem in problems],
        }
        print_record(record)
    if problems or casefile is None or book is None:
        show_problems(problems)
        raise typer.Exit(2)
    if not json:
        unread = (
            said(
                "{place}: the field “{field}” is kept and not read: is it misspelt?",
                place=each.source.place(),
                field=each.field,
            )
            for each in unread_fields(casefile, opened.places)
        )
        front = (Paragraph(_counted(casefile)), *map(Paragraph, unread))
        title = said("{case}: no fault found", case=casefile.title or casefile.id)
        print_outline(Outline(title, (*front, Bullets(_typing(casefile, book)))))


def _counted(casefile: "Casefile") -> str:
    """How much the case holds of each kind."""
    numbers = (
        counted("{number} reading", "{number} readings", len(casefile.readings)),
        counted("{number} look", "{number} looks", len(casefile.looks)),
        counted("{number} site", "{number} sites", len(casefile.sites)),
        counted("{number} paper", "{number} papers", len(casefile.papers)),
        counted("{number} exhibit", "{number} exhibits", len(casefile.exhibits)),
    )
    return in_a_row(numbers, ", ")


def _typing(casefile: "Casefile", book: "CodeBook") -> tuple[str, ...]:
    """What was typed in a form that its mark has not: no fault of the document, and told."""
    from witnessmark.examination import book_names, car_marks, in_book_words
    from witnessmark.wording import Names, typing_sentences

    car = car_marks(in_book_words(casefile, book), book)
    return typing_sentences(car.decodings, Names(book_names(car)))
