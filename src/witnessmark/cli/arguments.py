"""The arguments and options that several commands share, each described once."""

from collections.abc import Callable
from enum import StrEnum
from pathlib import Path
from typing import Annotated, Any

import typer

from witnessmark.cli import completing
from witnessmark.cli.opening import spoken_throughout
from witnessmark.cli.problems import typed
from witnessmark.cli.terminal import refuse
from witnessmark.entry import NotAllowed


class PaperName(StrEnum):
    """The papers that a document can be printed on."""

    A4 = "a4"
    LETTER = "letter"


def argument(metavar: str, told: str, offered: Callable[..., Any] | None = None) -> Any:
    """An argument of a command."""
    return typer.Argument(metavar=metavar, help=told, autocompletion=offered)


def option(metavar: str, told: str, offered: Callable[..., Any] | None = None, **more: Any) -> Any:
    """An option that takes a value; its name is that of the parameter."""
    return typer.Option(metavar=metavar, help=told, autocompletion=offered, **more)


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
    str, argument("BOOK", "A code book: its name, or its folder.", completing.books)
]
MarkName = Annotated[str, argument("MARK", "A mark of that book.", completing.marks)]
CasePath = Annotated[
    str, argument("CASE", "A case: its folder, or its case.json.", completing.cases)
]
BesideBooks = Annotated[
    list[str] | None,
    option(
        "BOOK",
        "A further book (parts of any maker's cars), such as dated-parts; may be repeated.",
        completing.books,
    ),
]
AskedBooks = Annotated[
    list[str] | None,
    typer.Option(
        "--book",
        metavar="BOOK",
        help="Ask this book alone, by name or folder; may be repeated.",
        autocompletion=completing.books,
    ),
]
ModelYear = Annotated[int | None, option("N", "The car's model year, if known.")]
ModelName = Annotated[str, option("MODEL", "The car's model, by id or name.", completing.models)]
WorksName = Annotated[str, option("WORKS", "The works, by id or name.", completing.works)]
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
OutOption = Annotated[Path | None, option("FILE", "The PDF to write.")]
PaperOption = Annotated[PaperName, option("a4|letter", "The paper size.")]
AsJson = Annotated[bool, typer.Option("--json", help="Print JSON instead of a page.")]
