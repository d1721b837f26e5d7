"""Who makes the link to the page for later, and ends it: the owner."""

from datetime import timedelta

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse

from witnessmark.store import people
from witnessmark.web.read_later.view import KIND
from witnessmark.web.shared.desk import bench_of
from witnessmark.web.shared.saving import now

YEARS = {"1": 1, "5": 5, "20": 20}
MOST_LETTERS = 200


def make(request: HttpRequest, case: str) -> HttpResponse:
    """A new link, which is told this once."""
    for_whom = request.POST.get("for_whom", "").strip()[:MOST_LETTERS]
    years = YEARS.get(request.POST.get("years", ""))
    if request.method != "POST":
        return redirect("report", case)
    bench = bench_of(case)
    given: dict[str, object] = {"bench": bench, "here": "report", "for_whom": for_whom}
    if not for_whom or years is None:
        return render(request, "read_later/made.html", given, status=422)
    at = now()
    by = request.person.name  # type: ignore[attr-defined]
    span = people.PassSpan(at, at + timedelta(days=365 * years))
    token = people.make_pass(case, KIND, for_whom, by, span)
    given["address"] = request.build_absolute_uri(reverse("read_later", args=[token]))
    given["until"] = span.until
    return render(request, "read_later/made.html", given)


def end(request: HttpRequest, case: str, number: int) -> HttpResponse:
    """Let a link to this case open nothing any more."""
    if request.method != "POST":
        return redirect("report", case)
    if number not in {each.id for each in people.passes(case) if each.kind == KIND}:
        raise Http404
    people.end_pass(number, now())
    return redirect("report", case)
