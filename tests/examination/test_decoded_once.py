"""Each reading is decoded once in a whole report, and the same marks come out of a first look."""

import sys
from collections import Counter
from dataclasses import replace
from datetime import date

import pytest

from tests.published.books import opened
from tests.worked.opened import book_and_version, case_of
from witnessmark.casefile import Casefile, MarkReading, Title
from witnessmark.cli.answer.compare import car_of
from witnessmark.codebook import CarContext, CodeBook
from witnessmark.examination import BookVersion, car_marks, examine, marks_of
from witnessmark.report import build_outline
from witnessmark.report.issue.issued import at_issue
from witnessmark.report.mask.opinion import masked

CHEVROLET = "chevrolet-1964-1972"
TYPED = {
    "engine_pad": "V0101DZ 19N506071",
    "number_plate": "124379N506071",
    "block_cast_date": "L 20 8",
    "body_plate_norwood_1969": "ST 69-12437 NOR 123456 BDY|TR 711|72 72|01B",
}


@pytest.fixture
def decoded(monkeypatch):
    """How often each text was laid into its mark, which a decoding does first."""
    room = sys.modules["witnessmark.decoding.decode"]
    counts: Counter[tuple[str, str]] = Counter()

    def counted(reading, mark, *, asked=room.align):
        counts[mark.id, reading.normalised] += 1
        return asked(reading, mark)

    monkeypatch.setattr(room, "align", counted)
    return counts


def real_case() -> Casefile:
    """A car of a real book, invented: a pad with its number behind it, and a whole title."""
    return Casefile(
        id="real",
        book=CHEVROLET,
        readings=tuple(MarkReading(mark=mark, text=text) for mark, text in TYPED.items()),
        title_paper=Title(number="124379N506017"),
    )


def fresh(book_id: str) -> CodeBook:
    """A book like it: with one that was read by before, its decodings are kept."""
    return replace(opened(book_id))


def test_each_reading_is_decoded_once_in_a_whole_report(decoded):
    """The examiners of this car read one mark differently: each is weighed alone besides."""
    case, (kept, version) = case_of("panel"), book_and_version()
    book = fresh(kept.id)
    opinion = examine(case, book, version, steady=False)
    issue = at_issue(opinion, book)
    assert issue.alone
    build_outline(opinion, book, date(2026, 5, 14), issue=issue)
    masked(opinion, book)
    assert set(decoded.values()) == {1}
    assert sum(decoded.values()) == len(case.readings)


def test_two_marks_typed_together_and_a_title_are_decoded_once_each(decoded):
    book = fresh(CHEVROLET)
    opinion = examine(
        real_case(), book, BookVersion(book.id, book.title, book.version, "0"), steady=False
    )
    build_outline(opinion, book, date(2026, 5, 14))
    assert set(decoded.values()) == {1}
    marks = [mark for mark, _ in decoded]
    # The pad's own number, and the title's, which is read as a number plate.
    assert sorted(marks) == sorted([*TYPED, "partial_number_engine", "number_plate"])


def test_the_marks_of_an_opinion_are_those_that_were_compared():
    book = opened(CHEVROLET)
    car = car_marks(real_case(), book)
    opinion = examine(
        real_case(), book, BookVersion(book.id, book.title, book.version, "0"), steady=False
    )
    again = marks_of(opinion, book)
    assert again.of_car == car.of_car
    assert again.title == car.title
    assert [each.mark for each in again.decodings] == [each.mark for each in car.decodings]


def test_a_first_look_and_an_examination_have_the_same_marks():
    """Whatever was typed: dates, two marks in one, the title."""
    book = opened(CHEVROLET)
    pairs = tuple(f"{mark}={text}" for mark, text in TYPED.items())
    look = car_of(book, CarContext(), (*pairs, "title=124379N506017"))
    examined = car_marks(real_case(), book)
    assert look.decodings == examined.decodings
    assert (look.title, look.of_car) == (examined.title, examined.of_car)
