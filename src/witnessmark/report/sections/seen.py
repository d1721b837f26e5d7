"""How a part was seen, for the line beside its ratio: in person, on a picture only, not at all.

A row stands for every assembly of the car, also for one at which nobody looked, and its
readers must be told so.
"""

from enum import StrEnum

from witnessmark.casefile.records import AttachmentSeen, PaperState, Seen, SiteState
from witnessmark.catalogue import said
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.pieces import pieces_of
from witnessmark.examination import Opinion
from witnessmark.weighing import Asked, Weighed


class PartSeen(StrEnum):
    """The best way in which anything of a part was seen."""

    IN_PERSON = "in person"
    PHOTOGRAPH = "photograph"
    COPY = "copy"
    TOLD = "told"
    NOTHING = "nothing"


IN_ORDER = (Seen.IN_PERSON, Seen.PHOTOGRAPH, Seen.COPY, Seen.TOLD)
OF_PAPERS = {PaperState.IN_HAND: Seen.IN_PERSON, PaperState.COPY: Seen.COPY}


def part_seen(conclusion: Weighed, opinion: Opinion, book: CodeBook) -> PartSeen:
    """How the part that a conclusion speaks of was seen; the car as a whole in person, and of a
    part on which the book knows no mark nothing was left unseen."""
    if conclusion.question is Asked.ITEM:
        return PartSeen.IN_PERSON
    about = conclusion.about
    on = {each.mark for each in pieces_of(book, opinion.context).marks_on(about)}
    marks = [m for m in book.marks_for(opinion.context) if m.id in on or m.assembly == about]
    if not (marks or conclusion.conclusion.can_be_told):
        return PartSeen.IN_PERSON
    case = opinion.casefile
    ids = {about, *(mark.id for mark in marks)}
    sites = {mark.site for mark in marks if mark.site}
    sites |= {site.id for site in book.sites if site.piece == about}
    ways = {each.reading.seen for each in opinion.decodings if each.mark in ids}
    ways |= {look.seen for look in case.looks if look.site in sites}
    ways |= {OF_PAPERS[p.state] for p in case.papers if p.mark in ids and p.state in OF_PAPERS}
    for site in opinion.sites:
        looked_at = site.state in (SiteState.ABSENT, SiteState.FOUND_ILLEGIBLE)
        looked_at |= site.is_noted and site.attachment is not AttachmentSeen.IN_PLACE
        is_of_part = site.site in sites and (not site.marks or not ids.isdisjoint(site.marks))
        if is_of_part and looked_at:
            ways.add(Seen.IN_PERSON)
    best = next((way for way in IN_ORDER if way in ways), None)
    return PartSeen(best.value) if best is not None else PartSeen.NOTHING


def unseen_words(seen: PartSeen) -> str:
    """What a reader must know beside the ratio; nothing where the part was seen in person."""
    match seen:
        case PartSeen.NOTHING:
            return said("This part was not seen at all.")
        case PartSeen.PHOTOGRAPH:
            return said("Seen on photographs only, not in person.")
        case PartSeen.COPY:
            return said("Seen as a copy only.")
        case PartSeen.TOLD:
            return said("Known only from what was told; nobody here saw it.")
        case PartSeen.IN_PERSON:
            return ""
