"""What this Opinion does not cover, from what was not seen, in its own words."""

from collections.abc import Iterator

from witnessmark.agreement.records import CarMarks
from witnessmark.agreement.telling import named_differently
from witnessmark.casefile.records import PaperState, Seen, SiteState
from witnessmark.catalogue import as_said, in_a_row, marked, said
from witnessmark.codebook.marks import MarkKind
from witnessmark.codebook.qualified import further_book
from witnessmark.examination.papers import paper_states
from witnessmark.examination.place_records import SiteOutcome
from witnessmark.examination.records import Limitation

_PAPER_SENTENCES = {
    PaperState.AWAITED: marked("The {paper} was asked for and is awaited."),
    PaperState.REFUSED: marked("The {paper} was refused."),
    PaperState.LOST: marked("The {paper} is lost."),
    PaperState.NOT_ASKED_FOR: marked("The {paper} was not asked for."),
}

_READ_SENTENCES = {
    Seen.PHOTOGRAPH: marked("The {mark} was read only from a photograph."),
    Seen.COPY: marked("The {mark} was read only from a copy."),
    Seen.TOLD: marked("The {mark} was read only as told."),
}


_PLACE_SENTENCES = {
    SiteState.NOT_ACCESSIBLE: marked("The place {place} was not accessible."),
    SiteState.NOT_LOOKED_FOR: marked("The place {place} was not looked for."),
    SiteState.FOUND_ILLEGIBLE: marked("The place {place} bears something that cannot be read."),
}

_MARK_SENTENCES = {
    SiteState.NOT_ACCESSIBLE: marked("The {mark} was not accessible."),
    SiteState.NOT_LOOKED_FOR: marked("The {mark} was not looked for."),
    SiteState.FOUND_ILLEGIBLE: marked("The {mark} was found and cannot be read."),
}


def limitations(car: CarMarks, sites: tuple[SiteOutcome, ...]) -> tuple[Limitation, ...]:
    """What was not seen, not seen in person or not in hand, and what was seen but not weighed."""
    return (
        *map(Limitation, _sites(sites)),
        *_not_in_person(car),
        *map(Limitation, (*_not_like_their_mark(car), *_named_differently(car))),
        *_papers(car),
        *map(Limitation, (*_echoes(car), *_not_of_this_car(car), *_that_explain(car))),
    )


def _sites(sites: tuple[SiteOutcome, ...]) -> Iterator[str]:
    """Places not reached, not looked for or not made out, each with the reason that was noted;
    of a place that was seen the marks of which that is so."""
    for site in sites:
        if site.state in _PLACE_SENTENCES:
            if site.mark:
                told = as_said(_MARK_SENTENCES[site.state], mark=site.mark)
            else:
                told = as_said(_PLACE_SENTENCES[site.state], place=site.name)
            is_noted = site.is_noted or site.state is not SiteState.NOT_LOOKED_FOR
            yield in_a_row((told, site.reason)) if site.reason and is_noted else told


def _not_in_person(car: CarMarks) -> Iterator[Limitation]:
    by_mark: dict[str, set[Seen]] = {}
    for each in car.decodings:
        by_mark.setdefault(each.mark, set()).add(each.reading.seen)
    for mark_id, ways in by_mark.items():
        mark = car.book.mark(mark_id)
        if mark is not None and Seen.IN_PERSON not in ways:
            way = min(ways, key=lambda each: each.value)
            is_copy = mark.kind is MarkKind.PAPER and way is Seen.COPY
            told = as_said(_READ_SENTENCES[way], mark=mark.name)
            yield Limitation(told, mark_id if is_copy else "")


def _not_like_their_mark(car: CarMarks) -> list[str]:
    """Readings that are nothing like the mark they were noted for: they are not compared."""
    marks = [car.book.mark(each.mark) for each in car.decodings if each.is_unlike]
    return [
        said("What was noted as the {mark} does not look like it and is not used.", mark=mark.name)
        for mark in dict.fromkeys(marks)
        if mark is not None
    ]


def _named_differently(car: CarMarks) -> list[str]:
    """Year, model or works of which the marks name several, and nobody claims one."""
    return [named_differently(car, each) for each in car.of_car.contradictions if not each.given]


def _papers(car: CarMarks) -> Iterator[Limitation]:
    states = paper_states(car.casefile, car.decodings)
    for mark in car.book.marks_for(car.context):
        state = states.get(mark.id, PaperState.NOT_ASKED_FOR)
        if mark.kind is MarkKind.PAPER and state in _PAPER_SENTENCES:
            yield Limitation(as_said(_PAPER_SENTENCES[state], paper=mark.name), mark.id)


def _echoes(car: CarMarks) -> list[str]:
    """Papers in hand that were copied from another: they are not independent witnesses."""
    return [
        said(
            "The {paper} is a copy of another mark or paper: one source counts once.",
            paper=mark.name,
        )
        for mark in car.book.marks_for(car.context)
        if car.is_echo(mark.id) and car.of(mark.id)
    ]


def _that_explain(car: CarMarks) -> Iterator[str]:
    """Marks that were read and only explain, those of one further book in one sentence."""
    noted: dict[str, dict[str, None]] = {}
    for look in car.casefile.looks:  # a place before its marks
        site = car.book.site(look.site)
        if site is not None and (book := further_book(site.id)):
            noted.setdefault(book, {}).setdefault(site.name)
    for mark in car.book.marks_for(car.context):
        is_read = bool(car.of(mark.id))
        if is_read and not mark.argues and not mark.book:
            yield (
                said(
                    "The {mark} was read but the book gives it from memory: it explains and does "
                    "not argue.",
                    mark=mark.name,
                )
            )
        elif is_read and mark.book:
            noted.setdefault(mark.book, {}).setdefault(mark.name)
    for book, names in noted.items():
        yield (
            said(
                "Noted by the book {book}, which stands beside the maker’s: {marks}. This explains "
                "and dates parts, which may have been fitted at any time, and does not argue.",
                book=book,
                marks=in_a_row(names, "; "),
            )
        )


def _not_of_this_car(car: CarMarks) -> Iterator[str]:
    """Marks and places that the book knows on other cars only: nothing there is weighed."""
    expected = car.book.marks_for(car.context)
    marks = {mark.id for mark in expected}
    sites = {mark.site for mark in expected if mark.site}
    for mark_id in dict.fromkeys(each.mark for each in car.decodings):
        mark = car.book.mark(mark_id)
        if mark is not None and mark_id not in marks:
            yield (
                said(
                    "The {mark} was read and is not weighed: by the code book no car of the year, "
                    "model and works claimed has it.",
                    mark=mark.name,
                )
            )
    bears_marks = {mark.site for mark in car.book.marks}
    for site_id in dict.fromkeys(look.site for look in car.casefile.looks):
        site = car.book.site(site_id)
        if site is not None and site_id not in bears_marks:
            yield (
                said(
                    "What was seen at the place {place} is told and not weighed: no mark stands "
                    "there.",
                    place=site.name,
                )
            )
        elif site is not None and site_id not in sites:
            yield (
                said(
                    "What was seen at the place {place} is not weighed: by the code book no car of "
                    "the year, model and works claimed has it.",
                    place=site.name,
                )
            )
