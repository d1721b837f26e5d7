"""What the weighing promises beside the laws that tests/worked/situations holds on every car:
what is said first, what drives an answer, what a look foretells."""

import pytest

from tests.weighing.cars import CAMARO, MUSTANG, SALOON, SPRINT, Car, answered, lr
from witnessmark.agreement import compare
from witnessmark.weighing import Asked, MisfitKind, answer

BARE_FRAME = SPRINT.unseen("despatch_ledger", "build_card")


def test_what_does_not_fit_is_read_again_first_with_the_answer_it_will_have():
    """The next look foretells the LR of the same reading, had it been read again."""
    late = CAMARO.but({"block_cast_date": "F79"})
    looks = answer(late.marks(), with_contributions=False).next_looks
    engine = next(each for each in looks if (each.question, each.of) == (Asked.CORE, "engine"))
    again = answered(late.read_again("block_cast_date")).conclusion(Asked.CORE, "engine")
    assert again is not None
    assert engine.about == "block_cast_date"
    assert engine.outcomes[0].log10_lr == pytest.approx(again.log10_lr, abs=1e-9)


def test_contributions_name_the_number_among_what_drives_a_core():
    """The number first, on an engine of which everything agrees."""
    whole = answer(CAMARO.marks(), with_next_looks=False)
    engine = whole.conclusion(Asked.CORE, "engine")
    assert engine is not None
    first = engine.contributions[0]
    assert (first.kind, first.about) == ("number", "partial_number_engine")
    assert first.log10_lr_change > 0.0


@pytest.mark.parametrize("car", [CAMARO, MUSTANG, BARE_FRAME, SALOON], ids=lambda car: car.book)
def test_on_a_standard_car_nothing_is_against_and_nobody_has_to_stop(car: Car):
    """At most a lag of the book is left, and that is unusual."""
    marks = car.marks()
    found = answer(marks, compare(marks), with_contributions=False)
    assert {misfit.kind for misfit in found.misfits} <= {MisfitKind.UNUSUAL}
    assert found.stops == ()


def test_a_serial_that_differs_from_plate_and_papers_is_named():
    """An engine with a number of its own: the rules across marks find it."""
    other = BARE_FRAME.but({"engine_number": "L 40031"})
    marks = other.marks()
    found = answer(marks, compare(marks), with_contributions=False)
    assert MisfitKind.AGAINST in {misfit.kind for misfit in found.misfits}
    assert lr(other, Asked.CORE, "engine") < 1.0
