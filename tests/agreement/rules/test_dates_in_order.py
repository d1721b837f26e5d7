"""A part was dated before the car it was made for, by the days the book expects."""

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.agreement.readings import CHEVROLET, FORD, JAGUAR, VOLKSWAGEN, car_read
from tests.published.books import opened
from witnessmark.agreement import Outcome
from witnessmark.agreement.build_date import build_date
from witnessmark.agreement.rules.dates_in_order import compare, within_share
from witnessmark.codebook import Basis
from witnessmark.dates import DateSpan

LEDGER = "700137|4|40033|M|0912|18|060655"


def lag(findings, topic):
    """The one finding on this lag of the book."""
    [found] = [each for each in findings if each.topic == topic]
    return found


def test_a_part_dated_some_weeks_before_the_car_agrees(car):
    found = lag(compare(car(built="1955-06-06", axle_stamp="32001 1200")), "axle-to-despatch")
    assert found.outcome is Outcome.AGREE
    assert found.agreement_share == 1.0
    assert found.observation == (
        "Day on which the axle was assembled: the axle stamping reads 1200 (15 April 1955); "
        "day of despatch: the claim says 1955-06-06. "
        "The second date lies 52 days after the first. "
        "The book expects 5 to 150, usually 25 days."
    )
    assert found.inference == ("The interval is consistent with both dates belonging to one car.")


def test_a_part_dated_after_the_car_differs(car):
    found = lag(compare(car(built="1955-06-06", axle_stamp="32001 1300")), "axle-to-despatch")
    assert found.outcome is Outcome.DIFFER
    assert "The second date lies 48 days before the first." in found.observation
    assert "is not consistent with" in found.inference


def test_a_part_dated_too_long_before_the_car_differs(car):
    found = lag(compare(car(built="1955-06-06", axle_stamp="32001 0900")), "axle-to-despatch")
    assert found.outcome is Outcome.DIFFER
    assert found.inference.startswith("The interval is not consistent with")


def test_open_years_are_summed_in_the_share_and_the_fitting_one_is_named(car):
    """14B5 is 14 February of 1955 or of 1965: half of what it may mean fits."""
    open_year = car({}, built="1955-06-06", engine_casting="14B5")
    found = lag(compare(open_year), "casting-to-despatch")
    assert found.agreement_share == pytest.approx(0.5)
    assert found.outcome is Outcome.AGREE
    assert "reads 14B5 (14 February 1955 or 14 February 1965)" in found.observation
    assert found.inference.startswith("Taken as 14 February 1955 and 6 June 1955")


def test_of_open_years_those_about_the_car_are_meant(car):
    """14B5 beside the claim of 1955 is 14 February 1955."""
    found = lag(compare(car(built="1955-06-06", engine_casting="14B5")), "casting-to-despatch")
    assert found.agreement_share == pytest.approx(1.0)
    assert found.outcome is Outcome.AGREE
    assert "reads 14B5 (14 February 1955);" in found.observation


def test_an_open_year_differs_only_where_no_year_would_fit(car):
    found = lag(compare(car(built="1955-06-06", engine_casting="14B7")), "casting-to-despatch")
    assert found.outcome is Outcome.DIFFER
    assert found.agreement_share == 0.0


def test_a_worn_year_is_never_filled_in(car):
    found = lag(compare(car(built="1955-06-06", engine_casting="14B?")), "casting-to-despatch")
    assert found.outcome is Outcome.UNDECIDED
    found = lag(compare(car(built="1955-06-06", engine_casting="?4B?")), "casting-to-despatch")
    assert found.outcome is Outcome.UNDECIDED


def test_a_placeholder_is_no_date(car):
    found = lag(compare(car(built="1955-06-06", engine_casting="00A0")), "casting-to-despatch")
    assert found.outcome is Outcome.SILENT
    assert "pattern without a date" in found.observation


def test_a_worn_date_is_silent(car):
    found = lag(compare(car(built="1955-06-06", engine_casting="????")), "casting-to-despatch")
    assert found.outcome is Outcome.SILENT


def test_the_car_is_dated_by_the_claim_before_a_paper(car):
    found = lag(
        compare(car(built="1956-03-01", axle_stamp="32001 1200", despatch_ledger=LEDGER)),
        "axle-to-despatch",
    )
    assert "the claim says 1956-03-01" in found.observation


def test_a_paper_within_the_month_that_is_claimed_makes_the_claim_exact(car):
    found = lag(
        compare(car(built="1955-06", axle_stamp="32001 1200", despatch_ledger=LEDGER)),
        "axle-to-despatch",
    )
    assert "the despatch ledger entry reads 060655 (6 June 1955)" in found.observation


def test_without_a_claimed_date_a_paper_dates_the_car(car):
    found = lag(compare(car(axle_stamp="32001 1200", despatch_ledger=LEDGER)), "axle-to-despatch")
    assert "the despatch ledger entry reads 060655" in found.observation
    assert found.outcome is Outcome.AGREE


