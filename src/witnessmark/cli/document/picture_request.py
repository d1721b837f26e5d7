"""`witnessmark picture-request`: a list of photographs for a seller, as a PDF."""

from datetime import date
from pathlib import Path

from witnessmark.cli.arguments import CasePath, LanguageOption, OutOption, PaperName, PaperOption
from witnessmark.cli.document.printing import write_document
from witnessmark.cli.opening import examined_case

HELP = """Write a letter asking a seller for photographs: which places, and how to take them.

It asks for nothing under the car and does not reveal what each place ought to
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
    from witnessmark.plan import visit_plan
    from witnessmark.report.mask.short_name import file_stem, shared_id
    from witnessmark.report.sheets.picture_request import picture_request as outline_of

    examined = examined_case(case, steady=False)
    opinion, printed = examined.opinion, date.today()
    plan = visit_plan(opinion.casefile, examined.book, (), None)
    case_id = shared_id(opinion, examined.book)
    path = out or Path(f"{file_stem(case_id)}-picture-request.pdf")
    write_document(outline_of(plan, case_id, printed), path, printed, paper)
