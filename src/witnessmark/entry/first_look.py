"""Two or three marks as they stand on a car, without a case: decoded for a comparison, or told what
is wrong with their typing."""

from collections.abc import Sequence
from dataclasses import dataclass

from witnessmark.agreement.car import marks_of_car
from witnessmark.agreement.records import CarMarks
from witnessmark.casefile import Casefile, MarkReading, Title
from witnessmark.codebook import CarContext, CodeBook
from witnessmark.entry.books import found_marks, mark_read, unknown_mark
from witnessmark.entry.problems import NotAllowed
from witnessmark.problem import Problem
from witnessmark.reading.problems import LONGEST_READING
from witnessmark.source import Source

TITLE = "title"
"""What the number on the title is called where marks are named."""

LONGEST_TITLE = 200


@dataclass(frozen=True, slots=True)
class MarkTyped:
    """What a mark was called, what stands there, and the place of the name."""

    name: str
    text: str
    source: Source

    @property
    def is_title(self) -> bool:
        """Is it called as the number on the title is?"""
        return self.name.strip().lower() == TITLE


@dataclass(frozen=True, slots=True)
class CarTyped:
    """The marks as a car of which nothing else is known, and what is wrong with each that was
    typed, in their order."""

    car: CarMarks
    problems: tuple[tuple[Problem, ...], ...]


def car_typed(
    book: CodeBook, given: CarContext, typed: Sequence[MarkTyped], *, year: str = "model year"
) -> CarTyped:
    """The typed marks, decoded; `year` is what the car's year is called where it is entered."""
    problems: list[list[Problem]] = [_too_long(each) for each in typed]
    found = _MarksMeant(
        book, given, [t for t, wrong in zip(typed, problems, strict=True) if not wrong]
    )
    found.name_marks(year)
    car = marks_of_car(found.casefile(), book, given)
    for at, each in enumerate(typed):
        problems[at] += found.unknown.get(each, ())
        mark = found.marks.get(each)
        for decoding in car.decodings if mark else ():
            if decoding.mark == mark and decoding.reading.as_typed == each.text:
                problems[at] += decoding.problems
        if each is found.title and car.title is not None:
            problems[at] += car.title.problems
    return CarTyped(car, tuple(tuple(dict.fromkeys(each)) for each in problems))


def _too_long(each: MarkTyped) -> list[Problem]:
    most = LONGEST_TITLE if each.is_title else LONGEST_READING
    if len(each.text) <= most:
        return []
    told, wanted = f"has {len(each.text)} characters", f"at most {most} characters"
    return [NotAllowed(each.source, f"{each.text[:12]}…", told, wanted)]


class _MarksMeant:
    """The marks that were meant: names that several marks have are chosen by what was typed, and
    where that does not tell, by what the other readings say of the car."""

    def __init__(self, book: CodeBook, given: CarContext, typed: Sequence[MarkTyped]) -> None:
        self.book, self.given, self.typed = book, given, typed
        self.marks: dict[MarkTyped, str] = {}
        self.unknown: dict[MarkTyped, tuple[Problem, ...]] = {}
        self.title: MarkTyped | None = None

    def casefile(self) -> Casefile:
        """What was found so far as a case."""
        found = (e for e in self.typed if e in self.marks)
        readings = tuple(MarkReading(mark=self.marks[e], text=e.text) for e in found)
        title = Title(number=self.title.text) if self.title else Title()
        return Casefile(id="first-look", book=self.book.id, readings=readings, title_paper=title)

    def name_marks(self, year: str) -> None:
        """Find the mark of each."""
        left = [each for each in self.typed if not self._takes(each, self.given)]
        several = [each for each in left if len(found_marks(self.book, each.name)) > 1]
        is_told = bool(several and self.marks)
        known = (
            marks_of_car(self.casefile(), self.book, self.given).known if is_told else self.given
        )
        for each in left:
            mark = mark_read(self.book, each.name, each.text, known) if each in several else None
            if mark is not None:
                self.marks[each] = mark.id
            elif each.is_title:
                self.title = each
            else:
                name, text = each.name.strip(), each.text
                problem = unknown_mark(self.book, name, text, each.source, self.given, year=year)
                self.unknown[each] = (problem,)

    def _takes(self, each: MarkTyped, known: CarContext) -> bool:
        mark = mark_read(self.book, each.name, each.text, known)
        if mark is not None:
            self.marks[each] = mark.id
        elif each.is_title and not found_marks(self.book, each.name):
            self.title = each
        else:
            return False
        return True
