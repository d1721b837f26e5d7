"""Prints an outline as a PDF to a file that is free or a PDF already."""

from pathlib import Path
from typing import TYPE_CHECKING

from witnessmark.cli.arguments import PaperName
from witnessmark.cli.report import not_ours
from witnessmark.cli.terminal import print_line, refuse
from witnessmark.cli.writing import write_whole

if TYPE_CHECKING:
    from datetime import date

    from witnessmark.report import Outline


def write_document(outline: "Outline", path: Path, printed: "date", paper: PaperName) -> None:
    """Print a document without photographs, whole or not at all, and say where it is."""
    from witnessmark.report.press.render import print_outline
    from witnessmark.report.records import Form, PaperSize

    occupied = not_ours(path)
    if occupied is not None:
        refuse((occupied,))
    size = {PaperName.A4: PaperSize.A4, PaperName.LETTER: PaperSize.LETTER}[paper]
    fault = write_whole(path, print_outline(outline, (), printed, Form(size=size)).pdf)
    if fault is not None:
        refuse((fault,))
    print_line(str(path))
