"""The table of situations, and the standard cars on which it is tried."""

import pytest

from tests.worked.situations.document import book_of, casefile
from tests.worked.situations.standard import STANDARD
from tests.worked.situations.table import SITUATIONS, TRIED
from tests.worked.situations.unmet import unmet
from witnessmark.examination import car_marks


@pytest.mark.parametrize("name", STANDARD)
def test_every_mark_of_a_standard_car_reads_as_the_book_says(name: str) -> None:
    car = STANDARD[name]
    for decoding in car_marks(casefile(car), book_of(car.book)).decodings:
        likeliest = decoding.alternatives[0]
        assert likeliest.share > 0.9, decoding.mark
        assert all(field.listed for field in likeliest.fields), decoding.mark


@pytest.mark.parametrize("name", STANDARD)
def test_every_claimed_item_of_a_standard_car_is_said_by_its_marks(name: str) -> None:
    car = STANDARD[name]
    said = {
        field.says: field.value
        for decoding in car_marks(casefile(car), book_of(car.book)).decodings
        for field in decoding.alternatives[0].fields
    }
    for item, value in car.claim.items():
        assert said.get(item, value) == value, item


def test_every_situation_is_another_case_than_the_standard_car() -> None:
    standard = {name: casefile(car) for name, car in STANDARD.items()}
    for situation, name in TRIED:
        if situation.change:
            changed = casefile(STANDARD[name].but(*situation.change))
            assert changed != standard[name], (situation.number, situation.title, name)


def test_no_two_situations_have_one_name() -> None:
    names = [(situation.number, situation.title, name) for situation, name in TRIED]
    assert len(set(names)) == len(names)


def test_what_is_unmet_has_a_reason() -> None:
    for key, row in unmet().items():
        assert row["reason"], key


def test_no_honest_car_is_accused() -> None:
    """The list may hold what the weighing says too weakly or too strongly: never that it points
    against an honest car, further than an inspector would."""
    assert [key for key, row in unmet().items() if row["accuses"] != "no"] == []


def test_all_fifty_of_the_design_are_there() -> None:
    listed = {situation.number for situation in SITUATIONS}
    assert {str(number) for number in range(1, 51)} <= listed
