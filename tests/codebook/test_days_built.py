"""The days on which the cars of a model year were built."""

from dataclasses import replace
from datetime import date

import pytest

from witnessmark.codebook import Applies, Basis, CarContext, Citation, Run, find_book, open_book

PUBLISHED = Citation(Basis.PUBLISHED, "a works list")
MEMORY = Citation(Basis.MEMORY, "heard at a meeting")
ANY = CarContext()


def run(first: date, last: date, year: int, cited: Citation = PUBLISHED, *models: str) -> Run:
    """The cars of one model year, of these models or of all."""
    return Run(
        id=f"{year}",
        first=first,
        last=last,
        meaning="",
        applies=Applies(year, year, models=frozenset(models)),
        citation=cited,
    )


AUTUMN = run(date(1954, 8, 1), date(1955, 7, 31), 1955)


@pytest.fixture(scope="module")
def book():
    """The demonstration book, which has no runs."""
    opened = open_book(find_book("tarvane-1952-1961")).book
    assert opened is not None
    assert not opened.runs
    return opened


def test_without_any_run_a_model_year_is_a_calendar_year(book):
    assert str(book.days_built(ANY, 1955, 1956)) == "1955-01-01 to 1956-12-31"


def test_a_known_run_is_when_the_cars_were_built(book):
    assert str(replace(book, runs=(AUTUMN,)).days_built(ANY, 1955, 1955)) == (
        "1954-08-01 to 1955-07-31"
    )


def test_a_year_without_a_run_of_its_own_begins_in_the_year_before(book):
    assert str(replace(book, runs=(AUTUMN,)).days_built(ANY, 1956, 1956)) == (
        "1955-07-01 to 1956-12-31"
    )


def test_a_run_from_memory_widens_and_never_narrows(book):
    early = run(date(1954, 3, 1), date(1954, 6, 1), 1955, MEMORY)
    assert str(replace(book, runs=(early,)).days_built(ANY, 1955, 1955)) == (
        "1954-03-01 to 1955-12-31"
    )


def test_the_run_of_another_model_is_not_taken(book):
    other = run(date(1954, 3, 1), date(1954, 6, 1), 1955, PUBLISHED, "solent-sprint")
    saloon = CarContext(model="solent-saloon")
    assert str(replace(book, runs=(AUTUMN, other)).days_built(saloon, 1955, 1955)) == (
        "1954-08-01 to 1955-07-31"
    )
