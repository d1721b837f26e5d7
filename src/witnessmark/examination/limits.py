"""What this Opinion does not cover, from what was not seen, in its own words."""

from witnessmark.agreement.records import CarMarks
from witnessmark.casefile.records import PaperState, Seen, SiteState
from witnessmark.codebook.marks import MarkKind
from witnessmark.examination.records import Limitation, SiteOutcome
from witnessmark.weighing import Weighing

_PAPER_WORDS = {
    PaperState.AWAITED: "was asked for and is awaited",
    PaperState.REFUSED: "was refused",
    PaperState.LOST: "is lost",
    PaperState.NOT_ASKED_FOR: "was not asked for",
}


def limitations(
    car: CarMarks, sites: tuple[SiteOutcome, ...], weighing: Weighing
) -> tuple[Limitation, ...]:
    """What was not seen, not seen in person or not in hand, and what was seen but not weighed."""
    found = []
    for site in sites:
        if site.state is SiteState.NOT_ACCESSIBLE:
            found.append(f"The site {site.name} was not accessible. {site.reason}")
        elif site.state is SiteState.NOT_LOOKED_FOR:
            found.append(f"The site {site.name} was not looked for. {site.reason}")
    found.extend(_not_in_person(car))
    found.extend(_papers(car))
    found.extend(_not_of_this_car(car))
    found.extend(weighing.left_out)
    return tuple(Limitation(sentence.strip()) for sentence in found)


def _not_in_person(car: CarMarks) -> list[str]:
    by_mark: dict[str, set[Seen]] = {}
    for reading in car.casefile.readings:
        by_mark.setdefault(reading.mark, set()).add(reading.seen)
    found = []
    for mark_id, ways in by_mark.items():
        mark = car.book.mark(mark_id)
        if mark is None or Seen.IN_PERSON in ways:
            continue
        way = sorted(way.value for way in ways)[0]
        words = {"photograph": "from a photograph", "copy": "from a copy", "told": "as told"}
        found.append(f"The {mark.name} was read only {words[way]}.")
    return found


def _papers(car: CarMarks) -> list[str]:
    states = {paper.mark: paper.state for paper in car.casefile.papers}
    found = []
    for mark in car.book.marks_for(car.context):
        if mark.kind is not MarkKind.PAPER:
            continue
        state = states.get(mark.id, PaperState.NOT_ASKED_FOR)
        if state in _PAPER_WORDS:
            found.append(f"The {mark.name} {_PAPER_WORDS[state]}.")
    return found


def _not_of_this_car(car: CarMarks) -> list[str]:
    """Marks and places that the book knows on other cars only: nothing there is weighed."""
    expected = car.book.marks_for(car.context)
    marks = {mark.id for mark in expected}
    sites = {mark.site for mark in expected if mark.site}
    why = "by the code book no car of the year, model and works claimed has it"
    found = []
    for mark_id in dict.fromkeys(reading.mark for reading in car.casefile.readings):
        mark = car.book.mark(mark_id)
        if mark is not None and mark_id not in marks:
            found.append(f"The {mark.name} was read and is not weighed: {why}.")
    for site_id in dict.fromkeys(look.site for look in car.casefile.looks):
        site = car.book.site(site_id)
        if site is not None and site_id not in sites:
            found.append(f"What was seen at the site {site.name} is not weighed: {why}.")
    return found
