"""Who may come in: accounts, the cases each is let into, passes that were given out, and whether
anybody may have a first look. For the owner alone."""

from dataclasses import dataclass

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render

from witnessmark import store
from witnessmark.store import accounts, people
from witnessmark.web.people.forms import ROLES, PersonForm
from witnessmark.web.shared.saving import now


@dataclass(frozen=True, slots=True)
class PersonShown:
    """An account, and the cases that it sees."""

    person: people.PersonKnown
    cases: frozenset[str]


def page(request: HttpRequest) -> HttpResponse:
    """Everybody, everything they see, and what else opens a case; a new account by its form."""
    form = PersonForm(request.POST or None)
    status = 200
    if request.method == "POST":
        if form.is_valid():
            given = form.cleaned_data
            if accounts.add_person(given["name"], given["password"], given["role"]) is not None:
                return redirect("people")
            form.add_error("name", "Somebody of this name has an account.")
        status = 422
    shown = [PersonShown(each, people.seen_by(each)) for each in people.people()]
    cases = store.cases()
    passes = [each for case in cases for each in people.passes(case.id) if each.ended_at is None]
    given = {
        "form": form,
        "shown": shown,
        "cases": cases,
        "roles": ROLES,
        "passes": [each for each in passes if each.until > now()],
        "is_first_look_open": people.is_first_look_open(),
    }
    return render(request, "people/page.html", given, status=status)


def person(request: HttpRequest, number: int) -> HttpResponse:
    """Another role, other cases, a new password, or let go; told on the page where it cannot be."""
    found = next((each for each in people.people() if each.id == number), None)
    if found is None:
        raise Http404
    told = _done(request, found)
    if told:
        return render(request, "people/told.html", {"sentence": told}, status=422)
    return redirect("people")


def settings(request: HttpRequest) -> HttpResponse:
    """May anybody have a first look without an account?"""
    people.put_setting(people.FIRST_LOOK, request.POST.get("first_look") == "yes")
    return redirect("people")


def end_pass(request: HttpRequest, number: int) -> HttpResponse:
    """Let a link open nothing any more."""
    people.end_pass(number, now())
    return redirect("people")


def _done(request: HttpRequest, found: people.PersonKnown) -> str:
    """Do what the form asks about this person; gives why it was not done."""
    deed = request.POST.get("deed", "")
    if deed == "let go":
        return "" if accounts.let_go(found.id) else LAST_OWNER
    if deed == "role":
        role = request.POST.get("role", "")
        if role not in dict(ROLES):
            return "That is no role."
        return "" if accounts.set_role(found.id, role) else LAST_OWNER
    if deed == "cases":
        wanted = set(request.POST.getlist("case")) & {each.id for each in store.cases()}
        for case in wanted:
            people.let_in(found.id, case)
        for case in people.seen_by(found) - wanted:
            people.let_out(found.id, case)
        return ""
    return "That is nothing that can be done here."


LAST_OWNER = "This is the last owner: make another one first."
