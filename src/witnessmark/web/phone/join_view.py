"""A phone joins: the code opens this page once, the button lets the phone in."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render

from witnessmark.store import phones
from witnessmark.web.phone.here import with_token
from witnessmark.web.shared.saving import now


def page(request: HttpRequest, code: str) -> HttpResponse:
    """What joining means; by its form the phone gets its token, and the code opens nothing more."""
    found = phones.expected(code, now())
    if found is None:
        return render(request, "phone/no_code.html", status=404)
    if request.method != "POST":
        return render(request, "phone/join.html", {"phone": found, "code": code})
    token = phones.join(code, request.POST.get("name", "").strip(), now(), _ahead(request))
    if token is None:
        return render(request, "phone/no_code.html", status=404)
    return with_token(redirect("phone"), token, request.is_secure())


def _ahead(request: HttpRequest) -> int:
    """How many seconds the clock of the phone is before this machine's; 0 where it does not say."""
    told = request.POST.get("clock", "")
    is_clock = told.isascii() and told.isdecimal() and len(told) <= MOST_FIGURES
    return int(told) - int(now().timestamp()) if is_clock else 0


MOST_FIGURES = 12
"""Of the seconds since 1970."""
