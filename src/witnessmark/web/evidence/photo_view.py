"""Photographs: shown, added, described; the original stays as it came and can be fetched."""

from typing import Any

from django.core.files.uploadedfile import UploadedFile
from django.http import FileResponse, Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse

from witnessmark import store
from witnessmark.casefile import Exhibit, ExhibitEntry, SiteState
from witnessmark.entry import CaseDraft, EnteredPair, enter_exhibit, enter_sites, take_exhibit_off
from witnessmark.problem import Problem
from witnessmark.source import Source
from witnessmark.web.evidence.cards import PhotoShown
from witnessmark.web.evidence.forms import Refused
from witnessmark.web.evidence.pictures import crop_of, shown_picture
from witnessmark.web.evidence.saves import Held, entered, reply, saved_with, sent
from witnessmark.web.evidence.view import may_write
from witnessmark.web.shared.asked import address_here
from witnessmark.web.shared.desk import Bench, bench_of
from witnessmark.web.shared.saving import Saved, acknowledged, now

OFF = "off"
CAR, TITLE_SHOWN = "car", "title"
SIDES = ("left", "top", "width", "height")
MOST_REGIONS = 40
DESCRIBED = ("caption", "taken_by", "shows_whole_car", "looked", "region-")


def entry_of(bench: Bench, exhibit: str) -> tuple[int, ExhibitEntry]:
    """The exhibit of this id, and its number in the case."""
    found = enumerate(bench.casefile.exhibits, 1)
    return next(((n, e) for n, e in found if e.id == exhibit), None) or _nothing()


def _nothing() -> Any:
    raise Http404


def shown(request: HttpRequest, case: str, exhibit: str) -> HttpResponse:
    """The photograph reduced, without what its camera noted."""
    return _jpeg(shown_picture(entry_of(bench_of(case), exhibit)[1]))


def crop(request: HttpRequest, case: str, exhibit: str, part: int) -> HttpResponse:
    """A marked part of it."""
    return _jpeg(crop_of(entry_of(bench_of(case), exhibit)[1], part))


def _jpeg(content: bytes | None) -> HttpResponse:
    if content is None:
        raise Http404
    return HttpResponse(content, content_type="image/jpeg")


def original(request: HttpRequest, case: str, exhibit: str) -> FileResponse:
    """The file byte for byte."""
    entry = entry_of(bench_of(case), exhibit)[1]
    try:
        kept, path = store.exhibit(entry.sha256), store.exhibit_path(entry.sha256)
        stream = path.open("rb")
    except (store.NotKeptError, OSError):
        raise Http404 from None
    name = f"{entry.id}{path.suffix}"
    return FileResponse(stream, as_attachment=True, filename=name, content_type=kept.media_type)


def add(request: HttpRequest, case: str) -> HttpResponse:
    """All photographs of the case; those that are sent are kept and named at what they show."""
    if request.method != "POST":
        return _all(request, bench_of(case))
    back = _back(request, case)
    problems: list[Problem] = []
    if request.POST.get("deed") == OFF:
        problems += _taken_off(request, case)
    for each in request.FILES.getlist("photo")[:50]:
        problems += _kept(request, case, each)
    if problems:
        given = {"bench": bench_of(case), "here": "evidence", "problems": problems, "back": back}
        return render(request, "evidence/not_added.html", given, status=422)
    return redirect(back)


def _taken_off(request: HttpRequest, case: str) -> tuple[Problem, ...]:
    """One photograph no longer at what it was said to show."""
    _number, entry = entry_of(bench_of(case), request.POST.get("exhibit", ""))
    shows = entered(request.POST.get("shows", ""), "shows")
    return saved_with(
        request, case, "photograph", lambda draft: (take_exhibit_off(draft, shows, entry.id),)
    ).problems


def _all(request: HttpRequest, bench: Bench) -> HttpResponse:
    shown = tuple(PhotoShown(n, each) for n, each in enumerate(bench.casefile.exhibits, 1))
    given = {"bench": bench, "here": "evidence", "photos": shown, "may_write": may_write(request)}
    return render(request, "evidence/all_photos.html", given)


def _back(request: HttpRequest, case: str) -> str:
    return address_here(request, request.POST.get("back", "")) or reverse("evidence", args=[case])


def _kept(request: HttpRequest, case: str, sent_file: "UploadedFile[Any]") -> tuple[Problem, ...]:
    """Keep one file, and enter it into the case."""
    name = sent_file.name or "photo"
    try:
        kept = store.keep_exhibit(sent_file.open("rb"), name, now(), Source(name))
    except store.NotKeptError as fault:
        return fault.problems
    content = store.exhibit_path(kept.sha256).read_bytes()
    shows = request.POST.get("shows", "")

    def make(draft: CaseDraft) -> tuple[str, ...]:
        _let_be(draft, shows)
        id_ = name.rsplit(".", 1)[0]
        entry = ExhibitEntry(id="new", file=kept.file, sha256=kept.sha256)
        found = Exhibit(entry, content, kept.media_type, kept.width_px, kept.height_px)
        fields = {"taken_by": entered(request.POST.get("taken_by", "")[:200], "taken_by")}
        told = enter_exhibit(
            draft, found, entered(id_, "photo"), [entered(shows, "shows")] if shows else [], fields
        )
        return (told,)

    return saved_with(request, case, "photograph", make).problems


