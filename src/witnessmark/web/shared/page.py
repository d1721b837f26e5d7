"""What every page is given, and the pages that say that something is not to be had."""

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from witnessmark import __version__


def on_every_page(request: HttpRequest) -> dict[str, Any]:
    """Who is here, and the version, by which a browser keeps the files that belong to it."""
    return {"person": getattr(request, "person", None), "version": __version__}


def not_understood(request: HttpRequest, exception: Exception | None = None) -> HttpResponse:
    """A request that is none."""
    return _told(request, 400, "That was not understood",
                 "The address or the form was not one of this workshop.")  # fmt: skip


def not_allowed(request: HttpRequest, exception: Exception | None = None) -> HttpResponse:
    """Somebody who is in and may not do this."""
    return _told(request, 403, "Not for this account",
                 "The owner of this workshop can let you in under People.")  # fmt: skip


def not_here(request: HttpRequest, exception: Exception | None = None) -> HttpResponse:
    """No such page, or a case that this person was not let into."""
    return _told(request, 404, "Nothing here",
                 "There is no such page or case, or you were not let into it.")  # fmt: skip


def our_fault(request: HttpRequest) -> HttpResponse:
    """A mistake of the program: told without its trace, which stands on the terminal."""
    return _told(request, 500, "That is a mistake of the program",
                 "What was saved is safe. The terminal of the workshop says more.")  # fmt: skip


def not_from_here(request: HttpRequest, reason: str = "") -> HttpResponse:
    """A form that did not come from a page of this workshop, or from one opened too long ago."""
    if request.headers.get("HX-Request") and not request.user.is_authenticated:
        return HttpResponse(status=401)  # whoever types learns that they have to sign in again
    return _told(request, 403, "This form has grown old",
                 "Open the page again and send it once more: what you typed is kept.")  # fmt: skip


def _told(request: HttpRequest, status: int, title: str, sentence: str) -> HttpResponse:
    told = {"title": title, "sentence": sentence}
    return render(request, "shared/told.html", told, status=status)
