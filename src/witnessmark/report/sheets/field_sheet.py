"""The field sheet: the outline of a paper that is filled in beside the car.

No claimed number stands on it, in whole or in part (decisions/0020): whoever reads a mark
writes down what is there, and a lost sheet gives nobody a number to strike.
"""

from datetime import date

from witnessmark.catalogue import language, said
from witnessmark.figures.car_sites import SitePlace, site_map
from witnessmark.figures.sketch import heard, sketch
from witnessmark.outline.records import (
    Block,
    BoxWindow,
    Bullets,
    CharacterBoxes,
    DrawnBoxes,
    DrawnChoice,
    Fact,
    Facts,
    Outline,
    Paragraph,
    PlaceHeading,
    Section,
    Table,
    TableCell,
    TickBoxes,
    Together,
    WriteIn,
)
from witnessmark.plan import FeaturePlan, FieldPlan, MarkPlan, Reach, SitePlan, VisitPlan
from witnessmark.report.mask.short_name import SharedId
from witnessmark.report.sections.drawn import drawings
from witnessmark.wording import cautions, date_text, term
from witnessmark.wording.amounts import capital, sentence
from witnessmark.wording.visit import (
    attachments,
    car_name,
    claim_pointer,
    claim_silence,
    claim_title,
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
SPARE_BOXES = 2
"""After the last box of a mark, for a reading that is longer than the book has it."""
BOXES_IN_A_LINE = 14
"""So many characters, a box wide each, go onto one line."""
PAPER_CAUTION = -1
"""The last of the usual cautions speaks of papers that show numbers; this one shows none."""


def field_sheet(plan: VisitPlan, case_id: SharedId, printed: date) -> Outline:
    """The outline of the whole sheet; `printed` is the day that stands on every page."""
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
        sections=(
            _cautions(),
            _visit(),
            _notation(),
            _walk(plan),
            *(_reach(reach) for reach in plan.reaches),
            *_papers(plan),
            _leaving(),
            *_under_the_claim(plan),
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
    lines = tuple(WriteIn(label) for label in labels)
    pointer = Together((Paragraph(claim_pointer(), "strong"),), is_on_new_page_if_long=True)
    return Section(said("The visit"), (*lines, pointer))


def _notation() -> Section:
    rows = tuple(
        (TableCell(sign, mono=True, strong=True), TableCell(means), TableCell(shown, mono=True))
        for sign, means, shown in signs()
    )
    head = (said("Write"), said("where the place is"), said("Example"))
    table = Table(head, rows, (1, 5, 1), is_dense=True)
    intro = said(
        "Write what is on the metal, one character to a box, never what ought to be there. "
        "Claimed numbers are not printed here: a dot (·) is one place of a serial. A place "
        "never struck is not the same as a place worn away. Photograph each place before "
        "you write."
    )
    return Section(said("How to write a reading"), (Paragraph(intro, "lead"), table))


def _walk(plan: VisitPlan) -> Section:
    """The time, and the car with all places in walking order."""
    told = Paragraph(time_sentence(plan))
    if not plan.sites:
        nowhere = Paragraph(said("The code book names no place for this car."))
        return Section(said("The walk"), (told, nowhere))
    places = tuple(
        SitePlace(site.number, site.row.along, site.row.across, site.row.up, None)
        for site in plan.sites
    )
    title = said("Where to look, in walking order")
    rows = tuple(
        (TableCell(str(site.number), strong=True), TableCell(walk_name(site)))
        for site in plan.sites
    )
    table = Table((said("No."), said("Place")), rows, (0.6, 11), is_dense=True)
    drawn = drawings([site_map(places, title, map_caption(plan))])
    return Section(said("The walk"), (*drawn, table, told), new_page=True)


def _reach(reach: Reach) -> Section:
    """The places of one access; a caution that all share stands once, before them."""
    cautions = {site.row.caution for site in reach.sites}
    shared = cautions.pop() if len(cautions) == 1 and len(reach.sites) > 1 else ""
    intro: list[Block] = []
    if reach_sentence(reach):
        intro.append(Paragraph(reach_sentence(reach), "quiet"))
    if shared:
        intro.append(Paragraph(sentence(shared), "strong"))
    blocks = tuple(
        _site(site, "" if shared else site.row.caution, () if at else tuple(intro))
        for at, site in enumerate(reach.sites)
    )
    return Section(reach_title(reach), blocks, new_page=True)


def _site(site: SitePlan, caution: str, intro: tuple[Block, ...]) -> Together:
    """A place from its heading to how it ended, on one page where one can hold it.

    A longer one follows on where there is room: its heading stays with its first mark, its end
    with the feature before it.
    """
    note = look_first() if site.is_starred else ""
    facts = [
        Fact(said("Where"), sentence(site.row.where)),
        Fact(said("How"), effort(site)),
        Fact(said("Care"), sentence(caution)),
        Fact(said("Variations"), "\n".join(map(variation_sentence, site.variations))),
        Fact(said("Look for"), sentence(site.row.look_at)),
        Fact(said("So far"), so_far(site.state)),
    ]
    head = PlaceHeading(site.number, capital(site.row.name), note, site.is_starred)
    told = Facts(tuple(fact for fact in facts if fact.text))
    marks = [_mark(mark) for mark in site.marks]
    features = [_feature(feature) for feature in site.features]
    first = Together((*intro, head, told, *(marks[0] if marks else ())))
    last = Together((*features[-1:], *_end(site)))
    return Together((first, *map(Together, marks[1:]), *features[:-1], last))


def _end(site: SitePlan) -> tuple[Block, ...]:
    """How the place was seen and ended, whatever stands there; told with its number."""
    seen = (said("in person"), said("in a photograph"), said("told"))
    ended = said("Outcome at place {number}", number=site.number)
    bearing = (TickBoxes(said("The part itself is"), attachments()),) if site.marks else ()
    return (
        *bearing,
        TickBoxes(said("Seen"), seen),
        TickBoxes(ended, end_states()),
        WriteIn(said("Why, if it was not read")),
        WriteIn(said("Exhibits, remarks"), 2),
    )


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


def _mark(mark: MarkPlan) -> tuple[Block, ...]:
    """Boxes, and room for whatever stands there otherwise and for a second pair of eyes."""
    rows = _rows(mark)
    boxes = sum(window.places for row in rows for window in row)
    lines = -(-boxes // BOXES_IN_A_LINE) or 1
    return (
        CharacterBoxes(mark_title(mark), _with_spare(rows), how_made_sentence(mark)),
        WriteIn(said("If laid out differently"), lines),
        WriteIn(said("Second reader")),
        TickBoxes(said("Legibility"), (said("clear"), said("worn"), said("poor"))),
        TickBoxes(
            said("Which way up"),
            (said("upright"), said("upside down"), said("sideways"), said("unsure")),
        ),
    )


def _with_spare(rows: tuple[tuple[BoxWindow, ...], ...]) -> tuple[tuple[BoxWindow, ...], ...]:
    """The rows with spare boxes after the last; a long line needs none."""
    if not rows or not rows[-1] or not rows[-1][-1].places:
        return rows
    return (*rows[:-1], (*rows[-1], BoxWindow(said("Spare"), SPARE_BOXES)))


def _rows(mark: MarkPlan) -> tuple[tuple[BoxWindow, ...], ...]:
    """The windows row by row, as they stand on a plate; without windows all in one row."""
    rows: dict[int, list[BoxWindow]] = {}
    for window in mark.windows:
        row = window[0].row.row if mark.row.windows else 0
        rows.setdefault(row, []).extend(_window(field) for field in window)
    return tuple(tuple(row) for row in rows.values())


def _window(field: FieldPlan) -> BoxWindow:
    most = max(field.row.widths, default=0)
    places = most if most <= MOST_BOXES else 0
    varies = len(field.row.widths) != 1 or not places
    return BoxWindow(
        field_label(field), places, field.row.before, width_text(field) if varies else ""
    )


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
                "Every place that was not read gets one of the other three outcomes, with "
                "its reason. A place without a tick counts as not looked for."
            )
        ),
        WriteIn(said("What was moved or opened"), 2),
        WriteIn(said("What could not be seen, and why"), 2),
        WriteIn(said("What the owner said"), 2),
    )
    return Section(said("Before you leave"), blocks)


def _under_the_claim(plan: VisitPlan) -> tuple[Section, ...]:
    """The last page: what the claim would have at each place; none where it names no mark."""
    rows = tuple(
        (
            TableCell(str(site.number), strong=True),
            TableCell(mark_title(mark)),
            TableCell("\n".join(expectations(mark))),
        )
        for site in plan.sites
        for mark in site.marks
        if expectations(mark)
    )
    if not rows:
        return ()
    head = (said("Place"), said("Mark"), said("If the claim is true"))
    table = Table(head, rows, (1, 5, 9), is_dense=True)
    return (Section(claim_title(), (Paragraph(claim_silence(), "quiet"), table), new_page=True),)
