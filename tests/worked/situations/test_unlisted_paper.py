"""Situation 50, the weighing: a paper that the book does not list is weighed by what it says of
which items. How such a paper is added to a case is another matter: here the book is given it."""

from dataclasses import replace
from functools import cache

import pytest

from tests.worked.situations.car import Car
from tests.worked.situations.document import book_of, casefile
from tests.worked.situations.standard import STANDARD
from witnessmark.casefile import MarkReading, Paper, PaperState
from witnessmark.codebook import CodeBook
from witnessmark.examination import car_marks
from witnessmark.weighing import answer

BILL = "bill_of_sale"
LABELS = STANDARD["labels"]
AGREES, OTHER_PAINT, OTHER_CAR = "823517|12|170588", "823517|13|170588", "817206|12|170588"


@cache
def book_with_bill() -> CodeBook:
    """The book with one paper more, laid out as its delivery note is."""
    book = book_of(LABELS.book)
    note = book.mark("delivery_note")
    assert note is not None
    bill = replace(note, id=BILL, name="bill of sale", aliases=(), other_form_of="")
    return replace(book, marks=(*book.marks, bill))


def lrs(car: Car, text: str = "", state: PaperState = PaperState.IN_HAND) -> dict[str, float]:
    """log10 LR of every question, with the bill in this state."""
    case = casefile(car)
    papers = (*case.papers, Paper(mark=BILL, state=state))
    bill = (MarkReading(mark=BILL, text=text),) if text else ()
    case = replace(case, papers=papers, readings=(*case.readings, *bill))
    found = answer(car_marks(case, book_with_bill()), with_contributions=False)
    return {f"{c.question.value} {c.about}": c.log10_lr for c in found.conclusions}


def test_one_that_is_awaited_changes_nothing():
    bare = answer(car_marks(casefile(LABELS), book_of(LABELS.book)), with_contributions=False)
    before = {f"{c.question.value} {c.about}": c.log10_lr for c in bare.conclusions}
    assert lrs(LABELS, state=PaperState.AWAITED) == pytest.approx(before, abs=1e-9)


def test_one_in_hand_speaks_of_what_it_names():
    """Of the paint that it names, and of itself; of the shell hardly."""
    before, after = lrs(LABELS, state=PaperState.AWAITED), lrs(LABELS, AGREES)
    assert after["item paint"] > before["item paint"] + 0.1
    assert after[f"paper {BILL}"] > 0.0
    assert abs(after["identity shell"] - before["identity shell"]) < 0.5


def test_one_that_contradicts_weakens_what_it_contradicts():
    """Another paint: that item. Another car's number: itself, and not the shell."""
    before = lrs(LABELS, state=PaperState.AWAITED)
    paint, car = lrs(LABELS, OTHER_PAINT), lrs(LABELS, OTHER_CAR)
    assert paint["item paint"] < before["item paint"] - 1.0
    assert abs(paint["identity shell"] - before["identity shell"]) < 0.3
    assert car[f"paper {BILL}"] < -2.0
    assert abs(car["identity shell"] - before["identity shell"]) < 0.3
