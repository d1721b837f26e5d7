"""The field sheet: the outline of a paper that is filled in beside the car.

No claimed number stands on it, in whole or in part (decisions/0020): whoever reads a mark
writes down what is there, and a lost sheet gives nobody a number to strike.
"""

from datetime import date

from witnessmark.figures.car_sites import site_maps
from witnessmark.figures.place_list import SitePlace
from witnessmark.plan import FeaturePlan, FieldPlan, MarkPlan, Reach, SitePlan, VisitPlan
from witnessmark.report.records import (
    Block,
    BoxWindow,
    Bullets,
    CharacterBoxes,
    Drawing,
    Fact,
    Facts,
    Outline,
    Paragraph,
    Section,
    Stop,
    Table,
    TableCell,
    TickBoxes,
    Together,
    WriteIn,
)
from witnessmark.wording import cautions, date_text
from witnessmark.wording.amounts import capital, sentence
from witnessmark.wording.catalogue import language, said
from witnessmark.wording.visit import (
    car_name,
    effort,
    end_states,
    expectations,
    field_label,
    how_made_sentence,
    look_first,
    map_caption,
    mark_title,
    reach_sentence,
    reach_title,
    signs,
    so_far,
    time_sentence,
    variation_sentence,
    walk_name,
    width_text,
)

MOST_BOXES = 20
"""A field that can be longer gets one long line."""
MAP_HEIGHT = 550.0
"""Points that the car and its list may take below the heading of the walk, on Letter too."""
PAPER_CAUTION = -1
"""The last of the usual cautions speaks of papers that show numbers; this one shows none."""


def field_sheet(plan: VisitPlan, printed: date) -> Outline:
    """The outline of the whole sheet; `printed` is the day that stands on every page."""
    return Outline(
        label=said("Field sheet"),
        language=language(),
        title=car_name(plan),
        case_id=plan.case_id,
        printed=date_text(printed),
        printed_iso=printed.isoformat(),
        footer=said("Notes made at the car. No claimed number stands on this sheet."),
        is_numbered=False,
        sections=(
            _cautions(),
            _visit(),
            _notation(),
            _walk(plan),
            *(_reach(reach) for reach in plan.reaches),
            *_papers(plan),
            _leaving(),
        ),
    )


def _cautions() -> Section:
    said_first = tuple(f"{each.heading}: {each.sentence}" for each in cautions()[:PAPER_CAUTION])
    return Section(said("Before you touch the car"), (Bullets(said_first),))


def _visit() -> Section:
    labels = (
        said("Date, time"),
        said("Place"),
        said("Light"),
        said("Examiner"),
        said("Present"),
    )
    return Section(said("The visit"), tuple(WriteIn(label) for label in labels))


def _notation() -> Section:
    rows = tuple(
        (TableCell(sign, mono=True, strong=True), TableCell(means), TableCell(shown, mono=True))
        for sign, means, shown in signs()
    )
    head = (said("Write"), said("where the place is"), said("Example"))
    table = Table(head, rows, (1, 5, 1), is_dense=True)
    intro = said(
        "Write what stands on the metal, one character a box, never what ought to stand there. "
        "Claimed numbers are not printed here: a dot (·) is one place of a serial. A place never "
        "struck is not the same as a place worn away. Photograph each place before you write."
    )
    return Section(said("How to write a reading"), (Paragraph(intro), table))


def _walk(plan: VisitPlan) -> Section:
    """The time, and the car with all places in walking order."""
    blocks: list[Block] = [Paragraph(time_sentence(plan))]
    if not plan.sites:
        blocks.append(Paragraph(said("The code book names no place for this car.")))
        return Section(said("The walk"), tuple(blocks))
    places = tuple(
        SitePlace(site.number, walk_name(site), site.along, site.across, site.up, None)
        for site in plan.sites
    )
    title = said("Where to look, in walking order")
    for drawn in site_maps(places, title, map_caption(plan), MAP_HEIGHT):
        blocks.append(Drawing(drawn.svg, drawn.title, drawn.caption))
    return Section(said("The walk"), tuple(blocks), new_page=True)


