"""A number lies in a series that the maker used for this works, model and year."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.agreement.readings import CHEVROLET, car_read
from tests.published.books import SHIPPED, opened
from witnessmark.agreement import Outcome
from witnessmark.agreement.numbering import NumberRange, inside_share
from witnessmark.agreement.rules.number_in_its_series import compare
from witnessmark.agreement.showing import Showing, certain_places
from witnessmark.codebook import (
    Applies,
    Basis,
    CarContext,
    Citation,
    Condition,
    Item,
    ItemKind,
    MarkKind,
)
from witnessmark.decoding import PlaceSeen as Place
from witnessmark.weighing.evidence.numbers import spreads_of


def on(findings, mark, topic="chassis_number"):
    """The one finding on this mark and item."""
    [found] = [f for f in findings if f.topic == topic and f.subjects[0].mark == mark]
    return found


def test_a_number_inside_the_series_agrees_and_the_series_is_named(car):
    found = on(compare(car(frame_number="4 700137")), "frame_number")
    assert found.outcome is Outcome.AGREE
    assert found.observation == (
        "Chassis number: the frame stamping reads 700137. "
        "The book has the series 700119 to 700164 (Sprints of 1955, of 140 in all)."
    )


def test_a_number_outside_differs_and_the_series_it_lies_in_is_named(car):
    found = on(compare(car(frame_number="4 552050")), "frame_number")
    assert found.outcome is Outcome.DIFFER
    assert "The number lies in 552001 to 552172 (dropheads of 1955)." in found.observation
    assert "is not consistent with the series" in found.inference


def test_the_claimed_number_is_tested_too(car):
    claim = {"chassis_number": "700164", "model": "solent-sprint", "model_year": "1955"}
    assert on(compare(car(claim)), "claim").outcome is Outcome.AGREE
    claim["chassis_number"] = "700165"
    assert on(compare(car(claim)), "claim").outcome is Outcome.DIFFER


def test_a_worn_place_that_decides_leaves_it_open(car):
    found = on(compare(car(frame_number="4 7001?7")), "frame_number")
    assert found.outcome is Outcome.UNDECIDED


def test_a_worn_place_that_does_not_decide_changes_nothing(car):
    found = on(compare(car(frame_number="4 70013?")), "frame_number")
    assert found.outcome is Outcome.AGREE


def test_no_series_for_this_car_is_silent(car):
    claim = {"model": "solent-sprint", "model_year": "1958"}
    found = on(compare(car(claim, frame_number="4 700137")), "frame_number")
    assert found.outcome is Outcome.SILENT
    assert found.agreement_share is None
    assert "it is silent" in found.inference


def test_a_factory_exchange_engine_lies_in_a_series_of_its_own(car):
    found = on(compare(car(engine_number="X 02155")), "engine_number", "engine_number")
    assert found.outcome is Outcome.AGREE
    assert "factory exchange engines" in found.observation


def test_a_known_exception_silences_a_difference_and_is_named(car):
    """Marrick bodies 0731 to 0742 bear the order number of the body they replaced."""
    claim = {"model": "solent-drophead", "model_year": "1954", "body_works": "marrick"}
    found = on(compare(car(claim, wing_body_number="M 0735")), "wing_body_number", "body_number")
    assert "Known exception: Twelve Marrick bodies" in found.observation
    assert found.outcome is Outcome.AGREE


@pytest.fixture
def by_type(book):
    """The series of the Sprint, which holds for its type figure alone."""
    own = [r for r in book.series if r.item == "chassis_number" and r.first == "700119"]
    only = Condition("model", frozenset({"solent-sprint"}))
    return replace(book, series=tuple(replace(row, also=(only,)) for row in own))


def test_a_series_of_a_code_holds_where_its_mark_bears_that_code(car, by_type):
    def told(frame, claim=None):
        made = car(claim or {"model_year": "1955"}, of_book=by_type, frame_number=frame)
        return on(compare(made), "frame_number")

    assert told("4 700137").outcome is Outcome.AGREE
    assert told("4 700237").outcome is Outcome.DIFFER
    assert told("2 700137").outcome is Outcome.SILENT


def test_one_of_the_values_that_a_car_has_at_once_decides_its_series(car, by_type):
    """A claim of several values holds the series of one of them, whatever stands beside it."""
    only = (Condition("paint", frozenset({"signal-red"})),)
    items = tuple(replace(each, many=each.id == "paint") for each in by_type.items)
    rows = tuple(replace(row, also=only) for row in by_type.series)
    book = replace(by_type, items=items, series=rows)
    for said, outcome in (
        ("signal-red", Outcome.AGREE),
        ("pine-green signal-red", Outcome.AGREE),
        ("signal-red pine-green", Outcome.AGREE),
        ("pine-green", Outcome.SILENT),
    ):
        claim = {"chassis_number": "700137", "model": "solent-sprint", "model_year": "1955"}
        found = on(compare(car(claim | {"paint": said}, of_book=book)), "claim")
        assert found.outcome is outcome, said


def test_several_fields_of_one_item_decide_a_series_together(car, by_type):
    """The frame says the model twice, by its figure; whichever stands last counts no more."""
    frame = next(mark for mark in by_type.marks if mark.id == "frame_number")
    model = next(each for each in frame.fields if each.says == "model")
    twice = replace(frame, fields=(*frame.fields, replace(model, id="once_more")))
    marks = tuple(twice if mark is frame else mark for mark in by_type.marks)
    book = replace(by_type, marks=marks)
    for frame_text, outcome in (
        ("4 700137 4", Outcome.AGREE),
        ("4 700137 ?", Outcome.AGREE),
        ("? 700137 4", Outcome.AGREE),
        ("2 700137 2", Outcome.SILENT),
        ("4 700137 2", Outcome.SILENT),
        ("2 700137 4", Outcome.SILENT),
    ):
        made = car({"model_year": "1955"}, of_book=book, frame_number=frame_text)
        assert on(compare(made), "frame_number").outcome is outcome, frame_text


@pytest.mark.parametrize("book_id", [each for each in SHIPPED if opened(each).series])
def test_a_series_of_a_code_is_compared_by_agreement_alone(book_id):
    """The weighing spreads no number over it."""
    book, only = opened(book_id), (Condition("model", frozenset({"x"})),)
    coded = replace(book, series=tuple(replace(row, also=only) for row in book.series))
    for item in (each for each in map(book.item, {row.item for row in book.series}) if each):
        assert spreads_of(coded, item, CarContext())[1:] == (None, None)


def test_a_series_whose_code_was_not_read_argues_nothing(car, by_type):
    """What another mark says of it is said of another number."""
    for frame, plate in (("? 700137", ""), ("? 700237", ""), ("? 700137", "SP|700137|||||")):
        marks = {"plate_brass": plate} if plate else {}
        found = on(
            compare(car({"model_year": "1955"}, of_book=by_type, frame_number=frame, **marks)),
            "frame_number",
        )
        assert found.outcome is Outcome.SILENT
        told = "With model SP or 4 it lies in 700119 to 700164"
        assert (told in found.observation) is frame.endswith("137")


def test_the_claimed_number_is_of_the_series_of_the_claimed_code(car, by_type):
    claim = {"chassis_number": "700137", "model_year": "1955"}
    assert on(compare(car(claim, of_book=by_type)), "claim").outcome is Outcome.SILENT
    claim["model"] = "solent-sprint"
    assert on(compare(car(claim, of_book=by_type)), "claim").outcome is Outcome.AGREE


@pytest.fixture
def alone(book):
    """The series of the chassis number, those of the Sprint being its alone; others from memory."""
    memory = Citation(Basis.MEMORY, "somebody")
    rows = [
        replace(row, alone=True) if "solent-sprint" in row.applies.models else row
        for row in book.series
        if row.item == "chassis_number" and row.applies.models
    ]
    told = [row if row.alone else replace(row, citation=memory) for row in rows]
    return replace(book, series=tuple(told))


def open_claimed(number):
    return {"chassis_number": number, "model": "solent-drophead", "model_year": "1955"}


def test_a_number_of_another_models_own_range_says_so(car, alone):
    """Whatever is known of the claimed model's numbers: here they are from memory."""
    found = on(compare(car(open_claimed("700137"), of_book=alone)), "claim")
    assert (found.outcome, found.basis.weighs) == (Outcome.DIFFER, True)
    assert found.inference == (
        "The chassis number is consistent with Solent Sprint, not with Solent drophead."
    )


