"""`witnessmark field-sheet`: a sheet to fill in beside the car, as a PDF."""

from typing import Annotated

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
from witnessmark.report.sheets.field_sheet import field_sheet as outline_of

HELP = """The looks that tell you most in the time available are highlighted. Claimed
numbers are not printed on it. Without --out it is written to
CASE-ID-field-sheet.pdf in the current folder.

\b
Example:
  witnessmark field-sheet demo/no-papers --minutes 90 --out field.pdf
"""


def field_sheet(
    case: CasePath,
    out: OutOption = None,
    minutes: Annotated[int | None, MINUTES] = None,
    paper: PaperOption = PaperName.A4,
    language: LanguageOption = None,
) -> None:
    """Write one field sheet, whole or not at all."""
    examined = examined_case(case, minutes, steady=False)
    looks = examined.opinion.looks
    write_sheet(examined, out, "field-sheet", paper, outline_of, looks=looks, minutes=minutes)
