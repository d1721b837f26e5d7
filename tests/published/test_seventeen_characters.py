"""Numbers of seventeen characters published with their sums, and the tables of the rule.

What the check digit catches is worked out from its letter values and weights,
over every character in every place.
"""

from dataclasses import dataclass
from functools import cache
from itertools import pairwise, permutations, product

import pytest

from tests.published.books import opened
from witnessmark.codebook import CarContext, CodeBook, CodeRow
from witnessmark.decoding import decode
from witnessmark.decoding.align import align
from witnessmark.decoding.options import DecodingRequest
from witnessmark.decoding.records import Note
from witnessmark.decoding.seventeen import notes_on
from witnessmark.decoding.seventeen.candidates import agreeing
from witnessmark.decoding.seventeen.number import Vin
from witnessmark.decoding.seventeen.rules import NumberRules, rules_of
from witnessmark.decoding.seventeen.sums import check_sum
from witnessmark.decoding.seventeen.year import years_said
from witnessmark.reading import parse_reading, shipped_rates

CARS, OTHERS = "vehicle_number", "vehicle_number_other"


@dataclass(frozen=True)
class Example:
    """A published number: its mark, sum, remainder, check character, years and source."""

    number: str
    mark: str
    total: int
    remainder: int
    wanted: str
    years: tuple[int, ...]
    source: str


ENCYCLOPAEDIA = "https://en.wikipedia.org/wiki/Vehicle_identification_number"
EXAMPLES = (
    Example(
        "1G4AH59H45G118341",
        CARS,
        411,
        4,
        "4",
        (2005,),
        "49 CFR 565.6 and 565.15, sample of the check digit",
    ),
    Example(
        "1J9RP1A36A1644345",
        OTHERS,
        314,
        6,
        "6",
        (1980, 2010),
        "NHTSA, Requirements for manufacturers of motor vehicles, rev. 3 March 2011, p. 18",
    ),
    Example(
        "1M8GDM9AXKP042788",
        CARS,
        351,
        10,
        "X",
        (1989,),
        f"{ENCYCLOPAEDIA}; http://www.olschimke.eu/2012/08/02/"
        "dealing-with-vehicle-identification-numbers-vin-data-quality/ (a hypothetical number)",
    ),
    Example(
        "11111111111111111",
        CARS,
        89,
        1,
        "1",
        (2001,),
        f"{ENCYCLOPAEDIA} (a number made for self-tests)",
    ),
    Example(
        "LJCPCBLCX11000237",
        CARS,
        186,
        10,
        "X",
        (2001, 2031),
        "https://scientificgems.wordpress.com/2018/04/27/"
        "mathematics-in-action-vehicle-identifications-numbers/",
    ),
    Example(
        "1G1BL52P7TR115520",
        CARS,
        337,
        7,
        "7",
        (1996,),
        "Corvette VIN Breakdown, https://docslib.org/doc/13799708/corvette-vin-breakdown",
    ),
    Example(
        "1FAPP64R7LH123456",
        CARS,
        403,
        7,
        "7",
        (1990,),
        "an owners' page on the check digit",
    ),
    Example(
        "5GZCZ43D13S812715",
        CARS,
        408,
        1,
        "1",
        (2003,),
        f"{ENCYCLOPAEDIA}, section on the check digit",
    ),
    Example(
        "SGZCZ43D13S812715",
        CARS,
        384,
        10,
        "X",
        (2003, 2033),
        f"{ENCYCLOPAEDIA}, section on the check digit, which says that it passes; it does not",
    ),
)
DOES_NOT_AGREE = "SGZCZ43D13S812715"

YEARS = {
    "A": 1980,
    "B": 1981,
    "C": 1982,
    "D": 1983,
    "E": 1984,
    "F": 1985,
    "G": 1986,
    "H": 1987,
    "J": 1988,
    "K": 1989,
    "L": 1990,
    "M": 1991,
    "N": 1992,
    "P": 1993,
    "R": 1994,
    "S": 1995,
    "T": 1996,
    "V": 1997,
    "W": 1998,
    "X": 1999,
    "Y": 2000,
    "1": 2001,
    "2": 2002,
    "3": 2003,
    "4": 2004,
    "5": 2005,
    "6": 2006,
    "7": 2007,
    "8": 2008,
    "9": 2009,
}
"""49 CFR 565.15, Table VII, first cycle; the second is 30 years later."""

