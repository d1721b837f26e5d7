"""Readings of numbers of seventeen characters, set against the shipped book."""

from functools import cache

import pytest

from witnessmark.codebook import CarContext, find_book, open_book
from witnessmark.decoding.align import align
from witnessmark.decoding.code_options import code_options
from witnessmark.decoding.options import Asked
from witnessmark.decoding.seventeen import notes_on, year_options
from witnessmark.decoding.seventeen.number import number_of
from witnessmark.decoding.seventeen.rules import rules_of
from witnessmark.reading import parse_reading, shipped_rates


@cache
def shipped():
    folder = find_book("seventeen-characters")
    assert folder is not None
    return open_book(folder).book


@pytest.fixture(scope="session")
def book():
    """The shipped book of seventeen characters."""
    return shipped()


@pytest.fixture(scope="session")
def rules():
    """Its tables."""
    return rules_of(shipped())


def asked_and_aligned(text, mark="vehicle_number", *, year=None, **ways):
    book = shipped()
    named = book.mark(mark)
    reading = parse_reading(text, named, **ways)
    asked = Asked(reading, book, named, CarContext(model_year=year), shipped_rates())
    return asked, align(reading, named)


@pytest.fixture(scope="session")
def noted():
    """`noted("1111…")`: the notes of what is typed."""
    return lambda text, *args, **ways: notes_on(*asked_and_aligned(text, *args, **ways))


@pytest.fixture(scope="session")
def numbered():
    """`numbered("1111…")`: the number as read, or None."""

    def read(text, *args, **ways):
        asked, alignment = asked_and_aligned(text, *args, **ways)
        return number_of(asked, alignment, rules_of(asked.book))

    return read


@pytest.fixture(scope="session")
def years_of():
    """`years_of("1111…")`: the years among the options of the year field, with their shares."""

    def years(text, *args, **ways):
        asked, alignment = asked_and_aligned(text, *args, **ways)
        aligned = next(each for each in alignment.fields if each.field.id == "year")
        options = code_options(asked, aligned)
        kept = year_options(asked, alignment, aligned, options)
        assert sum(o.share for o in kept) == pytest.approx(sum(o.share for o in options))
        return {option.meaning.value: option.share for option in kept if option.share > 0.01}

    return years
