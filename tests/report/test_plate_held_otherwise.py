"""What holds a plate otherwise than the works left it stands where an inspector looks first."""

from dataclasses import replace
from functools import partial

import pytest

from tests.report.contradictions import contradictions
from tests.report.told import examined_quickly, texts, told_of
from tests.worked.situations.document import book_of, casefile
from tests.worked.situations.standard import EVERY, STANDARD
from witnessmark.agreement.look_class import place_looked
from witnessmark.casefile import Casefile, LookClass, LookSeen
from witnessmark.casefile.records import Statement, WorkSaid
from witnessmark.codebook import CodeBook
from witnessmark.examination import car_context, car_marks
from witnessmark.weighing.conclusions.misfits import misfits
from witnessmark.weighing.network.build import noted
from witnessmark.weighing.records import MisfitKind
from witnessmark.wording.case_words import looked_sentence

HOLDS = {"fixing", "fixings", "rivets", "screw"}


def doubtful(case: Casefile, book: CodeBook) -> list[LookSeen]:
    """Every doubtful way in which the plates of this car can be held."""
    context = car_context(case, book)
    return [
        LookSeen(site=each.site, feature=each.id, outcome=outcome.id)
        for each in book.features
        if each.id in HOLDS and each.applies.covers(context)
        for outcome in each.outcomes
        if outcome.look is LookClass.DOUBTFUL
    ]


@pytest.mark.parametrize("car", EVERY)
def test_it_does_not_fit_and_the_sentence_says_what_it_means_and_does_not(car: str) -> None:
    book, case = book_of(STANDARD[car].book), casefile(STANDARD[car])
    looks = doubtful(case, book)
    # A plate of a Beetle is held by nothing of which its book tells.
    assert bool(looks) != (book.id == "volkswagen-1950-1979")
    for look in looks:
        found = misfits(noted(car_marks(replace(case, looks=(look,)), book)), ())
        (told,) = (each for each in found if look.site in each.about)
        is_known = told.kind is MisfitKind.UNUSUAL and told.argues
        assert is_known or (told.kind, told.basis.weighs) == (MisfitKind.TOLD, False)
        assert f"“{look.outcome}”, where the works left “" in told.sentence
        assert told.sentence.endswith("in honest work too; this look alone does not say why.")


RIVETS = LookSeen(site="door", feature="rivets", outcome="unlike them")


def test_unlike_rivets_stand_on_page_one_in_the_story_and_on_the_screen() -> None:
    book, case = book_of(STANDARD["mustang"].book), casefile(STANDARD["mustang"])
    told = told_of(examined_quickly(replace(case, looks=(*case.looks, RIVETS)), book), book)
    begin = (
        "Unusual: What holds the warranty plate on the door's lock face is not as the works left "
        "it: rivets"
    )
    assert any(each.startswith(begin) for each in texts(told.front))
    assert [each for each in told.misfits if each.startswith(begin)]
    assert begin.partition(": rivets")[0] in "\n".join(texts(told.screen.front))
    assert contradictions(told) == []


def test_as_it_was_declared_it_is_no_alarm() -> None:
    book, case = book_of(STANDARD["frame"].book), casefile(STANDARD["frame"])
    (look, *_) = doubtful(case, book)
    said = Statement(about="number_plate", says="Taken off for paint.", work=WorkSaid.REFITTED)
    case = replace(case, looks=(look,), claim=replace(case.claim, statements=(said,)))
    (told,) = (e for e in misfits(noted(car_marks(case, book)), ()) if look.site in e.about)
    assert told.kind is MisfitKind.DECLARED


@pytest.mark.parametrize(
    ("outcomes", "sentence"),
    [
        (
            {"surface": "factory"},
            "1 of 2 features of the metal at the scuttle was looked at, and looks as the factory "
            "left it.",
        ),
        (
            {"surface": "factory", "fixings": "screws"},
            "The metal at the scuttle looks on the whole as the factory left it, but not all of "
            "it: fixings.",
        ),
    ],
)
def test_the_metal_is_said_to_look_as_made_as_far_as_it_was_looked_at(
    outcomes: dict[str, str], sentence: str
) -> None:
    book, case = book_of(STANDARD["frame"].book), casefile(STANDARD["frame"])
    at = partial(LookSeen, site="scuttle")
    looks = tuple(at(feature=feature, outcome=each) for feature, each in outcomes.items())
    looked = place_looked(car_marks(replace(case, looks=looks), book), "scuttle")
    assert looked_sentence(looked, "scuttle") == sentence
