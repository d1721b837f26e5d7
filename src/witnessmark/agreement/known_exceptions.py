"""Exceptions that the book knows for a number: they take weight away and never add any.

An exception is of certain cars. It excuses only a number that was clearly read as one of
theirs, or is claimed: one that is masked or half worn may be any car's. (A place that
decides and that nobody read leaves the share at one half, far below what is asked here.)
"""

from witnessmark.agreement.items import claimed, showings, shown_on
from witnessmark.agreement.numbering import NumberRange, inside_share
from witnessmark.agreement.records import CarMarks
from witnessmark.agreement.shares import AGREE_FROM
from witnessmark.agreement.showing import Showing
from witnessmark.codebook import ItemKind, KnownException


def exceptions_of(car: CarMarks, showing: Showing) -> tuple[KnownException, ...]:
    """The exceptions of the book under which a number clearly falls."""
    known = car.known_of(showing.mark)
    return tuple(
        row
        for row in car.book.exceptions
        if row.item == showing.item.id
        and row.applies.covers(known)
        and (inside_share(showing, (NumberRange(row.first, row.last),)) or 0.0) >= AGREE_FROM
    )


def exceptions_on(car: CarMarks, mark_id: str) -> tuple[KnownException, ...]:
    """The exceptions of the numbers read on one mark, and of the identification number."""
    numbers = [*shown_on(car, mark_id)]
    for item in car.book.items:
        if item.identification:
            claim = claimed(car, item.id)
            numbers.extend(showings(car, item.id) if claim is None else (claim,))
    kept = (number for number in numbers if number.item.kind is ItemKind.NUMBER)
    return tuple(dict.fromkeys(row for number in kept for row in exceptions_of(car, number)))
