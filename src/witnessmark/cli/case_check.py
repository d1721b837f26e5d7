"""`witnessmark case check`: all faults of a case at once, each with its place."""

from pathlib import Path

import typer

from witnessmark.cli.arguments import AsJson, CasePath
from witnessmark.cli.opening import books_of_case
from witnessmark.cli.rendering import problem_outline
from witnessmark.cli.terminal import Sheet, count, print_outline, show_problems

SHORT = "All faults of a case."

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
    casefile, problems = opened.casefile, opened.problems
    if casefile is not None:
        book = books_of_case(opened, casefile).book
        problems = (*problems, *check_case(casefile, opened.places, book))
    if json:
        outline = {
            "case": casefile.id if casefile else None,
            "problems": [problem_outline(problem) for problem in problems],
        }
        print_outline(outline)
    if problems or casefile is None:
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
        sheet.show()