def _reach(reach: Reach) -> Section:
    """The places of one access; a caution that all share stands once, before them."""
    cautions = {site.caution for site in reach.sites}
    shared = cautions.pop() if len(cautions) == 1 and len(reach.sites) > 1 else ""
    blocks: list[Block] = []
    if reach_sentence(reach):
        blocks.append(Paragraph(reach_sentence(reach), "quiet"))
    if shared:
        blocks.append(Paragraph(sentence(shared), "strong"))
    for site in reach.sites:
        parts = _site(site, "" if shared else site.caution)
        blocks.append(Together(parts, is_on_new_page_if_long=site is not reach.sites[0]))
    return Section(reach_title(reach), tuple(blocks), new_page=True)


def _site(site: SitePlan, caution: str) -> tuple[Block, ...]:
    note = "; ".join(filter(None, (look_first() if site.is_starred else "", so_far(site.state))))
    facts = [
        Fact(said("Where"), sentence(site.where)),
        Fact(said("How"), effort(site)),
        Fact(said("Care"), sentence(caution)),
        Fact(said("It varies"), "\n".join(map(variation_sentence, site.variations))),
        Fact(said("Look for"), sentence(site.look_at)),
    ]
    blocks: list[Block] = [Stop(site.number, capital(site.name), note, site.is_starred)]
    blocks.append(Facts(tuple(fact for fact in facts if fact.text)))
    for mark in site.marks:
        blocks += _mark(mark)
    blocks += [_feature(feature) for feature in site.features]
    seen = (said("in person"), said("in a photograph"), said("told"))
    blocks.append(TickBoxes(said("Seen"), seen))
    blocks.append(TickBoxes(said("This place ended as"), end_states()))
    blocks.append(WriteIn(said("Exhibits, remarks"), 2))
    return tuple(blocks)


def _feature(feature: FeaturePlan) -> TickBoxes:
    return TickBoxes(feature.prompt, feature.outcomes)


def _mark(mark: MarkPlan) -> list[Block]:
    return [
        CharacterBoxes(mark_title(mark), _rows(mark), how_made_sentence(mark)),
        Facts((Fact(said("Under the claim"), "\n".join(expectations(mark))),)),
        TickBoxes(said("Legibility"), (said("clear"), said("worn"), said("poor"))),
        TickBoxes(
            said("It stands"),
            (said("upright"), said("upside down"), said("sideways"), said("unsure")),
        ),
    ]


def _rows(mark: MarkPlan) -> tuple[tuple[BoxWindow, ...], ...]:
    """The windows row by row, as they stand on a plate; without windows all in one row."""
    rows: dict[int, list[BoxWindow]] = {}
    for window in mark.windows:
        row = window[0].row if mark.has_windows else 0
        rows.setdefault(row, []).extend(_window(field) for field in window)
    return tuple(tuple(row) for row in rows.values())


def _window(field: FieldPlan) -> BoxWindow:
    most = max(field.widths, default=0)
    places = most if most <= MOST_BOXES else 0
    varies = len(field.widths) != 1 or not places
    return BoxWindow(field_label(field), places, field.before, width_text(field) if varies else "")


def _papers(plan: VisitPlan) -> tuple[Section, ...]:
    """The papers to ask for; no section where the book knows none."""
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
    blocks: list[Block] = [
        Paragraph(
            said(
                "Photograph each paper whole, both sides, and note what it was copied from where "
                "it is a copy. Ask for the title or registration paper too."
            )
        )
    ]
    for paper in plan.papers:
        blocks += [TickBoxes(capital(paper.name), states), WriteIn(said("Exhibits, remarks"))]
    blocks.append(WriteIn(said("Title paper: issued by, exhibit")))
    return (Section(said("Papers"), tuple(blocks), new_page=True),)


def _leaving() -> Section:
    blocks = (
        Paragraph(
            said(
                "Every place that was not read has one of the other three ends, with its reason. "
                "A place without a tick counts as not looked for."
            )
        ),
        WriteIn(said("What was moved or opened"), 2),
        WriteIn(said("What could not be seen, and why"), 2),
        WriteIn(said("What the owner said"), 2),
    )
    return Section(said("Before you leave"), blocks)
