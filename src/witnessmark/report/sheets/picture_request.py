"""The picture request: one page for a seller, who need be no mechanic, and the same as a message.

It says where to point the camera and how, and nothing of what ought to stand there
(decisions/0020): no number, no code, no sign by which one works is told from another.
The cautions are those for somebody who only looks: a code book's own speak to an examiner.
"""

from dataclasses import dataclass
from datetime import date
from operator import itemgetter

from witnessmark.casefile import Examiner
from witnessmark.catalogue import language, said
from witnessmark.figures.car_sites import SitePlace, site_map
from witnessmark.figures.raking_light import raking_light
from witnessmark.outline.records import (
    Bullets,
    Columns,
    Heading,
    Outline,
    Paragraph,
    Table,
    TableCell,
)
from witnessmark.plan import SitePlan, VisitPlan
from witnessmark.report.mask.short_name import SharedId
from witnessmark.report.sections.drawn import drawings
from witnessmark.wording import date_text
from witnessmark.wording.amounts import capital, clause, sentence
from witnessmark.wording.pictures import (
    asked,
    car_views,
    framing,
    greeting,
    kept_as_it_is,
    map_told,
    message_rules,
    reply_wanted,
    sending,
)
from witnessmark.wording.visit import car_name, the_car

MOST_SIGNS = 2_000
"""Characters of the message: what the narrowest common means of sending takes in one piece."""


type Point = tuple[int | None, int | None, int | None]
"""Along, across and up, as the book places it."""


type Spot = tuple[str, str]
"""What a picture is of, and how to find it."""


@dataclass(frozen=True, slots=True)
class PictureWanted:
    """One picture: its number in the order of walking, what it shows, how to find that, and the
    points of the car where it is; none for the car as a whole."""

    number: int
    name: str
    where: str
    points: tuple[Point, ...] = ()


@dataclass(frozen=True, slots=True)
class Sender:
    """Who asks, where the answer goes, and by when."""

    examiner: Examiner | None = None
    reply_to: str = ""
    reply_by: date | None = None


NOBODY = Sender()
"""Who asks stands in the message that the page is sent with."""


def picture_request(
    plan: VisitPlan, case_id: SharedId, printed: date, sender: Sender = NOBODY
) -> Outline:
    """The outline of the page; `printed` is its day."""
    shots = asked_for(plan)
    places = tuple(SitePlace(shot.number, *point, None) for shot in shots for point in shot.points)
    title = said("Where to point the camera")
    return Outline(
        label=said("Request for pictures"),
        language=language(),
        title=car_name(plan),
        case_id=case_id,
        printed=date_text(printed),
        printed_iso=printed.isoformat(),
        footer=said("Please send pictures of numbers to nobody else, and do not publish them."),
        is_numbered=False,
        front=(
            Paragraph(asked()),
            *(Paragraph(each, "strong") for each in _answer(sender)),
            *drawings([site_map(places, title, map_told(len(shots)), noted=False)]),
            _listed(shots),
            Columns(
                (
                    Heading(said("Each picture")),
                    Bullets(framing()),
                    Heading(said("Leave everything as it is")),
                    Bullets(kept_as_it_is()),
                ),
                (
                    *drawings([raking_light()]),
                    Heading(said("Sending them")),
                    Bullets(sending()),
                ),
                (1.4, 1.0),
            ),
        ),
    )


def _listed(shots: tuple[PictureWanted, ...]) -> Table:
    """The pictures in the order of walking."""
    rows = tuple(
        (
            TableCell(str(shot.number), strong=True),
            TableCell(capital(shot.name), strong=True),
            TableCell(sentence(shot.where)),
        )
        for shot in shots
    )
    head = (said("No."), said("Picture of"), said("How to find it"))
    return Table(head, rows, (0.6, 4, 9), is_dense=True)


def message(plan: VisitPlan, sender: Sender = NOBODY) -> str:
    """The same as text to paste into a message, of at most MOST_SIGNS characters: where not all
    fits, places are named without how to find them."""
    shots = asked_for(plan)
    full = [f"{each.number}. {capital(each.name)}: {clause(each.where)}" for each in shots]
    short = [f"{each.number}. {capital(each.name)}" for each in shots]
    for lines in (full, short):
        opening = f"{greeting(the_car(plan))} {asked()}"
        parts = (opening, "\n".join(lines), *message_rules(), *_answer(sender))
        text = "\n\n".join(parts)
        if len(text) <= MOST_SIGNS:
            break
    return text


def _answer(sender: Sender) -> tuple[str, ...]:
    """Who asks, where the answer goes and by when; what nobody said is left out."""
    who = sender.examiner
    name = (who.name or who.firm) if who else ""
    if who and who.name and who.firm:
        name = said("{name} ({firm})", name=who.name, firm=who.firm)
    to = sender.reply_to or (", ".join(filter(None, (who.address, who.telephone))) if who else "")
    day = date_text(sender.reply_by) if sender.reply_by else ""
    return reply_wanted(name, to.replace("\n", ", "), day)


def asked_for(plan: VisitPlan) -> tuple[PictureWanted, ...]:
    """The whole car, then the places that a seller can photograph, in walking order.

    Where works or years differ in a place, each of their places is asked for alike, so that
    the list does not say which of them bears something.
    """
    found: dict[Spot, list[Point]] = {}
    for site in plan.sites:
        for spot, point in pictures_at(site):
            found.setdefault(spot, []).append(point)
    views = [PictureWanted(at, *view) for at, view in enumerate(car_views(), 1)]
    places = (
        PictureWanted(at, *spot, tuple(dict.fromkeys(points)))
        for at, (spot, points) in enumerate(found.items(), len(views) + 1)
    )
    return (*views, *places)


def pictures_at(site: SitePlan) -> tuple[tuple[Spot, Point], ...]:
    """What a seller can photograph of one place, in an order that says nothing; nothing where
    it cannot be reached so."""
    if not site.row.for_a_seller:
        return ()
    rows = [row for row in site.rows if row.for_a_seller]
    spots = (((clause(row.name), row.for_a_seller), row) for row in rows)
    return tuple(
        (spot, (row.along, row.across, row.up)) for spot, row in sorted(spots, key=itemgetter(0))
    )
