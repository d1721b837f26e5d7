"""A unit-bodied saloon of 1960 compared without a case, and one whose engine is another car's."""

import pytest

CAR = {
    "plate_aluminium": "600417|12|60|E|_|C|11|L1|H",
    "body_plate": "20731|T|236",
    "shell_wing_tail": "E 00417",
    "shell_seat_tail": "E 00417",
    "engine_stamp": "TS 21050 00417",
    "engine_casting": "02E0",
    "head_casting": "29D0",
    "gearbox_tail": "210 00417",
    "axle_day": "3070",
    "despatch_ledger": "600417|6|_|E|_|11|140660",
    "owner_booklet": "600417|TS|21050|180660",
    "build_sheet": "20731|TS|11|L1",
}


@pytest.fixture
def compared(type_in):
    """The page of this car with some readings changed."""

    def page(**changed):
        typed = (f"{mark}={text}" for mark, text in (CAR | changed).items())
        ended = type_in("compare", "tarvane-1952-1961", *typed)
        assert (ended.code, ended.err) == (0, "")
        return " ".join(ended.out.split())

    return page


def test_a_solent_ts_as_it_should_be_is_consistent_with_one_car(compared):
    page = compared()
    assert page.startswith("Consistent with one car")
    assert "What differs" not in page


@pytest.mark.parametrize(
    ("mark", "text"),
    [
        ("engine_stamp", "TS 21050 00652"),
        ("engine_stamp", "SA 21050 00417"),
        ("head_casting", "29K0"),
        ("body_plate", "20731|P|236"),
        ("owner_booklet", "600417|TS|24050|180660"),
        ("build_sheet", "20735|TS|11|L1"),
    ],
)
def test_what_is_another_cars_or_comes_too_late_differs(compared, mark, text):
    assert "What differs" in compared(**{mark: text})
