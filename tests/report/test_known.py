"""What a book remarks about a piece stands beside the conclusion about it, each remark once."""

from types import SimpleNamespace

import pytest

from tests.published.books import REAL, SHIPPED, VOLKSWAGEN, opened
from witnessmark.codebook import CarContext
from witnessmark.codebook.pieces import pieces_of
from witnessmark.report.sections.known import MOST_REMARKS, with_remarks
from witnessmark.weighing import Standing

every_book = pytest.mark.parametrize("book_id", SHIPPED)


def told(book_id, car, *about, most=MOST_REMARKS, standing=Standing.ANSWERED):
    """The remarks beside conclusions about these pieces of such a car."""
    asked = [SimpleNamespace(about=each, standing=standing) for each in about]
    opinion = SimpleNamespace(context=car)
    return [said for _, said in with_remarks(asked, opinion, opened(book_id), most)]


@every_book
def test_every_remark_about_an_assembly_is_told_beside_it_on_a_car_that_it_is_about(book_id):
    book = opened(book_id)
    for remark in book.remarks:
        if remark.about in {each.id for each in book.assemblies}:
            models = sorted(remark.applies.models)
            first = max(book.first_year, remark.applies.first_year)
            car = CarContext(first, models[0] if models else None, remark.applies.works)
            [said] = told(book_id, car, remark.about, most=None)
            basis = f"[{remark.citation.basis.value}: "
            assert any(each.startswith(f"{remark.sentence} {basis}") for each in said), remark.id


@every_book
def test_two_remarks_stand_beside_a_conclusion_and_none_stands_twice(book_id):
    """Core and stamp of one engine are two conclusions: the second repeats nothing."""
    book = opened(book_id)
    car = CarContext(book.first_year)
    pieces = [each.id for each in pieces_of(book, car).pieces]
    said = told(book_id, car, *pieces, *pieces)
    every = [remark for each in said for remark in each]
    assert max(map(len, said), default=0) <= MOST_REMARKS
    assert len(every) == len(set(every))
    assert not any(said[len(pieces) :])


def test_of_a_part_that_nobody_examined_nothing_is_remarked():
    beetle = CarContext(1967, "beetle")
    assert told(VOLKSWAGEN, beetle, "pan") != [()]
    assert told(VOLKSWAGEN, beetle, "pan", standing=Standing.NOT_EXAMINED) == [()]


@every_book
def test_what_holds_for_certain_models_is_not_said_of_a_car_of_no_named_one(book_id):
    book = opened(book_id)
    found = book.remarks_about(each.id for each in book.assemblies)
    assert bool(found) is (book_id in REAL)
    for remark in found:
        assert not remark.applies.models
