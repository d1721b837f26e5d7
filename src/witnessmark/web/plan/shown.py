"""The plan of a visit as its page shows it: in words, place after place, with nothing of what the
claim would have there."""

from dataclasses import dataclass

from witnessmark.figures.car_outline import body_shape
from witnessmark.figures.car_sites import SitePlace, site_map
from witnessmark.plan import Reach, SitePlan, VisitPlan
from witnessmark.plan.care import own_care, shared_care
from witnessmark.web.shared.blocks import figure
from witnessmark.web.shared.desk import Bench
from witnessmark.wording import minutes_text, plain_name, term
from witnessmark.wording.amounts import capital, sentence
from witnessmark.wording.visit import (
    effort,
    either,
    expectations,
    mark_title,
    variation_look,
    variation_sentence,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceShown:
    """One place of the walk in words."""

    number: int
    id: str
    name: str
    is_best: bool
    state: str
    where: tuple[str, ...]
    how: str
    look: tuple[str, ...]
    care: str
    marks: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ReachShown:
    """The places that one access serves, and how long they take; `care` is what all ask for."""

    id: str
    name: str
    time: str
    access: str
    care: str
    places: tuple[PlaceShown, ...]


@dataclass(frozen=True, slots=True)
class Expected:
    """What the claim would have one mark say."""

    place: int
    mark: str
    says: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PaperShown:
    """A paper to be asked for, and where it is so far."""

    name: str
    state: str


def reaches_shown(plan: VisitPlan) -> tuple[ReachShown, ...]:
    """The walk, access after access."""
    return tuple(map(_reach, plan.reaches))


def papers_shown(plan: VisitPlan) -> tuple[PaperShown, ...]:
    """The papers, each with where it is."""
    return tuple(PaperShown(capital(each.name), term(each.state)) for each in plan.papers)


def expected_shown(plan: VisitPlan) -> tuple[Expected, ...]:
    """What the claim would have, mark by mark, where it says anything."""
    return tuple(
        Expected(site.number, mark_title(mark), told)
        for site in plan.sites
        for mark in site.marks
        if (told := expectations(mark))
    )


def car_drawn(plan: VisitPlan, bench: Bench) -> str:
    """The car with its places, each in the shape of how it stands so far; empty where the book
    places none."""
    opinion = bench.opinion
    assert opinion is not None, "a plan has no faults"
    shape = body_shape(opinion.context, bench.book, bench.casefile.claim.items.get("body", ""))
    places = tuple(
        SitePlace(site.number, *at, site.state)
        for site in plan.sites
        for at in dict.fromkeys((row.along, row.across, row.up) for row in site.rows)
    )
    drawn = site_map(places, "", "", shape)
    return figure(drawn.svg, "The car with its places, listed below") if drawn else ""


def _reach(reach: Reach) -> ReachShown:
    access = minutes_text(reach.access_minutes) if reach.access_minutes else ""
    name = capital(plain_name(reach.access_group)) if reach.access_group else ""
    shared = shared_care(reach)
    places = tuple(_place(each, shared) for each in reach.sites)
    return ReachShown(
        id=reach.access_group,
        name=name,
        time=minutes_text(reach.minutes),
        access=access,
        care=sentence(shared),
        places=places,
    )


def _place(site: SitePlan, shared: str) -> PlaceShown:
    row, ways = site.row, site.variations
    looks = {each.row.look_at for each in ways}
    look = tuple(map(variation_look, ways)) if len(looks) > 1 else (sentence(row.look_at),)
    return PlaceShown(
        number=site.number,
        id=row.id,
        name=capital(either(tuple(dict.fromkeys(each.name for each in site.rows)))),
        is_best=site.is_starred,
        state=term(site.state),
        where=tuple(map(variation_sentence, ways)) or (sentence(row.where),),
        how=effort(site),
        look=tuple(filter(None, look)),
        care=sentence(own_care(site, shared)),
        marks=tuple(map(mark_title, site.marks)),
    )
