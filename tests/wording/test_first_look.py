"""The sentences of a first look."""

import pytest

from witnessmark.agreement.records import Outcome
from witnessmark.wording import first_look
from witnessmark.wording.first_look import first_look_sentence
from witnessmark.wording.never import never_said

AGREE, DIFFER, UNDECIDED, SILENT = Outcome


@pytest.mark.parametrize(
    ("outcomes", "sentence"),
    [
        ((AGREE,), "One comparison agrees."),
        ((AGREE, AGREE, DIFFER), "Two comparisons agree and one differs."),
        ((UNDECIDED, UNDECIDED, SILENT), "Two comparisons are undecided."),
        (
            (AGREE, DIFFER, DIFFER, UNDECIDED),
            "One comparison agrees, two differ and one is undecided.",
        ),
        ((SILENT,), "These readings say nothing in common: there was nothing to compare."),
        ((), "These readings say nothing in common: there was nothing to compare."),
    ],
)
def test_the_first_sentence_counts_what_came_out_which_way(outcomes, sentence):
    """Silence is not counted: it is no comparison."""
    assert first_look_sentence(outcomes) == sentence


def test_a_first_look_accuses_nobody_and_promises_nothing():
    """None of the words that are never said."""
    said = [*first_look.FIRST_LOOK_LIMITS, *first_look.OUTCOME_HEADINGS.values()]
    assert [each for text in said for each in never_said(text)] == []


def test_every_outcome_has_its_heading():
    """None is passed over on a page."""
    assert set(first_look.OUTCOME_HEADINGS) == set(Outcome)
