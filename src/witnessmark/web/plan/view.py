"""Where to look on this car, in walking order, as far as the minutes go."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render

from witnessmark.entry import CaseDraft, Entered, set_field
from witnessmark.plan import VisitPlan, visit_plan
from witnessmark.source import Source
from witnessmark.web.plan.shown import car_drawn, expected_shown, papers_shown, reaches_shown
from witnessmark.web.shared.asked import whole_number
from witnessmark.web.shared.desk import Bench, bench_of
from witnessmark.web.shared.saving import Saved, answered, change, typed
from witnessmark.wording import cautions_at_a_car, stop_sentence
from witnessmark.wording.visit import car_name, claim_silence, claim_title, time_sentence

MOST_MINUTES = 10_000
MINUTES = Entered("assignment.minutes_available", Source("minutes"))


def page(request: HttpRequest, case: str) -> HttpResponse:
    """The walk; a form that is sent keeps the minutes in the case."""
    if request.method != "POST":
        return _page(request, bench_of(case))

    def kept(draft: CaseDraft) -> list[str]:
        return [set_field(draft, MINUTES, typed(request, "minutes"))]

    saved = change(request, case, "time for the visit", kept)
    if request.htmx:  # type: ignore[attr-defined]
        shown = {} if saved.problems else _shown(saved.bench, None)
        return answered(request, saved, "plan/walk.html", "plan/sheets.html", **shown)
    return _page(request, saved.bench, saved) if saved.problems else redirect("plan", case)


def expectations(request: HttpRequest, case: str) -> HttpResponse:
    """What the claim would have at each place, for whoever asks for it."""
    bench = bench_of(case)
    given: dict[str, object] = {"bench": bench, "here": "plan", "title": claim_title()}
    if not bench.faults:
        given |= {"expected": expected_shown(_planned(bench, None)), "silence": claim_silence()}
    return render(request, "plan/expectations.html", given)


def _planned(bench: Bench, minutes: int | None) -> VisitPlan:
    """The plan of a visit in these minutes, or in those that the case says."""
    opinion = bench.opinion
    assert opinion is not None, "a page asks whether there are faults first"
    return visit_plan(opinion.casefile, bench.book, opinion.looks, minutes)


def _page(request: HttpRequest, bench: Bench, saved: Saved | None = None) -> HttpResponse:
    given: dict[str, object] = {"here": "plan", "saved": saved}
    if not bench.faults:
        given |= _shown(bench, _minutes(request))
    if saved:  # what was typed is never lost
        given["minutes"] = request.POST.get("minutes", "")
    given["bench"] = bench
    return render(request, "plan/page.html", given, status=422 if saved else 200)


def _shown(bench: Bench, minutes: int | None) -> dict[str, object]:
    plan, answer = _planned(bench, minutes), bench.answer
    assert answer is not None, "a plan has no faults"
    return {
        "reaches": reaches_shown(plan),
        "papers": papers_shown(plan),
        "car": car_name(plan),
        "time": time_sentence(plan),
        "map": car_drawn(plan, bench),
        "cautions": cautions_at_a_car(),
        "stop": stop_sentence(answer.stops),
        "minutes": "" if plan.minutes_available is None else plan.minutes_available,
    }


def _minutes(request: HttpRequest) -> int | None:
    """The minutes that somebody asks about; None where they say none that there can be."""
    minutes = whole_number(request.GET.get("minutes", ""))
    return None if minutes is None else min(minutes, MOST_MINUTES)
