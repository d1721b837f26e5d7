"""Where to look on this car, in walking order, as far as the minutes go."""

from collections.abc import Sequence

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render

from witnessmark.casefile import SiteState
from witnessmark.entry import CaseDraft, Entered, set_field
from witnessmark.figures.car_outline import body_shape
from witnessmark.figures.car_sites import SitePlace, site_map
from witnessmark.plan import SitePlan, VisitPlan, visit_plan
from witnessmark.report.sheets.message import Addressee
from witnessmark.source import Source
from witnessmark.web.shared.blocks import figure
from witnessmark.web.shared.desk import Bench, bench_of
from witnessmark.web.shared.saving import Saved, answered, change, typed
from witnessmark.wording import cautions, stop_sentence
from witnessmark.wording.visit import car_name, time_sentence

MOST_MINUTES = 10_000
FIELD = Entered("assignment.minutes_available", Source("minutes"))


def page(request: HttpRequest, case: str) -> HttpResponse:
    """The walk; a form that is sent keeps the minutes in the case."""
    if request.method == "POST":
        saved = change(request, case, "minutes for the visit", _minutes_kept(request))
        if request.htmx and not saved.problems:  # type: ignore[attr-defined]
            return answered(request, saved, "plan/walk.html", **_shown(saved.bench, None))
        if not saved.problems:
            return redirect("plan", case)
        return _page(request, saved.bench, saved)
    return _page(request, bench_of(case))


def expectations(request: HttpRequest, case: str) -> HttpResponse:
    """What the claim would have at each place, for whoever asks for it."""
    bench = bench_of(case)
    plan = None if bench.faults else planned(bench, None)
    return render(
        request, "plan/expectations.html", {"bench": bench, "here": "plan", "plan": plan}
    )


def planned(bench: Bench, minutes: int | None) -> VisitPlan:
    """The plan of a visit in these minutes, or in those that the case says."""
    opinion = bench.opinion
    assert opinion is not None, "a page asks whether there are faults first"
    return visit_plan(opinion.casefile, bench.book, opinion.looks, minutes)


def _page(request: HttpRequest, bench: Bench, saved: Saved | None = None) -> HttpResponse:
    given = {"bench": bench, "here": "plan", "saved": saved}
    if not bench.faults:
        given |= _shown(bench, _minutes(request))
    return render(request, "plan/page.html", given, status=422 if saved else 200)


def _shown(bench: Bench, minutes: int | None) -> dict[str, object]:
    plan, answer = planned(bench, minutes), bench.answer
    assert answer is not None, "a plan has no faults"
    return {
        "bench": bench,
        "plan": plan,
        "car": car_name(plan),
        "time": time_sentence(plan),
        "map": _map(plan, bench),
        "cautions": cautions(),
        "stop": stop_sentence(answer.stops),
        "addressees": tuple(Addressee),
        "minutes": plan.minutes_available,
    }


def _map(plan: VisitPlan, bench: Bench) -> str:
    """The car with its places, each in the shape of how it stands so far."""
    opinion = bench.opinion
    assert opinion is not None, "a plan has no faults"
    shape = body_shape(opinion.context, bench.book, bench.casefile.claim.items.get("body", ""))
    drawn = site_map(tuple(_places(plan.sites)), "", "", shape)
    return figure(drawn.svg, "The car with its places, which are listed below") if drawn else ""


def _places(sites: Sequence[SitePlan]) -> list[SitePlace]:
    return [
        SitePlace(site.number, *at, site.state)
        for site in sites
        for at in dict.fromkeys((row.along, row.across, row.up) for row in site.rows)
    ]


def _minutes(request: HttpRequest) -> int | None:
    """The minutes that somebody asks about; None where they say none that there can be."""
    given = request.GET.get("minutes", "")
    return min(int(given), MOST_MINUTES) if given.isascii() and given.isdecimal() else None


def _minutes_kept(request: HttpRequest):  # type: ignore[no-untyped-def]
    def make(draft: CaseDraft) -> list[str]:
        return [set_field(draft, FIELD, typed(request, "minutes"))]

    return make


def is_open(site: SitePlan) -> bool:
    """Has nobody been there yet?"""
    return site.state is SiteState.NOT_LOOKED_FOR
