"""What a car's own marks say of its year, model and works, and that all its readings use it."""

from datetime import date

import pytest

from tests.agreement.readings import CHEVROLET, FORD, TARVANE, car_read
from witnessmark.agreement import Outcome, compare
from witnessmark.agreement.car import marks_of_car
from witnessmark.agreement.own_days import with_own_days
from witnessmark.casefile import Casefile, MarkReading
from witnessmark.codebook import CarContext

DOOR = "76A R 28 23A 11 2 6\n5F08T412345"


def years(of_car, mark, field):
    """The years of the days that a date field says first."""
    [decoding] = [each for each in with_own_days(of_car) if each.mark == mark]
    [meaning] = [each for each in decoding.alternatives[0].fields if each.field == field]
    return {span.first.year for span in meaning.spans}


@pytest.mark.parametrize(
    ("book_id", "first", "dated", "field", "found"),
    [
        (CHEVROLET, "number_plate=124379N506071", "engine_pad=V0101DZ", "engine_date", {1969}),
        (CHEVROLET, "hidden_number_cowl=19N506071", "engine_pad=V0101DZ", "engine_date", {1969}),
        (CHEVROLET, "partial_number_gearbox=18N306071", "axle_stamp=BS1101G1", "date", {1967}),
        (FORD, "dash_plate=8F02R135071", "panel_stamp=4 15 C3", "date", {1968}),
        (FORD, f"door_plate_1965={DOOR}", "block_date=5A4", "date", {1965}),
        (TARVANE, "frame_number=2 582063", "engine_casting=14B8", "date", {1958}),
        (TARVANE, "plate_brass=SA|550123|11900|14|C1|410|", "engine_casting=14B5", "date", {1955}),
    ],
)  # fmt: skip
def test_the_year_of_one_mark_dates_the_others(book_id, first, dated, field, found):
    """In whatever order they were typed."""
    mark = dated.partition("=")[0]
    assert years(car_read(book_id, first, dated), mark, field) == found
    assert years(car_read(book_id, dated, first), mark, field) == found


@pytest.mark.parametrize(
    ("book_id", "mark"),
    [
        ("dated-parts", "seat_belt_label=1970"),
        ("seventeen-characters", "vehicle_number=1M8GDM9AXKP042788"),
    ],
)  # fmt: skip
def test_a_book_of_any_maker_leaves_open_what_it_cannot_know(book_id, mark):
    """No model, no works."""
    known = car_read(book_id, mark).known
    assert (known.model, known.works) == (None, frozenset())


def test_the_title_dates_the_rest_where_no_plate_was_read():
    found = car_read(CHEVROLET, "engine_pad=V0101DZ", title="124379N506071")
    assert found.of_car.marks_that_tell("model_year") == ("title",)
    assert years(found, "engine_pad", "engine_date") == {1969}


def test_what_is_given_is_never_replaced_and_the_contradiction_is_told():
    found = car_read(
        CHEVROLET, "number_plate=124379N506071", "engine_pad=V0401MO", context=CarContext(1968)
    )
    assert found.known.model_year == 1968
    [told] = found.of_car.contradictions
    assert (told.item, told.given) == ("model_year", "1968")
    assert told.said == (("1969", ("number_plate",)),)
    assert years(found, "engine_pad", "engine_date") <= {1967, 1968}


def test_the_number_of_the_body_goes_before_those_of_engine_and_gearbox():
    found = car_read(
        CHEVROLET, "partial_number_engine=18N306071", "partial_number_gearbox=18N306071",
        "hidden_number_cowl=19N506071",
    )  # fmt: skip
    assert found.known.model_year == 1969
    assert found.of_car.contradictions == ()


def test_marks_of_one_rank_that_contradict_each_other_give_nothing_and_that_is_told():
    found = car_read(
        CHEVROLET, "number_plate=124379N506071", "hidden_number_cowl=18N306071",
        "partial_number_engine=18N306071", "engine_pad=V0101DZ",
    )  # fmt: skip
    assert found.known.model_year is None
    [told] = found.of_car.contradictions
    assert told.said == (("1969", ("number_plate",)), ("1968", ("hidden_number_cowl",)))
    assert found.known.works == {"norwood"}


def test_a_code_from_memory_names_no_model_to_other_marks(book_from_memory):
    case = Casefile(
        id="car", book=TARVANE, readings=(MarkReading(mark="frame_number", text="2 582063"),)
    )
    assert marks_of_car(case, book_from_memory, CarContext()).known == CarContext()


def test_a_worn_year_names_none():
    assert car_read(CHEVROLET, "partial_number_engine=1?N??????").known.model_year is None


def test_a_stamp_with_its_number_is_two_readings():
    found = car_read(CHEVROLET, "engine_pad=V0101DZ 19N506071")
    assert [each.mark for each in found.decodings] == ["engine_pad", "partial_number_engine"]
    assert years(found, "engine_pad", "engine_date") == {1969}


def test_a_number_that_was_also_typed_by_itself_is_one_reading():
    found = car_read(CHEVROLET, "engine_pad=V0101DZ 19N506071", "partial_number_engine=19N506071")
    assert [each.mark for each in found.decodings] == ["engine_pad", "partial_number_engine"]
    both = car_read(CHEVROLET, "engine_pad=V0101DZ 19N506071", "partial_number_engine=19N506072")
    assert len(both.decodings) == 3


def test_what_is_not_like_its_mark_is_compared_with_nothing():
    found = car_read(CHEVROLET, "number_plate=hello world", "partial_number_engine=19N506071")
    assert found.decodings[0].is_unlike
    assert {s.mark for f in compare(found) for s in f.subjects} == {"partial_number_engine"}


def test_what_has_the_form_of_another_mark_is_compared_with_nothing_either():
    """The number behind the stamp, typed as the stamp; its line says which mark it may be."""
    found = car_read(CHEVROLET, "engine_pad=19N506071", "number_plate=124379N506072")
    assert found.decodings[0].slip.others[0] == "partial_number_engine"
    assert {s.mark for f in compare(found) for s in f.subjects} == {"number_plate"}


def test_a_number_of_another_year_on_a_panel_is_compared():
    """The whole number where a body of 1957 bears its last four."""
    found = car_read(TARVANE, "seat_chassis_tail=E 590417", "frame_number=4 700222")
    [tail] = [f for f in compare(found) if f.topic == "chassis_number" and len(f.subjects) == 2]
    assert tail.outcome is Outcome.DIFFER


def test_a_date_is_told_for_the_week_of_the_plate_and_compared_without_it():
    """15 February of 1968 or of 1969; the plate is of March 1969."""
    found = car_read(
        CHEVROLET, "engine_pad=V0215DZ",
        "body_plate_norwood_1969=ST 69-12437 NOR 123456 BDY|TR 711|72 72|03B",
    )  # fmt: skip
    assert years(found, "engine_pad", "engine_date") == {1969}
    [seen] = [f for f in compare(found) if f.topic == "engine-to-plate-week"]
    assert seen.outcome is Outcome.AGREE
    assert "(15 February 1968 or 15 February 1969)" in seen.observation


def test_a_date_that_fits_no_week_keeps_all_its_years():
    found = car_read(
        CHEVROLET, "engine_pad=V0615DZ",
        "body_plate_norwood_1969=ST 69-12437 NOR 123456 BDY|TR 711|72 72|03B",
    )  # fmt: skip
    [pad, _] = with_own_days(found)
    [day] = [each for each in pad.alternatives[0].fields if each.field == "engine_date"]
    assert date(1969, 6, 15) in [span.first for span in day.spans]
