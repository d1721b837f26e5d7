"""How a part was seen, for the line beside its ratio; who noted something, when, and how."""

from datetime import datetime

from witnessmark.casefile.records import AttachmentSeen, PaperState, Seen, SiteState
from witnessmark.catalogue import said
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.pieces import pieces_of
from witnessmark.examination import Opinion
from witnessmark.weighing import Asked, Weighed
from witnessmark.wording import moment_text
from witnessmark.wording.amounts import clause

IN_ORDER = (Seen.IN_PERSON, Seen.PHOTOGRAPH, Seen.COPY, Seen.TOLD)
OF_PAPERS = {PaperState.IN_HAND: Seen.IN_PERSON, PaperState.COPY: Seen.COPY}


def part_seen(conclusion: Weighed, opinion: Opinion, book: CodeBook) -> Seen | None:
    """The best way in which the part that a conclusion speaks of was seen, None where nothing of
    it was; the car as a whole in person, and of a part on which the book knows no mark nothing
    was left unseen."""
    if conclusion.question is Asked.ITEM:
        return Seen.IN_PERSON
    about = conclusion.about
    on = {each.mark for each in pieces_of(book, opinion.context).marks_on(about)}
    marks = [m for m in book.marks_for(opinion.context) if m.id in on or m.assembly == about]
    if not (marks or conclusion.conclusion.can_be_told):
        return Seen.IN_PERSON
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
    return next((way for way in IN_ORDER if way in ways), None)


def unseen_words(seen: Seen | None) -> str:
    """What a reader must know beside the ratio; nothing where the part was seen in person."""
    match seen:
        case None:
            return said("This part was not seen at all.")
        case Seen.PHOTOGRAPH:
            return said("Seen on photographs only, not in person.")
        case Seen.COPY:
            return said("Seen as a copy only.")
        case Seen.TOLD:
            return said("Known only from what was told; nobody here saw it.")
        case Seen.IN_PERSON:
            return ""


def seen_by(seen: Seen, by: str, when: datetime | None) -> str:
    """Who noted something, when, and how it was seen if not in person."""
    who = clause(by)
    day = moment_text(when) if when else ""
    parts = (who if seen is not Seen.TOLD else "", day)
    noted = ", ".join(part for part in parts if part)
    return "; ".join(part for part in (unseen_way(seen, who), noted) if part)


def unseen_way(seen: Seen, who: str = "") -> str:
    """How something was seen where it was not in person; nothing where it was."""
    match seen:
        case Seen.IN_PERSON:
            return ""
        case Seen.PHOTOGRAPH:
            return said("from a photograph, not from the thing itself")
        case Seen.COPY:
            return said("from a copy, not from the paper itself")
        case Seen.TOLD if who:
            return said("told to {name}, not seen", name=who)
        case Seen.TOLD:
            return said("told, not seen")
