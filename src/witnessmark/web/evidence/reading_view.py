"""A reading, saved by its own form and shown while it is typed."""

from collections.abc import Callable, Mapping

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse

from witnessmark.casefile import Legibility, SiteState
from witnessmark.codebook import Mark, MarkKind
from witnessmark.entry import (
    CaseDraft,
    Entered,
    EnteredPair,
    LegibilityUnsaid,
    enter_readings,
)
from witnessmark.examination import car_context
from witnessmark.examination.entries import state_read, with_state
from witnessmark.source import Source
from witnessmark.web.evidence.forms import KNOWN, Whose, readings_of
from witnessmark.web.evidence.live import live as live_reading
from witnessmark.web.evidence.paper_view import paper_page
from witnessmark.web.evidence.plates import plate_rows, typed_text
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

FIELDS = ("text", "legibility", "orientation", "seen", "claim_known", "note", "window-")
REMOVE = "remove"


def reading(request: HttpRequest, case: str, mark: str) -> HttpResponse:
    """Keep a reading, or take it away."""
    bench = bench_of(case)
    found = bench.book.mark(mark) if bench.has_book else None
    if found is None or request.method != "POST":
        raise Http404
    saved = save_reading(request, case, found, whose_of(request))
    address, page = page_of(case, found)
    return reply(request, saved, address, page)


def live(request: HttpRequest, case: str, mark: str) -> HttpResponse:
    """What the text says so far."""
    bench = bench_of(case)
    found = bench.book.mark(mark) if bench.has_book else None
    if found is None:
        raise Http404
    text = typed_text(found, request.POST.dict())
    given = car_context(bench.casefile, bench.book)
    shown = live_reading(bench.book, found, text[:500], given)
    return render(request, "evidence/live.html", {"live": shown})


def page_of(case: str, mark: Mark) -> tuple[str, Callable[..., HttpResponse]]:
    """Where the card of a mark is, and what makes its page."""
    if mark.kind is MarkKind.PAPER or not mark.site:
        return reverse("paper", args=[case, mark.id]), lambda *given, **more: paper_page(
            *given, mark=mark.id, **more
        )
    return reverse("place", args=[case, mark.site]), lambda *given, **more: place_page(
        *given, place=mark.site, **more
    )


def whose_of(request: HttpRequest) -> Whose:
    """Which entry a form speaks of; one without a reader is this person's own."""
    nth = request.POST.get("nth", "")
    return Whose(
        by=request.POST.get("by", "")[:200],
        again=request.POST.get("again") == "yes",
        nth=int(nth) if nth.isdecimal() and len(nth) < 4 else 0,
    )


def save_reading(request: HttpRequest, case: str, mark: Mark, whose: Whose) -> Saved:
    """Keep what the form says of this reading."""
    form = sent(request, FIELDS)
    is_gone = request.POST.get("deed") == REMOVE

    def make(draft: CaseDraft) -> tuple[str, ...]:
        at = _place(draft, mark, whose)
        if is_gone:
            return _removed(draft, mark, at)
        if at is None:
            is_own = may_sign(request, draft, whose.by)
            return _added(draft, mark, whose, form) if is_own else ()
        return _changed(draft, mark, at, form)

    return saved_with(request, case, "reading", make, _held(mark, whose))


def _place(draft: CaseDraft, mark: Mark, whose: Whose) -> int | None:
    found = readings_of(draft.casefile, draft.book, mark.id)
    return next((at for at, own, _ in found if own == whose), None)


def _held(mark: Mark, whose: Whose) -> Callable[[Bench], Held | None]:
    """What a reading holds as its form has it, as one text and window by window."""

    def held(bench: Bench) -> Held | None:
        found = readings_of(bench.casefile, bench.book, mark.id)
        own = next((each for _, w, each in found if w == whose), None)
        if own is None:
            return None
        known = next(key for key, value in KNOWN.items() if value is own.claim_known)
        windows = (w for row in plate_rows(mark, own.text) for w in row) if mark.windows else ()
        return {
            **{each.name: each.text for each in windows},
            "text": own.text,
            "legibility": own.legibility.value,
            "orientation": own.orientation.value,
            "seen": own.seen.value,
            "claim_known": known,
            "note": own.note,
        }

    return held


def _fields(given: Mapping[str, str]) -> dict[str, Entered]:
    """The fields of a reading beside its text, as the case has them."""
    names = ("legibility", "orientation", "seen", "note")
    fields = {name: entered(given[name], name) for name in names if name in given}
    if given.get("claim_known") in KNOWN:
        fields["claim_known"] = entered(KNOWN[given["claim_known"]], "claim_known")
    return fields


def _added(draft: CaseDraft, mark: Mark, whose: Whose, form: FormSent) -> tuple[str, ...]:
    """One more reading; nothing where nothing was typed yet."""
    text = typed_text(mark, form.now)
    if not text.strip():
        return ()
    there = {x: None for e in draft.casefile.sites if e.site == mark.site for x in e.exhibits}
    own: dict[str, object] = {
        "by": whose.by,
        "again": whose.again,
        "when": now().isoformat(),
        "exhibits": list(there) if mark.site else [],
    }
    is_made_out = state_read(mark, text) is SiteState.READ
    if is_made_out and not form.now.get("legibility"):
        asked = LegibilityUnsaid(Source("legibility"), tuple(each.value for each in Legibility))
        draft.problems.append(asked)
    fields = {**_fields(form.now), **{name: entered(each, name) for name, each in own.items()}}
    pair = EnteredPair(entered(mark.id, "mark"), entered(text, "text"))
    return enter_readings(draft, [pair], fields)


def _changed(draft: CaseDraft, mark: Mark, at: int, form: FormSent) -> tuple[str, ...]:
    changed = form.changed
    fields = _fields(changed)
    text = typed_text(mark, form.now)
    if any(name == "text" or name.startswith("window-") for name in changed):
        fields |= {"text": entered(text, "text"), "when": entered(now().isoformat(), "when")}
    if not fields:
        return ()
    draft.put("readings", at, fields)
    if "text" in fields and not draft.problems:
        state = state_read(mark, text)
        draft.casefile = with_state(draft.casefile, draft.book, draft.context, mark, state)
    told = {name: each for name, each in changed.items() if not name.startswith("window-")}
    return (what_changed(mark.name, "text", told | ({"text": text} if "text" in fields else {})),)


def _removed(draft: CaseDraft, mark: Mark, at: int | None) -> tuple[str, ...]:
    if at is None:
        return ()
    draft.remove("readings", at)
    return (f"{mark.name}: a reading taken away",)
