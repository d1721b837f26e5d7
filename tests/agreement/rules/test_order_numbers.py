"""Where numbers were given with the order, a higher number does not mean a later car."""

from dataclasses import replace

import pytest

from witnessmark.agreement import Outcome
from witnessmark.agreement.rules.order_numbers import compare


@pytest.fixture
def dated_bodies(book):
    """The demonstration book with a dated body number on wing and seat pan."""
    week = next(f for m in book.marks if m.id == "body_week" for f in m.fields)
    marks = tuple(
        replace(m, fields=(*m.fields, week))
        if m.id in ("wing_body_number", "seat_body_number")
        else m
        for m in book.marks
    )
    return replace(book, marks=marks)


def test_two_order_numbers_dated_the_other_way_round_are_explained_before_they_are_misread(
    car, dated_bodies
):
    """0950 of March 1955 on the wing, 0912 of June 1955 on the seat pan."""
    [found] = compare(
        car(of_book=dated_bodies, wing_body_number="M 0950 CB5", seat_body_number="M 0912 FA5")
    )
    assert found.outcome is Outcome.SILENT
    assert found.topic == "body_number"
    assert "the higher number has the earlier date" in found.observation
    assert "says nothing about which came first" in found.inference


def test_numbers_and_dates_that_run_the_same_way_need_no_word(car, dated_bodies):
    assert (
        compare(
            car(of_book=dated_bodies, wing_body_number="M 0912 CB5", seat_body_number="M 0950 FA5")
        )
        == ()
    )


def test_numbers_that_followed_the_line_are_not_excused(car, dated_bodies):
    on_line = replace(
        dated_bodies,
        items=tuple(replace(item, numbers_follow="build") for item in dated_bodies.items),
    )
    assert (
        compare(car(of_book=on_line, wing_body_number="M 0950 CB5", seat_body_number="M 0912 FA5"))
        == ()
    )


def test_two_order_numbers_without_dates_need_no_word(car):
    assert compare(car(wing_body_number="M 0950", seat_body_number="M 0912")) == ()
