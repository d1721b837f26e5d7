"""Saves of a card: only what was changed is entered, into a revision that stood as it was read.

A form that sends itself says what it held when it was last in step (`was`). So a field that this
person left alone never overwrites what somebody else has put there meanwhile, and one that both
changed meets the other's text in the store, which keeps both.
"""

import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.template.loader import render_to_string

from witnessmark import store
from witnessmark.entry import CaseDraft, Entered, NotAllowed
from witnessmark.source import Source
from witnessmark.web.evidence.forms import Refused, my_names
from witnessmark.web.shared.asked import whole_number
from witnessmark.web.shared.desk import Bench, bench_at, bench_of
from witnessmark.web.shared.page import RevisionUnreadError
from witnessmark.web.shared.saving import Saved, change
from witnessmark.wording.case_words import field_word

MOST_BACK = 12
"""Revisions that are gone back to find the one that a form was read from."""

type Held = Mapping[str, str]
"""What the fields of an entry hold, as a form has them."""


@dataclass(frozen=True, slots=True)
class FormSent:
    """A form that was sent: its fields, and what they held when it was last in step."""

    now: Held
    was: Held | None

    @property
    def changed(self) -> dict[str, str]:
        """The fields that this person changed."""
        if self.was is None:
            return dict(self.now)
        return {name: each for name, each in self.now.items() if self.was.get(name, "") != each}


def sent(request: HttpRequest, names: Sequence[str]) -> FormSent:
    """The fields of these names, or of those that begin so where a name ends in a dash."""
    starts = tuple(each for each in names if each.endswith("-"))

    def own(form: Mapping[str, object]) -> dict[str, str]:
        return {
            name: str(each)
            for name, each in form.items()
            if name in names or (starts and name.startswith(starts))
        }

    return FormSent(own(request.POST.dict()), was if (was := _was(request)) is None else own(was))


def _was(request: HttpRequest) -> Mapping[str, object] | None:
    try:
        found = json.loads(request.POST.get("was", ""))
    except (ValueError, RecursionError):
        return None
    return found if isinstance(found, dict) else None


def what_changed(name: str, first: str, changed: Mapping[str, object]) -> str:
    """What an entry says now in each field that was changed: the field that is `first` by its
    value alone."""
    own = [str(changed[first])] if changed.get(first) else []
    others = (
        f"{field_word(each)}: {value or 'nothing'}"
        for each, value in changed.items()
        if each != first
    )
    return f"{name}: {'; '.join((*own, *others))}"


def entered(value: object, name: str) -> Entered:
    """A value with the field of the form as its place."""
    return Entered(value, Source(name))


def saved_with(
    request: HttpRequest,
    case: str,
    did: str,
    make: Callable[[CaseDraft], Sequence[str]],
    held: Callable[[Bench], Held | None] | None = None,
) -> Saved:
    """Keep what `make` enters. `held` gives what the entry holds in a revision as a form has it;
    the change is made from the latest one in which that is what the form was read from."""
    was = _was(request)
    if held is not None and _stands(request, bench := bench_of(case), held):
        return Saved(bench, (), ())
    if was is not None and held is not None:
        post_also(request, "base", str(_read_from(request, case, was, held)))
    return change(request, case, did, make)


def post_also(request: HttpRequest, name: str, value: str) -> None:
    """Let a field of the form hold this."""
    given = request.POST.copy()
    given[name] = value
    request.POST = given  # type: ignore[assignment]  # the same form with another field


def may_sign(request: HttpRequest, draft: CaseDraft, by: str) -> bool:
    """May this person add an entry that is signed so? Only with their own name; else what is
    wrong is told: an entry of somebody else was taken away meanwhile."""
    name = str(request.person.name)  # type: ignore[attr-defined]  # the guard sets it
    if by in my_names(name, draft.casefile):
        return True
    reason, wanted = "has no such entry any more", "your own, in your own field"
    draft.problems.append(NotAllowed(Source("by"), by, reason, wanted))
    return False


def _stands(request: HttpRequest, bench: Bench, held: Callable[[Bench], Held | None]) -> bool:
    """Does the case say all of it already? A form sent twice changes nothing."""
    found = held(bench)
    if found is None or "deed" in request.POST:
        return False
    return all(request.POST.get(name, each) == each for name, each in found.items())


def _read_from(
    request: HttpRequest,
    case: str,
    was: Mapping[str, object],
    held: Callable[[Bench], Held | None],
) -> int:
    last = store.head(case).number
    base = min(whole_number(request.POST.get("base", "")) or last, last)
    for number in range(base, max(0, base - MOST_BACK), -1):
        try:
            found = held(bench_at(store.revision(case, number)))
        except RevisionUnreadError:  # nobody has read a form from it
            break
        now = found if found is not None else {}
        if all(str(was.get(name, each)) == each for name, each in now.items()):
            return number
    return base


@dataclass(frozen=True, slots=True)
class Met:
    """What two people wrote into one place: both stand here until somebody chooses."""

    theirs: str
    mine: str


def _met(saved: Saved) -> tuple[Met, ...]:
    """What somebody else had written meanwhile where this form wrote something else."""
    return tuple(Met(_shown(each.theirs), _shown(each.mine)) for each in saved.beside)


def _shown(value: object) -> str:
    return value if isinstance(value, str) and value else "nothing" if not value else str(value)


def reply(
    request: HttpRequest, saved: Saved, address: str, page: Callable[..., HttpResponse]
) -> HttpResponse:
    """What a save is answered with: fragments for a form that sent itself; else the page at this
    address, or, where it was refused, the page with what was typed still in its form."""
    form = request.POST.get("form", "")
    if not request.htmx:  # type: ignore[attr-defined]  # its middleware sets it
        if not saved.problems:
            return redirect(address, permanent=False)
        refused = Refused(form, request.POST.dict(), saved.problems)
        answer = page(request, bench_of(saved.bench.case), refused=refused)
        answer.status_code = 422
        return answer
    given = {"form_id": form, "problems": saved.problems, "met": _met(saved), "bench": saved.bench}
    told = render_to_string("evidence/told.html", given, request)
    if saved.problems:
        return HttpResponse(told, status=422)
    answer = page(request, saved.bench, saved=saved)
    answer.content = told.encode() + answer.content
    return answer
