"""The sentences of a visit: how a place is reached, what should stand there, how to note it."""

from witnessmark.casefile.records import SiteState
from witnessmark.catalogue import counted, said
from witnessmark.codebook.marks import HowMade, MarkKind
from witnessmark.day_words import date_text
from witnessmark.plan import (
    Characters,
    Claimed,
    CodeExpected,
    FieldPlan,
    MarkPlan,
    Reach,
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
    model = plan.model or plan.maker
    if plan.model_year:
        return said("{model} of {year}, as claimed", model=model, year=plan.model_year)
    return said("{model}, as claimed", model=model)


def reach_title(reach: Reach) -> str:
    """What one access opens, how many places it serves and how long they take."""
    places = counted("{number} place", "{number} places", len(reach.sites))
    minutes = minutes_text(reach.minutes)
    if not reach.access_group:
        return said("Without any access: {places}, {minutes}", places=places, minutes=minutes)
    name = capital(plain_name(reach.access_group))
    return said("{access}: {places}, {minutes}", access=name, places=places, minutes=minutes)


def reach_sentence(reach: Reach) -> str:
    """That the access is made once, and its time; nothing where there is none."""
    if not reach.access_group or not reach.access_minutes:
        return ""
    return said(
        "The access ({access}) is made once for all places of this part; its time ({minutes}) is "
        "counted in the total above.",
        access=plain_name(reach.access_group),
        minutes=minutes_text(reach.access_minutes),
    )


def effort(site: SitePlan) -> str:
    """How one must be, what must come off, and how long it takes."""
    off = (
        said("to come off: {parts}", parts=clause(site.dismantling))
        if site.dismantling
        else said("nothing to take off")
    )
    parts = (site.row.posture, off, minutes_text(site.row.minutes))
    return sentence("; ".join(part for part in parts if part))


def variation_sentence(variation: Variation) -> str:
    """Where these works, models or years have the place."""
    row = variation.row
    whose = listed((*variation.works, *variation.models)) or said(
        "{first} to {last}", first=row.applies.first_year, last=row.applies.last_year
    )
    return said(
        "{whose}: {name}, {where}",
        whose=whose,
        name=clause(row.name),
        where=clause(row.where),
    )


def mark_title(mark: MarkPlan) -> str:
    """The mark's name, or the names of those that look alike, with the works where it matters."""
    names = capital(_either(mark.names))
    if mark.works:
        return said("{names} ({works})", names=names, works=listed(mark.works))
    return names


def _either(names: tuple[str, ...]) -> str:
    if len(names) < 2:
        return "".join(names)
    first = ", ".join(names[:-1])
    return said("{first} or {last}", first=first, last=names[-1])


def how_made_sentence(mark: MarkPlan) -> str:
    """What it is and how its characters were made; what holds it is asked, not told."""
    made = {
        HowMade.STRUCK_BY_HAND: said("struck by hand"),
        HowMade.GANG_STRUCK: said("struck with a holder"),
        HowMade.CAST: said("cast, raised"),
        HowMade.PRINTED: said("printed"),
        HowMade.WRITTEN: said("written"),
    }[mark.row.how_made]
    kind = {
        MarkKind.PLATE: said("plate"),
        MarkKind.STAMPING: said("stamping"),
        MarkKind.CASTING: said("casting"),
        MarkKind.LABEL: said("label"),
        MarkKind.PAPER: said("paper"),
    }[mark.row.kind]
    return sentence(f"{kind}, {made}")


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
    return said("{field}: {codes}", field=label, codes=_either(codes))


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
    if state is SiteState.NOT_ACCESSIBLE:
        return said("Could not be reached before: try again.")
    return said("Seen before: look again all the same.")


def signs() -> tuple[tuple[str, str, str], ...]:
    """The signs of the notation: what is written, what it means, an example."""
    return (
        ("2", said("one clear character"), "K 2"),
        ("?", said("worn away, cannot be read"), "K ?"),
        ("[38]", said("one of these, you cannot tell which; write both in one box"), "K [38]"),
        ("~", said("ground off, filled or struck over"), "K ~"),
        ("_", said("visibly never struck"), "K _"),
        ("…", said("places lost, impossible to say how many"), "K …"),
    )


def end_states() -> tuple[str, ...]:
    """The five ways in which a place can end."""
    return (
        said("read"),
        said("found and illegible"),
        said("absent"),
        said("not accessible"),
        said("not looked for"),
    )


def attachments() -> tuple[str, ...]:
    """Whether the part that bears a mark is on the car: the words in which a case notes it."""
    return (
        said("in place"),
        said("present but detached"),
        said("the car has no such part"),
    )


def claim_title() -> str:
    """The heading of the one page that tells what the claim would have."""
    return said(
        "What each place should say if the claim is true (after reading: fold this page under)"
    )


def claim_pointer() -> str:
    """Stands on page one instead of what the claim would have."""
    return said(
        "What each place should say if the claim is true is printed on the last page only. "
        "Fold that page under before you begin, and open it when everything is written "
        "down."
    )


def claim_silence() -> str:
    """What it means that a place, a mark or a field does not stand on that page."""
    return said("The claim says nothing about what is not named here. A dot (·) is one character.")


def look_first() -> str:
    """Stands at a place that belongs to the best looks."""
    return said("look here first")


def walk_name(site: SitePlan) -> str:
    """The place in the list of the walk: its name, its time, and whether it comes first."""
    name, minutes = capital(site.row.name), minutes_text(site.row.minutes)
    if site.is_starred:
        return said("{name}, {minutes}; look here first", name=name, minutes=minutes)
    return said("{name}, {minutes}", name=name, minutes=minutes)


def map_caption(plan: VisitPlan) -> str:
    """What the drawing of the walk shows."""
    return counted(
        "The car from above and from its left side, with the one place where such a car "
        "bears marks; the square is to be ticked.",
        "The car from above and from its left side, with the {number} places where such a "
        "car bears marks, numbered in walking order; the squares are to be ticked.",
        len(plan.sites),
    )
