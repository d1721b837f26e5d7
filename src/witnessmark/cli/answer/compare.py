"""`witnessmark compare`: the careful amateur's first look: do these numbers belong together?"""

from dataclasses import dataclass
from typing import Annotated

import typer

from witnessmark.agreement.car import marks_of_car
from witnessmark.agreement.records import CarMarks
from witnessmark.answers.compared import compared, render_compared
from witnessmark.answers.compared_page import compared_page
from witnessmark.casefile import Casefile, MarkReading, Title
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
from witnessmark.entry import NotAllowed, found_marks, mark_read, unknown_mark
from witnessmark.problem import Problem
from witnessmark.reading.problems import LONGEST_READING
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
TITLE = "title"
LONGEST_TITLE = 200


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
    casefile = _casefile(book, context, read, problems)
    car = marks_of_car(casefile, book, context)
    title = car.title.problems if car.title is not None else ()
    problems.extend(p for decoding in car.decodings for p in decoding.problems)
    if problems or title:
        refuse(dict.fromkeys((*problems, *title)))
    return car


@dataclass(frozen=True, slots=True)
class Typed:
    """What was typed before and behind the equals sign."""

    name: str
    text: str
    pair: str

    @property
    def source(self) -> Source:
        """The place of the name."""
        return typed(FORM, self.pair, 1, len(self.name))


def _pair(pair: str, problems: list[Problem]) -> Typed | None:
    """One MARK=READING, or None when it added to the problems."""
    name, equals, text = pair.partition("=")
    if not equals or not name.strip() or not text.strip():
        problems.append(NotAPair(typed(FORM, pair), pair, FORM))
        return None
    read = Typed(name, text, pair)
    most = LONGEST_TITLE if name.strip().lower() == TITLE else LONGEST_READING
    if len(text) > most:
        shown = f"{text[:12]}…"
        wanted = f"at most {most} characters"
        problems.append(NotAllowed(read.source, shown, f"has {len(text)} characters", wanted))
        return None
    return read


def _casefile(
    book: CodeBook, given: CarContext, read: list[Typed], problems: list[Problem]
) -> Casefile:
    """The readings as a case; names that several marks have are chosen by what was typed, and
    where that does not tell, by what the other readings say of the car."""
    title = Title()
    marks: dict[int, str] = {}
    left: dict[int, Typed] = {}
    for at, each in enumerate(read):
        mark = mark_read(book, each.name, each.text, given)
        if mark is not None:
            marks[at] = mark.id
        elif each.name.strip().lower() == TITLE and not found_marks(book, each.name):
            title = Title(number=each.text)
        else:
            left[at] = each

    def so_far() -> Casefile:
        found = tuple(MarkReading(mark=marks[at], text=read[at].text) for at in sorted(marks))
        return Casefile(id="first-look", book=book.id, readings=found, title_paper=title)

    several = [at for at, each in left.items() if len(found_marks(book, each.name)) > 1]
    known = marks_of_car(so_far(), book, given).known if several and marks else given
    for at, each in left.items():
        mark = mark_read(book, each.name, each.text, known) if at in several else None
        if mark is None and each.name.strip().lower() == TITLE:
            title = Title(number=each.text)
        elif mark is None:
            problems.append(
                unknown_mark(book, each.name.strip(), each.text, each.source, given, year="--year")
            )
        else:
            marks[at] = mark.id
    return so_far()
