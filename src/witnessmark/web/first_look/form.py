"""What was typed for a first look: read from its form, never kept."""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from itertools import zip_longest

from django.http import QueryDict

from witnessmark.catalogue import from_to
from witnessmark.codebook import CarContext, CodeBook, Mark
from witnessmark.entry import NotAllowed, UnknownName
from witnessmark.entry.first_look import TITLE, MarkTyped
from witnessmark.outline.records import Block, Paragraph, Pointed
from witnessmark.problem import Problem
from witnessmark.source import Source
from witnessmark.web.first_look.problems import NoMarkChosen, TypedTooLong
from witnessmark.wording.amounts import capital

FEWEST_ROWS = 3
MOST_ROWS = 6
LONGEST_TYPED = 200
"""Characters of one mark: no plate of any book has as many."""


@dataclass(frozen=True, slots=True)
class MarkRow:
    """A line of the form: the mark that was chosen, what stands there, what is wrong with it."""

    number: int
    name: str = ""
    text: str = ""
    problems: tuple[Problem, ...] = ()

    @property
    def pointed(self) -> tuple[Block, ...]:
        """What is wrong, each with the line and a sign under the character where it has one."""
        return tuple(_pointed(each) for each in self.problems)

    @property
    def is_typed(self) -> bool:
        """Does anything stand in it?"""
        return bool(self.text.strip())

    @property
    def is_too_long(self) -> bool:
        """Is it longer than any mark, and so not looked at?"""
        return len(self.text) > LONGEST_TYPED

    def as_typed(self) -> MarkTyped:
        """The same for the rooms below."""
        return MarkTyped(self.name, self.text, Source(f"mark {self.number}", None, 1, 1, self.name))


@dataclass(frozen=True, slots=True)
class CarAsked:
    """The year and model that were given, and what is wrong with them."""

    year: str = ""
    model: str = ""
    context: CarContext = field(default_factory=CarContext)
    problems: tuple[Problem, ...] = ()


@dataclass(frozen=True, slots=True)
class MarkChoice:
    """A mark as it is offered: by what it is called, since its form is told by what is typed."""

    name: str
    label: str


@dataclass(frozen=True, slots=True)
class PlaceChoices:
    """The marks at one place of the car."""

    place: str
    marks: tuple[MarkChoice, ...]


def _pointed(problem: Problem) -> Block:
    source, wanted = problem.source, problem.expected()
    told = f"{problem.sentence()}. Expected: {wanted}." if wanted else f"{problem.sentence()}."
    if source.column is None or not source.text:
        return Paragraph(capital(told))
    return Pointed(source.text, source.column, capital(told))


def rows_of(post: QueryDict, *, is_more: bool) -> tuple[MarkRow, ...]:
    """The lines of the form, with one more where that was asked for."""
    pairs = zip_longest(post.getlist("mark"), post.getlist("text"), fillvalue="")
    rows = [MarkRow(n, *pair) for n, pair in enumerate(pairs, start=1)][:MOST_ROWS]
    wanted = max(FEWEST_ROWS, min(len(rows) + is_more, MOST_ROWS))
    return (*rows, *(MarkRow(n) for n in range(len(rows) + 1, wanted + 1)))


def with_problems(row: MarkRow, problems: tuple[Problem, ...]) -> MarkRow:
    """The line with what is wrong with it; a text without a mark, or a mark without one, is."""
    if row.is_typed and not row.name:
        problems = (NoMarkChosen(Source(f"mark {row.number}")),)
    elif row.is_too_long:
        problems = (TypedTooLong(Source(f"mark {row.number}"), len(row.text), LONGEST_TYPED),)
    return replace(row, problems=problems) if problems else row


def car_of(post: QueryDict, book: CodeBook) -> CarAsked:
    """Year and model, where they were given."""
    year, model = post.get("year", "").strip(), post.get("model", "").strip()
    problems: list[Problem] = []
    number = int(year) if year.isdecimal() and len(year) == 4 else None
    if year and (number is None or not book.first_year <= number <= book.last_year):
        wanted = f"a year from {book.first_year} to {book.last_year}, or nothing"
        shown = year if len(year) <= 12 else f"{year[:12]}…"
        told = "is not a model year of this book"
        problems.append(NotAllowed(Source("year"), shown, told, wanted))
        number = None
    known = {each.id for each in book.models}
    if model and model not in known:
        names = tuple(each.name for each in book.models)
        problems.append(UnknownName(Source("model"), "model", model[:40], "", names))
        model = ""
    return CarAsked(year, model, CarContext(number, model or None), tuple(problems))


def choices(book: CodeBook, context: CarContext) -> tuple[PlaceChoices, ...]:
    """The marks of such a car by place, each name once: which form of it stands on the car is told
    by what is typed."""
    places: dict[str, dict[str, list[Mark]]] = {}
    for mark in book.marks_for(context):
        site = book.site(mark.site, context) or book.site(mark.site)
        place = site.name if site else "papers"
        places.setdefault(place, {}).setdefault(mark.name, []).append(mark)
    found = tuple(
        PlaceChoices(place, tuple(_choice(book, name, same) for name, same in marks.items()))
        for place, marks in places.items()
    )
    titled = (MarkChoice(TITLE, "number on the title"),)
    return (*found, PlaceChoices("title", titled))


def _choice(book: CodeBook, name: str, marks: list[Mark]) -> MarkChoice:
    return MarkChoice(name, ", ".join((name, *_known_as(book, marks))))


def _known_as(book: CodeBook, marks: list[Mark]) -> Iterator[str]:
    """What its maker's people call it, and of which years it is where not of all."""
    yield from dict.fromkeys(f"“{each.local_name}”" for each in marks if each.local_name)
    first = min(each.applies.first_year for each in marks)
    last = max(each.applies.last_year for each in marks)
    if (first, last) != (book.first_year, book.last_year):
        yield from_to(first, last)
