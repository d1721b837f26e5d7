"""The sentences of a visit: how a place is reached, what should stand there, how to note it."""

from witnessmark.casefile.records import SiteState
from witnessmark.catalogue import counted, said
from witnessmark.codebook.marks import HowMade
from witnessmark.day_words import date_text
from witnessmark.plan import (
    Characters,
    Claimed,
    CodeExpected,
    FieldPlan,
    MarkPlan,
    SitePlan,
    Variation,
    VisitPlan,
)
from witnessmark.wording.amounts import (
    capital,
    clause,
    listed,
    minutes_text,
    sentence,
)
from witnessmark.wording.names import plain_name

MOST_CODES = 6
"""So many codes of one value are printed; a longer list helps nobody at the car."""


def car_name(plan: VisitPlan) -> str:
    """The car as it is claimed, without any number."""
    return said("{car}, as claimed", car=the_car(plan))


def the_car(plan: VisitPlan) -> str:
    """The car without any number."""
    model = plan.model or plan.maker
    if not plan.model_year:
        return model
    return said("{model} of {year}", model=model, year=plan.model_year)


def effort(site: SitePlan) -> str:
    """What gives access, how one must be, what must come off, and how long it takes."""
    off = (
        said("to come off: {parts}", parts=clause(site.dismantling))
        if site.dismantling
        else said("nothing to take off")
    )
    access = plain_name(site.row.access_group) if site.row.access_group else ""
    parts = (access, site.row.posture, off, minutes_text(site.row.minutes))
    return sentence("; ".join(part for part in parts if part))


def variation_sentence(variation: Variation) -> str:
    """Where these works, models or years have the place."""
    return said(
        "{whose}: {name}, {where}",
        whose=_whose(variation),
        name=clause(variation.row.name),
        where=clause(variation.row.where),
    )


def variation_look(variation: Variation) -> str:
    """What to look for where these works, models or years have the place."""
    look = clause(variation.row.look_at)
    return said("{whose}: {look}", whose=_whose(variation), look=look)


def _whose(variation: Variation) -> str:
    span = variation.row.applies
    return listed((*variation.works, *variation.models)) or said(
        "{first} to {last}", first=span.first_year, last=span.last_year
    )


def mark_title(mark: MarkPlan) -> str:
    """The mark's name, or the names of those that look alike, with the works where it matters."""
    names = capital(either(mark.names))
    if mark.works:
        return said("{names} ({works})", names=names, works=listed(mark.works))
    return names


def either(names: tuple[str, ...]) -> str:
    """One of several, in words: "a, b or c"."""
    if len(names) < 2:
        return "".join(names)
    first = ", ".join(names[:-1])
    return said("{first} or {last}", first=first, last=names[-1])


def how_made(mark: MarkPlan) -> str:
    """How its characters were made; what holds it is asked, not told."""
    return {
        HowMade.STRUCK_BY_HAND: said("struck by hand"),
        HowMade.GANG_STRUCK: said("struck with a holder"),
        HowMade.CAST: said("cast, raised"),
        HowMade.PRINTED: said("printed"),
        HowMade.WRITTEN: said("written"),
    }[mark.row.how_made]


def field_label(field: FieldPlan) -> str:
    """The window's heading, or the field's name; both where the first of several bears it."""
    if field.heading and field.shares_window:
        return said("{heading}, {name}", heading=field.heading, name=field.row.name)
    return field.heading or capital(field.row.name)


def width_text(field: FieldPlan) -> str:
    """How many characters the field has, and of which kind."""
    least, most = min(field.row.widths, default=0), max(field.row.widths, default=0)
    if not most:
        return said("length not known")
    if least < most:
        kinds = {
            Characters.FIGURES: said("{least} to {most} figures", least=least, most=most),
            Characters.LETTERS: said("{least} to {most} letters", least=least, most=most),
            Characters.BOTH: said("{least} to {most} characters", least=least, most=most),
        }
        return kinds[field.characters]
    kinds = {
        Characters.FIGURES: counted("{number} figure", "{number} figures", most),
        Characters.LETTERS: counted("{number} letter", "{number} letters", most),
        Characters.BOTH: counted("{number} character", "{number} characters", most),
    }
    return kinds[field.characters]


def expectations(mark: MarkPlan) -> tuple[str, ...]:
    """Field by field what the mark should say under the claim, and what should hold it."""
    fields = [field for window in mark.windows for field in window]
    told = tuple(_expectation(field) for field in fields if field.claimed is not Claimed.OPEN)
    held = said("Held by: {fixings}", fixings=clause(mark.row.fixings)) if mark.row.fixings else ""
    return (*told, held) if told and held else told


