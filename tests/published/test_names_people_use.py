"""What the trade calls marks, models and works is understood in every shipped book."""

import pytest

from tests.published.books import CHEVROLET, FORD, SHIPPED, TARVANE, VOLKSWAGEN, opened
from witnessmark.casefile import case_from
from witnessmark.codebook import CarContext
from witnessmark.codebook.checks.aliases import form_of
from witnessmark.codebook.names import names_of, plain_name
from witnessmark.decoding import decode
from witnessmark.decoding.mark_meant import marks_meant
from witnessmark.decoding.slips import example_of
from witnessmark.examination import in_book_words
from witnessmark.reading import parse_reading


@pytest.mark.parametrize("book_id", SHIPPED)
def test_every_mark_of_the_book_has_names_that_find_it_on_each_car_that_bears_it(book_id):
    """And where a name finds more than one mark of a car, the car bears one of them."""
    book = opened(book_id)
    for mark in book.marks:
        assert mark.aliases, mark.id
        for name in names_of(mark):
            applies = name.applies
            works = next(iter(sorted(applies.works)), "")
            car = CarContext(
                applies.first_year,
                next(iter(sorted(applies.models)), None),
                frozenset({works} if works else ()),
            )
            found = book.marks_named(name.name.upper().replace(" ", "-"), car)
            assert mark in found, (mark.id, name.name)
            if name in mark.aliases and works:
                assert {form_of(each) for each in found} == {form_of(mark)}, name.name


@pytest.mark.parametrize(
    ("book_id", "typed", "car", "mark"),
    [
        (CHEVROLET, "VIN", CarContext(1964), "number_plate_1964"),
        (CHEVROLET, "vin plate", CarContext(1969), "number_plate"),
        (CHEVROLET, "dash-vin", CarContext(1972), "number_plate_1972"),
        (
            CHEVROLET,
            "Trim Tag",
            CarContext(1969, "camaro", frozenset({"norwood"})),
            "body_plate_norwood_1969",
        ),
        (CHEVROLET, "cowl tag", CarContext(1970, "chevelle"), "body_plate_1969"),
        (CHEVROLET, "pad stamp", CarContext(1969), "engine_pad"),
        (CHEVROLET, "partial vin", CarContext(1969), "partial_number_engine"),
        (CHEVROLET, "protect o plate", CarContext(1969), "owner_plate_1967"),
        (FORD, "vin", CarContext(1966, "mustang"), "apron_stamp"),
        (FORD, "vin", CarContext(1969, "mustang"), "dash_plate"),
        (FORD, "Door Tag", CarContext(1966), "door_plate_1965"),
        (FORD, "data plate", CarContext(1968), "door_plate_1967"),
        (FORD, "buck-tag", CarContext(), "buck_tag"),
        (FORD, "engine vin", CarContext(1967), "engine_stamp_early"),
        ("dated-parts", "glass AS number", CarContext(), "glazing_item"),
        ("seventeen-characters", "vin", CarContext(), "vehicle_number"),
        (TARVANE, "Chassis Plate", CarContext(1955), "plate_brass"),
        (TARVANE, "chassis plate", CarContext(1959), "plate_aluminium"),
        (TARVANE, "wing number", CarContext(1957), "wing_chassis_tail"),
    ],
)
def test_a_name_of_the_trade_means_this_mark_on_this_car(book_id, typed, car, mark):
    assert [each.id for each in opened(book_id).marks_named(typed, car)] == [mark]


@pytest.mark.parametrize(
    ("book_id", "typed", "text", "mark"),
    [
        (CHEVROLET, "vin", "124379N506070", "number_plate"),
        (CHEVROLET, "vin", "45837B123456", "number_plate_1964"),
        (CHEVROLET, "axle stamp", "BE0125G1", "axle_stamp"),
        (CHEVROLET, "axle code", "BEG0125", "axle_stamp_plant_first"),
        ("dated-parts", "tire date", "3197", "tire_week_4"),
        ("dated-parts", "tire date", "319", "tire_week_3"),
    ],
)
def test_where_a_name_leaves_several_marks_the_reading_chooses(book_id, typed, text, mark):
    assert [each.id for each in marks_meant(opened(book_id), typed, text)] == [mark]


