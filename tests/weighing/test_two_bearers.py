"""A book whose frame and body both bear the identity: a line for each, and no joint word."""

from dataclasses import replace

from tests.worked.situations.car import Car
from tests.worked.situations.changes import hidden_again, hidden_of_another
from tests.worked.situations.document import book_of, casefile
from tests.worked.situations.standard_small import FRAME
from witnessmark.agreement import compare
from witnessmark.examination import car_marks
from witnessmark.weighing import Answer, Asked, answer


def answered(car: Car) -> Answer:
    """The answer of a frame car on the same book, whose body bears the identity too."""
    book = book_of(car.book)
    assemblies = tuple(
        replace(each, identity_bearer=each.id in ("frame", "body")) for each in book.assemblies
    )
    marks = car_marks(casefile(car), replace(book, assemblies=assemblies))
    return answer(marks, compare(marks), with_contributions=False)


def identities(found: Answer) -> dict[str, float]:
    return {c.about: c.log10_lr for c in found.conclusions if c.question is Asked.IDENTITY}


def test_each_bearer_has_its_own_line() -> None:
    found = answered(FRAME)
    assert {about: log10 > 1.0 for about, log10 in identities(found).items()} == {
        "frame": True,
        "body": True,
    }
    assert not [c for c in found.conclusions if (c.question, c.about) == (Asked.CORE, "body")]
    assert not found.stops


def test_bearers_that_name_different_cars_are_told_and_make_it_a_matter_for_the_authority() -> None:
    found = answered(FRAME.but(hidden_of_another(), hidden_again()))
    lines = identities(found)
    assert lines["frame"] < -2.0
    assert 1.0 < lines["body"] < 1.2
    told = [m.sentence for m in found.misfits if {"frame", "body"} <= set(m.about)]
    assert told == [
        "The number on the frame and the number on the bulkhead of the body name different cars."
    ]
    assert found.stops
