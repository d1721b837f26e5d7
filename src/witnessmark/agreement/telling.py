"""Who says for which year, works and model a code or number is looked up: the claim or what
was given, the mark itself, or other marks of the car. A finding names them."""

from collections.abc import Iterable

from witnessmark.agreement.items import showings
from witnessmark.agreement.of_car import items_named, own_words
from witnessmark.agreement.phrases import all_of, subject
from witnessmark.agreement.records import CarMarks, Subject
from witnessmark.agreement.showing import Showing
from witnessmark.catalogue import said
from witnessmark.codebook.records import Applies, CarContext


def items_it_names(car: CarMarks, mark_id: str) -> frozenset[str]:
    """Of year, model and works what a mark itself surely says."""
    named = (items_named(car.book, own_words(each)) for each in car.of(mark_id))
    return frozenset(item for items in named for item in items)


def marks_that_tell(
    car: CarMarks, mark_id: str, own: frozenset[str] = frozenset()
) -> tuple[str, ...]:
    """The other marks by which what is known of the car goes beyond what is given.

    `own` are items that are taken from the mark itself.
    """
    found = (
        marks[0] for item, marks in car.of_car.told if item not in own and mark_id not in marks
    )
    return tuple(dict.fromkeys(found))


def subjects_that_tell(
    car: CarMarks,
    mark_id: str,
    known: CarContext,
    rows: Iterable[Applies],
    own: frozenset[str] = frozenset(),
) -> tuple[Subject, ...]:
    """These marks as subjects of a finding about such rows; none where what is given leaves
    the same rows as what is `known`."""
    if all(each.covers(car.context) == each.covers(known) for each in rows):
        return ()
    told = [_as_shown(car, mark) for mark in marks_that_tell(car, mark_id, own)]
    return tuple(subject(each) for each in told if each is not None)


def _as_shown(car: CarMarks, mark_id: str) -> Showing | None:
    """What such a mark shows of the items it told, or of its identification number."""
    told = [item for item, marks in car.of_car.told if mark_id in marks]
    numbers = [item.id for item in car.book.items if item.identification]
    shown = (each for item in (*told, *numbers) for each in showings(car, item))
    return next((each for each in shown if each.mark == mark_id), None)


def car_meant(car: CarMarks, mark_id: str, own: frozenset[str] = frozenset()) -> str:
    """The car that the book was asked about, as the end of a sentence."""
    marks = [car.book.mark(each) for each in marks_that_tell(car, mark_id, own)]
    names = [said("the {mark}", mark=mark.name) for mark in marks if mark is not None]
    if names and car.context != CarContext():
        return said(
            "the works, model and year claimed, with what {marks} says of them",
            marks=all_of(names),
        )
    if names:
        return said("what {marks} says of works, model and year", marks=all_of(names))
    if car.context != CarContext():
        return said("the works, model and year claimed")
    if own or any(mark_id in told for _, told in car.of_car.told):
        return said("the works, model and year that it names itself")
    return said("the years and works of this book")