def test_without_any_date_the_series_of_the_chassis_number_dates_the_car(car):
    """Axle day 0500 is of May 1953; number 700137 is of 1955."""
    found = lag(compare(car(axle_stamp="32001 0500")), "axle-to-despatch")
    assert "chassis number 700137, of the series 700119 to 700164" in found.observation
    assert found.outcome is Outcome.DIFFER


def test_without_any_date_or_number_there_is_no_finding(car):
    assert compare(car({}, axle_stamp="32001 1200")) == ()


def test_a_known_exception_takes_the_difference_away(car):
    """The book: gearboxes 22563 to 22602 came from the store, up to a year old."""
    claim = {"model_year": "1956", "model": "solent-saloon"}
    plain = compare(car(claim, built="1956-06-06", gearbox_stamp="22700 225"))
    stored = compare(car(claim, built="1956-06-06", gearbox_stamp="22570 225"))
    assert lag(plain, "gearbox-to-despatch").outcome is Outcome.DIFFER
    assert lag(stored, "gearbox-to-despatch").outcome is Outcome.UNDECIDED
    assert "Known exception: Forty gearboxes" in lag(stored, "gearbox-to-despatch").observation


def test_a_lag_from_memory_explains_and_does_not_argue(car, book):
    from_memory = replace(
        book,
        lags=tuple(
            replace(row, citation=replace(row.citation, basis=Basis.MEMORY)) for row in book.lags
        ),
    )
    found = lag(
        compare(car(built="1955-06-06", of_book=from_memory, axle_stamp="32001 1300")),
        "axle-to-despatch",
    )
    assert found.basis is Basis.MEMORY
    assert "from memory" in found.inference


DAYS = st.dates(date(1952, 1, 1), date(1961, 12, 31))


@given(DAYS, DAYS, DAYS, DAYS, st.integers(-50, 50), st.integers(0, 300))
def test_the_share_of_days_is_what_counting_them_one_by_one_gives(a, b, c, d, least, width):
    earlier = DateSpan(min(a, b), min(max(a, b), date.fromordinal(min(a, b).toordinal() + 20)))
    later = DateSpan(min(c, d), min(max(c, d), date.fromordinal(min(c, d).toordinal() + 20)))
    counted = [
        least <= y - x <= least + width
        for x in range(earlier.first.toordinal(), earlier.last.toordinal() + 1)
        for y in range(later.first.toordinal(), later.last.toordinal() + 1)
    ]
    share = within_share(earlier, later, least, least + width)
    assert share == pytest.approx(sum(counted) / len(counted))


PLATE_OF_MARCH = "body_plate_norwood_1969=ST 69-12437 NOR 123456 BDY|TR 711|72 72|03B"


def real(*pairs, book_id=CHEVROLET, **more):
    """The findings on a car of a real book with these readings and invented numbers."""
    return compare(car_read(book_id, *pairs, **more))


def without_direct_lags(book, planned):
    """The book with the lag from this planned date to the car, and none from parts to it."""
    return replace(book, lags=tuple(lag for lag in book.lags if lag.later != planned))


@pytest.mark.parametrize(
    ("pad", "outcome"),
    [("V0301DZ", Outcome.AGREE), ("V0415DZ", Outcome.DIFFER)],
)
def test_the_week_of_the_plate_dates_the_car_for_its_parts(pad, outcome):
    """Planned for 8 to 14 March 1969: by the book built from 7 days before to 14 after."""
    alone = without_direct_lags(opened(CHEVROLET), "plate_week")
    found = lag(real(PLATE_OF_MARCH, f"engine_pad={pad}", of_book=alone), "engine-to-car")
    assert found.outcome is outcome
    assert [s.mark for s in found.subjects] == ["engine_pad", "body_plate_norwood_1969"]
    assert (
        "The car is dated by the week for which the body was planned on the body data "
        "plate of Norwood, 1969: by the book it was built -7 to 14 days later."
    ) in found.observation


@pytest.mark.parametrize(
    ("part", "topic"),
    [
        ("engine_pad=V0301DZ", "engine-to-plate-week"),
        ("block_cast_date=B 20 9", "block-to-plate-week"),
        ("muncie_1969=P9B10A", "gearbox-to-plate-week"),
        ("axle_stamp=BS0301G1", "axle-to-plate-week"),
    ],
)
def test_where_the_book_has_the_days_to_the_week_itself_the_car_is_not_asked_too(part, topic):
    """One comparison of the two dates, and not a second one made of the first."""
    found = real(PLATE_OF_MARCH, part)
    assert [(each.topic, each.outcome) for each in found] == [(topic, Outcome.AGREE)]


def test_the_scheduled_day_of_a_door_plate_dates_the_car():
    door = "door_plate_1967=8R01J137614|65A|A|2A|05B|71|1|5"
    book = without_direct_lags(opened(FORD), "scheduled_date")
    found = lag(real(door, "block_date=7M20", book_id=FORD, of_book=book), "block-cast-to-built")
    assert "(12 January 1968 to 31 March 1968)" in found.observation
    assert "by the book it was built -24 to 55 days later" in found.observation


