"""Where was looked and how it ended, and how the metal looked, each with who saw it and how."""

from collections.abc import Iterable
from datetime import datetime

from witnessmark.casefile.records import LookClass, LookSeen, Seen
from witnessmark.catalogue import said
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.site_records import Feature
from witnessmark.examination import Opinion, SiteOutcome
from witnessmark.figures.car_sites import car_sites
from witnessmark.outline.records import (
    Block,
    Bullets,
    Heading,
    Paragraph,
    Section,
    Table,
    TableCell,
)
from witnessmark.report.sections.drawn import drawings
from witnessmark.wording import Names, moment_text, site_sentence, term, unseen_sentence
from witnessmark.wording.amounts import capital, clause, sentence
from witnessmark.wording.case_words import feature_word, look_word
from witnessmark.wording.sites import UNSEEN


def sites_section(opinion: Opinion, book: CodeBook) -> Section:
    """Every expected site and how it ended; then what was not seen, and why."""
    lost = frozenset(opinion.illegible_marks)
    rows = tuple(
        (
            TableCell(str(number), strong=True),
            TableCell(capital(site.name), (site.where,) if site.where else ()),
            TableCell(capital(term(site.state)), strong=True),
            TableCell(_ended(site, lost)),
        )
        for number, site in enumerate(opinion.sites, 1)
    )
    unseen = tuple(
        unseen_sentence(site.name, site.state, site.reason)
        for site in opinion.sites
        if site.state in UNSEEN
    )
    head = (said("No."), said("Site"), said("State"), said("Outcome"))
    table = Table(head, rows, (0.6, 4, 2, 5))
    blocks: list[Block] = [*drawings([car_sites(opinion, book)]), table]
    blocks.append(Heading(said("What was not seen, and why")))
    if unseen:
        blocks.append(Bullets(unseen))
    else:
        every = said("Every site that the code book expects was looked at.")
        blocks.append(Paragraph(every))
    return Section(said("Sites"), tuple(blocks))


def _ended(site: SiteOutcome, lost: frozenset[str]) -> str:
    """How a place ended; one that was read has something to be made out."""
    is_legible = not site.marks or not lost.issuperset(site.marks)
    return site_sentence(site.state, site.reason, site.attachment, is_legible=is_legible)


def looks_section(opinion: Opinion, book: CodeBook) -> Section | None:
    """How the metal looked, feature by feature: who saw it, how, and what it counts as."""
    looks = opinion.casefile.looks
    if not looks:
        return None
    names = Names(opinion.names)
    features = tuple(
        each
        for each in book.features
        if each.applies.covers(opinion.context) and each.citation.basis.weighs
    )
    rows = tuple(_look_row(each, names, features) for each in looks)
    head = (said("Place and feature"), said("What was seen"), said("By whom, and the note"))
    return Section(said("How the metal looked"), (Table(head, rows, (4, 2.4, 5)),))


def _look_row(look: LookSeen, names: Names, features: tuple[Feature, ...]) -> tuple[TableCell, ...]:
    counts_as = _counts_as(look, features)
    outcome = look_word(look.outcome)
    below: tuple[str, ...] = ()
    if counts_as and counts_as != look.outcome:
        below = (said("counts as {look}", look=term(counts_as)),)
    return (
        TableCell(capital(names.any(look.site)), (feature_word(look.feature),)),
        TableCell(capital(outcome), below, strong=True),
        TableCell(
            seen_by(look.seen, look.by, look.when) or said("not stated"),
            (
                *((said("Looked at again."),) if look.again else ()),
                *((sentence(look.note),) if look.note else ()),
            ),
        ),
    )


def _counts_as(look: LookSeen, features: tuple[Feature, ...]) -> str:
    """The look that an outcome counts as by the book's rows for this car, or nothing.

    A row from memory makes it count as nothing.
    """
    if look.outcome in tuple(LookClass):
        return look.outcome
    found: Iterable[str] = (
        outcome.look
        for feature in features
        for outcome in feature.outcomes
        if (feature.site, feature.id, outcome.id) == (look.site, look.feature, look.outcome)
    )
    return next(iter(found), "")


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
