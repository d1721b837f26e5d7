"""The picture request: a list of photographs for a seller, who need be no mechanic.

It says where to point the camera and how, and nothing of what ought to stand there
(decisions/0020): no number, no code, no sign by which one works is told from another.
The cautions are those for somebody who only looks: a code book's own speak to an examiner.
"""

from dataclasses import dataclass
from datetime import date

from witnessmark.catalogue import language, said
from witnessmark.outline.records import (
    Block,
    Bullets,
    Heading,
    Outline,
    Paragraph,
    Section,
    Table,
    TableCell,
)
from witnessmark.plan import SitePlan, VisitPlan
from witnessmark.report.mask.short_name import SharedId
from witnessmark.wording import date_text
from witnessmark.wording.amounts import capital, clause, sentence
from witnessmark.wording.pictures import (
    framing,
    keeping_safe,
    kept_as_it_is,
    opening_sentences,
    sending,
    views_of_the_car,
)
from witnessmark.wording.visit import car_name


@dataclass(frozen=True, slots=True)
class PictureWanted:
    """One place to be photographed: its name, and how to find it."""

    name: str
    where: str


def picture_request(plan: VisitPlan, case_id: SharedId, printed: date) -> Outline:
    """The outline of the letter; `printed` is its day."""
    places = asked_for(plan)
    return Outline(
        label=said("Request for pictures"),
        language=language(),
        title=car_name(plan),
        case_id=case_id,
        printed=date_text(printed),
        printed_iso=printed.isoformat(),
        footer=said("Please send pictures of numbers to nobody else, and do not publish them."),
        is_numbered=False,
        sections=(
            Section(said("What we ask for"), tuple(map(Paragraph, opening_sentences()))),
            Section(said("Please leave everything as it is"), (Bullets(kept_as_it_is()),)),
            Section(said("For your safety"), (Bullets(keeping_safe()),)),
            Section(said("The places"), _places(places)),
            Section(said("How to take each picture"), (Bullets(framing()),)),
            Section(said("Sending them"), (Bullets(sending()),)),
        ),
    )


def asked_for(plan: VisitPlan) -> tuple[PictureWanted, ...]:
    """The places that a seller can photograph, in walking order.

    Where works or years differ in a place, each of their places is asked for alike, so that
    the list does not say which of them bears something.
    """
    found = (picture for site in plan.sites for picture in pictures_at(site))
    return tuple(dict.fromkeys(found))


def pictures_at(site: SitePlan) -> tuple[PictureWanted, ...]:
    """What a seller can photograph of one place; nothing where it cannot be reached so."""
    if not site.row.for_a_seller:
        return ()
    return tuple(PictureWanted(name, where) for name, where in _whereabouts(site))


def _whereabouts(site: SitePlan) -> tuple[tuple[str, str], ...]:
    """Every name and place of the site, in an order that says nothing."""
    rows = [each.row for each in site.variations if each.row.for_a_seller] or [site.row]
    return tuple(sorted({(clause(each.name), each.for_a_seller) for each in rows}))


def _places(places: tuple[PictureWanted, ...]) -> tuple[Block, ...]:
    views = Bullets(views_of_the_car())
    if not places:
        return (Heading(said("The whole car")), views)
    rows = tuple(
        (
            TableCell(str(number), strong=True),
            TableCell(capital(place.name), strong=True),
            TableCell(sentence(place.where)),
        )
        for number, place in enumerate(places, start=1)
    )
    return (
        Heading(said("The whole car")),
        views,
        Heading(said("Place by place")),
        Table((said("No."), said("Place"), said("How to find it")), rows, (1, 4, 11)),
        Paragraph(
            said(
                "Photograph a place even if nothing seems to be there, or if you are not "
                "sure that it is the right one. “Nothing there” is an answer too."
            )
        ),
    )
