"""What must not be learnt from a masked copy, tried on the demonstration cars, on real books and
on a small book of every other kind.

Every text of a case is typed anew with something that tells a number or a person in a roundabout
way. Serials of the real books are invented.
"""

from base64 import b64encode
from dataclasses import dataclass, replace
from datetime import date
from functools import cache
from hashlib import sha256

import pytest

from tests.published.books import CHEVROLET, FORD, JAGUAR, VOLKSWAGEN
from tests.worked.found_in_pdf import squeezed
from tests.worked.opened import DEMO, book_and_version
from tests.worked.situations import document
from tests.worked.situations.standard import STANDARD
from witnessmark.casefile import Casefile, Statement, case_from, open_case
from witnessmark.codebook import CodeBook, find_book, joined, open_book
from witnessmark.codebook.qualified import qualified
from witnessmark.documents.open_row import as_json
from witnessmark.examination import BookVersion, Opinion, examine
from witnessmark.report import report_text
from witnessmark.report.mask.copied import masked_copy

PRINTED = date(2026, 11, 25)
SELLER = "Ottoline Grimthorpe"
STANDS = "The felt was lifted on 3 September 2026; repainted in 1991."


@dataclass(frozen=True, slots=True)
class Car:
    """A car to try on: the number that nobody must learn, and a mark that bears a date alone."""

    book: str
    number: str
    item: str
    number_mark: str
    date_mark: str
    is_demo: bool = False
    beside: str = ""
    is_standard: bool = False


CARS = {
    "clean": Car("", "700143", "chassis_number", "frame_number", "engine_casting", True),
    "altered": Car("", "700236", "chassis_number", "frame_number", "engine_casting", True),
    "dressed": Car("", "600458", "chassis_number", "frame_number", "engine_casting", True),
    "chevrolet": Car(CHEVROLET, "506071", "sequence", "number_plate", "block_cast_date"),
    "ford": Car(FORD, "123457", "unit_number", "apron_stamp", "block_date"),
    "volkswagen": Car(
        VOLKSWAGEN, "2041237", "chassis_number", "bus_number_1970", "works_certificate_1970"
    ),
    "jaguar": Car(JAGUAR, "850513", "chassis_number", "front_frame_number_38", "engine_day"),
    "seventeen": Car("seventeen-characters", "204713", "sequence", "vehicle_number", ""),
    "dated-parts": Car(
        CHEVROLET,
        "506072",
        "sequence",
        "number_plate",
        qualified("dated-parts", "rim_month"),
        beside="dated-parts",
    ),
    "frame": Car("", "21874", "car_number", "frame_number", "block_casting", is_standard=True),
    "coachbuilt": Car(
        "", "30512", "chassis_number", "frame_number", "block_casting", is_standard=True
    ),
    "order": Car("", "6503217", "car_number", "shell_number", "", is_standard=True),
    "no-numbers": Car("", "42310", "car_number", "shell_number", "", is_standard=True),
    "labels": Car("", "823517", "car_number", "shell_number", "", is_standard=True),
}
NUMBER_TEXTS = {"number_plate": "124379N{}", "apron_stamp": "7R01K{}", "bus_number_1970": "232{}"}


def told(number: str) -> dict[str, str]:
    """Ways to tell a number or a person, by what they are."""
    one, two, three = number[:2], number[2:4], number[4:]
    words = "zero one two three four five six seven eight nine".split()  # noqa: SIM905
    return {
        "digest": f"Noted as {sha256(number.encode()).hexdigest()}.",
        "hex": f"Noted as {number.encode().hex()}.",
        "base64": f"Noted as {b64encode(number.encode()).decode()}.",
        "parts": f"Windows {one} {two} {three} from the left.",
        "half": f"It begins with {one} and {two}",
        "other half": f"and ends as {three}",
        "single": f"First a {number[0]}, last a {number[-1]}.",
        "figures in words": "It is " + " ".join(words[int(each)] for each in number) + ".",
        "sum in words": "Paid forty thousand for it.",
        "large": f"It is {int(number):,} by the book.",
        "mail": "Write to ottoline.grimthorpe@mill.example.",
        "run together": "Kept at ottolinegrimthorpe these days.",
        "named": f"Bought from {SELLER} herself.",
    }