def _let_be(draft: CaseDraft, shows: str) -> None:
    """An entry of the place, at which the photograph can be named."""
    site = next((e for e in draft.book.sites if e.id == shows), None)
    if site is not None and all(each.site != shows for each in draft.casefile.sites):
        state = entered(SiteState.NOT_LOOKED_FOR.value, "state")
        enter_sites(draft, [EnteredPair(entered(shows, "shows"), state)], {})


def page(request: HttpRequest, case: str, exhibit: str) -> HttpResponse:
    """One photograph, large, with what is noted of it; a form describes it."""
    bench = bench_of(case)
    entry_of(bench, exhibit)
    if request.method == "POST":
        saved = _save(request, case, exhibit)
        address = reverse("photo", args=[case, exhibit])
        return reply(request, saved, address, lambda *a, **k: photo_page(*a, exhibit=exhibit, **k))
    return photo_page(request, bench, exhibit=exhibit)


def photo_page(
    request: HttpRequest,
    bench: Bench,
    *,
    exhibit: str,
    refused: Refused | None = None,
    saved: Saved | None = None,
) -> HttpResponse:
    """The page of a photograph, or what of it changed with a save."""
    if saved is not None:  # what is noted of a photograph is compared with nothing
        return acknowledged(request, saved)
    number, entry = entry_of(bench, exhibit)
    held = refused.typed if refused is not None else _described(entry)
    try:
        kept = store.exhibit(entry.sha256)
    except store.NotKeptError:
        kept = None
    regions = [
        (at, [(side, held.get(f"region-{at}-{side}", "")) for side in SIDES])
        for at in range(len(entry.number_regions or ()) + 4)
    ]
    given = {
        "bench": bench,
        "here": "evidence",
        "number": number,
        "entry": entry,
        "held": held,
        "kept": kept,
        "is_picture": PhotoShown(number, entry).is_picture,
        "regions": regions,
        "refused": refused,
        "may_write": may_write(request),
        "back": address_here(request, request.GET.get("from", "")),
    }
    return render(request, "evidence/photo.html", given)


def _described(entry: ExhibitEntry) -> dict[str, str]:
    regions = {
        f"region-{at}-{side}": str(getattr(each, side))
        for at, each in enumerate(entry.number_regions or ())
        for side in SIDES
    }
    return {
        "caption": entry.caption,
        "taken_by": entry.taken_by,
        "shows_whole_car": "yes" if entry.shows_whole_car else "",
        "looked": "yes" if entry.number_regions is not None else "",
        **regions,
    }


def _save(request: HttpRequest, case: str, exhibit: str) -> Saved:
    form = sent(request, DESCRIBED)

    def make(draft: CaseDraft) -> tuple[str, ...]:
        at = next((n for n, e in enumerate(draft.casefile.exhibits) if e.id == exhibit), None)
        if at is None:
            return ()
        was = form.was or {}
        fields: dict[str, Any] = {
            name: entered(form.now.get(name, ""), name)
            for name in ("caption", "taken_by")
            if name in form.changed
        }
        is_whole = form.now.get("shows_whole_car") == "yes"
        if form.was is None or (was.get("shows_whole_car") == "yes") is not is_whole:
            fields["shows_whole_car"] = entered(is_whole, "shows_whole_car")
        if form.was is None or _regions(was) != _regions(form.now):
            fields["number_regions"] = entered(_regions(form.now), "region-0-left")
        if fields:
            draft.put("exhibits", at, fields)
        return (exhibit,) if fields else ()

    def held(bench: Bench) -> Held | None:
        found = next((e for e in bench.casefile.exhibits if e.id == exhibit), None)
        nothing = {f"region-{at}-{side}": "" for at in range(MOST_REGIONS) for side in SIDES}
        return None if found is None else nothing | _described(found)

    return saved_with(request, case, "photograph", make, held)


def _pixels(text: str) -> object:
    """A number; a text that is none is told by the check of its field."""
    return int(text) if text.isdecimal() and len(text) < 8 else text


def _regions(given: Held) -> list[dict[str, object]] | None:
    """The rectangles of a form; None where nobody said that the picture was looked at."""
    found: list[dict[str, object]] = []
    for at in range(MOST_REGIONS):
        sides = {side: given.get(f"region-{at}-{side}", "").strip() for side in SIDES}
        if any(sides.values()):
            found.append({side: _pixels(text) for side, text in sides.items()})
    return found if found or given.get("looked") == "yes" else None
