"""Writes a document to a file that is free or a PDF already, on the paper that was asked for."""

import sys
from datetime import date
from pathlib import Path
from typing import NoReturn

import typer

from witnessmark.catalogue import spoken
from witnessmark.cli.arguments import PaperName
from witnessmark.cli.cases import Examined
from witnessmark.cli.problems import NotOverwritten
from witnessmark.cli.terminal import page_width, print_line, refuse
from witnessmark.cli.writing import refuse_what_is_not_ours, write_or_refuse
from witnessmark.outline.text import wrapped
from witnessmark.report.paperwork import Paperwork
from witnessmark.report.press.html.page import OPENING as HTML_OPENING
from witnessmark.report.press.render import ToSet
from witnessmark.report.records import Form, PaperSize
from witnessmark.source import Source
from witnessmark.weighing import Answer
from witnessmark.wording import stop_sentence

PDF_OPENING = b"%PDF-"
KINDS = {PDF_OPENING: "a PDF", HTML_OPENING: "a page of ours"}
"""How a file begins that may be replaced, and what it is then."""


def paperwork_of(examined: Examined, paper: PaperName = PaperName.A4) -> Paperwork:
    """The documents of a case, dated today, on this paper and in the language of the command."""
    opinion = examined.opinion
    sizes = {PaperName.A4: PaperSize.A4, PaperName.LETTER: PaperSize.LETTER}
    return Paperwork(
        opinion=opinion,
        book=examined.book,
        exhibits=examined.opened.exhibits.contents(opinion.casefile.exhibits),
        printed=date.today(),
        form=Form(sizes[paper], spoken()),
    )


def write_document(document: ToSet, path: Path) -> None:
    """Print a document, whole or not at all, and say where it is."""
    refuse_what_is_no_document(path)
    write_named(path, document.printed().pdf)


def write_named(path: Path, content: bytes) -> None:
    """Write a document whole or not at all, and say where it is."""
    write_or_refuse(path, content)
    print_line(str(path))


def withheld_by_stop(answer: Answer, told: str) -> NoReturn:
    """End the command that would ask somebody while the car is a matter for the authority."""
    why = f"Nothing was written: until it has answered, {told}."
    lines = wrapped(f"{stop_sentence(answer.stops)} {why}", page_width())
    print_line("\n".join(lines), sys.stderr)
    raise typer.Exit(2)


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
