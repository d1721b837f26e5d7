"""`witnessmark field-sheet`: a sheet to fill in beside the car, as a PDF."""

from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from witnessmark.cli.arguments import CasePath, LanguageOption, OutOption, PaperName, PaperOption
from witnessmark.cli.document.printing import write_document
from witnessmark.cli.opening import examined_case

HELP = """Write a sheet to take to the car: where to look, in walking order, with boxes to write in.

The looks that tell you most in the time available are highlighted. Claimed
numbers are not printed on it. Without --out it is written to
CASE-ID-field-sheet.pdf in the current folder.

\b
Example:
  witnessmark field-sheet demo/no-papers --minutes 90 --out field.pdf
"""


def field_sheet(
    case: CasePath,
    out: OutOption = None,
    minutes: Annotated[
        int | None,
        typer.Option("--minutes", metavar="N", min=1, max=10_000, help="Minutes available."),
    ] = None,
    paper: PaperOption = PaperName.A4,
    language: LanguageOption = None,
) -> None:
    """Write one field sheet, whole or not at all."""
    from witnessmark.plan import visit_plan
    from witnessmark.report.mask.short_name import file_stem, shared_id
    from witnessmark.report.sheets.field_sheet import field_sheet as outline_of

    examined = examined_case(case, minutes, steady=False)
    opinion, printed = examined.opinion, date.today()
    plan = visit_plan(opinion.casefile, examined.book, opinion.looks, minutes)
    case_id = shared_id(opinion, examined.book)
    path = out or Path(f"{file_stem(case_id)}-field-sheet.pdf")
    write_document(outline_of(plan, case_id, printed), path, printed, paper)
