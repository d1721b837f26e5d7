"""`witnessmark report`: the report of a case as a PDF."""

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from witnessmark.cli.arguments import CasePath
from witnessmark.cli.opening import Examined, examined_case
from witnessmark.cli.problems import NotOverwritten
from witnessmark.cli.terminal import print_line, refuse, show_problems
from witnessmark.cli.writing import write_whole
from witnessmark.source import Source

if TYPE_CHECKING:
    from witnessmark.problem import Problem

SHORT = "The report of a case, as a PDF."

HELP = """Write the report of a case: a PDF that a stranger can follow.

It shows all numbers in full and is meant for its intended users. Without --out
it is written as CASE-ID.pdf into the folder where you are.

\b
Example:
  witnessmark report demo/panel --out panel.pdf
"""

PDF_OPENING = b"%PDF-"


def report(
    case: CasePath,
    out: Annotated[
        Path | None, typer.Option("--out", metavar="FILE", help="The PDF to write.")
    ] = None,
) -> None:
    """Write one report, whole or not at all."""
    examined = examined_case(case)
    path = out or Path(f"{examined.opinion.casefile.id}.pdf")
    occupied = not_ours(path)
    if occupied is not None:
        refuse((occupied,))
    show_problems(examined.opinion.problems)
    fault = write_whole(path, report_of(examined))
    if fault is not None:
        refuse((fault,))
    print_line(str(path))


def not_ours(path: Path) -> "Problem | None":
    """A problem if something stands at `path` that no report of ours may replace."""
    try:
        if not path.exists():
            return None
        with path.open("rb") as file:
            if file.read(len(PDF_OPENING)) == PDF_OPENING:
                return None
    except (OSError, ValueError):
        pass  # a folder, or unreadable: not ours either
    return NotOverwritten(Source("--out"), str(path), "is there and is no PDF", "a new file name")


def report_of(examined: Examined) -> bytes:
    """The PDF, dated today."""
    from witnessmark.report import render_report

    opinion = examined.opinion
    read = (examined.opened.exhibits.read(entry) for entry in opinion.casefile.exhibits)
    exhibits = {each.exhibit.entry.id: each.exhibit.content for each in read if each.exhibit}
    return render_report(opinion, examined.book, exhibits, date.today())
