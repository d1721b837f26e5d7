"""The evidence: the walk, the place where somebody stands, and what it says."""

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse

from witnessmark.casefile import SiteState
from witnessmark.entry import CaseDraft, EnteredPair, enter_sites
from witnessmark.web.evidence.cards import PlaceCard, place_card, site_of
from witnessmark.web.evidence.forms import Refused
from witnessmark.web.evidence.said import looks_worth, place_said
from witnessmark.web.evidence.saves import Held, entered, reply, saved_with, sent
from witnessmark.web.evidence.walk import walk_of
from witnessmark.web.shared.desk import Bench, bench_of
from witnessmark.web.shared.saving import Saved, answered

PARTS = ("evidence/walk.html", "evidence/says.html", "evidence/states.html")


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
        "walk": walk_of(bench, place),
        "said": place_said(bench, card.mark_ids),
        "refused": refused,
        "states": _states(card),
        "worth": reverse("place_worth", args=[bench.case, place]),
        "may_write": may_write(request),
    }
    if saved is not None:
        return answered(request, saved, *PARTS, **given)
    return render(request, "evidence/page.html", given)


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
    of = request.POST.get("of") or place
    form = sent(request, ("state", "reason"))

    def make(draft: CaseDraft) -> tuple[str, ...]:
        there = [each for each in draft.casefile.sites if of in (each.mark or each.site,)]
        changed = form.changed if there else form.now
        if not changed:
            return ()
        state = changed.get("state") or (there[0].state if there else SiteState.NOT_LOOKED_FOR)
        fields = {"reason": entered(changed["reason"], "reason")} if "reason" in changed else {}
        pair = EnteredPair(entered(of, "of"), entered(str(state), "state"))
        return enter_sites(draft, [pair], fields)

    def held(bench: Bench) -> Held | None:
        found = next((e for e in bench.casefile.sites if of == (e.mark or e.site)), None)
        return None if found is None else {"state": found.state.value, "reason": found.reason}

    return saved_with(request, case, "place", make, held)
