"""Every revision of a case: who, when, what; two compared; an earlier one as a new revision."""

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render

from witnessmark import store
from witnessmark.catalogue import said
from witnessmark.report.issue.changes_shown import changes_table
from witnessmark.report.issue.supplement_changes import case_changes
from witnessmark.web.history.names import names_of
from witnessmark.web.shared.desk import Bench, bench_of
from witnessmark.web.shared.saving import now


def page(request: HttpRequest, case: str) -> HttpResponse:
    """All revisions, the latest first."""
    bench, kept = bench_of(case), store.revisions(case)
    undone = {each.undoes for each in kept}
    given = {
        "bench": bench,
        "here": "history",
        "revisions": kept[::-1],
        "undone": undone,
        "to_undo": to_undo(kept),
        "beside": store.beside(case),
        "before": max(1, bench.number - 1),
    }
    return render(request, "history/page.html", given)


def compared(request: HttpRequest, case: str) -> HttpResponse:
    """What is not the same in two revisions, in the words of the case."""
    numbers = sorted(_number(request.GET.get(each, "")) for each in ("one", "other"))
    before, after = (bench_of(case, each) for each in numbers)
    names = names_of(after)
    changes = case_changes(before.casefile, after.casefile, names)
    one, other = (said("Revision {number}", number=each) for each in numbers)
    given = {
        "bench": bench_of(case),
        "here": "history",
        "before": before.kept,
        "after": after.kept,
        "changes": changes,
        "table": (changes_table(changes, names, one, other),),
    }
    return render(request, "history/compared.html", given)


def back(request: HttpRequest, case: str) -> HttpResponse:
    """An earlier state as a new revision, after it was shown what that takes back."""
    given = request.POST if request.method == "POST" else request.GET
    number, head = _number(given.get("number", "")), bench_of(case)
    goal = bench_of(case, number)
    if request.method != "POST":
        return _shown_first(request, head, goal)
    base = _number(given.get("base", ""))
    if base != head.number:  # somebody has saved meanwhile: what is taken back is shown anew
        return _shown_first(request, head, goal, is_other=True)
    latest, undoes = head.kept, None
    if given.get("undoes"):
        undoes = _number(given["undoes"])
        did = said("took back: {change}", change=bench_of(case, undoes).kept.did)
    else:
        undoes = latest.number if number == latest.number - 1 else None
        did = said("back to revision {number}", number=number)
    who = request.person.name  # type: ignore[attr-defined]
    store.revise(case, base, goal.kept.text, who=who, did=did, at=now(), undoes=undoes)
    return redirect("history", case)


def to_undo(kept: tuple[store.KeptRevision, ...]) -> store.KeptRevision | None:
    """The latest change that stands: neither taken back, nor itself taking one back."""
    undone: set[int] = set()
    for each in kept[::-1]:
        if each.undoes is not None:
            undone.add(each.undoes)
        elif each.number not in undone:
            return each if each.number > 1 else None
    return None


def _shown_first(
    request: HttpRequest, head: Bench, goal: Bench, is_other: bool = False
) -> HttpResponse:
    """What would change, with the button that does it."""
    names = names_of(head)
    changes = case_changes(head.casefile, goal.casefile, names)
    words = (said("Now"), said("Revision {number}", number=goal.number))
    undoes = request.POST.get("undoes") or request.GET.get("undoes") or ""
    given = {
        "bench": head,
        "here": "history",
        "goal": goal.kept,
        "undoes": undoes if undoes.isdecimal() else "",
        "changes": changes,
        "table": (changes_table(changes, names, *words),),
        "is_other": is_other,
    }
    return render(request, "history/back.html", given, status=409 if is_other else 200)


def _number(given: str) -> int:
    if not (given.isascii() and given.isdecimal() and len(given) < 9):
        raise Http404
    return int(given)
