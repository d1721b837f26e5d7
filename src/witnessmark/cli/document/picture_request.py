"""`witnessmark picture-request`: a list of photographs for a seller, as a PDF."""

from witnessmark.cli.arguments import CasePath, LanguageOption, OutOption, PaperName, PaperOption
from witnessmark.cli.cases import examined_case
from witnessmark.cli.document.printing import write_sheet
from witnessmark.report.sheets.picture_request import picture_request as outline_of

HELP = """It asks for nothing under the car and does not reveal what each place ought to
show. Without --out it is written to CASE-ID-picture-request.pdf in the current
folder.

\b
Example:
  witnessmark picture-request demo/clean --out pictures.pdf
"""


def picture_request(
    case: CasePath,
    out: OutOption = None,
    paper: PaperOption = PaperName.A4,
    language: LanguageOption = None,
) -> None:
    """Write one request, whole or not at all."""
    examined = examined_case(case, steady=False)
    write_sheet(examined, out, "picture-request", paper, outline_of)
