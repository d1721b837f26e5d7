"""The arguments and options that several commands share, each described once."""

from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from witnessmark.cli.opening import spoken_throughout
from witnessmark.cli.problems import NotAllowed, typed
from witnessmark.cli.terminal import refuse


class PaperName(StrEnum):
    """The papers that a document can be printed on."""

    A4 = "a4"
    LETTER = "letter"


MOST_MINUTES = 10_000
"""A week of days and nights."""


def _minutes(typed_text: str) -> int:
    """As many minutes as somebody can have; anything else is refused in our own words."""
    text = typed_text.strip()
    if text.isascii() and text.isdecimal() and len(text) < 10 and 1 <= int(text) <= MOST_MINUTES:
        return int(text)
    wanted = f"a whole number from 1 to {MOST_MINUTES:,}"
    refuse((NotAllowed(typed("--minutes", text), text, "is not a number of minutes", wanted),))


MINUTES = typer.Option("--minutes", metavar="N", parser=_minutes, help="Minutes available.")
BookName = Annotated[
    str, typer.Argument(metavar="BOOK", help="A code book: its name, or its folder.")
]
MarkName = Annotated[str, typer.Argument(metavar="MARK", help="A mark of that book.")]
CasePath = Annotated[
    str, typer.Argument(metavar="CASE", help="A case: its folder, or its case.json.")
]
BesideBooks = Annotated[
    list[str] | None,
    typer.Option(
        "--beside",
        metavar="BOOK",
        help="A further book (parts of any maker's cars), such as dated-parts; may be repeated.",
    ),
]
AskedBooks = Annotated[
    list[str] | None,
    typer.Option(
        "--book", metavar="BOOK", help="Ask this book alone, by name or folder; may be repeated."
    ),
]
ModelYear = Annotated[
    int | None, typer.Option("--year", metavar="N", help="The car's model year, if known.")
]
ModelName = Annotated[
    str, typer.Option("--model", metavar="MODEL", help="The car's model, by id or name.")
]
WorksName = Annotated[
    str, typer.Option("--works", metavar="WORKS", help="The works, by id or name.")
]
LanguageOption = Annotated[
    Path | None,
    typer.Option(
        "--language",
        metavar="FILE",
        help="A translation (a PO file): write in its language.",
        callback=spoken_throughout,
    ),
]
"""Taking part in a command is enough: the whole of it then speaks the language."""
OutOption = Annotated[Path | None, typer.Option("--out", metavar="FILE", help="The PDF to write.")]
PaperOption = Annotated[
    PaperName, typer.Option("--paper", metavar="a4|letter", help="The paper size.")
]
AsJson = Annotated[bool, typer.Option("--json", help="Print JSON instead of a page.")]
