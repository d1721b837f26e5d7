"""`witnessmark field-sheet`: a sheet to fill in beside the car, as a PDF."""

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
from witnessmark.cli.document.printing import write_sheet
from witnessmark.report.sheets.expectations import expectations_sheet
from witnessmark.report.sheets.field_sheet import field_sheet as outline_of

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
    examined = examined_case(case, minutes, steady=False)
    looks = examined.opinion.looks
    name = "expectations" if expectations else "field-sheet"
    outline = expectations_sheet if expectations else outline_of
    write_sheet(examined, out, name, paper, outline, looks=looks, minutes=minutes)
