"""Where the owner lets a phone in by a code, sees which are in, and lets one go."""

import segno
from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.safestring import SafeString, mark_safe

from witnessmark import store
from witnessmark.store import people, phones
from witnessmark.web.certificates import fingerprint_there
from witnessmark.web.shared.saving import now

SIDE = 6
"""Pixels of a module of the code."""


def page(request: HttpRequest) -> HttpResponse:
    """The phones that are in; a form lets one more in, and shows its code this once."""
    given: dict[str, object] = {}
    if request.method == "POST":
        given = _let_in(request)
    held = store.cases()
    names = [each.name for each in people.people()]
    return render(
        request,
        "phone/letting_in.html",
        {
            "phones": [each for each in phones.phones() if each.joined_at or each.until > now()],
            "cases": held,
            "names": names,
            "is_lan": settings.WITNESSMARK_TLS,
            "fingerprint": fingerprint_there(settings.WITNESSMARK_HOME),
            **given,
        },
        status=422 if given.get("told") else 200,
    )


def gone(request: HttpRequest, number: int) -> HttpResponse:
    """Let a phone go."""
    phones.let_phone_go(number, now())
    return redirect("phones")


def _let_in(request: HttpRequest) -> dict[str, object]:
    """A code for one phone, or why there is none."""
    known = {each.id for each in store.cases()}
    cases = tuple(each for each in request.POST.getlist("case") if each in known)
    if not cases:
        return {"told": "Choose at least one case that the phone may add to."}
    by = request.POST.get("by", "")
    if by not in {each.name for each in people.people()}:
        return {"told": "Say whose name its entries bear: one who has an account here."}
    code = phones.let_phone_in(by, cases, now())
    address = request.build_absolute_uri(reverse("join", args=[code]))
    return {"address": address, "qr": _drawn(address), "minutes": phones.MINUTES_OF_A_CODE}


def _drawn(address: str) -> SafeString:
    """The address as a code that a camera reads, dark on light in any light."""
    drawn = segno.make(address, error="m").svg_inline(
        scale=SIDE, border=4, dark="#000", light="#fff", omitsize=True
    )
    return mark_safe(drawn)  # made here, of an address of this workshop
