"""The sentences of a first look."""

import pytest

from tests.never_said import never_said
from witnessmark.agreement import Outcome
from witnessmark.wording import first_look
from witnessmark.wording.first_look import (
    first_look_answer,
    set_against_the_book,
)

AGREE, DIFFER, UNDECIDED, SILENT = Outcome


@pytest.mark.parametrize(
    ("readings", "outcomes", "sentence"),
    [
        (
            6,
            (AGREE, SILENT),
            (
                "Consistent with one car: in what any two of these six readings say, nothing "
                "differs."
            ),
        ),
        (2, (AGREE,), "Consistent with one car: in what both readings say, nothing differs."),
        (
            3,
            (AGREE, UNDECIDED, DIFFER),
            "Not consistent with one car left as it was built: these three readings differ in "
            "paint and trim.",
        ),
        (
            3,
            (AGREE, UNDECIDED),
            ("In what these three readings have in common, nothing differs; left open: axle."),
        ),
        (2, (UNDECIDED,), "These two readings leave open: axle."),
        (2, (SILENT,), "These readings have nothing in common that could be compared."),
    ],
)
def test_the_answer_is_one_sentence_and_the_worst_that_was_found(readings, outcomes, sentence):
    assert first_look_answer(readings, outcomes, ("paint", "trim"), ("axle",)) == sentence


def test_what_a_mark_says_by_itself_is_a_sentence_of_its_own():
    assert set_against_the_book((), ()) == ""
    assert set_against_the_book(("paint",), ("trim",)) == (
        "By the book alone this does not fit: paint. By the book alone this stays open: trim."
    )


def test_a_first_look_accuses_nobody_and_promises_nothing():
    """None of the words that are never said."""
    said = [
        *first_look.FIRST_LOOK_LIMITS,
        first_look.FIRST_LOOK_LIMIT,
        *first_look.OUTCOME_HEADINGS.values(),
        *(first_look_answer(3, (each,), ("paint",), ("axle",)) for each in Outcome),
    ]
    assert [each for text in said for each in never_said(text)] == []


def test_every_outcome_has_its_heading():
    """None is passed over on a page."""
    assert set(first_look.OUTCOME_HEADINGS) == set(Outcome)
