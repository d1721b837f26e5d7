"""`witnessmark decode-sheet`: what a car's numbers say, in words, on one page."""

from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from witnessmark.cli.arguments import CasePath, LanguageOption, OutOption, PaperName, PaperOption
from witnessmark.cli.cases import examined_case
from witnessmark.cli.document.printing import write_document
from witnessmark.cli.terminal import show_problems
from witnessmark.report.mask.short_name import file_stem
from witnessmark.report.sheets.decode_sheet import build_decode_sheet

HELP = """It says in words what each code means, what was not ordered, and what the
numbers do not say. It does not say whether they belong to the car. Serials are
masked unless you ask for --with-numbers. Without --out it is written to
CASE-ID-decode-sheet.pdf in the current folder.

\b
Example:
  witnessmark decode-sheet demo/clean --out sheet.pdf
"""


def decode_sheet(
    case: CasePath,
    out: OutOption = None,
    with_numbers: Annotated[
        bool, typer.Option("--with-numbers", help="Print serials in full, for the owner.")
    ] = False,
    paper: PaperOption = PaperName.A4,
    language: LanguageOption = None,
) -> None:
    """Write one decode sheet, whole or not at all."""
    examined, printed = examined_case(case, steady=False), date.today()
    opinion = examined.opinion
    outline = build_decode_sheet(opinion, examined.book, printed, with_numbers=with_numbers)
    path = out or Path(f"{file_stem(outline.case_id)}-decode-sheet.pdf")
    show_problems(opinion.problems)
    write_document(outline, path, printed, paper)