def _expectation(field: FieldPlan) -> str:
    label = field_label(field)
    if field.claimed is Claimed.SERIAL:
        return _serial(label, field)
    if field.dates is not None:
        return said(
            "{field}: a day from {first} to {last}",
            field=label,
            first=date_text(field.dates.first),
            last=date_text(field.dates.last),
        )
    codes = tuple(_code(each) for each in field.expected[:MOST_CODES])
    if field.empty_means:
        codes = (*codes, said("left empty ({meaning})", meaning=clause(field.empty_means)))
    if len(field.expected) > MOST_CODES:
        more = len(field.expected) - MOST_CODES
        codes = (*codes, counted("{number} more code", "{number} more codes", more))
    return said("{field}: {codes}", field=label, codes=either(codes))


def _serial(label: str, field: FieldPlan) -> str:
    if field.row.part == "all":
        return said(
            "{field}: {before}{dots} ({width})",
            field=label,
            before=f"{field.row.before} " if field.row.before else "",
            dots=" ".join(field.masked),
            width=width_text(field),
        )
    which, count = field.row.part.split()
    part = {
        "last": said("the last {count} of the {item}", count=count, item=field.item),
        "first": said("the first {count} of the {item}", count=count, item=field.item),
    }[which]
    return said("{field}: {dots} ({part})", field=label, dots=" ".join(field.masked), part=part)


def _code(expected: CodeExpected) -> str:
    meaning = clause(expected.meaning)
    if expected.is_from_memory:
        return said(
            "{code} ({meaning}; from memory, carries no weight)",
            code=expected.code,
            meaning=meaning,
        )
    return said("{code} ({meaning})", code=expected.code, meaning=meaning)


def time_sentence(plan: VisitPlan) -> str:
    """How long everything takes, how long there is, and what comes first."""
    places = counted("{number} place", "{number} places", len(plan.sites))
    whole = said(
        "The whole walk: {places}, {minutes}, each access counted once.",
        places=places,
        minutes=minutes_text(plan.minutes),
    )
    if plan.minutes_available is None:
        return whole
    starred = tuple(str(site.number) for site in plan.sites if site.is_starred)
    if not starred:
        return said(
            "{whole} Time available: {minutes}. None is marked: no remaining look fits into it.",
            whole=whole,
            minutes=minutes_text(plan.minutes_available),
        )
    best = said(
        "{whole} Time available: {minutes}. What did not fit, then the quickest looks, as "
        "far as the time goes, are at {places} and take {taken}.",
        whole=whole,
        minutes=minutes_text(plan.minutes_available),
        places=listed(starred),
        taken=minutes_text(plan.starred_minutes),
    )
    rest = plan.minutes_available - plan.starred_minutes
    return f"{best} {_rest_sentence(rest)}" if rest > 0 else best


def _rest_sentence(minutes: int) -> str:
    """Why the minutes that are left over are marked for nothing."""
    return counted(
        "The other minute is left free: every further look would take longer.",
        "The other {number} minutes are left free: every further look would take longer, or none "
        "is left.",
        minutes,
    )


def so_far(state: SiteState) -> str:
    """That somebody was there before, never what he found; nothing where nobody was."""
    if state is SiteState.NOT_LOOKED_FOR:
        return ""
    return said("out of reach") if state is SiteState.NOT_ACCESSIBLE else said("seen")


def how_to_write() -> str:
    """How a reading is put down, and where the expectations are."""
    return said(
        "Photograph each place, then write what is on the metal, one character to a box, never "
        "what ought to be there. Look again at what was seen before. Under the remarks: why "
        "something was not read, a part that is off the car, what is laid out differently. What "
        "the claim would have stands in a file of its own: open it when everything is written down."
    )


def signs() -> tuple[tuple[str, str], ...]:
    """The signs of the notation with what they mean, short enough for the foot of a card."""
    return (
        ("2", said("clear")),
        ("?", said("cannot be read")),
        ("[38]", said("one of these")),
        ("~", said("ground or struck over")),
        ("_", said("never struck")),
        ("…", said("places lost")),
    )


def end_states() -> tuple[str, ...]:
    """The five ways in which a place can end."""
    return (
        said("read"),
        said("absent"),
        said("found and illegible"),
        said("not accessible"),
        said("not looked for"),
    )


def ways_up() -> tuple[str, ...]:
    """How a mark can lie, unless it is upright."""
    return said("upside down"), said("sideways")


def claim_title() -> str:
    """The heading of what the claim would have."""
    return said("What each place should say if the claim is true")


def claim_silence() -> str:
    """What it means that a place, a mark or a field does not stand there."""
    return said("The claim says nothing about what is not named here. A dot (·) is one character.")


def look_first() -> str:
    """Stands at a place that belongs to the best looks."""
    return said("look here first")


def map_caption(plan: VisitPlan) -> str:
    """What the drawing of the walk shows."""
    return counted(
        "The car from above and from its left side, with the one place where such a car "
        "bears marks; the square is to be ticked.",
        "The car from above and from its left side, with the {number} places where such a "
        "car bears marks, numbered in walking order; the squares are to be ticked.",
        len(plan.sites),
    )
