"""`witnessmark decode`: what one mark says, by the code book of its years."""

from typing import Annotated

import typer

from witnessmark.cli.arguments import AsJson, BookName, MarkName, ModelName, ModelYear, WorksName
from witnessmark.cli.opening import context_of_car, named_book, named_mark
from witnessmark.cli.terminal import Sheet, print_outline, show_problems

SHORT = "What one mark means, by a code book."

HELP = """Say what one mark means, by a code book: the likeliest meaning, and what else fits.

READING is what stands on the metal, place by place, doubt kept: ? is worn away,
[38] a 3 or an 8, ~ ground off or struck over, _ never struck, ... an unknown
number of places lost, | between the windows of a plate. Spaces, dashes and line
ends may stand wherever they do on the metal.

\b
Example:
  witnessmark decode tarvane-1952-1961 engine_number 'S2[38]117' --year 1955
"""


def decode(
    book: BookName,
    mark: MarkName,
    reading: Annotated[str, typer.Argument(metavar="READING", help="What stands there.")],
    year: ModelYear = None,
    model: ModelName = "",
    works: WorksName = "",
    everything: Annotated[
        bool, typer.Option("--all", help="Show meanings under 1 % and whole sources, too.")
    ] = False,
    remarks: Annotated[bool, typer.Option("--remarks", help="Show all remarks.")] = False,
    json: AsJson = False,
) -> None:
    """Decode one reading of one mark."""
    from witnessmark.cli.decode_answer import answer_to, outline
    from witnessmark.cli.decode_page import Shown, lay_out

    code_book = named_book(book)
    context = context_of_car(code_book, year, model, works)
    answer = answer_to(code_book, named_mark(code_book, mark), reading, context)
    if json:
        print_outline(outline(answer))
    elif not answer.problems:
        sheet = Sheet()
        lay_out(sheet, answer, Shown(everything, remarks))
        sheet.show()
    if answer.problems:
        show_problems(answer.problems)
        raise typer.Exit(2)