COLUMNS = ("0", "1AJ", "2BKS", "3CLT", "4DMU", "5ENV", "6FW", "7GPX", "8HY", "9RZ")
"""49 CFR 565.15(c), Table III: the characters that count 0, 1, 2 and so on."""

WEIGHTS = (8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2)
"""49 CFR 565.15(c), Table IV."""


def book() -> CodeBook:
    return opened("seventeen-characters")


@cache
def rules() -> NumberRules:
    found = rules_of(book())
    assert found is not None
    return found


def table(name: str) -> tuple[CodeRow, ...]:
    return book().table(name)


def asked(number: str, mark_id: str) -> DecodingRequest:
    mark = book().mark(mark_id)
    assert mark is not None
    return DecodingRequest(
        reading=parse_reading(number, mark),
        book=book(),
        mark=mark,
        context=CarContext(),
        rates=shipped_rates(),
    )


def notes(number: str, mark_id: str, kind: str) -> list[Note]:
    question = asked(number, mark_id)
    found = notes_on(question, align(question.reading, question.mark))
    return [note for note in found if note.kind == kind]


def as_number(text: str, mark_id: str) -> Vin:
    question = asked(text, mark_id)
    alignment = align(question.reading, question.mark)
    cells = tuple(cell for aligned in alignment.fields for cell in aligned.cells.cells)
    return Vin(question, rules(), cells)


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda example: example.number)
def test_worked_examples(example):
    """Sum, remainder, check character and years as published; the last one is recomputed."""
    found = check_sum(rules(), example.number)
    assert (found.total, found.remainder, found.wanted) == (
        example.total,
        example.remainder,
        example.wanted,
    )
    assert found.agrees is (example.number != DOES_NOT_AGREE)
    assert years_said(as_number(example.number, example.mark)) == example.years
    sentence = notes(example.number, example.mark, "check")[0].sentence
    assert f"the sum is {example.total}, which leaves {example.remainder} on division" in sentence
    assert ("does not agree" in sentence) is (example.number == DOES_NOT_AGREE)


def test_the_products_of_the_regulations_own_sample():
    """1G4AH59H45G118341: 8 49 24 5 32 15 18 80 0 45 56 7 6 40 12 12 2."""
    products = [
        rules().values[character] * weight
        for character, weight in zip("1G4AH59H45G118341", rules().weights, strict=True)
    ]
    assert products == [8, 49, 24, 5, 32, 15, 18, 80, 0, 45, 56, 7, 6, 40, 12, 12, 2]
    assert sum(products) == 411


def test_the_trailers_maker_code_has_six_characters():
    """1J9RP1A36A1644345: 1J9 with 644, as the handout has it."""
    note, _ = notes("1J9RP1A36A1644345", OTHERS, "maker")
    assert "the maker code is 1J9 with 644 of positions 12 to 14" in note.sentence


def test_the_example_that_is_said_to_pass_does_not():
    """5 in place of S changes the sum by 24, which is no multiple of 11."""
    good, bad = (check_sum(rules(), n) for n in ("5GZCZ43D13S812715", DOES_NOT_AGREE))
    assert good.total - bad.total == 24
    assert 24 % 11 != 0
    assert (bad.wanted, bad.read, bad.agrees) == ("X", "1", False)
    sentence = notes(DOES_NOT_AGREE, CARS, "check")[0].sentence
    assert "says nothing by itself" in sentence


def test_a_test_on_printed_decimals_would_fail():
    """A handout prints .634 for 7/11, which is .636: whole remainders are taken instead."""
    sums = [example for example in EXAMPLES if example.remainder == 7]
    assert [example.total for example in sums] == [337, 403]
    for example in sums:
        decimals = round(example.total / 11 % 1, 3)
        assert decimals == 0.636 != 0.634
        assert check_sum(rules(), example.number).agrees


def test_transliteration():
    """Table III, all 33 characters; S counts 2, not 1."""
    expected = {character: value for value, column in enumerate(COLUMNS) for character in column}
    assert {row.code: int(row.value) for row in table("letter_values")} == expected
    assert len(table("letter_values")) == len(expected) == 33
    assert rules().values["S"] == 2
    assert not set("IOQ") & set(expected)


def test_weights():
    """Table IV; the weights add up to 89."""
    assert rules().weights == WEIGHTS
    assert sum(WEIGHTS) == 89
    assert [int(row.code) for row in table("weights")] == list(range(1, 18))


def test_remainders_are_written_as_digits_and_ten_as_x():
    assert rules().digits == tuple("0123456789X")


