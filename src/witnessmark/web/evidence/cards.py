"""A place's card: how it ended, its marks with their forms, what is looked at, its photographs."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import lru_cache

from django.utils.safestring import SafeString

from witnessmark.casefile import AttachmentSeen, ExhibitEntry, LookClass, SiteSeen, SiteState
from witnessmark.casefile.site_entries import SiteEntries
from witnessmark.catalogue import Catalogue, spoken
from witnessmark.codebook import Mark
from witnessmark.codebook.sketches import Sketch
from witnessmark.figures.car_sites import SitePlace, site_map
from witnessmark.figures.sketch import heard, sketch
from witnessmark.plan import FeaturePlan, OutcomePlan, SitePlan
from witnessmark.plan.care import own_care, reach_of, shared_care
from witnessmark.web.evidence.forms import (
    LookForm,
    RadioWord,
    ReadingForm,
    Refused,
    choices,
    look_forms,
    reading_again,
    reading_forms,
)
from witnessmark.web.evidence.walk import marks_at, state_sign
from witnessmark.web.shared.blocks import figure
from witnessmark.web.shared.desk import Bench
from witnessmark.wording import term
from witnessmark.wording.amounts import capital, sentence
from witnessmark.wording.visit import effort, variation_look, variation_sentence

SKETCHES_KEPT = 128
SURFACE = "surface"
ANY_SURFACE = FeaturePlan(
    SURFACE,
    "How does the metal look here?",
    tuple(OutcomePlan(each.value) for each in LookClass),
)
"""What may be noted of any place."""


@dataclass(frozen=True, slots=True)
class StateChoice:
    """One of the five ways in which a place can have ended."""

    value: str
    label: str
    says: str
    sign: SafeString
    is_chosen: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class StateForm:
    """How a place ended, or one mark of several there."""

    id: str
    mark: str
    choices: tuple[StateChoice, ...]
    reason: str
    attachment: tuple[RadioWord, ...]


@dataclass(frozen=True, slots=True)
class CropShown:
    """A part of a photograph on which somebody marked a number."""

    exhibit: str
    part: int
    number: int


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkCard:
    """A mark that is read here; `state` where the place has several, `instead` for those of which
    a car has one."""

    id: str
    name: str
    local_name: str
    form: str
    readings: tuple[ReadingForm, ...]
    again: ReadingForm | None
    crops: tuple[CropShown, ...]
    state: StateForm | None = None
    is_instead: bool = False


@dataclass(frozen=True, slots=True)
class OutcomeShown:
    """An outcome that can be noted, with its sketch."""

    id: str
    sketch: SafeString


@dataclass(frozen=True, slots=True)
class FeatureCard:
    """Something to look at, in the book's words."""

    id: str
    prompt: str
    outcomes: tuple[OutcomeShown, ...]
    looks: tuple[LookForm, ...]


@dataclass(frozen=True, slots=True)
class PhotoShown:
    """A photograph by its number in the case."""

    number: int
    entry: ExhibitEntry

    @property
    def is_picture(self) -> bool:
        """Can it be shown? A PDF is kept and fetched."""
        return not self.entry.file.lower().endswith(".pdf")


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceCard:
    """All of a place."""

    key: str
    number: int
    name: str
    where: tuple[str, ...]
    effort: str
    caution: str
    shared: str | None
    """The access with whose places it shares a caution that stands at the first of them."""
    look_for: tuple[str, ...]
    drawing: SafeString
    state: StateForm
    marks: tuple[MarkCard, ...]
    features: tuple[FeatureCard, ...]
    photos: tuple[PhotoShown, ...]

    @property
    def mark_ids(self) -> tuple[str, ...]:
        """The marks of the place."""
        return tuple(each.id for each in self.marks)


def site_of(bench: Bench, key: str) -> SitePlan | None:
    """The place of this id on this car."""
    return next((each for each in bench.places if each.row.id == key), None)


def place_card(
    bench: Bench, site: SitePlan, name: str, refused: Refused | None = None
) -> PlaceCard:
    """The card of a place for this person; with what was refused still in its form."""
    row, groups = site.row, marks_at(bench, site)
    caution, shared = _care(bench, site)
    looks = {each.look_at for each in (v.row for v in site.variations)}
    photos = tuple(photos_at(bench, row.id, (m.id for group in groups for m in group)))
    features = site.features
    if not any(each.id == SURFACE for each in features):
        features = (ANY_SURFACE, *features)
    return PlaceCard(
        key=row.id,
        number=site.number,
        name=capital(row.name),
        where=tuple(map(variation_sentence, site.variations)) or (sentence(row.where),),
        effort=effort(site),
        caution=caution,
        shared=shared,
        look_for=tuple(map(variation_look, site.variations))
        if len(looks) > 1
        else (sentence(row.look_at),),
        drawing=_drawing(site),
        state=state_form(bench, row.id, "", refused),
        marks=tuple(_mark_cards(bench, row.id, groups, (name, refused))),
        features=tuple(feature_card(bench, row.id, each, (name, refused)) for each in features),
        photos=photos,
    )


def _care(bench: Bench, site: SitePlan) -> tuple[str, str | None]:
    """What is to be minded here: in full at the first place of an access; at the others what they
    alone ask for, and the access whose caution they share."""
    reach = reach_of(bench.plan, site)
    shared = shared_care(reach) if reach else ""
    if reach is None or not shared or reach.sites[0].row.id == site.row.id:
        return sentence(site.row.caution), None
    return sentence(own_care(site, shared)), reach.access_group


