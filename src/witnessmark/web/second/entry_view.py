"""What a second examiner enters, saved under their name as read again and blind."""

from dataclasses import dataclass

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.template.loader import render_to_string

from witnessmark.codebook import Mark
from witnessmark.web.evidence.forms import Refused
from witnessmark.web.evidence.live import spelt
from witnessmark.web.evidence.plates import typed_text
from witnessmark.web.evidence.reading_view import save_reading
from witnessmark.web.evidence.saves import post_also
from witnessmark.web.evidence.seen_view import save_look
from witnessmark.web.second.blind import Blind, opened
from witnessmark.web.second.blind_view import place_page
from witnessmark.web.shared.saving import Saved

NOT_KNOWN = "no"
"""A blind reader does not know the claimed number."""


@dataclass(frozen=True, slots=True)
class PassBearer:
    """Whoever has a pass, as the one who changes a case."""

    name: str
    role: str = "second"


def reading(request: HttpRequest, token: str, mark: str) -> HttpResponse:
    """Keep a reading, or take it away."""
    blind = _open(request, token)
    found = _mark(blind, mark)
    post_also(request, "claim_known", NOT_KNOWN)
    saved = save_reading(request, blind.own.case, found, blind.whose)
    return _reply(request, blind, found.site, saved)


def live(request: HttpRequest, token: str, mark: str) -> HttpResponse:
    """What the text says so far, sign by sign: nothing of what it means."""
    found = _mark(_open(request, token), mark)
    text = typed_text(found, request.POST.dict())
    return render(request, "evidence/live.html", {"live": spelt(found, text[:500])})


def look(request: HttpRequest, token: str, place: str, feature: str) -> HttpResponse:
    """Keep a look, or take it away."""
    blind = _open(request, token)
    if all(each.row.id != place for each in blind.sites):
        raise Http404
    saved = save_look(request, blind.own.case, (place, feature), blind.whose)
    return _reply(request, blind, place, saved)


def _mark(blind: Blind, mark: str) -> Mark:
    """The mark that a form speaks of; one on the car."""
    found = blind.bench.book.mark(mark)
    if found is None or not found.site:
        raise Http404
    return found


def _open(request: HttpRequest, token: str) -> Blind:
    """The pass with which a form comes; whoever is done enters nothing more."""
    blind = opened(token)
    if request.method != "POST" or blind.is_done:
        raise Http404
    request.person = PassBearer(blind.own.for_whom)  # type: ignore[attr-defined]  # who did it
    return blind


def _reply(request: HttpRequest, blind: Blind, place: str, saved: Saved) -> HttpResponse:
    """That it is saved, or what was wrong; never anything of the case."""
    form = request.POST.get("form", "")
    if not request.htmx:  # type: ignore[attr-defined]  # its middleware sets it
        if not saved.problems:
            return redirect("second_place", blind.token, place)
        refused = Refused(form, request.POST.dict(), saved.problems)
        answer = place_page(request, opened(blind.token), place, refused)
        answer.status_code = 422
        return answer
    given = {"form_id": form, "problems": saved.problems, "number": saved.bench.number}
    told = render_to_string("evidence/told.html", given, request)
    if saved.problems:
        return HttpResponse(told, status=422)
    return HttpResponse(told + render_to_string("second/saved.html", given, request))