def test_where_nothing_decides_only_the_marks_that_the_reading_fits_are_left():
    """No bus has a prefix, and no bare number a type figure."""
    book = opened(VOLKSWAGEN)
    offered = [each.id for each in marks_meant(book, "chassis number", "345612")]
    assert offered == ["pan_number_running", "bus_number_running"]
    assert len(book.marks_named("chassis number")) > len(offered)


@pytest.mark.parametrize("book_id", SHIPPED)
def test_no_mark_is_offered_that_the_reading_is_nothing_like_where_another_fits(book_id):
    """Of each name of several marks the example of the last, with 1 in the places of a number."""
    book = opened(book_id)
    last = {plain_name(each.name): mark for mark in book.marks for each in names_of(mark)}
    for name, mark in last.items():
        if len(book.marks_named(name)) > 1:
            text = example_of(book, mark, mark.applies).replace("?", "1")
            offered = marks_meant(book, name, text)
            read = [decode(parse_reading(text, each), book, each) for each in offered]
            assert not any(each.is_unlike for each in read), (mark.id, name, text)


@pytest.mark.parametrize("book_id", SHIPPED)
def test_every_model_and_works_is_found_by_id_and_name_in_any_case(book_id):
    book = opened(book_id)
    for model in book.models:
        assert book.model_named(model.id.upper()) is model
        assert book.model_named(model.name.swapcase()) is model
    for works in book.works:
        assert book.works_named(works.id.upper().replace("-", " ")) is works
        assert book.works_named(works.name.swapcase()) is works


def test_parts_of_long_names_find_models_and_works():
    chevrolet, ford = opened(CHEVROLET), opened(FORD)
    found = [chevrolet.model_named(typed) for typed in ("El Camino", "impala", "Chevy II")]
    assert [each and each.id for each in found] == ["chevelle", "full-size", "nova"]
    assert ford.model_named("Galaxie").id == "big-ford"
    assert chevrolet.works_named("Van Nuys").id == "los-angeles"
    assert ford.works_named("Edison").id == "metuchen"


def test_a_case_in_the_words_of_the_trade_becomes_a_case_of_the_book():
    """The rooms behind see the ids of the book alone."""
    document = {
        "id": "camaro",
        "book": CHEVROLET,
        "claim": {
            "items": {"model": "Camaro", "model_year": "1969", "works": "NORWOOD"},
            "statements": [{"about": "Pad", "says": "never decked"}],
        },
        "readings": [
            {"mark": "VIN plate", "text": "124379N506070"},
            {"mark": "trim tag", "text": "ST 69|12437|NOR 123456 BODY"},
            {"mark": "engine_pad", "text": "V0101DZ"},
        ],
        "papers": [{"mark": "POP", "state": "copy", "copied_from": "pad stamp"}],
    }
    case = in_book_words(case_from(document), opened(CHEVROLET))
    assert case.claim.items == {"model": "camaro", "model_year": "1969", "works": "norwood"}
    assert case.claim.statements[0].about == "engine_pad"
    assert [reading.mark for reading in case.readings] == [
        "number_plate",
        "body_plate_norwood_1969",
        "engine_pad",
    ]
    assert (case.papers[0].mark, case.papers[0].copied_from) == ("owner_plate_1967", "engine_pad")


def test_a_case_in_the_words_of_the_book_is_the_same_case():
    case = case_from(
        {
            "id": "sprint",
            "book": TARVANE,
            "claim": {"items": {"model": "solent-sprint", "body_works": "marrick"}},
            "readings": [{"mark": "frame_number", "text": "4 700143"}],
        }
    )
    assert in_book_words(case, opened(TARVANE)) is case
