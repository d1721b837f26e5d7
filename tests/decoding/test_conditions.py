"""A count that began anew with each letter: ranges and known numbers hold for their letter."""

from dataclasses import replace
from datetime import date

import pytest

from tests.decoding.conftest import BOOK, DIGITS, INVENTED, LETTERS, mark_of, row
from witnessmark.answers.decoded import answer_to, render_decoded
from witnessmark.codebook import (
    ANY_CAR,
    Applies,
    Basis,
    Condition,
    Field,
    Item,
    ItemKind,
    NumbersFollow,
    Point,
    Series,
)
from witnessmark.decoding import decode
from witnessmark.reading import parse_reading

LETTER = Field(
    id="letter", name="letter", says="line", widths=(1,), alphabet=LETTERS, table="lines"
)
NUMBER = Field(id="number", name="number", says="engine_number", widths=(4,), alphabet=DIGITS)
DAY = Field(
    id="date", name="date", says="casting_date", widths=(4,),
    alphabet=DIGITS + "ABCDEFGHJKLM", date_form="casting_day", optional=True,
)  # fmt: skip
LETTERED, BARE = mark_of("engine", LETTER, NUMBER, DAY, windows=True), mark_of("bare", NUMBER)


def also(letter):
    return (Condition("line", frozenset({letter})),)


def run(letter, first, last, meaning, year):
    """A range of engine numbers of one letter and year."""
    return Series(
        item="engine_number", first=first, last=last, also=also(letter), meaning=meaning,
        supplied="new", applies=Applies(year, year), citation=INVENTED,
    )  # fmt: skip


KNOWN = Point(
    id="known", item="engine_number", first="0200", last="", dated="built", also=also("a"),
    date_first="1955-03", date_last="", date_code="", meaning="the two hundredth",
    applies=Applies(1955, 1955), citation=INVENTED,
)  # fmt: skip
ENGINE = Item(
    id="engine_number", name="engine number", kind=ItemKind.NUMBER, length=4,
    numbers_follow=NumbersFollow.BUILD,
)  # fmt: skip
OWN = replace(
    BOOK,
    items=(*BOOK.items, Item(id="line", name="line letter", kind=ItemKind.CODE), ENGINE),
    codes=(
        *BOOK.codes,
        row("lines", "A", "a", "small engines"),
        row("lines", "B", "b", "large engines"),
        row("lines", "M", "m", "engines that somebody remembers", basis=Basis.MEMORY),
    ),
    marks=(*BOOK.marks, LETTERED, BARE),
    series=(
        *BOOK.series,
        run("a", "0001", "0500", "small engines of 1955", 1955),
        run("b", "0001", "0300", "large engines of 1957", 1957),
        run("m", "0001", "0300", "remembered engines of 1959", 1959),
    ),
    points=(KNOWN,),
)


def read(text, mark=LETTERED):
    """What was typed for a mark, decoded."""
    return decode(parse_reading(text, mark), OWN, mark)


def number_told(text, mark=LETTERED):
    fields = read(text, mark).alternatives[0].fields
    return next(each.meaning for each in fields if each.field == "number")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("A | 0200", "engine number: small engines of 1955"),
        ("B | 0200", "engine number: large engines of 1957"),
        ("A | 0400", "engine number: small engines of 1955"),
        ("B | 0400", "engine number: not in any series that the book lists for such a car"),
        ("C | 0200", "engine number"),
    ],
)
def test_a_number_lies_in_the_range_of_its_own_letter(text, told):
    assert number_told(text) == told


@pytest.mark.parametrize(("text", "mark"), [("? | 0400", LETTERED), ("0400", BARE)])
def test_where_the_letter_was_not_read_the_range_is_told_with_its_condition(text, mark):
    assert number_told(text, mark) == "engine number: small engines of 1955, with line letter A"


def test_where_the_letter_was_not_read_nothing_is_outside_every_range():
    assert number_told("? | 0900") == "engine number"


def years(text):
    cars = read(text).cars
    return cars.first_year, cars.last_year


def test_a_range_tells_the_car_only_where_its_letter_was_read_and_weighs():
    assert [years(text) for text in ("A | 0400", "B | 0200")] == [(1955, 1955), (1957, 1957)]
    assert [years(text) for text in ("? | 0400", "M | 0200")] == [(1952, 1961)] * 2


def points(text):
    """The known numbers beside a reading, with what was not read and would have to be so."""
    answer = answer_to(OWN, LETTERED, text, ANY_CAR)
    return [(each["meaning"], each["with"]) for each in render_decoded(answer)["points"]]


def test_a_known_number_is_told_of_its_own_letter():
    assert points("A | 0200") == [("the two hundredth", "")]
    assert points("B | 0200") == []
    assert points("? | 0200") == [("the two hundredth", "line letter A")]


def first_days(text):
    fields = read(text).alternatives[0].fields
    return [span.first for each in fields if each.field == "date" for span in each.spans]


def test_known_numbers_of_another_letter_date_nothing():
    """A leaves 1955 by its range and its known car, B 1957 by its range alone."""
    assert first_days("A | 0400 | 03D5") == [date(1955, 4, 3)]
    assert first_days("B | 0250 | 03D7") == [date(1957, 4, 3)]