def test_a_range_that_is_not_said_to_be_one_models_alone_says_less(car, alone):
    shared = replace(alone, series=tuple(replace(row, alone=False) for row in alone.series))
    found = on(compare(car(open_claimed("700137"), of_book=shared)), "claim")
    assert ", not with " not in found.inference


def test_a_remembered_range_of_the_claimed_model_leaves_it_possible(car, alone):
    drophead = Applies(1955, 1955, models=frozenset({"solent-drophead"}))
    known = next(row for row in alone.series if row.citation.basis is Basis.MEMORY)
    ours = replace(known, first="700130", last="700140", applies=drophead)
    book = replace(alone, series=(*alone.series, ours))

    def told(number):
        return on(compare(car(open_claimed(number), of_book=book)), "claim").inference

    assert ", not with " not in told("700137")
    assert ", not with " in told("700145")


def test_a_worn_figure_that_decides_leaves_the_model_open(car, alone):
    claim = {"model": "solent-drophead", "model_year": "1955"}
    found = on(compare(car(claim, of_book=alone, frame_number="? 7001?7")), "frame_number")
    assert ", not with " not in found.inference
    found = on(compare(car(claim, of_book=alone, frame_number="? 70013?")), "frame_number")
    assert "consistent with Solent Sprint, not with" in found.inference


