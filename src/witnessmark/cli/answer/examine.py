"""`witnessmark examine`: the whole examination of a case, on a page or as JSON."""

from datetime import date
from typing import Annotated

import typer

from witnessmark.cli import completing
from witnessmark.cli.answer.examine_table import examine_table
from witnessmark.cli.arguments import AsJson, LanguageOption, option
from witnessmark.cli.case.upgrade import upgrade_sections
from witnessmark.cli.cases import Examined, examined_case
from witnessmark.cli.problems import OneCase, typed
from witnessmark.cli.terminal import print_json, print_outline, refuse, show_problems
from witnessmark.entry import UnknownName
from witnessmark.examination import render_opinion
from witnessmark.outline.records import Outline

HELP = """Prints, on one screen, what does not fit, the conclusions in words and figures, what
was not seen, and what to look at next. --why says what drives one conclusion; --all
prints everything that the report and its annex say.

Several cases are a row each: the ratios without their bands, and what does not fit.
--csv writes these rows to a file, with a column for each question. A case with an
error gets no row; its problem is reported and the other cases continue.

\b
Examples:
  witnessmark examine demo/clean
  witnessmark examine demo/clean --why engine
  witnessmark examine demo/clean demo/panel --csv cases.csv
"""

CasePaths = Annotated[
    list[str],
    typer.Argument(
        metavar="CASE...",
        help="A case, its folder or its case.json; a table of several.",
        autocompletion=completing.cases,
    ),
]


def examine(
    cases: CasePaths,
    why: Annotated[
        str, option("QUESTION", "Say what drives the conclusions about this.", completing.questions)
    ] = "",
    everything: Annotated[
        bool, typer.Option("--all", help="Print everything that the report says.")
    ] = False,
    remarks: Annotated[
        bool, typer.Option("--remarks", help="With --why, show all remarks of the book.")
    ] = False,
    language: LanguageOption = None,
    json: AsJson = False,
    csv: Annotated[str, option("FILE", "Write a row per case to FILE (- is stdout).")] = "",
    jobs: Annotated[int, option("N", "Cases at a time, of several.", min=1, max=256)] = 1,
) -> None:
    """Examine one case, or many in a row each."""
    if len(cases) > 1 and (why or everything or json):
        refuse((OneCase(typed("CASE", cases[1]), len(cases)),))
    if csv or len(cases) > 1:
        raise typer.Exit(examine_table(cases, jobs, csv))
    examined = examined_case(cases[0])
    show_problems(examined.opinion.problems)
    if json:
        print_json(render_opinion(examined.opinion))
    else:
        print_outline(_outline(examined, why, everything, remarks))


def _outline(examined: Examined, why: str, everything: bool, remarks: bool) -> Outline:
    """The page of one Opinion: in short, one question of it, or all."""
    from dataclasses import replace

    from witnessmark.report.outline import build_annex, build_outline
    from witnessmark.report.sections.known import MOST_REMARKS
    from witnessmark.report.sheets.examined import examined_in_short, examined_why, weighed_about

    opinion, book, today = examined.opinion, examined.book, date.today()
    if why:
        found = weighed_about(opinion, why)
        if not found:
            known = tuple(dict.fromkeys(each.about for each in opinion.weighed))
            refuse((UnknownName(typed("--why", why), "conclusion", why, "of this case", known),))
        return examined_why(opinion, book, found, None if remarks else MOST_REMARKS)
    if everything:
        outline, annex = build_outline(opinion, book, today), build_annex(opinion, book, today)
        outline = replace(outline, sections=(*outline.sections, *annex.sections))
    else:
        outline = examined_in_short(opinion, book)
    return replace(outline, sections=(*outline.sections, *upgrade_sections(examined.opened)))
