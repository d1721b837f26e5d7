"""The phone that asks: known by the token in its cookie, which no script can read."""

from django.http import Http404, HttpRequest, HttpResponse

from witnessmark.store import phones
from witnessmark.web.shared.saving import now

COOKIE = "phone"
DAYS_KEPT = 400
"""Browsers keep no cookie longer."""


class PhoneGoneError(Exception):
    """A phone that was let go."""


def phone_here(request: HttpRequest) -> phones.PhoneKnown:
    """The phone that asks, noted as seen. PhoneGoneError where it was let go, Http404 for whoever
    never was one."""
    token = request.COOKIES.get(COOKIE, "")
    if not token:
        raise Http404
    found = phones.phone_of(token)
    if found is None:
        raise PhoneGoneError
    phones.phone_seen(found.id, now())
    return found


def with_token(answer: HttpResponse, token: str, is_secure: bool) -> HttpResponse:
    """The answer that gives a phone its token."""
    answer.set_cookie(
        COOKIE,
        token,
        max_age=DAYS_KEPT * 86_400,
        httponly=True,
        secure=is_secure,
        samesite="Strict",
    )
    return answer
