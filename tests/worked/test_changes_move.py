"""For any of the four cars, changing one character moves what depends on it, ratio, sentence
and figure, the way the model's leanings say. (Looks, dates and sites: the two files beside.)

Every clear character of every number is changed: no sample is drawn. The whole examination
with its sentences and strips is made for one change of each mark, the ratios alone for all.

One goes the other way for a good reason: where a mark, or every mark that it agrees with, was
most probably made later. To agree with the claim is what such a mark was made for: whether it
does says little.
"""

import pytest

from tests.worked.changes import (
    AGREES,
    ALONE,
    DIFFERS,
    ClearCharacter,
    clear_characters,
    home_question,
    is_own,
    own_question,
    ratios_with,
    with_character,
)
from tests.worked.moved import (
    assert_sentence_and_strip_follow,
    crossed,
    said_and_drawn,
)
from tests.worked.opened import (
    CARS,
    Key,
    case_of,
    opinion_of,
    opinion_without_bounds_of,
    ratios_of,
    unweighed,
    with_reading,
    without_its_bounds,
)
from witnessmark.figures import agreement_grid
from witnessmark.weighing import Question

LITTLE = 0.005
"""log10: how far the chance agreement of a number with its series may move it by the way."""
BY_SERIES = 1.0
"""log10: most that a number nothing else speaks of says by lying in its series or out of them,
since one own part in ten is out of them."""

every_car = pytest.mark.parametrize("car", CARS)


def marks_with_numbers() -> list[tuple[str, str]]:
    """Every car and mark of which a clear character of a number was read."""
    return [
        pair for car in CARS for pair in dict.fromkeys((car, c.mark) for c in clear_characters(car))
    ]


def characters(car: str, mark: str) -> list[ClearCharacter]:
    return [each for each in clear_characters(car) if each.mark == mark]


def dependent(car: str, change: ClearCharacter) -> list[Key]:
    """The questions on which a number of a mark bears: its own, and its part's.

    The chassis number of a plate or paper bears on the identity too; that of a body does not,
    where a frame bears it.
    """
    own = own_question(car, change.mark)
    found = {own: None}
    home = home_question(car, change.item)
    if home is not None:
        found[home] = None
    if change.item == "chassis_number" and own[0] is not Question.ASSEMBLY:
        found[next(iter(ratios_of(car)))] = None
    return list(found)


def speaks(car: str, change: ClearCharacter) -> bool:
    """Are the mark, and those it agrees with, most probably the claimed car's?"""
    return all(is_own(car, mark) for mark in {change.mark, *change.witnesses})


@every_car
def test_the_ratios_used_here_are_those_of_the_examination(car: str) -> None:
    told = {(c.question, c.about): c.lr.log10_lr for c in opinion_of(car).weighing.conclusions}
    held = {key: max(-4.0, min(4.0, value)) for key, value in ratios_of(car).items()}
    assert held == pytest.approx(told, abs=1e-9)


@every_car
def test_there_is_something_to_change_on_every_car(car: str) -> None:
    """So that the tests below cannot pass for want of input."""
    assert len(clear_characters(car)) >= 30
    assert len(case_of(car).looks) >= 9
    assert len(case_of(car).sites) >= 8
    assert any(each.standing == AGREES for each in clear_characters(car))


@pytest.mark.parametrize(("car", "mark"), marks_with_numbers())
def test_a_character_that_agrees_and_is_made_to_differ_never_speaks_more_for_the_claim(
    car: str, mark: str
) -> None:
    before, wrong = ratios_of(car), []
    for change in characters(car, mark):
        after = ratios_with(car, change, change.other_character())
        for key in dependent(car, change):
            moved = after[key] - before[key]
            if change.standing == ALONE and abs(moved) > BY_SERIES:
                wrong.append((change, key, moved, "only its series speaks of it"))
            elif change.standing == AGREES and speaks(car, change) and moved > LITTLE:
                wrong.append((change, key, moved, "it agreed"))
            elif change.standing == AGREES and not speaks(car, change) and moved > 1.2 * BY_SERIES:
                wrong.append((change, key, moved, "it agreed, for what little that said"))
            elif change.standing == DIFFERS and moved < -LITTLE:
                wrong.append((change, key, moved, "it differed and was made to agree"))
        for key in crossed(before, after, dependent(car, change)):
            wrong.append((change, key, after[key], "it does not depend on this mark"))
    assert wrong == []


@pytest.mark.parametrize(("car", "mark"), marks_with_numbers())
def test_a_worn_character_lies_between_one_that_agrees_and_one_that_differs(
    car: str, mark: str
) -> None:
    """Doubt carried through: `?` says nothing, so it takes away what the character said."""
    before, wrong = ratios_of(car), []
    for change in characters(car, mark):
        if not (change.standing == AGREES and speaks(car, change)):
            continue
        worn = ratios_with(car, change, "?")
        other = ratios_with(car, change, change.other_character())
        for key in dependent(car, change):
            if not other[key] - LITTLE <= worn[key] <= before[key] + LITTLE:
                wrong.append((change, key, other[key], worn[key], before[key]))
    assert wrong == []


@pytest.mark.parametrize(("car", "mark"), marks_with_numbers())
def test_a_changed_character_changes_a_finding_and_the_grid(car: str, mark: str) -> None:
    """The observation shows the new character; the old one is no longer in the grid."""
    base = opinion_of(car)
    known = {finding.observation for finding in base.findings}
    drawn = agreement_grid(base).svg
    for change in characters(car, mark):
        changed = unweighed(car, with_character(car, change, change.other_character()))
        new = [f for f in changed.findings if f.observation not in known]
        assert [f for f in new if any(s.mark == mark for s in f.subjects)], change
        assert agreement_grid(changed).svg != drawn, change
        if change.standing == AGREES and not _is_doubted(car, change):
            about = [f for f in new if f.topic == change.item]
            assert [f for f in about if f.outcome.value in ("differ", "undecided")], change


def _is_doubted(car: str, change: ClearCharacter) -> bool:
    """Has somebody else read this mark too, whose reading then stands against the change?"""
    return sum(reading.mark == change.mark for reading in case_of(car).readings) > 1


@pytest.mark.parametrize(("car", "mark"), marks_with_numbers())
def test_a_ratio_that_moves_takes_its_sentence_and_its_strip_along(car: str, mark: str) -> None:
    """One character of each mark's first number, changed in every reading of the mark: where
    one of two examiners alone reads otherwise, hardly anything moves."""
    numbers = characters(car, mark)
    read_by = sum(reading.mark == mark for reading in case_of(car).readings)
    first = [each for each in numbers if each.item == numbers[0].item]
    same = [[each for each in first if each.place == one.place] for one in first]
    changes = next(each for each in reversed(same) if len(each) == read_by)
    change = changes[0]
    casefile = case_of(car)
    for each in changes:
        typed = with_character(car, each, change.other_character()).readings[each.at].text
        casefile = with_reading(casefile, each.at, typed)
    changed = without_its_bounds(casefile)
    assert_sentence_and_strip_follow(car, changed)
    if change.standing == AGREES and speaks(car, change):
        assert said_and_drawn(changed, own_question(car, mark)) != said_and_drawn(
            opinion_without_bounds_of(car), own_question(car, mark)
        )
