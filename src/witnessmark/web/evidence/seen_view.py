"""How a feature of a place looked to somebody, saved by its own form."""

from django.http import Http404, HttpRequest, HttpResponse
from django.urls import reverse

from witnessmark.entry import CaseDraft, LookEntered, enter_looks, place_name
from witnessmark.web.evidence.cards import site_of
from witnessmark.web.evidence.forms import Whose, looks_of
from witnessmark.web.evidence.reading_view import REMOVE, whose_of
from witnessmark.web.evidence.saves import (
    FormSent,
    Held,
    entered,
    may_sign,
    reply,
    saved_with,
    sent,
    what_changed,
)
from witnessmark.web.evidence.view import place_page
from witnessmark.web.shared.desk import Bench, bench_of
from witnessmark.web.shared.saving import Saved, now
from witnessmark.wording.amounts import capital
from witnessmark.wording.case_words import feature_word


def look(request: HttpRequest, case: str, place: str, feature: str) -> HttpResponse:
    """Keep a look, or take it away."""
    bench = bench_of(case)
    if request.method != "POST" or not bench.has_book or site_of(bench, place) is None:
        raise Http404
    saved = save_look(request, case, (place, feature), whose_of(request))
    address = reverse("place", args=[case, place])
    return reply(request, saved, address, lambda *a, **k: place_page(*a, place=place, **k))


def save_look(request: HttpRequest, case: str, of: tuple[str, str], whose: Whose) -> Saved:
    """Keep what the form says of this feature of this place."""
    site, feature = of
    form = sent(request, ("outcome", "note"))
    is_gone = request.POST.get("deed") == REMOVE

    def make(draft: CaseDraft) -> tuple[str, ...]:
        found = looks_of(draft.casefile, draft.book, site, feature)
        at = next((n for n, own, _ in found if own == whose), None)
        if at is None:
            is_own = not is_gone and may_sign(request, draft, whose.by)
            return _added(draft, of, whose, form) if is_own else ()
        if is_gone:
            draft.remove("looks", at)
            return ("a look taken away",)
        fields = {name: entered(each, name) for name, each in form.changed.items()}
        if fields:
            draft.put("looks", at, fields)
            draft.in_book_words("looks")
        name = f"{capital(place_name(draft, site))}, {feature_word(feature)}"
        return (what_changed(name, "outcome", form.changed),) if fields else ()

    def held(bench: Bench) -> Held | None:
        found = looks_of(bench.casefile, bench.book, site, feature)
        own = next((each for _, w, each in found if w == whose), None)
        return None if own is None else {"outcome": own.outcome, "note": own.note}

    return saved_with(request, case, "look", make, held)


def _added(draft: CaseDraft, of: tuple[str, str], whose: Whose, form: FormSent) -> tuple[str, ...]:
    """One more look; nothing where no outcome was chosen yet."""
    site, feature = of
    if not form.now.get("outcome"):
        return ()
    own = {"by": whose.by, "again": whose.again, "when": now().isoformat()}
    fields = {name: entered(each, name) for name, each in own.items()}
    fields["note"] = entered(form.now.get("note", ""), "note")
    look = LookEntered(
        entered(site, "place"), entered(feature, "feature"), entered(form.now["outcome"], "outcome")
    )
    return enter_looks(draft, [look], fields)
