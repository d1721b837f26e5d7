"""An item of which a car has several codes, on a book that has none: the colour, taken as a set."""

from dataclasses import replace

from tests.worked.situations.car import Car, says
from tests.worked.situations.document import book_of, casefile
from tests.worked.situations.standard import STANDARD
from witnessmark.agreement import Finding, Outcome, compare
from witnessmark.codebook import CodeBook
from witnessmark.examination import car_marks
from witnessmark.weighing import answer

OTHER = "{number}|4|M|{body}|{engine}|{gearbox}|{axle}|A|22|L2|090555"
CAR = STANDARD["sprint"].but(says("build_card", OTHER))
ONE = book_of(CAR.book)
MANY = replace(ONE, items=tuple(replace(i, many=i.id == "paint") for i in ONE.items))


def of_colour(car: Car, book: CodeBook) -> list[Finding]:
    """What was found of the colour where marks or the claim are compared."""
    found = compare(car_marks(casefile(car), book))
    rule = "same_item_on_two_marks"
    return [each for each in found if (each.rule, each.topic) == (rule, "paint")]


def lr_of_colour(car: Car, book: CodeBook) -> tuple[str, float]:
    """About what the question of the colour is, and its log10 LR."""
    found = answer(car_marks(casefile(car), book), with_contributions=False, with_next_looks=False)
    [colour] = [each for each in found.conclusions if each.about.startswith("paint")]
    return colour.about, colour.log10_lr


def test_another_code_contradicts_where_a_car_has_one_and_not_where_it_has_several() -> None:
    assert Outcome.DIFFER in {each.outcome for each in of_colour(CAR, ONE)}
    assert {each.outcome for each in of_colour(CAR, MANY)} == {Outcome.AGREE}


def test_what_another_mark_names_takes_nothing_from_a_code_that_is_named() -> None:
    (one, alone), (several, beside) = lr_of_colour(CAR, ONE), lr_of_colour(CAR, MANY)
    assert (one, several) == ("paint", "paint signal-red")
    assert beside > alone + 0.5
