"""Rows meet where a car could have both; cars without a row are named."""

from witnessmark.codebook import Applies
from witnessmark.codebook.coverage import BookCars, ModelYears, year_ranges

CARS = BookCars(
    (
        ModelYears("saloon", Applies(1952, 1955)),
        ModelYears("sprint", Applies(1954, 1955)),
    ),
    frozenset({"tarvane"}),
    frozenset({"ellery", "marrick"}),
)


def applies(first=1952, last=1955, works="", models=""):
    """Years, works and models."""
    return Applies(first, last, frozenset(works.split()), frozenset(models.split()))


def left(needed, *rows):
    """The cars left out, in words."""
    return list(CARS.left_out(needed, rows))


def test_rows_of_different_years_do_not_meet():
    assert not CARS.meet(applies(1952, 1953), applies(1954, 1955))


def test_rows_of_two_coachbuilders_do_not_meet():
    assert not CARS.meet(applies(works="ellery"), applies(works="marrick"))


def test_a_row_of_the_works_and_one_of_a_coachbuilder_meet():
    assert CARS.meet(applies(works="tarvane"), applies(works="ellery"))


def test_a_row_for_all_works_meets_every_other():
    assert CARS.meet(applies(), applies(works="ellery"))


def test_rows_of_different_models_do_not_meet():
    assert not CARS.meet(applies(models="saloon"), applies(models="sprint"))


def test_of_a_works_that_is_not_listed_nothing_is_said():
    assert not CARS.meet(applies(works="ellery"), applies(works="unlisted"))


def test_a_year_without_any_row_is_named_once_for_all_models():
    assert left(applies(), applies(1952, 1953), applies(1955, 1955)) == ["1954"]


def test_a_model_without_a_row_is_named_with_its_years():
    assert left(applies(), applies(models="saloon")) == ["1954 to 1955 (sprint)"]


def test_years_in_which_a_model_was_not_built_are_not_missed():
    assert left(applies(models="sprint"), applies(1954, 1955)) == []


def test_a_row_of_another_coachbuilder_is_no_row():
    assert left(applies(works="ellery"), applies(works="marrick")) == ["1952 to 1955"]


def test_years_in_words():
    assert year_ranges([1955, 1952, 1953, 1957, 1954]) == "1952 to 1955, 1957"
    assert year_ranges([]) == ""
