"""A save from a page: entered into the revision that the page was read from, brought together with
what others have saved since, and answered with the fragments that changed."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.template.loader import render_to_string
from django.utils import timezone

from witnessmark import store
from witnessmark.entry import CaseDraft, Entered, checked
from witnessmark.problem import Problem
from witnessmark.source import Source
from witnessmark.web.shared.asked import whole_number
from witnessmark.web.shared.desk import Bench, bench_of
from witnessmark.web.shared.page import RevisionUnreadError
from witnessmark.wording.amounts import capital


@dataclass(frozen=True, slots=True)
class Saved:
    """What came of a save: the case as it stands now, what was done in sentences, what was wrong
    (then nothing is saved), and what somebody else had written into the same place meanwhile."""

    bench: Bench
    told: tuple[str, ...]
    problems: tuple[Problem, ...]
    beside: tuple[store.KeptBeside, ...] = ()


class RevisionNeverThere(Problem):
    """A form that names a revision as the one it was read from, and the case has none such."""

    number: int
    says = "this page says that it was read from revision {number}, which the case has not"
    wants = "the page opened again; what you typed still stands here, to be copied"


def typed(request: HttpRequest, name: str) -> Entered:
    """What a field of the form holds, with the field as its place."""
    return Entered(request.POST.get(name, ""), Source(name))


def typed_list(request: HttpRequest, name: str) -> Entered:
    """What all fields of this name hold."""
    return Entered(list(filter(None, request.POST.getlist(name))), Source(name))


def change(
    request: HttpRequest, case: str, did: str, make: Callable[[CaseDraft], Sequence[str]]
) -> Saved:
    """Enter what `make` enters into a draft, and keep it as a revision. Nothing is kept where
    anything is wrong. `base` of the form says which revision the page was read from."""
    number = _base(request)
    try:
        base = bench_of(case, number)
    except RevisionUnreadError:
        raise
    except Http404:
        return Saved(bench_of(case), (), (RevisionNeverThere(Source("base"), number or 0),))
    on = base.on
    draft = CaseDraft(opened=on.opened, casefile=on.casefile, book=on.book)
    told = tuple(filter(None, make(draft)))
    text, problems = checked(draft)
    if problems:
        return Saved(base, (), tuple(problems))
    who = request.person.name  # type: ignore[attr-defined]
    what = f"{did}: {'. '.join(map(capital, told))}" if told else did
    try:
        made = store.revise(case, base.number, text, who=who, did=what, at=now())
    except store.NotKeptError as refused:
        return Saved(base, (), refused.problems)
    return Saved(bench_of(case), told, (), made.beside)


def now() -> Any:
    """The moment, in the zone of this machine."""
    return timezone.now().astimezone().replace(microsecond=0)


def acknowledged(request: HttpRequest, saved: Saved, *parts: str, **more: object) -> HttpResponse:
    """The line that says it is saved, and these further templates, none of which needs the case to
    be examined anew: the page asks for that when it hears that it was saved."""
    given = {"bench": saved.bench, "saved": saved, "swapped": True, **more}
    names = ("shared/saved.html", *parts)
    answer = HttpResponse("".join(render_to_string(each, given, request) for each in names))
    answer["HX-Trigger"] = "evidence-saved"
    return answer


def answered(request: HttpRequest, saved: Saved, *parts: str, **more: object) -> HttpResponse:
    """The line that says it is saved, the strip, and these further templates, each of which
    replaces its own element (`hx-swap-oob`); with faults, what is wrong, as 422."""
    given = {"bench": saved.bench, "saved": saved, "swapped": True, **more}
    if saved.problems:
        html = render_to_string("shared/problems.html", given, request)
        return HttpResponse(html, status=422)
    names = ("shared/saved.html", "shared/strip.html", *parts)
    return HttpResponse("".join(render_to_string(each, given, request) for each in names))


def _base(request: HttpRequest) -> int | None:
    """The revision that the page was read from; the latest where it says none."""
    return whole_number(request.POST.get("base", ""))
