"""Who says for which year, works and model a code or number is looked up: the claim or what
was given, the mark itself, or other marks of the car. A finding names them."""

from collections.abc import Iterable
from dataclasses import dataclass

from witnessmark.agreement.items import showings, shown_on_title
from witnessmark.agreement.of_car import Contradiction, own_words, without
from witnessmark.agreement.phrases import all_of, subject
from witnessmark.agreement.records import CarMarks, Subject
from witnessmark.agreement.showing import TITLE, Showing
from witnessmark.catalogue import in_a_row, said
from witnessmark.codebook import MODEL, Applies, CarContext
from witnessmark.decoding import items_named


def items_it_names(car: CarMarks, mark_id: str) -> frozenset[str]:
    """Of year, model and works what a mark itself surely says."""
    named = (items_named(car.book, own_words(each)) for each in car.of(mark_id))
    return frozenset(item for items in named for item in items)


@dataclass(frozen=True, slots=True)
class Telling:
    """Whose words decide for which cars something is looked up, beyond what is given.

    `marks` are other marks of the car; `by_itself`: the mark in question names some of it.
    """

    marks: tuple[str, ...] = ()
    by_itself: bool = False


def telling(
    car: CarMarks,
    mark_id: str,
    known: CarContext,
    rows: Iterable[Applies],
    own: frozenset[str] = frozenset(),
) -> Telling:
    """Whose words make what is `known` leave others of these rows than what is given does.

    `own` are items that were taken from the mark itself.
    """
    given, every = items_named(car.book, car.context), tuple(rows)
    marks: dict[str, None] = {}
    by_itself = False
    for item, value in items_named(car.book, known).items():
        fewer = without(car.book, known, item)
        decides = any(each.covers(fewer) != each.covers(known) for each in every)
        if given.get(item) == value or not decides:
            continue
        told = car.of_car.marks_that_tell(item)
        if item in own or mark_id in told:
            by_itself = True
        else:
            marks |= dict.fromkeys(told[:1])
    return Telling(tuple(marks), by_itself)


def subjects_that_tell(car: CarMarks, told: Telling) -> tuple[Subject, ...]:
    """The other marks as subjects of a finding."""
    shown = [_as_shown(car, mark) for mark in told.marks]
    return tuple(subject(each) for each in shown if each is not None)


def _as_shown(car: CarMarks, mark_id: str) -> Showing | None:
    """What such a mark, or the title, shows of the items it told, or of its number."""
    if mark_id == TITLE:
        return next(iter(shown_on_title(car)), None)
    told = [item for item, marks in car.of_car.told if mark_id in marks]
    numbers = [item.id for item in car.book.items if item.identification]
    shown = (each for item in (*told, *numbers) for each in showings(car, item))
    return next((each for each in shown if each.mark == mark_id), None)


def _the(car: CarMarks, mark_id: str) -> str:
    mark = car.book.mark(mark_id)
    return said("the title") if mark is None else said("the {mark}", mark=mark.name)


def car_meant(car: CarMarks, told: Telling) -> str:
    """The car that the book was asked about, as the end of a sentence."""
    names = all_of(_the(car, each) for each in told.marks)
    if names and car.context != CarContext():
        return said(
            "the works, model and year claimed, with what {marks} says of them", marks=names
        )
    if names:
        return said("what {marks} says of works, model and year", marks=names)
    if car.context != CarContext():
        return said("the works, model and year claimed")
    if told.by_itself:
        return said("the works, model and year that it names itself")
    return said("the years and works of this book")


def named_differently(car: CarMarks, found: Contradiction) -> str:
    """That marks of the car name different years, models or works, in a sentence."""
    parts = [
        said(
            "{marks} say {value}",
            marks=all_of(_the(car, mark) for mark in marks),
            value=value_name(car, found.item, value),
        )
        if len(marks) > 1
        else said(
            "{mark} says {value}",
            mark=_the(car, marks[0]),
            value=value_name(car, found.item, value),
        )
        for value, marks in found.said
    ]
    item = car.book.item(found.item)
    name = item.name if item is not None else found.item
    if found.given:
        given = value_name(car, found.item, found.given)
        return said(
            "The {item} was given as {given}, but {says}.",
            item=name,
            given=given,
            says=in_a_row(parts, "; "),
        )
    return said(
        "The marks disagree about the {item} ({says}): none of them was used to date or "
        "read the others.",
        item=name,
        says=in_a_row(parts, "; "),
    )


def value_name(car: CarMarks, item: str, value: str) -> str:
    """A year, model or works as people say it."""
    named = [*car.book.models] if item == MODEL else [w for w in car.book.works if w.role == item]
    return next((each.name for each in named if each.id == value), value)
