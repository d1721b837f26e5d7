"""What the workshop shows while somebody types has the ratios of the whole examination."""

import pytest

from tests.worked.opened import CARS, book_and_version, case_of, opinion_of
from witnessmark.examination import quick_answer

IN_TESTS = ("clean", "altered")
"""A car that is as claimed and one that is not; the others in `make prove`."""


@pytest.mark.parametrize(
    "car",
    [pytest.param(car, marks=() if car in IN_TESTS else pytest.mark.prove) for car in CARS],
)
def test_a_quick_answer_has_the_ratios_of_the_whole(car):
    book, _ = book_and_version()
    quick, whole = quick_answer(case_of(car), book), opinion_of(car).answer
    assert [(c.question, c.about, c.log10_lr) for c in quick.conclusions] == [
        (c.question, c.about, c.log10_lr) for c in whole.conclusions
    ]
    assert quick.misfits == whole.misfits
