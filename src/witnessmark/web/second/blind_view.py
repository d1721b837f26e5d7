"""The second examiner's pages: places and photographs; when they are done, the differences."""

from dataclasses import dataclass

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.safestring import SafeString

from witnessmark.casefile import Seen
from witnessmark.figures.car_sites import SitePlace, site_map
from witnessmark.plan import SitePlan
from witnessmark.web.evidence.cards import (
    ANY_SURFACE,
    SURFACE,
    FeatureCard,
    feature_card,
)
from witnessmark.web.evidence.forms import ReadingForm, Refused, choices, reading_forms
from witnessmark.web.evidence.pictures import shown_picture
from witnessmark.web.evidence.walk import marks_at
from witnessmark.web.second.blind import Blind, differences, opened, photos_of, say_done
from witnessmark.web.shared.blocks import figure
from witnessmark.wording.amounts import capital, sentence
from witnessmark.wording.visit import effort, variation_look, variation_sentence


@dataclass(frozen=True, slots=True)
class BlindMark:
    """A mark with the form for reading it; `form` is how many places its parts have."""

    id: str
    name: str
    form: str
    reading: ReadingForm


@dataclass(frozen=True, slots=True)
class BlindStop:
    """A place, and whether this person has entered anything there."""

    key: str
    number: int
    name: str
    is_entered: bool


def page(request: HttpRequest, token: str) -> HttpResponse:
    """Where to begin, and what is asked."""
    blind = opened(token)
    if blind.is_done:
        found = tuple(differences(blind.bench, blind.whose))
        return render(request, "second/differences.html", {"blind": blind, "found": found})
    return render(request, "second/blind.html", {"blind": blind, "stops": stops(blind)})


def done(request: HttpRequest, token: str) -> HttpResponse:
    """They are done: nothing of theirs can be changed any more, and the differences are shown."""
    blind = opened(token)
    if request.method == "POST" and not blind.is_done and blind.shown.casefile.readings:
        say_done(blind.own.id)
    return redirect("second_in", token)


def stops(blind: Blind) -> tuple[BlindStop, ...]:
    """The places in walking order."""
    case, book = blind.shown.casefile, blind.shown.book
    entered = {mark.site for e in case.readings if (mark := book.mark(e.mark)) is not None}
    entered |= {each.site for each in case.looks}
    return tuple(
        BlindStop(each.row.id, each.number, capital(each.row.name), each.row.id in entered)
        for each in blind.sites
    )


def place(request: HttpRequest, token: str, place: str) -> HttpResponse:
    """One place."""
    return place_page(request, opened(token), place)


def place_page(
    request: HttpRequest, blind: Blind, place: str, refused: Refused | None = None
) -> HttpResponse:
    """The page of a place, with what was refused still in its form."""
    if blind.is_done:
        return redirect("second_in", blind.token)
    site = next((each for each in blind.sites if each.row.id == place), None)
    if site is None:
        raise Http404
    row, looks = site.row, {v.row.look_at for v in site.variations}
    given = {
        "blind": blind,
        "refused": refused,
        "may_write": True,
        "number": site.number,
        "key": row.id,
        "name": capital(row.name),
        "where": tuple(map(variation_sentence, site.variations)) or (sentence(row.where),),
        "effort": effort(site),
        "caution": sentence(row.caution),
        "look_for": tuple(map(variation_look, site.variations))
        if len(looks) > 1
        else (sentence(row.look_at),),
        "drawing": _drawing(site),
        "marks": _marks(blind, site, refused),
        "features": _features(blind, site, refused),
        "photos": [number for number, _ in photos_of(blind, site)],
        **_beside(blind, place),
    }
    return render(request, "second/place.html", given)


def _beside(blind: Blind, place: str) -> dict[str, BlindStop | None]:
    """The places before and behind."""
    all_stops = stops(blind)
    at = next(n for n, each in enumerate(all_stops) if each.key == place)
    return {
        "before": all_stops[at - 1] if at else None,
        "behind": all_stops[at + 1] if at + 1 < len(all_stops) else None,
    }


def _drawing(site: SitePlan) -> SafeString:
    """Where on the car it is, without how it ended."""
    at = dict.fromkeys((each.along, each.across, each.up) for each in site.rows)
    drawn = site_map(
        tuple(SitePlace(site.number, *each, None) for each in at), "", "", noted=False
    )  # fmt: skip
    return figure(drawn.svg, f"Where the {site.row.name} is") if drawn else SafeString("")


def _marks(blind: Blind, site: SitePlan, refused: Refused | None) -> tuple[BlindMark, ...]:
    found = []
    for group in marks_at(blind.shown, site):
        for mark in group:
            form = reading_forms(blind.shown, mark, blind.own.for_whom, refused, again=True)[0]
            if form.is_new:
                form = form.seen_by(choices(Seen, Seen.PHOTOGRAPH))
            parts = ", ".join(f"{e.name} ({max(e.widths, default=0)})" for e in mark.fields)
            found.append(BlindMark(mark.id, capital(mark.name), parts, form))
    return tuple(found)


def _features(blind: Blind, site: SitePlan, refused: Refused | None) -> tuple[FeatureCard, ...]:
    features = site.features
    if not any(each.id == SURFACE for each in features):
        features = (ANY_SURFACE, *features)
    whom = (blind.own.for_whom, refused)
    return tuple(feature_card(blind.shown, site.row.id, e, whom, again=True) for e in features)


def photo(request: HttpRequest, token: str, number: int) -> HttpResponse:
    """A photograph of a place, reduced, by its number alone."""
    blind = opened(token)
    shown = dict(pair for site in blind.sites for pair in photos_of(blind, site))
    content = shown_picture(shown[number]) if number in shown else None
    if content is None:
        raise Http404
    return HttpResponse(content, content_type="image/jpeg")
