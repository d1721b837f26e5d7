"""Which marks of which books a text could be: ranked, with what speaks for each."""

import pytest

from tests.published.books import opened
from witnessmark.codebook import shipped_books
from witnessmark.decoding import decode
from witnessmark.decoding.guess import guess
from witnessmark.decoding.slips import example_of
from witnessmark.reading import parse_reading

BOOKS = [opened(folder.name) for folder in shipped_books()]


def codes_in(book, mark, text) -> int:
    """How many of its clear characters are codes or dates that the book lists."""
    decoding = decode(parse_reading(text, mark), book, mark)
    fields = {field.id for field in mark.fields if field.table or field.date_form}
    meant = decoding.alternatives[0].fields if decoding.alternatives else ()
    codes = [each.code for each in meant if each.listed and each.field in fields]
    return sum(character not in "?_" for code in codes for character in code)


@pytest.mark.parametrize("book", BOOKS, ids=lambda book: book.id)
def test_the_example_of_a_mark_could_be_that_mark(book):
    told = 0
    for mark in book.marks[::3]:
        example = example_of(book, mark, mark.applies)
        if codes_in(book, mark, example) < 3:
            continue
        told += 1
        assert any(mark in each.marks for each in guess([book], example)), (mark.id, example)
    assert told or book.id == "seventeen-characters"


@pytest.mark.parametrize(
    ("text", "book", "mark"),
    [
        ("124379N506071", "chevrolet-1964-1972", "number plate"),
        ("19N506071", "chevrolet-1964-1972", "partial number on the engine pad"),
        ("8F02R135071", "ford-1964-1973", "number plate on the dash"),
        ("3956618", "chevrolet-1964-1972", "casting number of the block"),
        ("L 40047", "tarvane-1952-1961", "engine number"),
        ("COZ 1123 G1 E", "chevrolet-1964-1972", "axle stamp, plant behind the date"),
        ("41869A112233", "chevrolet-1964-1972", "number plate of 1964"),
        ("9R05Q123456", "ford-1964-1973", "number on the left inner-fender apron"),
        ("C8FE-6015-B", "ford-1964-1973", "engineering number cast on the block"),
        ("63B X 65 24E 21-0327 1 6", "ford-1964-1973", "warranty plate on the left front door"),
        ("117345612", "volkswagen-1950-1979", "number on the floor pan"),
        ("1E12345", "jaguar-1948-1974", "number on the front frame"),
        ("670047", "jaguar-1948-1974", "number on the frame"),
        ("1M8GDM9AXKP042788", "seventeen-characters", "seventeen-character number"),
    ],
)
def test_of_all_books_the_right_one_comes_first(text, book, mark):
    first = guess(BOOKS, text)[0]
    assert first.book.id == book
    assert any(each.name.startswith(mark) for each in first.marks)


def test_a_doubt_costs_certainty_and_keeps_the_order():
    clear, doubtful = (guess(BOOKS, text)[0] for text in ("124379N506071", "12437?N5?6071"))
    assert clear.marks == doubtful.marks
    assert clear.bits > doubtful.bits


def test_what_is_no_listed_code_is_said_against_the_mark():
    """Seven figures that are no listed casting number could still be one."""
    found = guess(BOOKS, "3956619")
    assert any(each.against == ("casting number",) and not each.speaks for each in found)


@pytest.mark.parametrize(
    "text", ["", "?", "hello there", "????", "—", "x" * 500, "K 12 8 a|1?" * 40]
)
def test_a_text_of_which_nothing_speaks_is_guessed_to_be_nothing(text):
    assert guess(BOOKS, text) == ()
