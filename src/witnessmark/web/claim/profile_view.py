"""One's own particulars, kept once: what a new case takes its examiner from."""

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render

from witnessmark.casefile.profile import (
    FIELDS,
    Profile,
    parse_profile,
    render_profile,
    unfit_profile,
)
from witnessmark.documents.row import Column
from witnessmark.entry import valued
from witnessmark.problem import Problem
from witnessmark.source import Source
from witnessmark.store import accounts, people
from witnessmark.web.claim.parts import Part
from witnessmark.web.claim.shown import FieldShown, as_typed, plain_field

OWN = Part(id="profile", title="", path="", row=Profile, names=FIELDS)


def page(request: HttpRequest) -> HttpResponse:
    """The form; sent, kept with the account, or shown again with what is wrong."""
    person: people.PersonKnown = request.person  # type: ignore[attr-defined]
    kept = parse_profile(person.profile, "profile").profile if person.profile else None
    values = {name: as_typed(getattr(kept, name)) for name in FIELDS} if kept else {}
    values = values or {"name": person.name}
    problems: tuple[Problem, ...] = ()
    if request.method == "POST":
        values = {name: request.POST.get(name, "").strip() for name in FIELDS}
        profile = Profile(**_fields(values))
        problems = unfit_profile(profile, Source)
        if not problems:
            accounts.put_profile(person.id, render_profile(profile))
            return redirect("profile")
    given = {"fields": _shown(values, problems), "is_kept": kept is not None, "may_write": True}
    return render(request, "claim/profile.html", given, status=422 if problems else 200)


def _fields(values: dict[str, str]) -> dict[str, Any]:
    columns = Profile.columns
    return {
        name: valued(column, values[name])
        for name in FIELDS
        if isinstance(column := columns[name], Column)
    }


def _shown(values: dict[str, str], problems: tuple[Problem, ...]) -> tuple[FieldShown, ...]:
    return tuple(
        plain_field(
            column,
            name,
            values.get(name, ""),
            tuple(each for each in problems if each.source.name == name),
        )
        for name in FIELDS
        if isinstance(column := Profile.columns[name], Column)
    )
