"""`witnessmark masked-copy`: a report that can be shown to others, as a PDF."""

from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from witnessmark.cli.arguments import CasePath, LanguageOption, PaperName, PaperOption
from witnessmark.cli.opening import examined_case
from witnessmark.cli.report import not_ours
from witnessmark.cli.terminal import print_line, refuse, show_problems
from witnessmark.cli.writing import write_whole

SHORT = "The report with serials, people and places left out, as a PDF."

HELP = """Write a copy of the report that can be shown to others.

Serials are masked in text, drawings and photographs, the same way throughout;
people, places, file names and the case document are left out. A photograph is
shown only if the case records which regions of it show numbers. Without --out
it is written to CASE-ID-masked.pdf in the current folder.

Read it before you pass it on: a number spelled out in words, or one in a
photograph that nobody has recorded, cannot be detected.

\b
Example:
  witnessmark masked-copy demo/panel --out panel-masked.pdf
"""


def masked_copy(
    case: CasePath,
    out: Annotated[
        Path | None, typer.Option("--out", metavar="FILE", help="The PDF to write.")
    ] = None,
    paper: PaperOption = PaperName.A4,
    language: LanguageOption = None,
) -> None:
    """Write one masked copy, whole or not at all."""
    from witnessmark.catalogue import spoken
    from witnessmark.report.mask import copied
    from witnessmark.report.records import Form, PaperSize

    examined, printed = examined_case(case), date.today()
    opinion = examined.opinion
    exhibits = examined.opened.exhibits.contents(opinion.casefile.exhibits)
    size = {PaperName.A4: PaperSize.A4, PaperName.LETTER: PaperSize.LETTER}[paper]
    form = Form(size=size, catalogue=spoken())
    copy = copied.masked_copy(opinion, examined.book, exhibits, printed, form)
    if copy.problems:
        refuse(copy.problems)
    path = out or Path(f"{copy.name}-masked.pdf")
    occupied = not_ours(path)
    if occupied is not None:
        refuse((occupied,))
    show_problems(opinion.problems)
    fault = write_whole(path, copied.print_masked_copy(copy, printed, form))
    if fault is not None:
        refuse((fault,))
    print_line(str(path))
    if copy.outline.case_id != opinion.casefile.id:
        print_line(f"The name of the case holds a number; the copy says {copy.outline.case_id}.")
    if copy.left_out:
        print_line(f"Photographs left out: {', '.join(copy.left_out)}.")