def test_the_year_table():
    """Table VII: 30 codes, each of two years 30 apart."""
    expected = [(code, year + cycle) for code, year in YEARS.items() for cycle in (0, 30)]
    assert [(row.code, int(row.value)) for row in table("years")] == expected
    assert len(expected) == 60


@pytest.mark.parametrize("code", YEARS)
def test_the_year_table_decodes(code):
    """A reading of a car of the United States scheme, and of any other vehicle."""
    for seventh, kept in (("1", YEARS[code]), ("A", YEARS[code] + 30)):
        number = f"1AAAA1{seventh}10{code}1111111"
        assert years_said(as_number(number, CARS)) == (kept,)
        assert years_said(as_number(number, OTHERS)) == (YEARS[code], YEARS[code] + 30)


def test_a_decoding_lists_both_years_of_a_code_or_fewer():
    """The year field as the book's tables give it, whatever position 7 leaves of it."""
    mark = book().mark(OTHERS)
    assert mark is not None
    decoding = decode(parse_reading("1J9RP1A36A1644345", mark), book(), mark)
    years = {m.value for a in decoding.alternatives[:2] for m in a.fields if m.field == "year"}
    assert years == {"1980", "2010"}


def test_never_in_a_number_and_never_in_position_10():
    assert {row.code for row in table("never_used")} == set("IOQ")
    assert {row.code for row in table("never_in_year")} == set("UZ0")
    assert set(YEARS) == {row.code for row in table("characters")} - set("UZ0")


# ------------------------------------------------------------ what the check digit catches

CAUGHT = [
    "B8",
    "S5",
    "Z2",
    "D0",
    "G6",
    "UV",
    "17",
    "38",
    "CG",
    "EF",
    "MN",
    "KX",
    "PR",
    "HM",
    "VY",
    "A4",
]
NOT_CAUGHT = ["1J", "BS", "S2", "KB", "E5", "V5", "MU", "FW", "GX", "G7", "X7", "H8", "Z9"]


def test_one_character():
    """Caught unless both share a value; about 8 % of single changes slip through."""
    values = rules().values
    slips = {
        position: [
            pair
            for pair in permutations(values, 2)
            if (values[pair[0]] - values[pair[1]]) * weight % 11 == 0
        ]
        for position, weight in enumerate(rules().weights, start=1)
        if position != 9
    }
    alike = [pair for pair in permutations(values, 2) if values[pair[0]] == values[pair[1]]]
    assert all(found == alike for found in slips.values())
    assert len(alike) / (33 * 32) == pytest.approx(0.08, abs=0.001)


def test_two_neighbours_exchanged():
    """Caught unless they share a value, position 9 not among them."""
    values = sorted(set(rules().values.values()))
    weights = list(enumerate(rules().weights, start=1))
    pairs = [(a, b) for (p, a), (q, b) in pairwise(weights) if 9 not in (p, q)]
    assert len(pairs) == 14
    for (one, other), (first, second) in product(pairs, product(values, repeat=2)):
        unseen = (first - second) * (one - other) % 11 == 0
        assert unseen is (first == second)


@pytest.mark.parametrize("pair", CAUGHT)
def test_look_alikes_that_are_caught(pair):
    assert rules().values[pair[0]] != rules().values[pair[1]]


@pytest.mark.parametrize("pair", NOT_CAUGHT)
def test_look_alikes_that_are_not_caught(pair):
    assert rules().values[pair[0]] == rules().values[pair[1]]


def test_the_look_alikes_of_the_book_are_these():
    said = {value: set() for value in ("caught", "not-caught")}
    for row in table("look_alikes"):
        said[row.value].add(frozenset(row.code))
    assert said["caught"] == set(map(frozenset, CAUGHT))
    assert said["not-caught"] == set(map(frozenset, NOT_CAUGHT))


def test_an_invented_number_passes_1_time_in_11():
    """Of all numbers whose position 9 is one of the eleven check characters, counted."""
    invented = as_number("?" * 17, CARS)
    every = 33**15 * 30 * 11
    assert agreeing(invented) * 11 == pytest.approx(every, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "mark"),
    [("1G4AH59H4AG118341", CARS), ("1G4AH59H45G11834", CARS)],
)
def test_a_number_of_1980_or_of_another_length_is_not_tested(text, mark):
    (note,) = notes(text, mark, "check")
    assert "ot tested" in note.sentence
    assert "agree" not in note.sentence
