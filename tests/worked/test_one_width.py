"""A claimed number is printed as the mark of its year writes it."""

import pytest

from tests.worked.situations.car import Car, of_another
from tests.worked.situations.standard import STANDARD
from tests.worked.situations.tried import answered


def told(car: Car, mark: str) -> str:
    """What is told first of a mark that bears another car's number."""
    return answered(car.but(of_another(mark))).misfits[0].sentence


@pytest.mark.parametrize("mark", ["pan_number_1965", "type_plate_1965", "works_certificate_1965"])
def test_a_nought_that_no_mark_of_the_car_has_is_not_printed(mark: str) -> None:
    assert told(STANDARD["beetle"], mark).endswith(
        " reads 402918; the claimed chassis number is 345612."
    )


def test_a_number_of_the_width_of_its_mark_is_printed_as_it_is() -> None:
    assert told(STANDARD["sprint"], "frame_number") == (
        "The frame stamping reads 700122; the claimed chassis number is 700143."
    )
