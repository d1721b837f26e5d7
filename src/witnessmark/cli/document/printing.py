"""Writes a document to a file that is free or a PDF already, on the paper that was asked for."""

from collections.abc import Callable
from datetime import date
from pathlib import Path

from witnessmark.catalogue import spoken
from witnessmark.cli.arguments import PaperName
from witnessmark.cli.cases import Examined
from witnessmark.cli.problems import NotOverwritten
from witnessmark.cli.terminal import print_line, refuse
from witnessmark.cli.writing import refuse_what_is_not_ours, write_or_refuse
from witnessmark.examination.looks import LookLeft
from witnessmark.outline.records import Outline
from witnessmark.plan import VisitPlan, visit_plan
from witnessmark.report.mask.short_name import SharedId, file_stem, shared_id
from witnessmark.report.press.html.page import OPENING as HTML_OPENING
from witnessmark.report.press.render import print_outline
from witnessmark.report.records import Attachment, Form, PaperSize
from witnessmark.source import Source

PDF_OPENING = b"%PDF-"
KINDS = {PDF_OPENING: "a PDF", HTML_OPENING: "a page of ours"}
"""How a file begins that may be replaced, and what it is then."""


def form_of(paper: PaperName, *attachments: Attachment) -> Form:
    """On this paper, in the language of the command, with these files inside."""
    sizes = {PaperName.A4: PaperSize.A4, PaperName.LETTER: PaperSize.LETTER}
    return Form(sizes[paper], spoken(), attachments)


def write_document(outline: Outline, path: Path, printed: date, paper: PaperName) -> None:
    """Print a document without photographs, whole or not at all, and say where it is."""
    refuse_what_is_no_document(path)
    write_named(path, print_outline(outline, (), printed, form_of(paper)).pdf)


def write_sheet(
    examined: Examined,
    path: Path | None,
    name: str,
    paper: PaperName,
    outline_of: Callable[[VisitPlan, SharedId, date], Outline],
    *,
    looks: tuple[LookLeft, ...] = (),
    minutes: int | None = None,
) -> None:
    """Print the plan of a visit as a sheet of this name, with these looks in these minutes."""
    printed, case_id = date.today(), shared_id(examined.opinion, examined.book)
    plan = plan_of(examined, looks, minutes)
    path = path or Path(f"{file_stem(case_id)}-{name}.pdf")
    write_document(outline_of(plan, case_id, printed), path, printed, paper)


def plan_of(
    examined: Examined, looks: tuple[LookLeft, ...] = (), minutes: int | None = None
) -> VisitPlan:
    """The plan of a visit, with these looks in these minutes."""
    return visit_plan(examined.opinion.casefile, examined.book, looks, minutes)


def write_named(path: Path, content: bytes) -> None:
    """Write a document whole or not at all, and say where it is."""
    write_or_refuse(path, content)
    print_line(str(path))


def print_or_keep(text: str, path: Path | None) -> None:
    """A plain text on the screen, or in a new file."""
    if path is None:
        print_line(text.rstrip("\n"))
        return
    if path.name in ("", "-"):
        refuse_what_is_no_document(path)
    write_or_refuse(path, text.encode(), may_replace=False)
    print_line(str(path))


def refuse_what_is_no_document(
    path: Path, opening: bytes = PDF_OPENING, option: str = "--out"
) -> None:
    """End the command if `path` names no file, or one that no document of ours may replace."""
    if path.name in ("", "-"):
        shown, told = repr(str(path)), "does not name a file"
        refuse((NotOverwritten(Source(option), shown, told, "a file name"),))
    refuse_what_is_not_ours(path, opening, KINDS[opening], option)
