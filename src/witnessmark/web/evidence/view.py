"""The evidence: the walk, the place where somebody stands, and what it says."""

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.template.loader import render_to_string
from django.urls import reverse

from witnessmark.casefile import SiteSeen
from witnessmark.entry import CaseDraft, place_name
from witnessmark.web.evidence.cards import PlaceCard, place_card, site_of
from witnessmark.web.evidence.forms import Refused
from witnessmark.web.evidence.said import looks_worth, said_here
from witnessmark.web.evidence.saves import (
    Held,
    entered,
    reply,
    saved_with,
    sent,
    what_changed,
)
from witnessmark.web.evidence.walk import OTHERS, marks_at, walk_of
from witnessmark.web.shared.desk import Bench, bench_of
from witnessmark.web.shared.saving import Saved, acknowledged
from witnessmark.wording import term
from witnessmark.wording.amounts import capital

OF_ALL = "This place"
OF_THE_REST = "This place, and each mark here that has no answer of its own"
FOLLOWING = ("shared/strip.html", "evidence/walk.html", "evidence/says.html")


def page(request: HttpRequest, case: str) -> HttpResponse:
    """To the first place where nobody has been yet; to the first of all where all are done."""
    bench = bench_of(case)
    if not bench.has_book:
        return render(request, "evidence/no_book.html", {"bench": bench, "here": "evidence"})
    walk = walk_of(bench)
    stops = [*(each for each in walk.places if each.is_open), *walk.stops]
    return redirect(stops[0].address)


def place(request: HttpRequest, case: str, place: str) -> HttpResponse:
    """The card of one place; a form sent to it says how the place, or a mark there, ended."""
    bench = _with_book(case)
    if site_of(bench, place) is None:
        raise Http404
    if request.method == "POST":
        saved = _save_state(request, case, place)
        address = reverse("place", args=[case, place])
        return reply(request, saved, address, lambda *a, **k: place_page(*a, place=place, **k))
    return place_page(request, bench, place=place)


def worth(request: HttpRequest, case: str, place: str) -> HttpResponse:
    """What a further look there would be worth, which takes a while to work out."""
    bench = _with_book(case)
    site = site_of(bench, place)
    if site is None:
        raise Http404
    card = place_card(bench, site, _name(request))
    looks = looks_worth(bench, place, card.mark_ids)
    return render(request, "evidence/worth.html", {"looks": looks, "bench": bench})


def place_page(
    request: HttpRequest,
    bench: Bench,
    *,
    place: str,
    refused: Refused | None = None,
    saved: Saved | None = None,
) -> HttpResponse:
    """The page of a place, or what of it changed with a save."""
    site = site_of(bench, place)
    if site is None:
        raise Http404
    card = place_card(bench, site, _name(request), refused)
    given = {
        "here": "evidence",
        "bench": bench,
        "card": card,
        "refused": refused,
        "states": _states(card),
        "place_legend": OF_THE_REST if any(each.state for each in card.marks) else OF_ALL,
        "worth": reverse("place_worth", args=[bench.case, place]),
        "may_write": may_write(request),
    }
    if saved is not None:
        return acknowledged(request, saved, "evidence/states.html", **given)
    given |= {"walk": walk_of(bench, place), "said": said_here(bench, place, card.mark_ids)}
    return render(request, "evidence/page.html", given)


def follows(request: HttpRequest, case: str, place: str) -> HttpResponse:
    """What a save changes beside what was typed, asked for behind it: what does not fit, the walk,
    and what this stop says."""
    bench = _with_book(case)
    site = site_of(bench, place)
    groups = marks_at(bench, site) if site is not None else ()
    marks = (place, *(each.id for group in groups for each in group))
    given = {"bench": bench, "walk": walk_of(bench, place), "swapped": True}
    given["said"] = said_here(bench, place, marks[1:])
    names = FOLLOWING[:2] if place == OTHERS else FOLLOWING
    return HttpResponse("".join(render_to_string(each, given, request) for each in names))


def may_write(request: HttpRequest) -> bool:
    """May this person enter anything?"""
    return str(request.person.role) != "reader"  # type: ignore[attr-defined]  # the guard sets it


def _name(request: HttpRequest) -> str:
    return str(request.person.name)  # type: ignore[attr-defined]  # the guard sets it


def _with_book(case: str) -> Bench:
    bench = bench_of(case)
    if not bench.has_book:
        raise Http404
    return bench


def _states(card: PlaceCard) -> tuple[object, ...]:
    """The forms of states of a card, which a reading changes too."""
    return (card.state, *(each.state for each in card.marks if each.state is not None))


def _save_state(request: HttpRequest, case: str, place: str) -> Saved:
    """How the place ended, or the one mark of it that the form names."""
    mark = request.POST.get("mark", "")
    form = sent(request, ("state", "reason", "attachment"))

    def own_at(sites: tuple[SiteSeen, ...]) -> int | None:
        return next((n for n, e in enumerate(sites) if (e.site, e.mark) == (place, mark)), None)

    def make(draft: CaseDraft) -> tuple[str, ...]:
        at = own_at(draft.casefile.sites)
        changed = form.now if at is None else form.changed
        if not changed:
            return ()
        fields = {name: entered(each, name) for name, each in changed.items()}
        own = {"site": entered(place, "place"), "mark": entered(mark, "mark")}
        last = len(draft.casefile.sites)
        draft.enter("sites", last if at is None else at, SiteSeen, own, fields)
        said = {**changed, "state": term(changed["state"])} if "state" in changed else changed
        if at is None:  # what was left empty is nothing that anybody said
            said = {name: each for name, each in said.items() if each and name != "attachment"}
        return (what_changed(capital(place_name(draft, place, mark)), "state", said),)

    def held(bench: Bench) -> Held | None:
        at, sites = own_at(bench.casefile.sites), bench.casefile.sites
        if at is None:
            return None
        own = sites[at]
        return {"state": own.state, "reason": own.reason, "attachment": own.attachment}

    return saved_with(request, case, "place", make, held)
