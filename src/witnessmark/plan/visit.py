"""From a case and its code book to the plan of a visit."""

from dataclasses import replace

from witnessmark.casefile.records import Casefile, PaperState, SiteState
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import MarkKind
from witnessmark.codebook.records import CarContext
from witnessmark.codebook.site_records import Site
from witnessmark.examination import car_context, in_book_words
from witnessmark.examination.looks import LookLeft, in_time
from witnessmark.examination.looks import minutes_of as minutes_of_looks
from witnessmark.examination.sites import places_noted
from witnessmark.plan.marks import mark_plans
from witnessmark.plan.records import (
    FeaturePlan,
    OutcomePlan,
    PaperPlan,
    SitePlan,
    Variation,
    VisitPlan,
)
from witnessmark.plan.walk import minutes_of, reaches_of


def visit_plan(
    casefile: Casefile, book: CodeBook, looks: tuple[LookLeft, ...], minutes: int | None
) -> VisitPlan:
    """The plan of a visit to the car, by the claim and by what was noted so far.

    With `looks` that are left and `minutes`, or those of the assignment, the places of the
    looks that fit into them are starred.
    """
    context = car_context(casefile, book)
    available = casefile.assignment.minutes_available if minutes is None else minutes
    taken = () if available is None else in_time(looks, available)
    starred = {look.site for look in taken}
    ranks = {site: at for at, site in enumerate(dict.fromkeys(each.site for each in looks), 1)}
    noted = places_noted(in_book_words(casefile, book), book, context)
    states = {each.site: each.state for each in noted}
    planned = (_site_plan(casefile, book, context, name) for name in _sites(book, context))
    sites = tuple(
        replace(
            site,
            state=states.get(site.row.id, site.state),
            is_starred=site.row.id in starred,
            rank=ranks.get(site.row.id, 0),
        )
        for site in planned
        if site is not None
    )
    models = {model.id: model.name for model in book.models}
    return VisitPlan(
        book=book.title,
        maker=book.maker,
        model=models.get(context.model or "", ""),
        model_year=str(context.model_year or ""),
        works=tuple(works.name for works in book.works if works.id in context.works),
        reaches=reaches_of(sites),
        papers=_papers(casefile, book, context),
        minutes=minutes_of(sites),
        minutes_available=available,
        starred_minutes=minutes_of_looks(taken),
    )


def _sites(book: CodeBook, context: CarContext) -> tuple[str, ...]:
    """The places of this car's marks and features, in the book's order."""
    wanted = {mark.site for mark in book.marks_for(context)}
    wanted |= {feature.site for feature in book.features if feature.applies.covers(context)}
    return tuple(dict.fromkeys(site.id for site in book.sites if site.id in wanted))


def _site_plan(
    casefile: Casefile, book: CodeBook, context: CarContext, name: str
) -> SitePlan | None:
    """One place; None where the book has no row of it for this car."""
    site = book.site(name, context)
    if site is None:
        return None
    return SitePlan(
        row=site,
        state=SiteState.NOT_LOOKED_FOR,
        marks=mark_plans(book, context, casefile.claim, name),
        features=_features(book, context, name),
        variations=_variations(book, context, site),
    )


def _features(book: CodeBook, context: CarContext, site: str) -> tuple[FeaturePlan, ...]:
    """What is to be looked at there; a feature of several rows has the outcomes of all."""
    found: dict[tuple[str, str], dict[str, OutcomePlan]] = {}
    for feature in book.features:
        if feature.site == site and feature.applies.covers(context):
            outcomes = found.setdefault((feature.id, feature.prompt), {})
            for each in feature.outcomes:
                outcomes.setdefault(each.id, OutcomePlan(each.id, each.sketch))
    return tuple(
        FeaturePlan(name, prompt, tuple(outcomes[each] for each in sorted(outcomes)))
        for (name, prompt), outcomes in found.items()
    )


def _variations(book: CodeBook, context: CarContext, site: Site) -> tuple[Variation, ...]:
    """Every way in which cars of these years have the place, where there is more than one."""
    years = CarContext(model_year=context.model_year)
    rows = [row for row in book.sites if row.id == site.id and row.applies.covers(years)]
    if len({(row.name, row.where) for row in rows}) < 2:
        return ()
    return tuple(
        Variation(
            tuple(works.name for works in book.works if works.id in row.applies.works),
            tuple(model.name for model in book.models if model.id in row.applies.models),
            row,
        )
        for row in rows
    )


def _papers(casefile: Casefile, book: CodeBook, context: CarContext) -> tuple[PaperPlan, ...]:
    states = {paper.mark: paper.state for paper in casefile.papers}
    return tuple(
        PaperPlan(mark.id, mark.name, states.get(mark.id, PaperState.NOT_ASKED_FOR))
        for mark in book.marks_for(context)
        if mark.kind is MarkKind.PAPER
    )
