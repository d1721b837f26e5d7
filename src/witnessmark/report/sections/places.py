"""The car, and where its marks are: how each place ended, in one of five states."""

from collections.abc import Iterator

from witnessmark.casefile.records import SiteState
from witnessmark.catalogue import said
from witnessmark.examination import PlaceOutcome
from witnessmark.figures.car_sites import car_sites
from witnessmark.outline.records import Block, Paragraph, Pictures, Section, Table, TableCell
from witnessmark.report.sections.drawn import drawings
from witnessmark.report.sections.matter import Matter, whole_car
from witnessmark.wording import term
from witnessmark.wording.amounts import capital, in_numbers, sentence
from witnessmark.wording.sites import marks_otherwise


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
            TableCell(str(place.number), strong=True),
            TableCell(capital(place.name), (place.where,) if place.where else ()),
            TableCell(capital(term(place.state)), tuple(_why(place)), strong=True),
            TableCell(in_numbers(matter.numbers[e] for e in matter.of(place.site, *place.marks))),
        )
        for place in matter.opinion.places
    )
    head = (said("No."), said("Place"), said("How it ended"), said("Photographs"))
    blocks += drawings([car_sites(matter.opinion, matter.book)])
    blocks.append(Table(head, rows, (0.5, 6.0, 3.2, 1.4), is_dense=True))
    return Section(said("The car and its marks"), tuple(blocks))


def _why(place: PlaceOutcome) -> Iterator[str]:
    """Why a place ended so where nothing was read there, and which marks ended otherwise."""
    whole = next((each for each in place.outcomes if each.state is place.state), None)
    if whole is not None and whole.state is not SiteState.READ and whole.reason:
        yield sentence(whole.reason)
    yield from marks_otherwise(place)