def _drawing(site: SitePlan) -> SafeString:
    """Where on the car it is; nothing where the book does not say."""
    at = dict.fromkeys((each.along, each.across, each.up) for each in site.rows)
    places = tuple(SitePlace(site.number, *each, site.state) for each in at)
    return _drawn(places, site.row.name, spoken())


@lru_cache(SKETCHES_KEPT)
def _drawn(places: tuple[SitePlace, ...], name: str, _: Catalogue) -> SafeString:
    drawn = site_map(places, "", "", noted=False)
    return figure(drawn.svg, f"Where the {name} is") if drawn else SafeString("")


def state_form(bench: Bench, site: str, mark: str, refused: Refused | None = None) -> StateForm:
    """How it ended, or `mark` of it, as it can be said."""
    entries = bench.casefile.sites
    own = next((e for e in entries if (e.site, e.mark) == (site, mark)), None)
    if mark:
        found = own or SiteEntries(entries).of(site, mark)
        now = found.state if found else SiteState.NOT_LOOKED_FOR
    else:
        own = own or SiteSeen(site=site, state=SiteState.NOT_LOOKED_FOR)
        now = own.state
    reason, form = own.reason if own else "", f"mark-state-{mark}" if mark else f"state-{site}"
    attachment: str = own.attachment if own else AttachmentSeen.IN_PLACE
    chosen = now.value
    if refused is not None and refused.form == form:
        chosen = refused.typed.get("state", chosen)
        reason = refused.typed.get("reason", reason)
        attachment = refused.typed.get("attachment", attachment)
    states = tuple(
        StateChoice(each.value, term(each), each.says, state_sign(each), each.value == chosen)
        for each in SiteState
    )
    return StateForm(
        id=form,
        mark=mark,
        choices=states,
        reason=reason,
        attachment=choices(AttachmentSeen, attachment),
    )


def _mark_cards(
    bench: Bench,
    site: str,
    groups: tuple[tuple[Mark, ...], ...],
    whom: tuple[str, Refused | None],
) -> Iterator[MarkCard]:
    several = len(groups) > 1
    for group in groups:
        for at, mark in enumerate(group):
            card = mark_card(bench, mark, whom, is_instead=at > 0)
            is_read = any(not each.is_new for each in card.readings)
            if at and is_read:
                card = mark_card(bench, mark, whom)
            if several and not card.is_instead:
                card = _with_state(bench, site, card)
            yield card


def _with_state(bench: Bench, site: str, card: MarkCard) -> MarkCard:
    return replace(card, state=state_form(bench, site, card.id))


def mark_card(
    bench: Bench, mark: Mark, whom: tuple[str, Refused | None], *, is_instead: bool = False
) -> MarkCard:
    """A mark with a form for each reading; `whom` is who is here, and what was refused."""
    name, refused = whom
    parts = ", ".join(f"{each.name} ({_width(each.widths)})" for each in mark.fields)
    return MarkCard(
        id=mark.id,
        name=capital(mark.name),
        local_name=mark.local_name,
        form=parts,
        readings=reading_forms(bench, mark, name, refused),
        again=reading_again(bench, mark, name),
        crops=tuple(_crops(bench, mark)),
        is_instead=is_instead,
    )


def _width(widths: tuple[int, ...]) -> str:
    least, most = min(widths, default=0), max(widths, default=0)
    return str(most) if least == most else f"{least} to {most}"


def feature_card(
    bench: Bench,
    site: str,
    plan: FeaturePlan,
    whom: tuple[str, Refused | None],
    *,
    again: bool = False,
) -> FeatureCard:
    """Something to look at, with a form for each look; `again` where it is a second one."""
    name, refused = whom
    outcomes = tuple(
        OutcomeShown(each.id, _sketched(each.sketch, spoken()) if each.sketch else SafeString(""))
        for each in plan.outcomes
    )
    looks = look_forms(bench, (site, plan.id), name, refused, again=again)
    return FeatureCard(plan.id, plan.prompt, outcomes, looks)


@lru_cache(SKETCHES_KEPT)
def _sketched(which: Sketch, _: Catalogue) -> SafeString:
    """A sketch as every page in this language has it."""
    return figure(sketch(which).svg, heard(which))


def photos_at(bench: Bench, site: str, marks: Iterable[str]) -> Iterator[PhotoShown]:
    """The photographs named at whatever was noted of a place and its marks."""
    case, ids = bench.casefile, set(marks)
    shown = {
        *(x for e in case.sites if site and e.site == site for x in e.exhibits),
        *(x for e in case.looks if site and e.site == site for x in e.exhibits),
        *(x for e in case.readings if e.mark in ids for x in e.exhibits),
        *(x for e in case.papers if e.mark in ids for x in e.exhibits),
    }
    for number, each in enumerate(case.exhibits, 1):
        if each.id in shown:
            yield PhotoShown(number, each)


def _crops(bench: Bench, mark: Mark) -> Iterator[CropShown]:
    """What was marked as a number on the photographs of this mark."""
    case = bench.casefile
    own = {x for e in case.readings if e.mark == mark.id for x in e.exhibits}
    if not own and mark.site:
        own = {x for e in case.sites if e.site == mark.site for x in e.exhibits}
    for number, each in enumerate(case.exhibits, 1):
        if each.id in own:
            parts = len(each.number_regions or ())
            yield from (CropShown(each.id, part, number) for part in range(parts))
