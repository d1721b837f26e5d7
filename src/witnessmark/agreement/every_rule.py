"""All rules, one after the other, in an order that never changes."""

from collections.abc import Callable

from witnessmark.agreement.records import CarMarks, Finding
from witnessmark.agreement.rules import (
    code_of_its_years,
    combination_of_codes,
    dates_in_order,
    empty_field_speaks,
    number_in_its_series,
    order_numbers,
    paper_against_plate,
    same_item_on_two_marks,
    title_against_car,
)

Rule = Callable[[CarMarks], tuple[Finding, ...]]

RULES: tuple[Rule, ...] = (
    same_item_on_two_marks.compare,
    paper_against_plate.compare,
    title_against_car.compare,
    code_of_its_years.compare,
    number_in_its_series.compare,
    order_numbers.compare,
    combination_of_codes.compare,
    dates_in_order.compare,
    empty_field_speaks.compare,
)


def compare(car: CarMarks) -> tuple[Finding, ...]:
    """The findings of every rule on the marks of one car."""
    return tuple(finding for rule in RULES for finding in rule(car))
