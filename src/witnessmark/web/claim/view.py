"""What is said about the car, by whom and for whom; each part a form that keeps itself."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.template.loader import render_to_string
from django.urls import reverse

from witnessmark import store
from witnessmark.casefile import SiteState
from witnessmark.documents.json_places import EnteredPlaces
from witnessmark.documents.lines import KeyPath
from witnessmark.entry import BooksOpened, CaseDraft, books_of, checked, expected_sites
from witnessmark.problem import Problem
from witnessmark.source import Source
from witnessmark.web.claim.keeping import (
    add_entry,
    add_oneself,
    change_entry,
    enter_items,
    enter_part,
)
from witnessmark.web.claim.parts import BY_ID, Part
from witnessmark.web.claim.problems import WithoutBook
from witnessmark.web.claim.sheet import ListShown, as_it_stands, list_shown, sheet
from witnessmark.web.claim.shown import NOTHING_SENT, FieldShown, Sent, form_name
from witnessmark.web.route import Who
from witnessmark.web.shared import books
from witnessmark.web.shared.desk import Bench, bench_of
from witnessmark.web.shared.saving import Saved, answered, change, now, typed, typed_list

type Make = Callable[[CaseDraft], Sequence[str]]


def page(request: HttpRequest, case: str) -> HttpResponse:
    """The page as it stands."""
    return render(request, "claim/page.html", _given(request, bench_of(case), NOTHING_SENT))


def part(request: HttpRequest, case: str, part: str) -> HttpResponse:
    """The fields of one part."""
    own = _part(part, is_list=False)
    if request.method != "POST":
        return redirect("claim", case)
    saved = _change(request, case, own, lambda draft: enter_part(draft, request, own))
    return _answer(request, saved, own.id, f"part-{own.id}")


def items(request: HttpRequest, case: str) -> HttpResponse:
    """What is claimed of the car, item by item."""
    if request.method != "POST":
        return redirect("claim", case)
    saved = _change(request, case, None, lambda draft: enter_items(draft, request))
    return _answer(request, saved, "items", "part-items")


def new(request: HttpRequest, case: str, part: str) -> HttpResponse:
    """One more entry of a list."""
    own = _part(part, is_list=True)
    if request.method != "POST":
        return redirect("claim", case)
    is_oneself = own.id == "examiners" and request.POST.get("deed") == "me"
    make = add_oneself if is_oneself else add_entry
    saved = _change(request, case, own, lambda draft: make(draft, request, own))
    return _answer(request, saved, form_name(own, None), f"part-{own.id}", own)


def entry(request: HttpRequest, case: str, part: str, at: int) -> HttpResponse:
    """Another word for an entry, or the entry taken away."""
    own = _part(part, is_list=True)
    if request.method != "POST":
        return redirect("claim", case)
    saved = _change(request, case, own, lambda draft: change_entry(draft, request, own, at))
    is_gone = request.POST.get("deed") == "remove"
    return _answer(request, saved, form_name(own, at), f"part-{own.id}", own if is_gone else None)


def book(request: HttpRequest, case: str) -> HttpResponse:
    """Another code book, or others beside it: the places that it expects come with it."""
    if request.method != "POST":
        return redirect("claim", case)
    saved = _with_book(request, case)
    if saved.problems:
        return _answer(request, saved, "book", "part-book")
    if request.htmx:  # type: ignore[attr-defined]
        answer = HttpResponse(status=204)
        answer["HX-Refresh"] = "true"
        return answer
    return redirect("claim", case)


def _part(name: str, *, is_list: bool) -> Part:
    found = BY_ID.get(name)
    if found is None or found.is_list is not is_list:
        raise Http404
    return found


def _change(request: HttpRequest, case: str, own: Part | None, make: Make) -> Saved:
    bench = bench_of(case)
    if not bench.has_book:
        return Saved(bench, (), (WithoutBook(Source("book")),))
    return change(request, case, own.title.lower() if own and own.title else "claim", make)


def _with_book(request: HttpRequest, case: str) -> Saved:
    """The case by another book; what the new one cannot read stays and is told on the page."""
    bench = bench_of(case)
    name, beside = typed(request, "book"), typed_list(request, "beside")
    names = tuple(each for each in beside.value if each != name.value)
    opened, at = bench.on.opened, bench.on.opened.places
    casefile = replace(bench.casefile, book=str(name.value), beside=names)
    places: dict[KeyPath, Source] = {("book",): name.source}
    places |= {("beside", n): beside.source for n in range(len(names))}
    found = books_of(
        casefile,
        EnteredPlaces(at.lines, at.values, at.keys, places),
        books.folder_for(casefile),
        known=books.known(books.state()),
    )
    if not isinstance(found, BooksOpened):
        return Saved(bench, (), found)
    draft = CaseDraft(opened=opened, casefile=casefile, book=found.book, given=places)
    if not (casefile.readings or casefile.looks):  # else a site that is not listed was not begun
        begun = {e.site for e in casefile.sites if e.state is not SiteState.NOT_LOOKED_FOR}
        left = tuple(each for each in casefile.sites if each.site in begun)
        expected = expected_sites(found.book, casefile)
        sites = (*left, *(each for each in expected if each.site not in begun))
        draft.casefile = replace(casefile, sites=sites)
    text, problems = checked(draft)
    if problems:
        return Saved(bench, (), problems)
    who = request.person.name  # type: ignore[attr-defined]
    did = f"code book: {', '.join((casefile.book, *names))}"
    made = store.revise(case, bench.number, text, who=who, did=did, at=now())
    return Saved(bench_of(case), (did,), (), made.beside)


def _answer(
    request: HttpRequest, saved: Saved, form: str, anchor: str, whole: Part | None = None
) -> HttpResponse:
    """Fragments where the page asked by itself: what is wrong at each field of the form, the
    list anew where it is longer or shorter; else the page again, or the way back to it."""
    sent = Sent(form, request.POST.dict(), saved.problems) if saved.problems else NOTHING_SENT
    if not request.htmx:  # type: ignore[attr-defined]
        if saved.problems:
            given = _given(request, saved.bench, sent)
            return render(request, "claim/page.html", given, status=422)
        return redirect(f"{reverse('claim', args=[saved.bench.case])}#{anchor}")
    shown = sheet(saved.bench, sent) if sent.form else as_it_stands(saved.bench)
    own = [each for each in _fields(shown.all_fields(), form) if not whole or saved.problems]
    told = _at_no_field(saved.problems, own)
    if form == "items" and not saved.problems:
        own = [replace(each, read=_read(request, each)) for each in own]
    parts = [render_to_string("claim/wrong_here.html", {"fields": own, "swapped": True})]
    if saved.problems:
        others = {"saved": replace(saved, problems=told), "swapped": True}
        answer = HttpResponse(render_to_string("shared/problems.html", others), status=422)
    else:
        answer = answered(request, saved)
        read = {"sheet": shown, "bench": saved.bench, "swapped": True, "may_write": True}
        parts.append(render_to_string("claim/read.html", read, request))
        parts += (
            render_to_string("claim/words.html", {"entry": each, "swapped": True})
            for each in shown.all_entries()
            if each.form == form
        )
        if whole is not None:
            more: dict[str, Any] = {"list": _list(saved.bench, whole), **read}
            parts.append(render_to_string("claim/list.html", more, request))
    answer.content += "".join(parts).encode()
    return answer


def _read(request: HttpRequest, field: FieldShown) -> str:
    """What the book calls what was typed, where it was typed otherwise."""
    given = request.POST.get(field.name, "").strip()
    return field.value if given and given != field.value else ""


def _list(bench: Bench, own: Part) -> ListShown:
    return list_shown(bench, own, NOTHING_SENT)


def _fields(fields: Sequence[FieldShown], form: str) -> list[FieldShown]:
    return [each for each in fields if each.id.startswith(f"{form}-")]


def _at_no_field(problems: Sequence[Problem], fields: Sequence[FieldShown]) -> tuple[Problem, ...]:
    """The problems that stand at no field of the form."""
    names = {each.name for each in fields}
    return tuple(each for each in problems if each.source.name not in names)


def _given(request: HttpRequest, bench: Bench, sent: Sent) -> dict[str, Any]:
    may_write = request.person.role != Who.READER  # type: ignore[attr-defined]
    shown = sheet(bench, sent) if sent.form else as_it_stands(bench)
    at_fields = shown.all_fields()
    names = [each for each in at_fields if sent.form and each.id.startswith(f"{sent.form}-")]
    return {
        "bench": bench,
        "here": "claim",
        "sheet": shown,
        "sent": sent,
        "told": _at_no_field(sent.problems, names),
        "may_write": may_write,
    }
