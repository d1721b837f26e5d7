"""`witnessmark field-sheet`: a sheet to fill in beside the car, as a PDF."""

from pathlib import Path
from typing import Annotated

import typer

from witnessmark.cli.arguments import (
    MINUTES,
    CasePath,
    LanguageOption,
    OutOption,
    PaperName,
    PaperOption,
)
from witnessmark.cli.cases import examined_case
from witnessmark.cli.document.printing import paperwork_of, write_document

HELP = """A cover, then a card for each place, two or three to a page: cut or fold between
them. The looks that tell you most in the time available come first on the cover. Nothing
on it says what the claim expects: --expectations writes that instead, into a
file of its own, to be opened when everything is written down. Without --out it
is written to CASE-ID-field-sheet.pdf, or CASE-ID-expectations.pdf, in the
current folder.

\b
Example:
  witnessmark field-sheet demo/no-papers --minutes 90 --out field.pdf
"""


def field_sheet(
    case: CasePath,
    out: OutOption = None,
    minutes: Annotated[int | None, MINUTES] = None,
    expectations: Annotated[
        bool,
        typer.Option(
            "--expectations", help="Write what the claim would have at each place instead."
        ),
    ] = False,
    paper: PaperOption = PaperName.A4,
    language: LanguageOption = None,
) -> None:
    """Write one field sheet, or what is expected, whole or not at all."""
    papers = paperwork_of(examined_case(case, minutes, steady=False), paper)
    name = "expectations" if expectations else "field-sheet"
    sheet = papers.expectations if expectations else papers.field_sheet
    write_document(sheet(minutes), out or Path(f"{papers.stem}-{name}.pdf"))
