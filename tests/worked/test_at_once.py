"""What the workshop shows while somebody types has the ratios of the whole examination."""

import pytest

from tests.worked.opened import CARS, book_and_version, case_of, opinion_of
from witnessmark.examination import quick_answer


@pytest.mark.parametrize("car", CARS)
def test_a_quick_answer_has_the_ratios_of_the_whole(car):
    book, _ = book_and_version()
    quick, whole = quick_answer(case_of(car), book), opinion_of(car).answer
    assert [(c.question, c.about, c.log10_lr) for c in quick.conclusions] == [
        (c.question, c.about, c.log10_lr) for c in whole.conclusions
    ]
    assert quick.misfits == whole.misfits
