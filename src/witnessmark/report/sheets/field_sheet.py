"""The field sheet: a cover, and a card for each place that is filled in beside the car.

No claimed number stands on it, in whole or in part (decisions/0020), and nothing else that the
claim expects (decisions/0076): whoever reads a mark writes down what is there, and a lost sheet
gives nobody a number to strike.
"""

from datetime import date

from witnessmark.catalogue import language, said
from witnessmark.figures.car_sites import SitePlace, site_map
from witnessmark.figures.sketch import heard, sketch
from witnessmark.outline.records import (
    Block,
    BoxWindow,
    Bullets,
    Card,
    Cards,
    CharacterBoxes,
    Columns,
    DrawnBoxes,
    DrawnChoice,
    Fact,
    Facts,
    Heading,
    Outline,
    Paragraph,
    Table,
    TableCell,
    TickBoxes,
    WriteIn,
)
from witnessmark.plan import FeaturePlan, FieldPlan, MarkPlan, SitePlan, Variation, VisitPlan
from witnessmark.report.mask.short_name import SharedId
from witnessmark.report.sections.drawn import drawings
from witnessmark.wording import cautions, date_text, term
from witnessmark.wording.amounts import capital, sentence
from witnessmark.wording.visit import (
    car_name,
    effort,
    either,
    end_states,
    field_label,
    how_made,
    how_to_write,
    look_first,
    map_caption,
    mark_title,
    signs,
    so_far,
    time_sentence,
    variation_look,
    variation_sentence,
    ways_up,
    width_text,
)

MOST_BOXES = 15
"""As many stand in a row; a field that can be longer gets one long line."""
SPARE_BOXES = 2
"""After the last box of a mark, for a reading that is longer than the book has it."""
PAPER_CAUTION = -1
"""The last of the usual cautions speaks of papers that show numbers; this one shows none."""


def field_sheet(plan: VisitPlan, case_id: SharedId, printed: date) -> Outline:
    """The outline of the whole sheet; `printed` is its day."""
    cards = (*map(_card, plan.sites), *_papers(plan), _leaving())
    key = tuple(Fact(sign, means) for sign, means in signs())
    return Outline(
        label=said("Field sheet"),
        language=language(),
        title=car_name(plan),
        case_id=case_id,
        printed=date_text(printed),
        printed_iso=printed.isoformat(),
        footer=said("Notes made at the car. No claimed number is printed on this sheet."),
        is_numbered=False,
        is_read_at_the_car=True,
        front=(*_visit(), *_cautions(), *_walk(plan), Cards(cards, key, said("(continued)"))),
    )


def _visit() -> tuple[Block, ...]:
    who = tuple(map(WriteIn, (said("Examiner"), said("Present"))))
    when = tuple(map(WriteIn, (said("Date, time"), said("Place, light"))))
    return (Columns(who, when),)


def _cautions() -> tuple[Block, ...]:
    told = tuple(f"{each.heading}: {each.sentence}" for each in cautions()[:PAPER_CAUTION])
    return (Heading(said("Before you touch the car")), Bullets(told), Paragraph(how_to_write()))