def case_of(car: str) -> Casefile:
    """The case, or one of a real book with one number and nothing else."""
    known = CARS[car]
    if known.is_demo:
        opened = open_case(DEMO / car)
        assert opened.casefile is not None
        return opened.casefile
    if known.is_standard:
        return document.casefile(STANDARD[car])
    text = NUMBER_TEXTS.get(known.number_mark, "{}").format(known.number)
    return case_from(
        {
            "format": "witnessmark-case",
            "format_version": 2,
            "id": "real",
            "book": known.book,
            "beside": [known.beside] if known.beside else [],
            "claim": {"items": {known.item: known.number}},
            "readings": [{"mark": known.number_mark, "text": text, "by": "Ines Calder"}],
            "assignment": {"examiners": [{"id": "calder", "name": "Ines Calder"}]},
        }
    )


@cache
def book_of(car: str) -> tuple[CodeBook, BookVersion]:
    """The book that the case is examined by."""
    known = CARS[car]
    if known.is_demo:
        return book_and_version()
    if known.is_standard:
        small = document.book_of(STANDARD[car].book)
        return small, BookVersion(small.id, small.title, small.version, "0" * 64)
    book, sha256 = opened(known.book)
    version = BookVersion(book.id, book.title, book.version, sha256)
    return joined(book, (opened(known.beside)[0],)) if known.beside else book, version


def opened(name: str) -> tuple[CodeBook, str]:
    """A shipped book and its digest."""
    folder = find_book(name)
    assert folder is not None
    found = open_book(folder)
    assert found.book is not None
    return found.book, found.sha256


def retold(car: str) -> Casefile:
    """The case with one more statement for each way to tell something."""
    known, case = CARS[car], case_of(car)
    ways = told(known.number)
    statements = [Statement(about="car", says=text) for text in (*ways.values(), STANDS)]
    statements.append(Statement(about=f"the one of {SELLER}, {known.number}", says="It is there."))
    claim = replace(case.claim, made_by=f"{SELLER}, owner", statements=tuple(statements))
    readings = [as_json(each) for each in case.readings]
    if known.date_mark:
        readings = [each for each in readings if each["mark"] != known.date_mark]
        readings.append({"mark": known.date_mark, "text": known.number, "by": "Ines Calder"})
    made = as_json(replace(case, claim=claim))
    made["readings"] = [{**each, "when": None} for each in readings]
    return case_from(made)


@cache
def opinion_of(car: str) -> Opinion:
    """What is examined."""
    return examine(retold(car), *book_of(car), steady=False)


def text_of(opinion: Opinion, book: CodeBook) -> str:
    """All that the copy says, drawings included."""
    copy = masked_copy(opinion, book, {}, PRINTED)
    assert copy.problems == ()
    drawn = [
        block.svg for section in copy.outline.sections for block in section.blocks
        if block.kind == "drawing"
    ]  # fmt: skip
    return "\n".join((copy.outline.title, report_text(copy.outline), *drawn))


@cache
def copy_of(car: str) -> str:
    """The text of the copy."""
    return text_of(opinion_of(car), book_of(car)[0])


@pytest.mark.parametrize("way", told("123456"))
@pytest.mark.parametrize("car", CARS)
def test_nothing_that_was_typed_tells_a_number_or_a_person(car, way):
    typed = told(CARS[car].number)[way]
    assert typed not in copy_of(car)
    assert squeezed(typed) not in squeezed(copy_of(car))


@pytest.mark.parametrize("car", CARS)
def test_what_a_statement_is_about_is_masked_where_the_book_does_not_name_it(car):
    assert "Grimthorpe" not in copy_of(car)
    assert CARS[car].number not in squeezed(copy_of(car))


@pytest.mark.parametrize("car", [car for car, known in CARS.items() if known.date_mark])
def test_a_number_that_stands_where_a_date_belongs_is_masked(car):
    """Neither the reading, nor a sentence of it, nor a piece of it."""
    reading = CARS[car].number
    assert reading in "".join(each.reading.as_typed for each in opinion_of(car).decodings)
    assert reading not in squeezed(copy_of(car))


@pytest.mark.parametrize("car", CARS)
def test_what_tells_nothing_stands(car):
    assert STANDS in copy_of(car)


@pytest.mark.parametrize("car", ["clean", "ford"])
def test_an_examiner_who_is_also_the_seller_is_not_named(car):
    opinion = opinion_of(car)
    case = opinion.casefile
    claim = replace(case.claim, made_by="Ines Calder, owner since 1990")
    made = replace(opinion, casefile=replace(case, claim=claim))
    text = text_of(made, book_of(car)[0])
    assert "Calder" not in text
    assert "the examiners are named" not in text
