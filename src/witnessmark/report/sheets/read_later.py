"""What an heir or executor needs of an examination, in plain words: what was found, what to keep
safe, whom to write to, what to leave alone. Serials are masked on it; no ratio stands there. The
code of a day or a colour is no serial: many cars bear the same one, and what did not fit is not to
be understood without it. So it stands as it was read, as in every masked copy."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date

from witnessmark.catalogue import language, said
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import MarkKind
from witnessmark.codebook.pieces import PieceKind
from witnessmark.examination import Opinion
from witnessmark.examination.papers import HELD, paper_states
from witnessmark.outline.records import Block, Bullets, Fact, Facts, Outline, Paragraph, Section
from witnessmark.plan import DOT, visit_plan
from witnessmark.report.mask.opinion import masked
from witnessmark.report.sections.answered import most_important, strength, supported
from witnessmark.report.sections.closing import looks_altered
from witnessmark.report.sections.matter import Matter
from witnessmark.weighing import Standing, Weighed
from witnessmark.wording import (
    date_text,
    listed,
    misfit_sentence,
    misfits_beside,
    referral_heading,
    referral_sentences,
    referrals,
    stop_sentence,
)
from witnessmark.wording.amounts import capital, clause, sentence
from witnessmark.wording.conclusions import about_words
from witnessmark.wording.visit import the_car

MISFITS_SHOWN = 5


@dataclass(frozen=True, slots=True)
class HandedOver:
    """A report that was issued: its number, its issue, its day, and who issued it."""

    number: str
    issue: int
    day: date
    by: str


def read_later(
    opinion: Opinion, book: CodeBook, handed: tuple[HandedOver, ...], printed: date
) -> Outline:
    """The outline of the page; `handed` are the reports that were issued."""
    matter = Matter(masked(opinion, book, one_sign=DOT).opinion, book)
    plan = visit_plan(matter.case, book, (), None)
    return Outline(
        the_car(plan),
        (Paragraph(_opening(matter), "lead"),),
        (
            Section(said("What was found"), tuple(_found(matter))),
            Section(said("What to keep safe"), tuple(_kept_safe(matter, handed))),
            Section(said("Whom to write to"), tuple(_whom(matter))),
            Section(said("What to leave alone"), (Bullets(_left_alone()),)),
        ),
        language=language(),
        printed=date_text(printed),
        printed_iso=printed.isoformat(),
        is_numbered=False,
    )


def _opening(matter: Matter) -> str:
    day = matter.case.visit.date
    seen = said("It was examined on {day}.", day=date_text(day)) if day else ""
    told = said(
        "For whoever looks after this car when those who had it examined no longer can. It says in "
        "plain words what was found and what to do first; the report says all of it. Numbers are "
        "masked here: a dot stands for one character."
    )
    return f"{seen} {told}".strip()


def _found(matter: Matter) -> Iterator[Block]:
    """The stop, the answers, and what did not fit."""
    answer = matter.opinion.answer
    if stop := stop_sentence(answer.stops):
        yield Paragraph(stop, "strong")
    rows = tuple(_answer(each, matter) for each in most_important(matter.opinion.weighed))
    if rows:
        yield Paragraph(said("Part by part, what the findings support, and how strongly:"), "lead")
        yield Facts(rows)
    else:
        yield Paragraph(said("What was supplied allows no question to be asked."))
    against = [misfit_sentence(each) for each in misfits_beside(answer)][:MISFITS_SHOWN]
    if against:
        yield Paragraph(said("What did not fit together:"), "lead")
        yield Bullets(tuple(against))
    yield Paragraph(
        said(
            "An examination weighs what could be seen on that day. It is no proof and no warranty, "
            "and it does not say what the car is worth."
        ),
        "quiet",
    )


def _answer(weighed: Weighed, matter: Matter) -> Fact:
    """One question, answered without a figure."""
    about = capital(about_words(weighed, matter.names))
    match weighed.standing:
        case Standing.NOT_EXAMINED:
            return Fact(about, said("Nobody looked at it."))
        case Standing.CANNOT_BE_ESTABLISHED:
            return Fact(about, said("This could not be established with what was at hand."))
        case Standing.OPEN:
            return Fact(about, said("Open: what was found does not decide it."))
    words, how = capital(supported(weighed, matter)), strength(weighed)
    return Fact(about, said("{words} ({how})", words=words, how=how) if how else words)


def _kept_safe(matter: Matter, handed: tuple[HandedOver, ...]) -> Iterator[Block]:
    """Papers, plates, parts, and the documents that were issued."""
    facts = (
        Fact(said("Papers"), _named(_papers(matter))),
        Fact(said("Plates and labels"), _named(_marks(matter))),
        Fact(said("Parts that bear numbers"), _named(_parts(matter))),
        Fact(said("Lent and not yet given back"), _named(_lent(matter))),
        Fact(said("Reports that were issued"), "\n".join(map(_report, handed))),
    )
    yield Facts(tuple(each for each in facts if each.text))
    yield Bullets(
        (
            said("Keep papers dry, dark and unfolded; copy each before it leaves the house."),
            said(
                "Keep plates on the car, and keep every part that came off it, even a broken one: "
                "parts that belong to a car cannot be had again."
            ),
            said("Keep keys, tools, old photographs, invoices and letters with the papers."),
            said("Keep this page, the report and the annex where the will is kept."),
        )
    )


def _named(names: Iterable[str]) -> str:
    shown = tuple(dict.fromkeys(clause(each) for each in names if each))
    return sentence(listed(shown)) if shown else ""


def _papers(matter: Matter) -> Iterator[str]:
    for name, state in paper_states(matter.case, matter.opinion.decodings).items():
        mark = matter.book.mark(name)
        if state in HELD and mark is not None and mark.kind is MarkKind.PAPER:
            yield mark.name
    yield from (e.name for e in matter.case.papers if not e.mark and e.state in HELD)
    if matter.case.title_paper.number or matter.case.title_paper.issued_by:
        yield said("the title or registration paper")


def _marks(matter: Matter) -> Iterator[str]:
    kinds = (MarkKind.PLATE, MarkKind.LABEL)
    read = {each.mark for each in matter.opinion.decodings}
    for mark in matter.book.marks_for(matter.opinion.context):
        if mark.kind in kinds and mark.id in read:
            yield mark.name


def _parts(matter: Matter) -> Iterator[str]:
    kinds = (PieceKind.STRUCTURE, PieceKind.CORE)
    read = {each.mark for each in matter.opinion.decodings}
    for piece in matter.pieces.pieces:
        on_it = {each.mark for each in matter.pieces.marks_on(piece.id)}
        if piece.kind in kinds and on_it & read:
            yield matter.names.piece(piece.id)


def _lent(matter: Matter) -> Iterator[str]:
    return (each.what for each in matter.case.custody if each.returned is None)


def _report(handed: HandedOver) -> str:
    return said(
        "Report {number}, issue {issue}, of {day}, issued by {by}, who keeps it as it was handed "
        "over.",
        number=handed.number,
        issue=handed.issue,
        day=date_text(handed.day),
        by=handed.by or said("the examiner"),
    )


def _whom(matter: Matter) -> Iterator[Block]:
    """Who can help, and with what; the authority first where the car is a matter for it."""
    yield Facts(
        (
            Fact(
                said("Whoever signed the report"),
                said("Ask first what has changed since. Name and address stand on the report."),
            ),
            Fact(
                said("The title or registration office"),
                said("To have the car in the right name before it is sold, moved or repaired."),
            ),
            Fact(
                said("The maker’s archive, or whoever keeps its records"),
                said("What they hold of this car, and for a copy of it."),
            ),
            Fact(
                said("A club for cars of this make"),
                said(
                    "For people who know such cars, its parts and its earlier owners. Ask more "
                    "than one, and give nobody the whole number in public."
                ),
            ),
            Fact(
                said("A licensed appraiser"),
                said("For what it is worth: no page of the examination says that."),
            ),
            Fact(
                said("A lawyer or notary"),
                said("For whom the car belongs to, and what the estate has to do with it."),
            ),
        )
    )
    if looks_altered(matter.opinion):
        yield Paragraph(referral_heading(), "strong")
        yield Paragraph(" ".join(referral_sentences()))
        yield Facts(tuple(Fact(each.whom, sentence(each.matter)) for each in referrals()))


def _left_alone() -> tuple[str, ...]:
    return (
        said(
            "Never rub, sand, grind, polish, etch, paint or blast a number, a plate, or the metal "
            "around them: what was there is then gone for good."
        ),
        said("Never take off a plate, a label or its rivets, and never have a number struck."),
        said(
            "Altering or removing an identification number is a crime in most places. If a number "
            "looks altered, leave it so and ask the authority."
        ),
        said("Throw no old part and no paper away before somebody who knows has seen it."),
        said("Show no picture of a number or a paper in public; show the masked copy instead."),
        said("Start no engine that has stood for years, and sell nothing in a hurry."),
    )