def _walk(plan: VisitPlan) -> tuple[Block, ...]:
    """The car with its places, and these in two lists: the best, then the others."""
    head = Heading(said("The places, numbered in walking order"))
    if not plan.sites:
        return head, Paragraph(said("The code book names no place for this car."))
    title = said("Where the places are")
    drawn = drawings([site_map(_on_the_car(plan.sites), title, map_caption(plan), noted=False)])
    best = sorted(plan.sites, key=lambda each: (not each.is_starred, each.rank * each.is_starred))
    half = -(-len(best) // 2)
    left, right = ((_listed(each),) for each in (best[:half], best[half:]))
    return head, *drawn, Columns(left, right), Paragraph(time_sentence(plan))


def _on_the_car(sites: tuple[SitePlan, ...]) -> tuple[SitePlace, ...]:
    """Where each place is; one that works or years put differently stands at each, alike."""
    return tuple(
        SitePlace(site.number, *at, None)
        for site in sites
        for at in dict.fromkeys((row.along, row.across, row.up) for row in site.rows)
    )


def _name(site: SitePlan) -> str:
    return capital(either(tuple(dict.fromkeys(row.name for row in site.rows))))


def _listed(sites: list[SitePlan]) -> Table:
    """Places with their minutes and whether somebody was there before; the best in bold."""
    rows = tuple(
        (
            TableCell(str(site.number), strong=True),
            TableCell(_name(site), strong=site.is_starred),
            TableCell(str(site.row.minutes)),
            TableCell(so_far(site.state)),
        )
        for site in sites
    )
    head = (said("No."), said("Place, the best first"), said("min"), said("So far"))
    return Table(head, rows, (1, 5.2, 1, 2.6), is_dense=True)


def _card(site: SitePlan) -> Card:
    """A place from where it is to what was made of it."""
    row, variations = site.row, site.variations
    where = Fact(said("Where"), sentence(row.where))
    how = Fact(said("How"), effort(site))
    way, more = (where, how) if not variations else (how, _where_each(variations))
    looks = {each.row.look_at for each in variations}
    facts = (
        more,
        Fact(said("Care"), sentence(row.caution)),
        Fact(
            said("Look for"),
            "\n".join(map(variation_look, variations)) if len(looks) > 1 else sentence(row.look_at),
        ),
    )
    is_one = len(site.marks) < 2
    letters = ("",) if is_one else tuple(chr(ord("a") + at) for at in range(len(site.marks)))
    ended = said("Result") if is_one else said("Result: the letter of each mark")
    return Card(
        number=str(site.number),
        name=_name(site),
        note=look_first() if site.is_starred else "",
        way=Facts((way,)),
        ended=TickBoxes(ended, end_states()),
        blocks=(
            Facts(tuple(fact for fact in facts if fact.text)),
            *map(_mark, site.marks, letters),
            *map(_feature, site.features),
            _noted(),
        ),
    )


def _where_each(variations: tuple[Variation, ...]) -> Fact:
    return Fact(said("Where"), "\n".join(map(variation_sentence, variations)))


def _noted() -> Columns:
    """What else is written on every card, beside the boxes."""
    photographs, reader = WriteIn(said("Photo no.")), WriteIn(said("Second reader"))
    behind = Columns((reader,), (WriteIn(said("Remarks")),), (1.0, 1.2))
    return Columns((photographs,), (behind,), (1.0, 4.0))


def _feature(feature: FeaturePlan) -> TickBoxes | DrawnBoxes:
    """Every outcome drawn, or none: the only one that is drawn would lead the eye."""
    drawn = tuple(
        DrawnChoice(term(each.id), sketch(each.sketch).svg, heard(each.sketch))
        for each in feature.outcomes
        if each.sketch is not None
    )
    if len(drawn) == len(feature.outcomes):
        return DrawnBoxes(feature.prompt, drawn)
    return TickBoxes(feature.prompt, tuple(term(each.id) for each in feature.outcomes))


def _mark(mark: MarkPlan, letter: str) -> CharacterBoxes:
    """The windows row by row, as they stand on a plate; without windows all in one row."""
    rows: dict[int, list[BoxWindow]] = {}
    for window in mark.windows:
        row = window[0].row.row if mark.row.windows else 0
        rows.setdefault(row, []).extend(_window(field) for field in window)
    last = list(rows.values())[-1:]
    if last and last[0][-1].places:  # a long line needs no spare boxes
        last[0].append(BoxWindow(said("Spare"), SPARE_BOXES))
    return CharacterBoxes(
        " ".join(filter(None, (letter, mark_title(mark)))),
        tuple(map(tuple, rows.values())),
        how_made(mark),
        (said("clear"), said("worn"), said("poor"), *ways_up()),
    )


def _window(field: FieldPlan) -> BoxWindow:
    most = max(field.row.widths, default=0)
    places = most if most <= MOST_BOXES else 0
    varies = len(field.row.widths) != 1 or not places
    return BoxWindow(
        field_label(field), places, field.row.before, width_text(field) if varies else ""
    )


def _papers(plan: VisitPlan) -> tuple[Card, ...]:
    """The papers to ask for; no card where the book knows none."""
    if not plan.papers:
        return ()
    states = (
        said("in hand"),
        said("copy"),
        said("awaited"),
        said("refused"),
        said("lost"),
        said("not asked for"),
    )
    told = said(
        "Photograph each paper whole, both sides, and note what it was copied from where "
        "it is a copy. Ask for the title or registration paper too."
    )
    asked = (TickBoxes(capital(paper.name), states) for paper in plan.papers)
    title = WriteIn(said("Title paper: issued by, exhibit"))
    return (Card(name=said("Papers"), blocks=(Paragraph(told), *asked, title)),)


def _leaving() -> Card:
    blocks = (
        Paragraph(
            said(
                "A place that was not read needs its result and the reason. A place without a "
                "tick counts as not looked for."
            )
        ),
        WriteIn(said("What was moved or opened")),
        WriteIn(said("What the owner said"), 2),
    )
    return Card(name=said("Before you leave"), blocks=blocks)
