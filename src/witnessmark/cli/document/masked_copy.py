"""`witnessmark masked-copy`: a report that can be shown to others, as a PDF."""

from pathlib import Path

from witnessmark.cli.arguments import CasePath, LanguageOption, OutOption, PaperName, PaperOption
from witnessmark.cli.cases import examined_case
from witnessmark.cli.document.printing import (
    paperwork_of,
    refuse_what_is_no_document,
    write_named,
)
from witnessmark.cli.terminal import print_line, refuse, show_problems
from witnessmark.report.mask.copied import photographs_left_out

HELP = """Serials are masked in text, drawings and photographs, the same way throughout;
people, places, file names and the case document are left out, and so is any typed
text that contains a number or a name. A photograph is shown only if the case
records which regions of it show numbers. Without --out it is written to
CASE-ID-masked.pdf in the current folder.

Read it before you pass it on: a number in words of another language, or one in a
photograph that nobody has recorded, cannot be detected.

\b
Example:
  witnessmark masked-copy demo/panel --out panel-masked.pdf
"""


def masked_copy(
    case: CasePath,
    out: OutOption = None,
    paper: PaperOption = PaperName.A4,
    language: LanguageOption = None,
) -> None:
    """Write one masked copy, whole or not at all."""
    examined = examined_case(case)
    opinion = examined.opinion
    papers = paperwork_of(examined, paper)
    copy = papers.masked_copy()
    if copy.problems:
        refuse(copy.problems)
    path = out or Path(f"{copy.name}-masked.pdf")
    refuse_what_is_no_document(path)
    show_problems(opinion.problems)
    write_named(path, papers.masked_set(copy).printed().pdf)
    if copy.outline.case_id != opinion.casefile.id:
        print_line(f"The name of the case holds a number; the copy says {copy.outline.case_id}.")
    if copy.left_out:
        print_line(photographs_left_out(copy, opinion))
