"""Who may see which page: asked of its line in the table of routes before any view runs."""

from collections.abc import Callable
from urllib.parse import urlencode

from django.http import Http404, HttpRequest, HttpResponse, HttpResponseNotAllowed
from django.shortcuts import redirect, render
from django.urls import reverse

from witnessmark.store import NotKeptError, people
from witnessmark.web.route import Route, Who

type View = Callable[..., HttpResponse]

_RANK = (Who.OWNER, Who.ASSISTANT, Who.READER)
_READING = ("GET", "HEAD")


def guarded(route: Route, view: View) -> View:
    """The view, for those alone whom the table lets in; who that is stands in `request.person`."""

    def asked(request: HttpRequest, **parts: str) -> HttpResponse:
        wanted = route.see if request.method in _READING else route.write
        if wanted is None or request.method not in (*_READING, "POST"):
            reading = _READING if route.see else ()
            return HttpResponseNotAllowed([*reading, *(["POST"] if route.write else [])])
        person = people.person_of(request.user)
        request.person = person  # type: ignore[attr-defined]  # what every page asks
        if is_let(wanted, person, parts.get("case")):
            return _kept(request, view, parts)
        return _turned_away(request, person, parts.get("case"))

    return asked


def _kept(request: HttpRequest, view: View, parts: dict[str, str]) -> HttpResponse:
    """What the page says; where the store takes something not, what is wrong with it."""
    try:
        return view(request, **parts)
    except NotKeptError as refused:
        is_part = bool(request.headers.get("HX-Request"))
        given = {"saved": {"problems": refused.problems}, "swapped": is_part}
        page = "shared/problems.html" if is_part else "shared/not_kept.html"
        return render(request, page, given, status=422)


def is_let(wanted: Who, person: people.PersonKnown | None, case: str | None) -> bool:
    """May this person do this? A pass is looked at by the page that takes it."""
    if wanted in (Who.ANYBODY, Who.PASS):
        return True
    if wanted is Who.OPEN:
        return person is not None or people.is_first_look_open()
    if person is None or _RANK.index(Who(person.role)) > _RANK.index(wanted):
        return False
    return case is None or people.may_see(person, case)


def kept_by_nobody(answer: Callable[[HttpRequest], HttpResponse]) -> View:
    """Lets no browser keep what is about a car, but for what says otherwise of itself."""

    def asked(request: HttpRequest) -> HttpResponse:
        found = answer(request)
        found.setdefault("Cache-Control", "no-store")
        return found

    return asked


def _turned_away(
    request: HttpRequest, person: people.PersonKnown | None, case: str | None
) -> HttpResponse:
    """To the door, or to the first owner's page; whoever is in learns that it is not theirs, and
    nothing of a case that they were not let into."""
    if person is None:
        if not people.is_anybody_there():
            return redirect("first_owner")
        if request.headers.get("HX-Request"):
            answer = HttpResponse(status=401)
            answer["HX-Redirect"] = reverse("sign_in")
            return answer
        asked = (
            f"?{urlencode({'next': request.get_full_path()})}" if request.method == "GET" else ""
        )
        return redirect(reverse("sign_in") + asked)
    if case is not None and not people.may_see(person, case):
        raise Http404
    return render(request, "shared/not_allowed.html", status=403)
