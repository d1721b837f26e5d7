"""The board: every case that this person may see, those with contradictions first."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from witnessmark import store
from witnessmark.store import people
from witnessmark.web.shared.desk import bench_at


def page(request: HttpRequest) -> HttpResponse:
    """All cases, a line each."""
    seen = people.seen_by(request.person)  # type: ignore[attr-defined]
    shown = [each.id for each in store.cases() if each.id in seen]
    heads = store.heads(shown)
    return render(
        request, "board/page.html", {"benches": [bench_at(heads[each]) for each in shown]}
    )
