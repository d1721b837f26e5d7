"""A real book in a whole examination: what it argues with, and what it may only explain.

The numbers are invented, of the form that the books give; what is checked is how the
books' own rows, with their sources, count.
"""

from dataclasses import replace
from datetime import date

import pytest

from tests.published.books import CHEVROLET, FORD, REAL, TARVANE, opened
from tests.worked.situations.document import casefile as of_standard
from tests.worked.situations.standard import STANDARD
from witnessmark.casefile import Casefile, case_from
from witnessmark.codebook import CarContext, CodeBook
from witnessmark.decoding import decode
from witnessmark.decoding.render import unread_text
from witnessmark.examination import car_marks
from witnessmark.reading import parse_reading
from witnessmark.weighing import Answer, Asked, answer

CAMARO = {
    "number_plate": "124379N506071",
    "body_plate_norwood_1969": "69 12437 NOR 123456 BDY | 711 | 71 71 | 12A | X33",
    "partial_number_engine": "19N506071",
    "engine_pad": "V1118DZ",
    "block_cast_date": "K88",
    "axle_stamp": "BS1118G1",
}
MUSTANG = {
    "apron_stamp": "7R01K123451",
    "dash_plate": "7R01K123451",
    "engine_stamp": "7R123451",
    "block_date": "6J12",
}


def case(book_id: str, readings: dict[str, str], claim: dict[str, str]) -> Casefile:
    """A case with these readings and this claim."""
    return case_from(
        {
            "format": "witnessmark-case",
            "format_version": 2,
            "id": "real",
            "book": book_id,
            "claim": {"made_by": "the seller", "items": claim},
            "readings": [{"mark": mark, "text": text} for mark, text in readings.items()],
        }
    )


CASES = {
    "camaro": case(
        CHEVROLET,
        CAMARO,
        {"sequence": "506071", "model": "camaro", "model_year": "1969", "works": "norwood"},
    ),
    "mustang": case(
        FORD,
        MUSTANG,
        {"unit_number": "123451", "model": "mustang", "model_year": "1967", "works": "san-jose"},
    ),
    "beetle": of_standard(STANDARD["beetle"]),
    "jaguar": of_standard(STANDARD["jaguar"]),
}


def weighed(casefile: Casefile, book: CodeBook) -> Answer:
    """The case weighed by this book at base rates, no more."""
    car = car_marks(casefile, book)
    return answer(car, with_contributions=False, with_next_looks=False)


def otherwise_remembered(book: CodeBook) -> CodeBook:
    """The book as if everybody remembered something else: each code from memory has another
    value and meaning, and no lag, rule, series or exception from memory is there."""
    kept = {
        name: tuple(row for row in getattr(book, name) if row.citation.basis.weighs)
        for name in ("lags", "rules", "series", "exceptions")
    }
    codes = tuple(
        row if row.citation.basis.weighs else replace(row, value=f"not-{row.value}", meaning="?")
        for row in book.codes
    )
    assert codes != book.codes
    assert any(len(rows) < len(getattr(book, name)) for name, rows in kept.items())
    return replace(book, codes=codes, **kept)


@pytest.mark.parametrize("name", CASES)
def test_what_rows_from_memory_say_weighs_exactly_nothing(name):
    casefile = CASES[name]
    book = opened(casefile.book)
    whole, other = weighed(casefile, book), weighed(casefile, otherwise_remembered(book))
    assert [(c.question, c.about, c.log10_lr) for c in whole.conclusions] == [
        (c.question, c.about, c.log10_lr) for c in other.conclusions
    ]


@pytest.mark.parametrize("name", CASES)
def test_a_car_whose_marks_agree_is_supported(name):
    casefile = CASES[name]
    [identity] = [
        c
        for c in weighed(casefile, opened(casefile.book)).conclusions
        if c.question is Asked.IDENTITY
    ]
    # Plates and parts alone: of the numbers hidden in the shell none was read.
    assert identity.log10_lr > 0.2


def test_a_model_year_without_a_run_of_its_own_has_that_of_the_others():
    """runs.csv, row year-1966."""
    days = opened(CHEVROLET).days_built(CarContext(model="chevelle"), 1966, 1966)
    assert (days.first, days.last) == (date(1965, 8, 1), date(1966, 8, 31))


@pytest.mark.parametrize("end", ["before", "after"])
@pytest.mark.parametrize("name", [*REAL, TARVANE, "dated-parts"])
def test_a_stray_character_in_any_covered_mark_is_shown_as_unread(name, end):
    book = opened(name)
    tried = 0
    for mark in book.marks:
        own = "".join(field.alphabet for field in mark.fields)
        codes = "".join(row.code for field in mark.fields for row in book.table(field.table))
        stray = next((each for each in "ZXWU7" if each not in own + codes), None)
        if stray is None or not all(field.alphabet for field in mark.fields):
            continue
        windows = mark.windows_in_order() if mark.windows else (mark.fields,)
        text = "|".join("".join(f.alphabet[0] * max(f.widths) for f in each) for each in windows)
        typed = f"{stray}{text}" if end == "before" else f"{text}{stray}"
        decoding = decode(parse_reading(typed, mark), book, mark)
        assert stray in unread_text(decoding), (mark.id, typed)
        tried += 1
    assert tried
