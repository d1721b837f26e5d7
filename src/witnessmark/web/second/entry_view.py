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
    blind, found = _open(request, token, mark)
    request.POST["claim_known"] = NOT_KNOWN  # type: ignore[index]  # a copy, which can be changed
    saved = save_reading(request, blind.own.case, found, blind.whose)
    return _reply(request, blind, found.site, saved)


def live(request: HttpRequest, token: str, mark: str) -> HttpResponse:
    """What the text says so far, sign by sign: nothing of what it means."""
    _, found = _open(request, token, mark)
    text = typed_text(found, request.POST.dict())
    return render(request, "evidence/live.html", {"live": spelt(found, text[:500])})


def look(request: HttpRequest, token: str, place: str, feature: str) -> HttpResponse:
    """Keep a look, or take it away."""
    blind, _ = _open(request, token, "")
    if all(each.row.id != place for each in blind.sites):
        raise Http404
    saved = save_look(request, blind.own.case, (place, feature), blind.whose)
    return _reply(request, blind, place, saved)


def _open(request: HttpRequest, token: str, mark: str) -> tuple[Blind, Mark]:
    """The pass and the mark that a form speaks of; whoever is done enters nothing more."""
    blind = opened(token)
    found = blind.bench.book.mark(mark)
    if request.method != "POST" or blind.is_done or (mark and (found is None or not found.site)):
        raise Http404
    request.person = PassBearer(blind.own.for_whom)  # type: ignore[attr-defined]  # who did it
    request.POST = request.POST.copy()  # type: ignore[assignment]  # a field is added
    return blind, found  # type: ignore[return-value]  # None where no mark was asked for


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
