"""Readings of numbers of seventeen characters, set against the shipped book."""

from functools import cache

import pytest

from witnessmark.codebook import CarContext, find_book, open_book
from witnessmark.decoding import decode
from witnessmark.decoding.align import align
from witnessmark.decoding.code_options import code_options
from witnessmark.decoding.hypotheses import cars_given
from witnessmark.decoding.options import DecodingRequest
from witnessmark.decoding.records import CellsSeen
from witnessmark.decoding.seen import see
from witnessmark.decoding.seventeen import notes_on
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
    asked = DecodingRequest(
        reading=reading,
        book=book,
        mark=named,
        context=CarContext(model_year=year),
        rates=shipped_rates(),
    )
    return asked, align(reading, named)


def options_of(asked, aligned):
    """What one field of the reading may say by its table alone; nothing without a table."""
    field, book, mark = aligned.field, asked.book, asked.mark
    if not field.table or not aligned.cells.cells:
        return ()
    cells = CellsSeen(asked.reading, aligned.cells)
    seen = see(book, mark, field, (cells,), asked.rates)
    return code_options(book, mark, field, seen, cars_given(book, asked.context))


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
    """`years_of("1111…")`: the years that the number may mean, with their shares."""

    def years(text, mark="vehicle_number", *, year=None, **ways):
        named = shipped().mark(mark)
        reading = parse_reading(text, named, **ways)
        decoding = decode(reading, shipped(), named, CarContext(model_year=year))
        found = {}
        for alternative in decoding.alternatives:
            for field in alternative.fields:
                if field.field == "year" and field.listed:
                    found[field.value] = found.get(field.value, 0.0) + alternative.share
        return {value: share for value, share in found.items() if share > 0.01}

    return years
