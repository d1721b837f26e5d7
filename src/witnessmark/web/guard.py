"""Who may see which page: asked of the table of routes before any view runs."""

from collections.abc import Callable

from django.http import Http404, HttpRequest, HttpResponse, HttpResponseNotAllowed
from django.shortcuts import redirect, render
from django.urls import reverse

from witnessmark.store import people
from witnessmark.web.route import Route, Who
from witnessmark.web.routes import ROUTES

_BY_NAME = {each.name: each for each in ROUTES}
_RANK = (Who.OWNER, Who.ASSISTANT, Who.READER)
_READING = ("GET", "HEAD")


class Guard:
    """Lets a request through where the table of routes says so."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Answer, and let no browser keep what is about a car."""
        answer = self.get_response(request)
        if not answer.has_header("Cache-Control"):
            answer["Cache-Control"] = "no-store"
        return answer

    def process_view(
        self, request: HttpRequest, view: object, args: object, parts: dict[str, str]
    ) -> HttpResponse | None:
        """None where the person may go on; else what they are told."""
        found = request.resolver_match
        route = _BY_NAME.get((found and found.url_name) or "")
        if route is None:
            raise Http404
        wanted = route.see if request.method in _READING else route.write
        if wanted is None or request.method not in (*_READING, "POST"):
            return HttpResponseNotAllowed([*_READING, *(["POST"] if route.write else [])])
        person = people.person_of(request.user)
        request.person = person  # type: ignore[attr-defined]  # what every page asks
        if is_let(wanted, route, person, parts.get("case")):
            return None
        return _turned_away(request, person, parts.get("case"))


def is_let(wanted: Who, route: Route, person: people.PersonKnown | None, case: str | None) -> bool:
    """May this person do this? A pass is looked at by the page that takes it."""
    if wanted in (Who.ANYBODY, Who.PASS):
        return True
    if wanted is Who.OPEN:
        return person is not None or people.is_first_look_open()
    if person is None or _RANK.index(Who(person.role)) > _RANK.index(wanted):
        return False
    return case is None or people.may_see(person, case)


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
        return redirect(f"{reverse('sign_in')}?{_next(request)}")
    if case is not None and not people.may_see(person, case):
        raise Http404
    return render(request, "shared/not_allowed.html", status=403)


def _next(request: HttpRequest) -> str:
    from urllib.parse import urlencode

    return urlencode({"next": request.get_full_path()}) if request.method == "GET" else ""
