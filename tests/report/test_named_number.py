"""The number in the title and in a letter is the one by which the maker names the car."""

from dataclasses import replace
from datetime import date

import pytest
from invented_opinion import opinion

from tests.published.books import REAL, TARVANE, opened
from witnessmark.casefile import Casefile, Claim
from witnessmark.codebook import CodeBook, ItemKind
from witnessmark.examination import Opinion
from witnessmark.report.sections.matter import Matter
from witnessmark.report.sections.page_one import question
from witnessmark.report.sheets.message import Addressee, letter_text

DAY = date(2026, 11, 30)
BOOKS = (*REAL, TARVANE, "seventeen-characters")


def claimed(book: CodeBook, *items: str) -> Opinion:
    """An invented car of which these numbers are claimed, each in figures of its own."""
    claim = Claim(items={each: str(at) * 6 for at, each in enumerate(items, 1)})
    return replace(opinion(), casefile=Casefile(id="car", book=book.id, claim=claim))


def without_home(book: CodeBook) -> list[str]:
    """The other numbers that belong to no assembly, which are claimed before it."""
    return [
        each.id
        for each in book.items
        if each.kind is ItemKind.NUMBER and not each.home and not each.identification
    ]


@pytest.mark.parametrize(
    ("book_id", "item"),
    [
        ("chevrolet-1964-1972", "sequence"),
        ("ford-1964-1973", "unit_number"),
        ("volkswagen-1950-1979", "chassis_number"),
        ("jaguar-1948-1974", "chassis_number"),
        ("tarvane-1952-1961", "chassis_number"),
        ("seventeen-characters", "sequence"),
    ],
)
def test_title_and_letters_name_the_number_that_the_book_marks_as_identification(
    book_id: str, item: str
) -> None:
    """Whatever else is claimed, and in whatever order."""
    book = opened(book_id)
    others = without_home(book)
    assert others
    case, number = claimed(book, *others, item), str(len(others) + 1) * 6
    assert f" {number}" in question(Matter(case, book))
    for to in Addressee:
        assert f" {number}\n" in letter_text(case, book, to, DAY)


@pytest.mark.parametrize("book_id", BOOKS)
def test_another_number_never_stands_for_it(book_id: str) -> None:
    """A title without a number is better than one with that of the body."""
    book = opened(book_id)
    told = question(Matter(claimed(book, *without_home(book)), book))
    assert "111111" not in told
