"""The page of this step."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from witnessmark.web.shared.desk import bench_of


def page(request: HttpRequest, case: str) -> HttpResponse:
    """The page as it stands."""
    return render(request, "shared/case.html", {"bench": bench_of(case), "here": "report"})
