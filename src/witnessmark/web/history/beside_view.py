"""What two people wrote differently: both texts, by whom and when, and which is to stand."""

import json
from dataclasses import dataclass
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render

from witnessmark import store
from witnessmark.store.meeting import is_same
from witnessmark.web.history.names import names_of
from witnessmark.web.shared.desk import bench_of
from witnessmark.web.shared.saving import now
from witnessmark.wording import Names
from witnessmark.wording.amounts import capital
from witnessmark.wording.case_words import feature_word, field_word

NOTHING = "nothing there"
CALLED = ("mark", "site", "feature", "item", "about", "name", "who", "id")
"""Fields that say what an entry is about, the first of them that says anything."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BesideShown:
    """A place where two wrote differently, in words."""

    kept: store.KeptBeside
    place: str
    stands: str
    stands_by: store.KeptRevision
    mine: str
    before: str


def page(request: HttpRequest, case: str) -> HttpResponse:
    """All that is to be settled; a form says which of two stands."""
    if request.method == "POST":
        return _settled(request, case)
    bench = bench_of(case)
    names = names_of(bench)
    shown = [_shown(each, names) for each in store.beside(case)]
    settled = store.beside(case, is_settled=True)
    given = {"bench": bench, "here": "history", "shown": shown, "settled": len(settled)}
    return render(request, "history/beside.html", given)


def _settled(request: HttpRequest, case: str) -> HttpResponse:
    number, keep = request.POST.get("number", ""), request.POST.get("keep", "")
    is_here = number in {str(each.id) for each in store.beside(case)}
    if not is_here or keep not in ("mine", "theirs"):
        raise Http404
    who = request.person.name  # type: ignore[attr-defined]
    store.settle(int(number), keep, who, now())
    return redirect("beside", case)


def _shown(kept: store.KeptBeside, names: Names) -> BesideShown:
    there = store.revision(kept.case, kept.revision)
    return BesideShown(
        kept=kept,
        place=_place(_document(there), kept.path, names),
        stands=_text(kept.theirs),
        stands_by=_last_writer(kept),
        mine=_text(kept.mine),
        before=_text(kept.base),
    )


def _last_writer(kept: store.KeptBeside) -> store.KeptRevision:
    """The revision that first said what stands."""
    number = kept.revision
    while number > 1 and is_same(
        _at(store.revision(kept.case, number - 1), kept.path), kept.theirs
    ):
        number -= 1
    return store.revision(kept.case, number)


def _at(there: store.KeptRevision, path: tuple[str | int, ...]) -> Any:
    """What a revision says at a path."""
    here = _document(there)
    for step in path:
        try:
            here = here[step]
        except (KeyError, IndexError, TypeError):
            return store.ABSENT
    return here


def _document(there: store.KeptRevision) -> Any:
    return json.loads(there.text.removeprefix("\ufeff"))


def _place(document: Any, path: tuple[str | int, ...], names: Names) -> str:
    """Where it stands: "Readings, chassis number on the frame: text"."""
    told, here = [], document
    for step in path:
        try:
            here = here[step]
        except (KeyError, IndexError, TypeError):
            here = None
        if isinstance(step, str):
            told.append(field_word(step))
        elif isinstance(here, dict):
            told += [_called(here, names)]
    return capital(", ".join(filter(None, told)))


def _called(entry: dict[str, Any], names: Names) -> str:
    """What an entry of a list is about."""
    for field in CALLED:
        value = entry.get(field)
        if isinstance(value, str) and value:
            return feature_word(value) if field == "feature" else names.any(value)
    return ""


def _text(value: Any) -> str:
    """A value as a person reads it."""
    if value is store.ABSENT or value is None or value == "":
        return NOTHING
    if isinstance(value, dict):
        told = ((field_word(key), _text(each)) for key, each in value.items() if each)
        return "; ".join(f"{name}: {text}" for name, text in told)
    if isinstance(value, list):
        return "; ".join(map(_text, value))
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value)
