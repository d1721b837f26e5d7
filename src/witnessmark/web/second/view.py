"""The owner's side: a pass for a second examiner, its link shown once, and what came of it."""

from dataclasses import dataclass
from datetime import datetime, time, timedelta

from django import forms
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse

from witnessmark.store import people
from witnessmark.web.evidence.forms import Whose, me_of
from witnessmark.web.second.blind import KIND, ReadTwice, differences, done_at, has_read
from witnessmark.web.shared.desk import Bench, bench_of
from witnessmark.web.shared.saving import now

DAYS = 14
MOST_DAYS = 366


class PassForm(forms.Form):
    """For whom a pass is, and until when."""

    for_whom = forms.CharField(
        label="Who reads a second time",
        max_length=200,
        help_text="Their entries are signed with this name.",
    )
    until = forms.DateField(
        label="Until the end of", widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d")
    )

    def __init__(self, bench: Bench, given: object = None) -> None:
        first = {"until": (now() + timedelta(days=DAYS)).date()}
        super().__init__(given, initial=first)  # type: ignore[arg-type]  # what was posted, or none
        self.bench = bench

    def clean_for_whom(self) -> str:
        """Somebody who has read nothing of this car yet, and has no pass."""
        name = str(self.cleaned_data["for_whom"]).strip()
        if has_read(self.bench.casefile, name):
            raise forms.ValidationError(
                "has read or looked at this car already, and is no second examiner of it"
            )
        return name

    def clean_until(self) -> datetime:
        """The last moment of that day here."""
        day = self.cleaned_data["until"]
        end = datetime.combine(day, time(23, 59, 59), tzinfo=now().tzinfo)
        if not now() < end < now() + timedelta(days=MOST_DAYS):
            raise forms.ValidationError("is not a day of the coming year")
        return end


@dataclass(frozen=True, slots=True)
class PassShown:
    """A pass of this case, and what came of it."""

    own: people.PassKnown
    is_open: bool
    done: datetime | None
    found: tuple[ReadTwice, ...]


def page(request: HttpRequest, case: str) -> HttpResponse:
    """The passes of a case; a form makes one or ends one."""
    bench = bench_of(case)
    form = PassForm(bench)
    link, status = "", 200
    if request.method == "POST":
        if "end" in request.POST:
            return _end(request, case)
        form = PassForm(bench, request.POST)
        if form.is_valid():
            link, form = _made(request, case, form), PassForm(bench)
        else:
            status = 422
    given = {
        "bench": bench,
        "here": "evidence",
        "form": form,
        "link": link,
        "passes": tuple(_shown(bench, each) for each in people.passes(case) if each.kind == KIND),
    }
    return render(request, "second/page.html", given, status=status)


def _made(request: HttpRequest, case: str, form: PassForm) -> str:
    span = people.PassSpan(now(), form.cleaned_data["until"])
    who = request.person.name  # type: ignore[attr-defined]  # the guard sets it
    token = people.make_pass(case, KIND, form.cleaned_data["for_whom"], who, span)
    return request.build_absolute_uri(reverse("second_in", args=[token]))


def _end(request: HttpRequest, case: str) -> HttpResponse:
    wanted = request.POST.get("end", "")
    for each in people.passes(case):
        if each.kind == KIND and str(each.id) == wanted:
            people.end_pass(each.id, now())
    return redirect("second", case)


def _shown(bench: Bench, own: people.PassKnown) -> PassShown:
    whose = Whose(by=me_of(own.for_whom, bench.casefile), again=True)
    done = done_at(own.id)
    found = tuple(differences(bench, whose)) if done and bench.has_book else ()
    return PassShown(own, own.ended_at is None and own.until > now(), done, found)
