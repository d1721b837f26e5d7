"""What every page is given, and the pages that say that something is not to be had."""

import errno
import sys
from typing import Any, Final

from django.db import OperationalError
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render

from witnessmark import __version__

_DISK: Final = (errno.ENOSPC, errno.EDQUOT, errno.EROFS, errno.EACCES, errno.EPERM, errno.EIO)
"""A disk that is full, may not be written, or is broken."""
_INSUFFICIENT_STORAGE: Final = 507


class RevisionUnreadError(Http404):
    """A revision that says what no case can, as one may that was written elsewhere by hand; the
    text says what."""


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
    """No such page, a case that this person was not let into, or a revision that none can read."""
    if isinstance(exception, RevisionUnreadError):
        return _told(request, 422, "This revision cannot be read as a case", str(exception))
    return _told(request, 404, "Nothing here",
                 "There is no such page or case, or you were not let into it.")  # fmt: skip


def our_fault(request: HttpRequest) -> HttpResponse:
    """A disk that takes nothing more, or a mistake of the program: told without its trace, which
    stands on the terminal."""
    fault = sys.exception()
    if isinstance(fault, OperationalError) or (isinstance(fault, OSError) and fault.errno in _DISK):
        reason = getattr(fault, "strerror", None) or str(fault)
        return _told(
            request,
            _INSUFFICIENT_STORAGE,
            "That could not be written",
            f"The machine says: {reason}. What was saved before is safe. Make room for "
            "the workshop's folder, or let it be written; then send this again.",
        )
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
