"""`witnessmark case check`: all faults of a case at once, each with its place."""

from pathlib import Path

import typer

from witnessmark.cli.arguments import AsJson, CasePath
from witnessmark.cli.opening import examined_case
from witnessmark.cli.rendering import problem_outline
from witnessmark.cli.terminal import Sheet, print_outline, show_problems

SHORT = "All faults of a case."

HELP = """Check a case: its document, its exhibits, and its readings by its code book.

\b
Example:
  witnessmark case check demo/clean
"""


def case_check(case: CasePath, json: AsJson = False) -> None:
    """Show every fault; exit code 2 where there is one."""
    from witnessmark.casefile import open_case

    opened = open_case(Path(case))
    casefile, problems = opened.casefile, opened.problems
    if casefile is not None and not problems:
        problems = examined_case(case).opinion.problems
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
        from witnessmark.wording import count_text

        sheet = Sheet()
        sheet.title(f"{casefile.title or casefile.id}: no fault found")
        sheet.say(
            f"{count_text(len(casefile.readings), 'reading')}, "
            f"{count_text(len(casefile.looks), 'look')}, "
            f"{count_text(len(casefile.sites), 'site')}, "
            f"{count_text(len(casefile.papers), 'paper')}, "
            f"{count_text(len(casefile.exhibits), 'exhibit')}",
            2,
        )
        sheet.show()
