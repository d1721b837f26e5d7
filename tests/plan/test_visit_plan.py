"""The plan of a visit: which places, in which order, and what it never tells."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.examples import tried_on
from tests.worked.opened import CARS, book_and_version, case_of, opinion_of
from witnessmark.casefile import Casefile, Claim, PaperState, SiteState
from witnessmark.codebook import Basis
from witnessmark.plan import Claimed, SitePlan, visit_plan
from witnessmark.plan.care import own_care, shared_care
from witnessmark.plan.walk import minutes_of, reaches_of, round_the_car

BOOK = book_and_version()[0]


def plan_of(**items):
    """The plan of a case that only claims these items."""
    case = Casefile(id="bare", book=BOOK.id, claim=Claim(items=items))
    return visit_plan(case, BOOK, (), None)


def fields_of(plan):
    """Every field of the plan, by mark and field."""
    return {
        (mark.ids[0], field.row.id): field
        for site in plan.sites
        for mark in site.marks
        for window in mark.windows
        for field in window
    }


def test_only_the_places_and_marks_of_this_works_and_year_are_planned():
    """A bulkhead number is Marrick's; the brass plate ended with 1957."""
    marrick = plan_of(model_year="1955", body_works="marrick")
    ellery = plan_of(model_year="1958", body_works="ellery")
    assert "bulkhead" in [site.row.id for site in marrick.sites]
    assert "bulkhead" not in [site.row.id for site in ellery.sites]
    marks = {name for site in ellery.sites for mark in site.marks for name in mark.ids}
    assert "plate_aluminium" in marks
    assert "plate_brass" not in marks


def test_a_claim_of_the_year_alone_gives_the_places_of_every_works():
    """1955 and nothing else."""
    plan = plan_of(model_year="1955")
    assert len(plan.sites) == 9
    assert plan.model == ""
    assert all(field.claimed is not Claimed.CODE for field in fields_of(plan).values())


def test_no_caution_is_lost_where_it_is_said_once_for_several_places():
    """Whatever two places ask for alike stands once; each keeps the rest."""
    bonnet = plan_of(model_year="1955").reaches[0]
    both = "Engine cold; no flame"
    first, second, *_ = bonnet.sites
    asked = (f"Lead: gloves. {both}", f"{both}; battery off.")
    sites = tuple(
        replace(site, row=replace(site.row, caution=each))
        for site, each in zip((first, second), asked, strict=True)
    )
    reach = replace(bonnet, sites=sites)
    assert shared_care(reach) == both
    assert [own_care(each, both) for each in sites] == ["Lead: gloves", "battery off"]
    assert shared_care(replace(reach, sites=sites[:1])) == ""


def test_no_claim_at_all_still_gives_a_plan():
    """An empty claim: every place of the book, once."""
    plan = plan_of()
    assert sorted(site.row.id for site in plan.sites) == sorted({site.id for site in BOOK.sites})


def test_a_place_that_works_put_elsewhere_says_how():
    """The inner wing: right and upright at Ellery, left and upside down at Marrick."""
    wing = next(site for site in plan_of(model_year="1955").sites if site.row.id == "inner_wing")
    told = {each.works: each.row.where for each in wing.variations}
    assert "right-hand side, upright" in told["Ellery Coachworks",]
    assert "upside down" in told["Marrick & Sons",]
    scuttle = next(site for site in plan_of(model_year="1955").sites if site.row.id == "scuttle")
    assert scuttle.variations == ()


def test_a_claimed_code_is_named_and_an_unclaimed_one_is_open():
    """The type of a Sprint is SP; its paint is not claimed."""
    fields = fields_of(plan_of(model="solent-sprint", model_year="1955"))
    kind = fields["plate_brass", "type"]
    assert (kind.claimed, [each.code for each in kind.expected]) == (Claimed.CODE, ["SP"])
    assert fields["plate_brass", "paint"].claimed is Claimed.OPEN


def test_a_code_from_memory_is_marked_as_such():
    """The same row on the basis memory."""
    rows = tuple(
        replace(row, citation=replace(row.citation, basis=Basis.MEMORY))
        if row.code == "SP"
        else row
        for row in BOOK.codes
    )
    case = Casefile(
        id="bare", book=BOOK.id, claim=Claim(items={"model": "solent-sprint", "model_year": "1955"})
    )
    fields = fields_of(visit_plan(case, replace(BOOK, codes=rows), (), None))
    assert fields["plate_brass", "type"].expected[0].is_from_memory


def test_a_date_may_lie_where_the_lags_of_the_book_allow():
    """A car built in May 1955: its block was cast before that, within the longest lag."""
    case = case_of("clean")
    days = fields_of(visit_plan(case, BOOK, (), None))["engine_casting", "date"].dates
    lag = next(each for each in BOOK.lags if each.earlier == "engine_casting_date")
    assert (str(days.last), (days.last - days.first).days) == (
        "1955-05-11",
        lag.most_days - lag.least_days + 30,
    )


