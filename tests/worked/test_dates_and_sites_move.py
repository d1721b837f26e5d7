"""For any of the four cars, a date typed otherwise or a site taken away moves what depends on it.

Dates of parts are moved to the other side of the car's despatch. Every site is taken away.
"""

from dataclasses import dataclass

import pytest

from tests.worked.changes import own_question
from tests.worked.moved import (
    NOTHING,
    assert_sentence_and_strip_follow,
    crossed,
    said_and_drawn,
)
from tests.worked.opened import (
    CARS,
    case_of,
    opinion_of,
    opinion_without_bounds_of,
    ratios,
    ratios_of,
    unweighed,
    with_reading,
    without_its_bounds,
    without_site,
)
from witnessmark.casefile.records import Casefile, SiteState
from witnessmark.figures import agreement_grid


@dataclass(frozen=True, slots=True)
class Redated:
    """A date typed otherwise on one mark: before the car's despatch, or after it."""

    car: str
    mark: str
    old: str
    new: str

    def casefile(self) -> Casefile:
        readings = case_of(self.car).readings
        at = next(k for k, r in enumerate(readings) if r.mark == self.mark and self.old in r.text)
        return with_reading(case_of(self.car), at, readings[at].text.replace(self.old, self.new))

    def __str__(self) -> str:
        return f"{self.car} {self.mark} {self.old} to {self.new}"


AFTER_DESPATCH = [
    # clean: despatched in May 1955
    Redated("clean", "engine_casting", "10?5", "10K5"),  # October
    Redated("clean", "gearbox_stamp", "145", "405"),  # week 40
    Redated("clean", "axle_stamp", "1203", "1403"),  # 200 days later
    Redated("clean", "body_week", "DB5", "JB5"),  # October
    Redated("clean", "build_card", "090555", "200755"),
    # no-papers: said to be of September 1955
    Redated("no-papers", "gearbox_stamp", "325", "505"),  # week 50
    Redated("no-papers", "body_week", "?C?", "LC5"),  # December
    # panel: despatched on 2 September 1958
    Redated("panel", "gearbox_stamp", "308", "458"),  # week 45
    Redated("panel", "axle_stamp", "2409", "2600"),  # February 1959
    # altered: said to be of October 1957
    Redated("altered", "build_card", "??????", "101160"),
]
BEFORE_DESPATCH = [
    Redated("panel", "engine_casting", "08F0", "08F8"),  # June 1958
    Redated("altered", "engine_casting", "21D9", "21D7"),  # April 1957
    Redated("altered", "gearbox_stamp", "199", "277"),  # week 27 of 1957
]


@pytest.mark.parametrize("redated", AFTER_DESPATCH, ids=str)
def test_a_part_dated_after_the_car_left_speaks_against_the_part(redated: Redated) -> None:
    own = own_question(redated.car, redated.mark)
    before, after = ratios_of(redated.car), ratios(redated.casefile())
    # The week of no-papers was read off a photograph, worn: it may be misread.
    is_doubtful = (redated.car, redated.mark) == ("no-papers", "body_week")
    assert after[own] < before[own] - (0.3 if is_doubtful else 0.5)
    assert crossed(before, after, [own]) == []
    differing = _dates_found(redated, "differ")
    assert differing
    assert "before the first" in differing[0]


@pytest.mark.parametrize("redated", BEFORE_DESPATCH, ids=str)
def test_a_part_dated_before_the_car_left_no_longer_speaks_against_the_part(
    redated: Redated,
) -> None:
    own = own_question(redated.car, redated.mark)
    before, after = ratios_of(redated.car), ratios(redated.casefile())
    assert after[own] > before[own] + 0.5
    assert crossed(before, after, [own]) == []
    assert _dates_found(redated, "agree")


def _dates_found(redated: Redated, outcome: str) -> list[str]:
    """The new observations of this outcome about the order of dates on the mark."""
    known = {finding.observation for finding in opinion_of(redated.car).findings}
    return [
        finding.observation
        for finding in unweighed(redated.car, redated.casefile()).findings
        if finding.rule == "dates_in_order"
        and finding.outcome.value == outcome
        and finding.observation not in known
        and any(subject.mark == redated.mark for subject in finding.subjects)
    ]


@pytest.mark.parametrize(
    "redated", [AFTER_DESPATCH[0], AFTER_DESPATCH[5], *BEFORE_DESPATCH], ids=str
)
def test_a_changed_date_is_said_and_drawn(redated: Redated) -> None:
    changed = without_its_bounds(redated.casefile())
    assert_sentence_and_strip_follow(redated.car, changed)
    own = own_question(redated.car, redated.mark)
    before = opinion_without_bounds_of(redated.car)
    assert said_and_drawn(changed, own) != said_and_drawn(before, own)
    assert agreement_grid(changed).svg != agreement_grid(opinion_of(redated.car)).svg


@pytest.mark.parametrize(
    "redated",
    [
        Redated("clean", "despatch_ledger", "120555", "120556"),
        Redated("panel", "despatch_ledger", "020958", "020959"),
    ],
    ids=str,
)
def test_a_ledger_that_gives_another_day_of_despatch_speaks_against_the_ledger(
    redated: Redated,
) -> None:
    own = own_question(redated.car, redated.mark)
    assert ratios(redated.casefile())[own] < ratios_of(redated.car)[own] - NOTHING


def all_sites() -> list[tuple[str, str]]:
    return [(car, visit.site) for car in CARS for visit in case_of(car).sites]


@pytest.mark.parametrize(("car", "site"), all_sites())
def test_a_site_that_was_not_looked_for_is_exactly_as_if_it_had_never_been_listed(
    car: str, site: str
) -> None:
    never = ratios(without_site(case_of(car), site, None))
    for state in (SiteState.NOT_LOOKED_FOR, SiteState.NOT_ACCESSIBLE):
        unseen = ratios(without_site(case_of(car), site, state))
        assert unseen == pytest.approx(never, abs=1e-12)


@pytest.mark.parametrize(("car", "site"), all_sites())
def test_a_site_that_was_not_looked_for_leaves_the_findings_and_stands_under_the_limits(
    car: str, site: str
) -> None:
    changed = without_its_bounds(without_site(case_of(car), site, SiteState.NOT_LOOKED_FOR))
    marks = {mark for each in changed.sites if each.site == site for mark in each.marks}
    spoken = {subject.mark for finding in changed.findings for subject in finding.subjects}
    assert not spoken & marks
    about = {item.about for item in changed.weighing.evidence}
    assert not about & (marks | {site})
    name = next(each.name for each in changed.sites if each.site == site)
    limits = {each.sentence for each in changed.limitations}
    assert f"The site {name} was not looked for." in limits
    assert_sentence_and_strip_follow(car, changed)
    if any(reading.mark in marks for reading in case_of(car).readings):
        assert agreement_grid(changed).svg != agreement_grid(opinion_of(car)).svg
