"""`witnessmark picture-request`: a list of photographs for a seller, as a PDF or as a message."""

from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from witnessmark.cli.arguments import (
    CasePath,
    LanguageOption,
    OutOption,
    PaperName,
    PaperOption,
    option,
)
from witnessmark.cli.cases import examined_case
from witnessmark.cli.document.printing import paperwork_of, withheld_by_stop, write_document
from witnessmark.cli.problems import typed
from witnessmark.cli.terminal import print_line, refuse
from witnessmark.entry import NotAllowed
from witnessmark.report.sections.to_ask import may_seller_be_asked
from witnessmark.report.sheets.picture_request import Sender, message

HELP = """It asks for nothing under the car and does not reveal what each place ought to
show. The sender is the case's first examiner, and the answer goes to that
address unless --reply-to names another. Without --out it is written to
CASE-ID-picture-request.pdf in the current folder; with --text it is printed
instead, short enough for a message. While the car is a matter for the authority
nothing is written: the seller is not to be asked.

\b
Example:
  witnessmark picture-request demo/clean --reply-by 2026-12-14 --text
"""


def _day(typed_text: str) -> date:
    """A day of the calendar; anything else is refused in our own words."""
    try:
        return date.fromisoformat(typed_text.strip())
    except ValueError:
        told = NotAllowed(typed("--reply-by", typed_text), typed_text, "is not a day", WANTED)
        refuse((told,))


WANTED = "a day such as 2026-12-14"


def picture_request(
    case: CasePath,
    out: OutOption = None,
    text: Annotated[
        bool, typer.Option("--text", help="Print it as plain text to paste into a message.")
    ] = False,
    reply_to: Annotated[str, option("ADDRESS", "Where the pictures go.")] = "",
    reply_by: Annotated[
        date | None, option("DATE", "The day they are wanted by.", parser=_day)
    ] = None,
    paper: PaperOption = PaperName.A4,
    language: LanguageOption = None,
) -> None:
    """Write one request, whole or not at all."""
    if text and out is not None:
        reason, wanted = "names a file, and --text prints", "one of the two"
        refuse((NotAllowed(typed("--out", str(out)), str(out), reason, wanted),))
    examined = examined_case(case, steady=False)
    examiners = examined.opinion.casefile.assignment.examiners
    sender = Sender(examiners[0] if examiners else None, reply_to.strip(), reply_by)
    if not may_seller_be_asked(examined.opinion.answer):
        withheld_by_stop(examined.opinion.answer, "the seller is not to be asked")
    papers = paperwork_of(examined, paper)
    if text:
        print_line(message(papers.plan(), sender))
        return
    path = out or Path(f"{papers.stem}-picture-request.pdf")
    write_document(papers.picture_request(sender), path)