def test_a_claimed_day_or_a_paper_goes_before_the_plan():
    found = real(PLATE_OF_MARCH, "engine_pad=V0301DZ", built="1969-05-20")
    assert lag(found, "plate-week-to-car").outcome is Outcome.DIFFER
    assert "the claim says 1969-05-20" in lag(found, "engine-to-car").observation
    door = "door_plate_1967=8R01J137614|65A|A|2A|05B|71|1|5"
    record = "factory_record=1968-01-25|1968-02-05||1968-02-06|"
    [built, *_] = [f for f in real(door, record, book_id=FORD)
                   if f.topic == "scheduled-to-built"]  # fmt: skip
    assert built.outcome is Outcome.AGREE
    assert "dated by" not in built.observation


BUS_PLATE = "m_plate_1970=22 041 236|227 506 517|060640 616|44 3 7123 UB 2319 31"
CERTIFICATES = {
    VOLKSWAGEN: "works_certificate_1970=232 2 041 236|CB 0 031 455|{}|{}",
    JAGUAR: "certificate_38=850512|R5123-9|R4872|EB4021JS|Opalescent Dark Blue|Red|{}|{}",
}


@pytest.mark.parametrize(
    ("book_id", "more", "days", "found"),
    [
        (VOLKSWAGEN, BUS_PLATE, ("06.11.1971", "20.11.1971"), ("planned-to-built", "agree")),
        (VOLKSWAGEN, BUS_PLATE, ("06.09.1971", "20.11.1971"), ("planned-to-built", "differ")),
        (VOLKSWAGEN, BUS_PLATE, ("06.11.1971", "20.10.1971"), ("built-to-delivered", "differ")),
        (
            JAGUAR,
            "tub_tag_38=R4872",
            ("14.11.1962", "26.11.1962"),
            ("built-to-despatched", "agree"),
        ),
        (
            JAGUAR,
            "tub_tag_38=R4872",
            ("14.11.1962", "26.10.1962"),
            ("built-to-despatched", "differ"),
        ),
        (
            JAGUAR,
            "block_casting=14.12.62",
            ("14.11.1962", "26.11.1962"),
            ("casting-to-built", "differ"),
        ),
    ],
)
def test_the_days_of_a_certificate_are_set_against_plate_and_parts(book_id, more, days, found):
    """All from memory: told, and no argument."""
    each = lag(real(CERTIFICATES[book_id].format(*days), more, book_id=book_id), found[0])
    assert (each.outcome.value, each.basis) == (found[1], Basis.MEMORY)


def test_a_series_without_years_dates_a_car_by_the_years_of_its_model_or_not_at_all():
    """850512 is of one model, built from 1961 to 1964."""
    dated = build_date(car_read(JAGUAR, "front_frame_number_38=850512"))
    assert dated.dates[0].span == DateSpan(date(1961, 1, 1), date(1964, 12, 31))
    years = tuple(replace(row, applies=replace(row.applies, first_year=1948, last_year=1974))
                  for row in opened(JAGUAR).models)  # fmt: skip
    undated = replace(opened(JAGUAR), models=years)
    assert build_date(car_read(JAGUAR, "front_frame_number_38=850512", of_book=undated)) is None


def test_a_plan_is_not_set_against_the_date_that_was_made_of_it():
    assert real(PLATE_OF_MARCH) == ()


def test_a_code_that_may_be_no_date_contradicts_none():
    """04G is 4 July on its plate, and what introductory cars were given."""
    door = "door_plate_1967=9F02M135071|63A|A|2A|04G|71|1|5"
    found = lag(real(door, "factory_record=|||1969-02-06|", book_id=FORD), "scheduled-to-built")
    assert found.outcome is Outcome.UNDECIDED
    assert "4 July 1968, or no date: 4 July, a holiday" in found.observation


def test_an_exception_excuses_no_number_that_is_masked_or_half_worn():
    """Pilots of 1967 are dated a year early; 1????? may be any car of that year."""
    plate = "body_plate_norwood_1967=03B|ST 67-12437 NOR 12345 BODY|TR 760|GG"
    for number, outcome in (
        ("124377N1?????", Outcome.DIFFER),
        ("124377N1000[45]2", Outcome.DIFFER),
        ("124377N112345", Outcome.DIFFER),
        ("124377N100012", Outcome.UNDECIDED),
        ("124377N10001?", Outcome.UNDECIDED),
    ):
        found = real(f"number_plate={number}", plate, "engine_pad=V0615MO")
        assert lag(found, "engine-to-plate-week").outcome is outcome, number


def test_without_any_date_the_year_that_a_mark_names_dates_the_car():
    """A Nova of 1969 has no series in the book."""
    found = real("number_plate=114279W106071", "block_cast_date=A 5 7")
    day = lag(found, "block-to-car")
    assert (
        "the number plate reads model year 1969 (1 August 1968 to 30 November 1969)"
        in day.observation
    )
    assert day.outcome is Outcome.DIFFER
