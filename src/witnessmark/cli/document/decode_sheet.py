"""`witnessmark decode-sheet`: what a car's numbers say, in words, on one page."""

from pathlib import Path
from typing import Annotated

import typer

from witnessmark.cli.arguments import CasePath, LanguageOption, OutOption, PaperName, PaperOption
from witnessmark.cli.cases import examined_case
from witnessmark.cli.document.printing import paperwork_of, write_document
from witnessmark.cli.terminal import show_problems

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
    examined = examined_case(case, steady=False)
    papers = paperwork_of(examined, paper)
    path = out or Path(f"{papers.stem}-decode-sheet.pdf")
    show_problems(examined.opinion.problems)
    write_document(papers.decode_sheet(with_numbers=with_numbers), path)
