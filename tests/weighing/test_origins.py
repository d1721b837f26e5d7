"""Whence a core came, by its number and by its days."""

from tests.worked.situations.car import Car, Change, says
from tests.worked.situations.document import book_of, casefile
from tests.worked.situations.standard_shipped import NUMBERED, SPRINT
from witnessmark.agreement import compare
from witnessmark.examination import car_marks
from witnessmark.weighing import Asked, Conclusion, answer


def core(car: Car, assembly: str, *changes: Change) -> Conclusion:
    """The answer about one core of a standard car with changes."""
    changed = car.but(*changes)
    marks = car_marks(casefile(changed), book_of(changed.book))
    found = answer(marks, compare(marks), with_contributions=False, with_next_looks=False)
    conclusion = found.conclusion(Asked.CORE, assembly)
    assert conclusion is not None
    return conclusion


def test_a_number_of_the_exchange_series_names_a_service_piece() -> None:
    exchanged = core(SPRINT, "engine", says("engine_number", "X 02431"))
    assert exchanged.log10_lr < -1.5
    assert exchanged.ways[0].name == "service, made"


def test_an_axle_two_years_older_is_another_cars() -> None:
    """Parts come off cars some years older or younger."""
    older = core(NUMBERED, "axle", says("axle_day", "2395"))
    assert older.log10_lr < -0.2
    assert older.ways[0].name == "donor, made"
