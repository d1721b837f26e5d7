"""`witnessmark compare`: the careful amateur's first look: do these numbers belong together?"""

from typing import Annotated

import typer

from witnessmark.agreement.records import CarMarks
from witnessmark.answers.compared import compared, render_compared
from witnessmark.answers.compared_page import compared_page
from witnessmark.catalogue import for_any_page, voiced
from witnessmark.cli import completing
from witnessmark.cli.arguments import (
    AsJson,
    BesideBooks,
    BookName,
    LanguageOption,
    ModelName,
    ModelYear,
    WorksName,
    argument,
)
from witnessmark.cli.opening import books_beside, context_of_car
from witnessmark.cli.problems import NotAPair, TooFew, typed
from witnessmark.cli.terminal import print_outline, print_record, refuse
from witnessmark.codebook import CarContext, CodeBook
from witnessmark.entry.first_look import MarkTyped, car_typed
from witnessmark.problem import Problem
from witnessmark.source import Source

HELP = """A first look, without a case: the answer, one line for each reading, what
differs, what remains open, and what none of this can show. Write each reading as
MARK=READING, with the signs listed in 'witnessmark decode --help'; title=NUMBER
is the number on the title. If one mark gives the year, it dates the others.

\b
Example:
  witnessmark compare tarvane-1952-1961 'frame_number=2582063' 'seat_chassis_tail=E20?3'
"""

FORM = "MARK=READING"


def compare(
    book: BookName,
    readings: Annotated[
        list[str],
        argument(f"{FORM}...", "At least two, each a mark and what it says.", completing.pairs),
    ],
    year: ModelYear = None,
    model: ModelName = "",
    works: WorksName = "",
    beside: BesideBooks = None,
    everything: Annotated[
        bool, typer.Option("--all", help="Every comparison, with its reason and source.")
    ] = False,
    language: LanguageOption = None,
    json: AsJson = False,
) -> None:
    """Compare two or more readings without a case."""
    code_book = books_beside(book, tuple(beside or ()))
    context = context_of_car(code_book, year, model, works)
    with for_any_page():
        answer = compared(car_of(code_book, context, tuple(readings)))
        if json:
            print_record(render_compared(answer))
    if not json:
        print_outline(compared_page(voiced(answer), everything))


def car_of(book: CodeBook, context: CarContext, pairs: tuple[str, ...]) -> CarMarks:
    """The typed marks, decoded, as a car of which nothing else is known."""
    problems: list[Problem] = []
    read = [each for each in (_pair(pair, problems) for pair in pairs) if each is not None]
    if len(pairs) < 2:
        problems.append(TooFew(Source(FORM), len(pairs)))
    found = car_typed(book, context, read, year="--year")
    problems += (each for wrong in found.problems for each in wrong)
    if problems:
        refuse(dict.fromkeys(problems))
    return found.car


def _pair(pair: str, problems: list[Problem]) -> MarkTyped | None:
    """One MARK=READING, or None when it added to the problems."""
    name, equals, text = pair.partition("=")
    if not equals or not name.strip() or not text.strip():
        problems.append(NotAPair(typed(FORM, pair), pair, FORM))
        return None
    return MarkTyped(name, text, typed(FORM, pair, 1, len(name)))
