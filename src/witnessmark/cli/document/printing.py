"""Writes a document to a file that is free or a PDF already, on the paper that was asked for."""

from pathlib import Path
from typing import TYPE_CHECKING

from witnessmark.cli.arguments import PaperName
from witnessmark.cli.problems import NotOverwritten
from witnessmark.cli.terminal import print_line, refuse
from witnessmark.cli.writing import write_or_refuse
from witnessmark.source import Source

if TYPE_CHECKING:
    from datetime import date

    from witnessmark.outline.records import Outline
    from witnessmark.report.records import Attachment, Form

PDF_OPENING = b"%PDF-"


def form_of(paper: PaperName, *attachments: "Attachment") -> "Form":
    """On this paper, in the language of the command, with these files inside."""
    from witnessmark.catalogue import spoken
    from witnessmark.report.records import Form, PaperSize

    sizes = {PaperName.A4: PaperSize.A4, PaperName.LETTER: PaperSize.LETTER}
    return Form(sizes[paper], spoken(), attachments)


def write_document(outline: "Outline", path: Path, printed: "date", paper: PaperName) -> None:
    """Print a document without photographs, whole or not at all, and say where it is."""
    from witnessmark.report.press.render import print_outline

    refuse_what_is_not_ours(path)
    write_pdf(path, print_outline(outline, (), printed, form_of(paper)).pdf)


def write_pdf(path: Path, content: bytes) -> None:
    """Write a PDF whole or not at all, and say where it is."""
    write_or_refuse(path, content)
    print_line(str(path))


def refuse_what_is_not_ours(path: Path) -> None:
    """End the command if `path` names no file, or one that no report of ours may replace."""
    if path.name in ("", "-"):
        wanted = "a file name"
        refuse((NotOverwritten(Source("--out"), repr(str(path)), "names no file", wanted),))
    try:
        if not path.exists():
            return
        if path.is_file():
            with path.open("rb") as file:
                if file.read(len(PDF_OPENING)) == PDF_OPENING:
                    return
    except (OSError, ValueError):
        pass  # a folder, or unreadable: not ours either
    wanted = "a new file name"
    refuse((NotOverwritten(Source("--out"), str(path), "is there and is no PDF", wanted),))
