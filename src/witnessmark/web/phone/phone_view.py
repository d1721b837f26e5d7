"""The phone's one page, and what it asks for when the laptop is in reach."""

from collections.abc import Callable
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse, JsonResponse
from django.middleware.csrf import get_token
from django.shortcuts import render
from django.views.decorators.csrf import ensure_csrf_cookie

from witnessmark import store
from witnessmark.web.phone.here import PhoneGoneError, phone_here
from witnessmark.web.phone.taking_view import gone
from witnessmark.web.phone.visit import end_of, visit_of
from witnessmark.web.shared.desk import Bench, bench_of
from witnessmark.web.shared.saving import now


@ensure_csrf_cookie
def page(request: HttpRequest) -> HttpResponse:
    """The page that works on without the laptop; all else comes by script."""
    try:
        phone = phone_here(request)
    except PhoneGoneError:
        return render(request, "phone/no_code.html", status=410)
    return render(request, "phone/phone.html", {"phone": phone})


def hello(request: HttpRequest) -> HttpResponse:
    """Which cases this phone may add to, the time here, and the token of its forms."""
    try:
        phone = phone_here(request)
    except PhoneGoneError:
        return gone()
    heads = store.heads(phone.cases)
    told = {
        "by": phone.by,
        "name": phone.name,
        "cases": [{"id": each, "revision": heads[each].number} for each in phone.cases],
        "now": now().isoformat(),
        "ahead": phone.ahead,
        "token": get_token(request),
    }
    return JsonResponse(told)


def visit(request: HttpRequest, case: str) -> HttpResponse:
    """All places of a case with their cards."""
    return _of_case(request, case, visit_of)


def end(request: HttpRequest, case: str) -> HttpResponse:
    """What does not fit so far, each with the places at which it is to be seen: told when the
    visit ends, so that it can be looked at again before anybody leaves."""
    return _of_case(request, case, end_of)


def _of_case(
    request: HttpRequest, case: str, told: Callable[[Bench, str], dict[str, Any]]
) -> HttpResponse:
    try:
        phone = phone_here(request)
    except PhoneGoneError:
        return gone()
    if case not in phone.cases:
        raise Http404
    bench = bench_of(case)
    if not bench.has_book:
        raise Http404
    return JsonResponse(told(bench, phone.by))
