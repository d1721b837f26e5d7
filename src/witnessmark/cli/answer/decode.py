"""`witnessmark decode`: what one mark says, by the code book of its years."""

from typing import Annotated

import typer

from witnessmark.answers.decoded import answer_to, render_decoded
from witnessmark.answers.decoded_page import decoded_page
from witnessmark.answers.meanings import Shown
from witnessmark.catalogue import for_any_page, voiced
from witnessmark.cli.answer.decode_column import decode_column
from witnessmark.cli.arguments import (
    AsJson,
    BesideBooks,
    BookName,
    LanguageOption,
    MarkName,
    ModelName,
    ModelYear,
    WorksName,
    argument,
    option,
)
from witnessmark.cli.opening import books_beside, context_of_car, named_mark
from witnessmark.cli.problems import OneOrAColumn
from witnessmark.cli.terminal import print_outline, print_record, refuse
from witnessmark.codebook import CarContext, CodeBook
from witnessmark.problem import Problem
from witnessmark.source import Source

HELP = """READING is what you see on the metal, character by character, doubts included: ?
is worn away, [38] a 3 or an 8, ~ ground off or struck over, _ never stamped,
... an unknown number of characters lost, | separates the windows of a plate.
Spaces, dashes and line ends may be typed as they are on the metal. Put a lone --
before a reading that begins with a dash.

\b
Example:
  witnessmark decode tarvane-1952-1961 engine_number 'S2[38]117' --year 1955
"""


def decode(
    book: BookName,
    mark: MarkName,
    reading: Annotated[str | None, argument("READING", "What you see there.")] = None,
    year: ModelYear = None,
    model: ModelName = "",
    works: WorksName = "",
    beside: BesideBooks = None,
    column: Annotated[str | None, option("FILE", "Decode every line of FILE (- is stdin).")] = None,
    everything: Annotated[
        bool, typer.Option("--all", help="Also show meanings under 1 % and full sources.")
    ] = False,
    remarks: Annotated[bool, typer.Option("--remarks", help="Show all remarks.")] = False,
    language: LanguageOption = None,
    json: AsJson = False,
) -> None:
    """Decode one reading of one mark, or a column of them."""
    if (reading is None) == (column is None):
        refuse((OneOrAColumn(Source("READING"), reading),))
    further = tuple(beside or ())
    code_book = books_beside(book, further)
    context = context_of_car(code_book, year, model, works)
    if reading is None:
        problems = decode_column(code_book, mark, str(column), context, json)
    else:
        shown = Shown(everything, remarks, book, further)
        problems = _decode_one(code_book, mark, reading, context, shown=shown, as_json=json)
    if problems:
        refuse(problems)


def _decode_one(
    book: CodeBook,
    mark_name: str,
    text: str,
    context: CarContext,
    shown: Shown,
    as_json: bool,
) -> tuple[Problem, ...]:
    """Print the page or the JSON of one reading; gives what is wrong with its notation."""
    with for_any_page():
        answer = answer_to(book, named_mark(book, mark_name, text, context), text, context)
        if as_json:
            print_record(render_decoded(answer))
    if not (as_json or answer.problems):
        print_outline(decoded_page(voiced(answer), shown))
    return answer.problems
