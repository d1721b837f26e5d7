"""For any of the four cars, turning one look moves what depends on it and nothing else.

Every look is turned. One goes the other way for a good reason: where what a mark shows
already speaks against its part. The engine of `panel` bears another engine's number, the seat
pan of `altered` another car's, its casting and gearbox are dated after the car. There a place
that looks as it left the factory is what makes the other number the part's own; where it looks
disturbed, the number may have been altered on the car's own part. The ratio then moves toward
1, and never past it.
"""

from dataclasses import dataclass

import pytest

from tests.worked.changes import look_class, own_question, site_looking, site_mark
from tests.worked.moved import (
    BEYOND,
    NOTHING,
    assert_sentence_and_strip_follow,
    crossed,
)
from tests.worked.opened import (
    CARS,
    case_of,
    opinion_of,
    ratios,
    ratios_of,
    with_look,
    without_its_bounds,
)
from witnessmark.casefile.records import Casefile, Seen
from witnessmark.weighing import Question


@dataclass(frozen=True, slots=True)
class Turned:
    """One look of a car, turned to the other side."""

    car: str
    at: int
    outcome: str

    def casefile(self) -> Casefile:
        return with_look(case_of(self.car), self.at, self.outcome)

    def __str__(self) -> str:
        look = case_of(self.car).looks[self.at]
        return f"{self.car} {look.site} {look.feature} {self.outcome}"


def turned_looks(which: str) -> list[Turned]:
    """All looks that count as `which`, each turned to the other."""
    other = {"factory": "disturbed", "disturbed": "factory"}[which]
    return [
        Turned(car, at, other)
        for car in CARS
        for at in range(len(case_of(car).looks))
        if look_class(car, at) == which
    ]


def to_disturbed() -> list[object]:
    """Every factory look turned to disturbed."""
    return [pytest.param(each, id=str(each)) for each in turned_looks("factory")]


@pytest.mark.parametrize("turned", to_disturbed())
def test_a_place_that_looks_disturbed_never_speaks_more_for_what_stands_there(
    turned: Turned,
) -> None:
    look = case_of(turned.car).looks[turned.at]
    own = own_question(turned.car, site_mark(turned.car, look.site))
    before, after = ratios_of(turned.car), ratios(turned.casefile())
    if look.seen is Seen.TOLD:
        assert after == pytest.approx(before, abs=NOTHING), "what was only told says nothing"
    elif before[own] > 0:
        assert after[own] < before[own] - NOTHING
    else:
        assert before[own] < after[own] < 0, "what stands there spoke against already"
    assert crossed(before, after, [own]) == []


@pytest.mark.parametrize("turned", turned_looks("disturbed"), ids=str)
def test_a_place_that_looks_as_it_left_the_factory_never_speaks_more_against(
    turned: Turned,
) -> None:
    """One feature of several changes nothing while another of the place stays disturbed."""
    look = case_of(turned.car).looks[turned.at]
    own = own_question(turned.car, site_mark(turned.car, look.site))
    before, after = ratios_of(turned.car), ratios(turned.casefile())
    others = [
        at
        for at, each in enumerate(case_of(turned.car).looks)
        if each.site == look.site and at != turned.at
    ]
    if any(look_class(turned.car, at) == "disturbed" for at in others):
        assert after == pytest.approx(before, abs=NOTHING)
    else:
        assert after[own] > before[own] + NOTHING
    whole = ratios(site_looking(turned.car, look.site, "factory"))
    assert whole[own] > before[own] + NOTHING
    assert crossed(before, whole, [own]) == []


@pytest.mark.parametrize("car", ["clean", "panel"])
def test_a_plate_that_alone_looks_disturbed_takes_the_identity_nearer_one_and_never_below(
    car: str,
) -> None:
    """The plate's own question takes it. (The plate of `no-papers` was told of, not seen.)"""
    identity = next(iter(ratios_of(car)))
    plate = next(key for key in ratios_of(car) if key[0] is Question.PLATE)
    before, after = ratios_of(car), ratios(site_looking(car, "scuttle", "disturbed"))
    assert 0 < after[identity] < before[identity]
    assert after[plate] < BEYOND < before[plate]


@pytest.mark.parametrize("car", CARS)
def test_a_site_that_looks_otherwise_changes_its_evidence_and_what_is_said_and_drawn(
    car: str,
) -> None:
    """Each site in turn, with all that was noted there turned."""
    known = {item.id: item.sentence for item in opinion_of(car).weighing.evidence}
    for site in dict.fromkeys(look.site for look in case_of(car).looks):
        outcome = "factory" if "looks disturbed" in known[f"look:{site}"] else "disturbed"
        changed = without_its_bounds(site_looking(car, site, outcome))
        told = {item.id: item.sentence for item in changed.weighing.evidence}
        assert f"looks {outcome}" in told[f"look:{site}"]
        assert told[f"look:{site}"] != known[f"look:{site}"]
        assert_sentence_and_strip_follow(car, changed)
