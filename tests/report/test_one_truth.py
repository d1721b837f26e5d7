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
    ("swapped", "report", "not the one it was built with, as declared",
     "not the one it was built with", "one_answer_a_question"),
    ("swapped", "screen", "1/10,000", "1/900", "one_answer_a_question"),
    ("clean", "report", "What can be read fits the claim.", "It differs from what is claimed.",
     "nothing_differs_or_something_does"),
    ("clean", "report", "Agrees", "Differs", "counts_are_those_of_their_lists"),
    ("swapped", "report", "Ask for the invoice of the service department.",
     "Ask for the build sheet.", "a_paper_is_asked_for_or_read"),
    ("swapped", "report", "Not asked for; it says nothing either way.",
     "In hand: the paper itself was seen.", "a_paper_is_asked_for_or_read"),
    ("swapped", "sheet", "Day of despatch: 24 May 1960", "Day of despatch: 25 May 1960",
     "a_date_is_one_date"),
    ("swapped", "report", "Read", "Not looked for", "a_place_ended_in_one_way"),
)  # fmt: skip
"""A car, one of its documents, a text of it, what stands there instead, and the check that
must see it."""


@pytest.mark.parametrize(("car", "document", "text", "instead", "check"), FALSE)
def test_a_contradiction_put_in_by_hand_is_found(
    car: str, document: str, text: str, instead: str, check: str
) -> None:
    told = demonstrated(car)
    changed = _with(getattr(told, document), text, instead)
    assert changed != getattr(told, document)
    found = contradictions(replace(told, **{document: changed}))
    assert any(each.startswith(f"{check}: ") for each in found), found


def test_every_check_is_asked_once() -> None:
    assert len({each.__name__ for each in CHECKS}) == len(CHECKS)


def _with(value: Any, text: str, instead: str) -> Any:
    """A record with another text wherever this one stands alone."""
    if isinstance(value, str):
        return instead if value == text else value
    if isinstance(value, tuple):
        return tuple(_with(each, text, instead) for each in value)
    if is_dataclass(value) and not isinstance(value, type):
        names = [each.name for each in fields(value) if each.init]
        return replace(value, **{n: _with(getattr(value, n), text, instead) for n in names})
    return value