def test_a_paper_and_a_place_stand_as_the_case_left_them():
    """The car whose engine side could not be reached and whose card was never asked for."""
    plan = visit_plan(case_of("no-papers"), BOOK, (), None)
    states = {site.row.id: site.state for site in plan.sites}
    assert states["engine_side"] is SiteState.NOT_ACCESSIBLE
    assert states["scuttle"] is SiteState.READ
    assert {paper.state for paper in plan_of().papers} == {PaperState.NOT_ASKED_FOR}


numbers = st.text(alphabet="0123456789", min_size=6, max_size=6)


@given(number=numbers)
@tried_on(40)
def test_the_plan_is_the_same_whatever_number_is_claimed(number):
    """Two cases that differ in their numbers alone have one plan: it knows none of them."""
    case = case_of("clean")
    items = case.claim.items | {"chassis_number": number, "engine_number": number[:5]}
    other = replace(case, claim=replace(case.claim, items=items))
    assert visit_plan(other, BOOK, (), None) == visit_plan(case, BOOK, (), None)


def test_every_number_is_masked_by_a_dot_a_place():
    """Six for a chassis number, four where only its last four stand."""
    case = case_of("panel")
    fields = fields_of(visit_plan(case, BOOK, (), None))
    serials = [each for each in fields.values() if each.claimed is Claimed.SERIAL]
    assert fields["plate_aluminium", "chassis"].masked == "······"
    assert fields["seat_chassis_tail", "chassis"].masked == "····"
    assert fields["seat_chassis_tail", "chassis"].row.part == "last 4"
    assert all(set(each.masked) == {"·"} and not each.expected for each in serials)


def site(**changes) -> SitePlan:
    """A place of no particular car."""
    base = next(each for each in BOOK.sites if each.id == "scuttle")
    plain = {"access_group": "", "access_minutes": 0, "minutes": 5, "posture": ""}
    row = replace(base, **plain | {"along": None, "across": None} | changes)
    return SitePlan(row=row, state=SiteState.NOT_LOOKED_FOR)


per_cent = st.none() | st.integers(0, 100)
places = st.lists(
    st.builds(
        site,
        id=st.text("abc", min_size=1, max_size=3),
        posture=st.sampled_from(["", "standing", "over the wing", "kneeling", "lying"]),
        access_group=st.sampled_from(["", "bonnet", "lift"]),
        access_minutes=st.integers(0, 20),
        dismantling=st.sampled_from(["", "seat out"]),
        minutes=st.integers(1, 30),
        along=per_cent,
        across=per_cent,
    ),
    max_size=8,
    unique_by=lambda each: each.row.id,
)


@given(places)
def test_the_walk_keeps_every_place_once_and_what_one_access_serves_together(sites):
    """Numbers run from 1; no access is made twice; easier postures come before harder ones."""
    reaches = reaches_of(tuple(sites))
    walked = [each for reach in reaches for each in reach.sites]
    assert [each.number for each in walked] == list(range(1, len(sites) + 1))
    assert sorted(each.row.id for each in walked) == sorted(each.row.id for each in sites)
    groups = [reach.access_group for reach in reaches]
    assert len(groups) == len(set(groups))
    assert sum(reach.minutes for reach in reaches) == minutes_of(tuple(sites))
    order = ["standing", "over the wing", "seated", "kneeling", "lying", "at a bench", ""]
    for reach in reaches:
        ranks = [(order.index(s.row.posture), bool(s.dismantling)) for s in reach.sites]
        assert ranks == sorted(ranks)


def test_a_shared_access_is_counted_once():
    """Two places of five minutes under one lifting of twenty."""
    lifted = [site(id=name, access_group="lift", access_minutes=20) for name in "ab"]
    apart = [site(id=name, access_minutes=20) for name in "ab"]
    assert minutes_of(tuple(lifted)) == 30
    assert minutes_of(tuple(apart)) == 50


def test_the_walk_goes_round_the_car_from_its_front_left_corner():
    """Front left, middle left, tail, right side, and at last what the book does not place."""
    corners = [(0, 0), (50, 0), (100, 50), (50, 100), (0, 90)]
    found = [round_the_car(*each) for each in corners]
    assert found == sorted(found)
    assert round_the_car(None, 50) > max(found)


@pytest.mark.parametrize(("car", "minutes"), [("no-papers", 30), ("altered", 90), ("panel", 3)])
def test_the_best_looks_are_starred_and_fit_into_the_minutes(car, minutes):
    """Never more than there are; none where none fits."""
    plan = visit_plan(case_of(car), BOOK, opinion_of(car).looks, minutes)
    starred = [each.row.id for each in plan.sites if each.is_starred]
    assert plan.starred_minutes <= minutes == plan.minutes_available
    assert bool(starred) is (car != "panel")


def test_without_a_look_that_is_left_nothing_is_starred():
    """The same car."""
    plan = visit_plan(case_of("no-papers"), BOOK, (), 30)
    assert not any(each.is_starred for each in plan.sites)


@pytest.mark.parametrize("car", CARS)
def test_a_seller_is_asked_for_nothing_under_the_car_or_behind_a_seat(car):
    """Neither lift nor cabin, nor what must be taken off."""
    plan = visit_plan(case_of(car), BOOK, (), None)
    asked = {each.row.id for each in plan.sites if each.row.for_a_seller}
    assert asked <= {"scuttle", "inner_wing", "bulkhead"}
    assert asked
