"""The arguments and options that several commands share, each described once."""

from typing import Annotated

import typer

BookName = Annotated[
    str, typer.Argument(metavar="BOOK", help="A code book: its name, or its folder.")
]
MarkName = Annotated[str, typer.Argument(metavar="MARK", help="A mark of that book.")]
CasePath = Annotated[
    str, typer.Argument(metavar="CASE", help="A case: its folder, or its case.json.")
]
ModelYear = Annotated[
    int | None, typer.Option("--year", metavar="N", help="The car's model year, where known.")
]
ModelName = Annotated[
    str, typer.Option("--model", metavar="MODEL", help="The car's model, as the book spells it.")
]
WorksName = Annotated[
    str, typer.Option("--works", metavar="WORKS", help="The works, as the book spells it.")
]
AsJson = Annotated[bool, typer.Option("--json", help="Print JSON instead of a page.")]
