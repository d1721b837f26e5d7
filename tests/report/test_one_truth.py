"""Whatever the documents of one car say of the same thing, they say the same.

Page one, the conclusions, the tables of items and comparisons, what was found, what was said,
the next looks, the decode sheet and the screen are set against each other by what their blocks
say; what each check asks stands in contradictions.py.
"""

from dataclasses import fields, is_dataclass, replace
from functools import cache
from typing import Any

import pytest

from tests.report.contradictions import CHECKS, contradictions
from tests.report.told import Told, examined_quickly, told_of
from tests.worked.opened import book_and_version, opinion_of
from tests.worked.situations.document import book_of, casefile
from tests.worked.situations.standard import STANDARD
from witnessmark.casefile import case_from

DEMONSTRATED = ("clean", "no-papers", "panel", "altered", "dressed", "swapped")
SHIPPED = ("camaro", "mustang", "beetle", "jaguar")
"""A car of each shipped book; the demonstration book has six."""

PROVED = 200


@cache
def demonstrated(car: str) -> Told:
    """The documents of a demonstration car."""
    return told_of(opinion_of(car), book_and_version()[0])


@pytest.mark.parametrize("car", DEMONSTRATED)
def test_no_document_of_a_demonstration_car_denies_another(car: str) -> None:
    assert contradictions(demonstrated(car)) == []


@pytest.mark.parametrize("car", SHIPPED)
def test_no_document_of_a_car_of_a_shipped_book_denies_another(car: str) -> None:
    book = book_of(STANDARD[car].book)
    assert contradictions(told_of(examined_quickly(casefile(STANDARD[car]), book), book)) == []


@pytest.mark.prove
def test_no_document_of_a_car_of_the_proving_ground_denies_another() -> None:
    from benchmarks.proving.cases import ground_of  # late: it loads libraries for seconds
    from benchmarks.proving.world import WORLDS

    found = {}
    for number in range(PROVED):
        world = WORLDS[number % len(WORLDS)]
        ground = ground_of(world, 7)
        opinion = examined_quickly(case_from(ground.case(number).document), ground.book)
        if told := contradictions(told_of(opinion, ground.book)):
            found[f"{world.name} {number}"] = told
    assert found == {}


FALSE = (
    ("screen", "1/10,000", "1/900", "one_answer_a_question"),
    ("report", "The casting date of the block was read only from a photograph.",
     "Every question has an answer, as strong as its words.", "no_answer_is_not_every_answer"),
    ("report", "They are about 43 times", "They are about 44 times more probable if it is so.",
     "the_answer_is_its_row"),
    ("report", "Not what it was built with, and declared beforehand: ",
     "But not everything is as claimed: gearbox casing.", "what_is_against_stands_against"),
    ("report", "Seen as a copy only.", "This part was not seen at all.",
     "not_examined_has_no_reading"),
    ("report", "Answered in section 5: ", "Answered in section 5: package.",
     "rows_and_rest_are_all"),
    ("report", "What differs or is left open",
     "Nothing that was noted contradicts anything else.", "nothing_differs_or_something_does"),
    ("report", "Agrees wherever it is said: ",
     "Agrees wherever it is said: Chassis number: 600283 (plates).", "agreed_items_do_not_differ"),
    ("report", "It agrees with other marks; ", "Unusual: a day of rest.",
     "misfits_are_the_same_everywhere"),
    ("report", "declared", "differs", "declared_is_no_alarm"),
    ("report", "The findings support that this gearbox casing was fitted",
     "The findings support that this gearbox casing was not fitted to this car at the factory.",
     "an_outcome_is_what_was_found"),
    ("report", "The 9 places where such a car bears marks: ", "The 9 places: 8 read, 1 absent.",
     "a_place_ended_in_one_way"),
    ("report", "Ask for the invoice of the service department.", "Ask for the build sheet.",
     "a_paper_is_asked_for_or_read"),
    ("report", "Not asked for; it says nothing either way.",
     "In hand: the paper itself was seen.", "a_paper_is_asked_for_or_read"),
    ("report", "Look closely at the cylinder head", "Look closely at the seat pan and note how.",
     "a_look_was_not_taken"),
    ("sheet", "Day of despatch: 24 May 1960", "Day of despatch: 25 May 1960",
     "a_date_is_one_date"),
    ("report", "agrees: 2; as declared: 1; open: 2, of 5 statements",
     "agrees: 3; as declared: 1; open: 1, of 5 statements", "counts_are_those_of_their_lists"),
)  # fmt: skip
"""A document of the car with the other engine, how a text of it begins, what stands there
instead, and the check that must see it."""


@pytest.mark.parametrize(("document", "begin", "instead", "check"), FALSE)
def test_a_contradiction_put_in_by_hand_is_told_by_its_check_alone(
    document: str, begin: str, instead: str, check: str
) -> None:
    told = demonstrated("swapped")
    changed = _with(getattr(told, document), begin, instead)
    assert changed != getattr(told, document)
    found = contradictions(replace(told, **{document: changed}))
    assert {each.partition(": ")[0] for each in found} == {check}, found


def test_every_check_was_seen_to_fail() -> None:
    assert {check for *_, check in FALSE} == {each.__name__.strip("_") for each in CHECKS}


def _with(value: Any, begin: str, instead: str) -> Any:
    """A record with another text wherever one begins so."""
    if isinstance(value, str):
        return instead if value.startswith(begin) else value
    if isinstance(value, tuple):
        return tuple(_with(each, begin, instead) for each in value)
    if is_dataclass(value) and not isinstance(value, type):
        names = [each.name for each in fields(value) if each.init]
        return replace(value, **{n: _with(getattr(value, n), begin, instead) for n in names})
    return value
