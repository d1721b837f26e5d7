"""The car, and where its marks are: how each place ended, in one of five states."""

from witnessmark.catalogue import said
from witnessmark.examination import SiteOutcome
from witnessmark.figures.car_sites import car_sites
from witnessmark.outline.records import Block, Paragraph, Pictures, Section, Table, TableCell
from witnessmark.report.sections.drawn import drawings
from witnessmark.report.sections.matter import Matter, whole_car
from witnessmark.wording import term
from witnessmark.wording.amounts import capital, in_numbers, sentence
from witnessmark.wording.sites import UNSEEN


def places_section(matter: Matter) -> Section:
    """The whole car, the map of its places, and each place with its state."""
    cars = whole_car(matter.case)
    blocks: list[Block] = []
    if cars:
        blocks.append(Pictures(tuple(map(matter.photograph, cars)), min(2, len(cars))))
    else:
        blocks.append(Paragraph(said("No photograph of the whole car is in the case.")))
    rows = tuple(
        (
            TableCell(str(number), strong=True),
            TableCell(capital(site.name), (site.where,) if site.where else ()),
            TableCell(capital(term(site.state)), _why(site), strong=True),
            TableCell(in_numbers(matter.numbers[e] for e in matter.of(site.site, *site.marks))),
        )
        for number, site in enumerate(matter.opinion.sites, 1)
    )
    head = (said("No."), said("Place"), said("How it ended"), said("Photographs"))
    blocks += drawings([car_sites(matter.opinion, matter.book)])
    blocks.append(Table(head, rows, (0.5, 6.0, 3.2, 1.4), is_dense=True))
    return Section(said("The car and its marks"), tuple(blocks))


def _why(site: SiteOutcome) -> tuple[str, ...]:
    """Why nobody looked there; of a place that was looked at the next section tells."""
    return (sentence(site.reason),) if site.state in UNSEEN and site.reason else ()