def test_the_tail_of_a_number_is_not_set_against_a_series(car):
    claim = {"model": "solent-sprint", "model_year": "1957", "body_works": "marrick"}
    findings = compare(car(claim, wing_chassis_tail="M 0222"))
    assert [f for f in findings if f.subjects[0].mark == "wing_chassis_tail"] == []


def shown(places, alphabet="0123"):
    """A number of this alphabet with these places."""
    item = Item(id="n", name="number", kind=ItemKind.NUMBER, alphabet=alphabet, length=len(places))
    citation = Citation(Basis.INVENTED, "demo")
    return Showing(
        mark="m",
        name="mark",
        kind=MarkKind.STAMPING,
        field="f",
        field_name="field",
        table="",
        item=item,
        shown="",
        citation=citation,
        is_whole=True,
        places=tuple(places),
    )


LIKELIHOODS = st.lists(
    st.tuples(*[st.sampled_from([0.001, 0.01, 0.2, 0.9])] * 4), min_size=3, max_size=3
)
NUMBERS = st.text("0123", min_size=3, max_size=3)


@given(LIKELIHOODS, st.lists(st.tuples(NUMBERS, NUMBERS), max_size=3))
def test_the_share_is_that_of_the_likeliest_number_inside_and_outside(likelihoods, ends):
    """Against a walk through all numbers, one by one."""
    places = [Place(2 - i, "", row) for i, row in enumerate(likelihoods)]
    ranges = [NumberRange(min(pair), max(pair)) for pair in ends]
    best = {True: 0.0, False: 0.0}
    for number in (a + b + c for a in "0123" for b in "0123" for c in "0123"):
        chance = 1.0
        for place, character in zip(places, number, strict=True):
            chance *= place.likelihood["0123".index(character)]
        inside = any(r.first <= number <= r.last for r in ranges)
        best[inside] = max(best[inside], chance)
    share = inside_share(shown(places), ranges)
    if all(max(row) == min(row) for row in likelihoods):
        assert share is None
    else:
        assert share == pytest.approx(best[True] / (best[True] + best[False]))


@given(NUMBERS, NUMBERS, NUMBERS)
def test_a_certain_number_is_inside_or_outside(number, first, last):
    first, last = min(first, last), max(first, last)
    item = Item(id="n", name="number", kind=ItemKind.NUMBER, alphabet="0123", length=3)
    share = inside_share(shown(certain_places(number, item)), [NumberRange(first, last)])
    assert share == float(first <= number <= last)


def real(*pairs, **more):
    """The findings on a car of a real book with these readings and an invented number."""
    return compare(car_read(CHEVROLET, *pairs, **more))


def test_a_number_past_those_reached_is_undecided_and_the_reason_is_the_books():
    """By its own letter it is of Los Angeles, whose row ends at 560000; Norwood's goes on."""
    for found in real("number_plate=124379L600123", "partial_number_engine=19L600123"):
        assert found.outcome is Outcome.UNDECIDED
        assert "well above it, the number asks for a reason" in found.inference
        assert "500001 to 743000" not in found.observation


def test_the_works_of_a_number_are_those_of_its_own_mark():
    """An engine from the other plant is not read by the row of the car's."""
    of_car, of_engine = real("number_plate=124379N600123", "partial_number_engine=19L600124")
    assert (of_car.outcome, of_engine.outcome) == (Outcome.AGREE, Outcome.UNDECIDED)
    claimed = CarContext(1969, "camaro", frozenset({"norwood"}))
    [found] = real("partial_number_engine=19L600124", context=claimed)
    assert found.outcome is Outcome.UNDECIDED


def test_a_number_may_be_another_models_where_the_model_is_not_known():
    """The book has series of Camaros alone; 27 of 1969 can be a Nova's body."""
    [found] = real("partial_number_engine=19N106071")
    assert found.outcome is Outcome.SILENT
    assert "series for other models only" in found.inference
    [found] = real("partial_number_engine=19N106071", context=CarContext(1969, "camaro"))
    assert found.outcome is Outcome.DIFFER


def test_whoever_names_the_year_is_named_with_the_number():
    [_, engine] = real("number_plate=124379N506071", "partial_number_engine=1?N506071")
    assert [s.mark for s in engine.subjects] == ["partial_number_engine", "number_plate"]
    assert "what the number plate says of works, model and year" in engine.inference
