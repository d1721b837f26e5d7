"""Every situation on each of its cars can be written down: `tried` prints what is answered."""

import pytest

from tests.worked.situations.document import book_of, casefile
from tests.worked.situations.situation import Situation
from tests.worked.situations.standard import STANDARD
from tests.worked.situations.table import SITUATIONS, TRIED
from witnessmark.examination import car_marks

IDS = [f"{situation.number}-{car}-{at}" for at, (situation, car) in enumerate(TRIED)]


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


@pytest.mark.parametrize(("situation", "name"), TRIED, ids=IDS)
def test_a_situation_opens_without_a_problem(situation: Situation, name: str) -> None:
    if situation.needs:
        pytest.skip(situation.needs)
    for changes in (situation.change, situation.against):
        changed = casefile(STANDARD[name].but(*changes))
    if situation.change:
        assert casefile(STANDARD[name].but(*situation.change)) != changed


def test_all_fifty_of_the_design_are_there() -> None:
    listed = {situation.number for situation in SITUATIONS}
    assert {str(number) for number in range(1, 51)} <= listed
