"""The board: every case that this person may see, those with contradictions first."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from witnessmark import store
from witnessmark.web.shared.desk import bench_of


def page(request: HttpRequest) -> HttpResponse:
    """All cases, a line each."""
    cases = store.cases_of(request.person)  # type: ignore[attr-defined]
    return render(request, "board/page.html", {"benches": [bench_of(each) for each in cases]})
