"""`witnessmark questions`: what to ask the seller, as a message to paste."""

from pathlib import Path
from typing import Annotated

import typer

from witnessmark.cli.arguments import CasePath, LanguageOption
from witnessmark.cli.cases import examined_case
from witnessmark.cli.document.printing import print_or_keep, withheld_by_stop
from witnessmark.report.sections.to_ask import may_seller_be_asked
from witnessmark.report.sheets.message import seller_message

HELP = """At most twelve questions, those that matter most first, and the places to photograph
again. It holds no serial, accuses nobody and tells nothing of what a number ought to be.
While the car is a matter for the authority nothing is written: the seller is not to be asked.

\b
Example:
  witnessmark questions demo/swapped --out questions.txt
"""

TextOut = Annotated[
    Path | None,
    typer.Option("--out", metavar="FILE", help="A new text file, instead of the screen."),
]


def questions(case: CasePath, out: TextOut = None, language: LanguageOption = None) -> None:
    """Print one message, or write it whole or not at all."""
    examined = examined_case(case, steady=False)
    text = seller_message(examined.opinion, examined.book)
    if not may_seller_be_asked(examined.opinion.answer):
        withheld_by_stop(examined.opinion.answer, "the seller is not to be asked")
    print_or_keep(text, out)
