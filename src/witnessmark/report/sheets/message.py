"""Messages and letters as plain text: to the seller, with no number; to an archive, a title
office or an earlier owner, with the number in full, since they can find the car by nothing else.

None says what the claim expects, what was found, or how strongly it speaks (decisions/0078).
"""

from collections.abc import Iterator
from datetime import date
from enum import StrEnum
from itertools import islice

from witnessmark.casefile.records import Seen
from witnessmark.catalogue import as_said, marked, said, voiced
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import MarkKind
from witnessmark.examination import Opinion
from witnessmark.examination.looks import LookKind
from witnessmark.outline.letters import visible
from witnessmark.plan import VisitPlan, visit_plan
from witnessmark.report.sections.matter import Matter, whole_car
from witnessmark.report.sections.next_steps import photograph_wanted
from witnessmark.report.sections.page_one import claimed_number
from witnessmark.report.sections.to_ask import seller_questions
from witnessmark.report.sheets.picture_request import pictures_at
from witnessmark.wording import date_text
from witnessmark.wording.amounts import capital, few, sentence
from witnessmark.wording.pictures import framing, kept_as_it_is
from witnessmark.wording.visit import the_car

PLACES = 6
MOST_ITEMS = 400
"""Characters of a list of items."""


class Addressee(StrEnum):
    """To whom a letter goes."""

    ARCHIVE = "archive"
    TITLE_OFFICE = "title-office"
    EARLIER_OWNER = "earlier-owner"


ASKED = {
    Addressee.ARCHIVE: (
        marked("Do your records hold this car, and in which book, card or list?"),
        marked("What do they say of these: {items}? Please give each as it stands there, and say "
               "where it is blank, corrected or cannot be read."),
        marked("On which day was it completed, when did it leave, and to whom?"),
        marked("Can we have a picture or a copy of the entry, and at what charge?"),
    ),
    Addressee.TITLE_OFFICE: (
        marked("Which number, make, model and year are registered, and since when?"),
        marked("Has it had another number or title, or was a number assigned by an office?"),
        marked("Is it noted as stolen, written off, exported, scrapped or rebuilt, or does anybody "
               "have a claim on it?"),
        marked("If you may not answer all of this, who may ask for it, and by which form?"),
    ),
    Addressee.EARLIER_OWNER: (
        marked("From when to when did you have the car, from whom did it come, and to whom did it "
               "go?"),
        marked("What was repaired, exchanged, painted or struck anew while you had it: body, "
               "engine, gearbox, axle, plates?"),
        marked("Do you have papers or pictures of it, the older the better, and may we copy them?"),
        marked("Do you know who had it before you, and how to reach them?"),
    ),
}  # fmt: skip
"""What each is asked, in this order."""

PURPOSE = {
    Addressee.ARCHIVE: marked(
        "We compare what your records say with what stands on the car. So that the two stay "
        "apart, this letter does not say what we read there."
    ),
    Addressee.TITLE_OFFICE: marked(
        "We need this to describe the car rightly, and ask for no more than the law lets you tell."
    ),
    Addressee.EARLIER_OWNER: marked(
        "We put together the history of this car. What you remember helps, also where you are not "
        "sure: please say so."
    ),
}
"""Why it is asked."""


def seller_message(opinion: Opinion, book: CodeBook) -> str:
    """The message to the seller; empty while the seller is not to be asked."""
    matter = Matter(voiced(opinion), book)
    questions, plan = seller_questions(matter), visit_plan(opinion.casefile, book, (), None)
    if not questions:
        return ""
    parts = [
        said("Good day,"),
        said(
            "thank you for offering your {car}. Before we go further, may we ask some questions? "
            "“I do not know” is a good answer too.",
            car=the_car(plan),
        ),
        _numbered(questions),
    ]
    if pictures := tuple(_again(matter, plan)):
        asked = said("And may we ask for a few pictures, new or once more?")
        how = (*kept_as_it_is()[:2], *framing()[:3])
        parts += [f"{asked}\n{_numbered(pictures)}", " ".join(how)]
    return _together((*parts, said("Thank you for your time and your help."), said("Kind regards")))


class NoLetter(StrEnum):
    """Why a letter is not written."""

    NO_NUMBER = "no number"
    STOP = "stop"


def why_no_letter(opinion: Opinion, book: CodeBook, addressee: Addressee) -> NoLetter | None:
    """None where it may be written: the car has a number, and where it is a matter for the
    authority no owner is asked."""
    if not claimed_number(Matter(opinion, book)):
        return NoLetter.NO_NUMBER
    is_owner = addressee is Addressee.EARLIER_OWNER
    return NoLetter.STOP if is_owner and opinion.answer.stops else None


def letter_text(opinion: Opinion, book: CodeBook, addressee: Addressee, day: date) -> str:
    """The letter, with the number of the car in full."""
    matter = Matter(voiced(opinion), book)
    case, plan = matter.case, visit_plan(opinion.casefile, book, (), None)
    items = few(tuple(_items(matter)), MOST_ITEMS)
    consent = sentence(case.assignment.owner_consent)
    number = said(
        "Car: {car}, {item} {number}",
        car=the_car(plan),
        item=matter.names.item(item.id) if (item := book.identification) else said("number"),
        number=claimed_number(matter),
    )
    title = case.title_paper
    by = title.issued_by.strip() or said("not stated")
    paper = said("Title paper: number {number}, issued by: {by}", number=title.number, by=by)
    is_titled = addressee is Addressee.TITLE_OFFICE and title.number
    head = (number, *([paper] if is_titled else []))
    return _together(
        (
            _sender(matter),
            date_text(day),
            "\n".join(head),
            said("Dear Sir or Madam,"),
            said("we have been asked to examine this car, and would be glad of your help."),
            _numbered(tuple(as_said(each, items=items) for each in ASKED[addressee])),
            as_said(PURPOSE[addressee]),
            said("Consent of the owner: {consent}", consent=consent)
            if consent
            else said("The owner’s consent: [to be enclosed before this is sent]"),
            said("Please reply to the address above. Thank you for your trouble."),
            said("Yours faithfully"),
            _name(matter),
        )
    )


def _together(parts: tuple[str, ...]) -> str:
    """Paragraphs apart from each other, with no sign that nobody sees."""
    return "\n\n".join(visible(each) for each in parts if each) + "\n"


def _numbered(texts: tuple[str, ...]) -> str:
    return "\n".join(f"{number}. {text}" for number, text in enumerate(texts, start=1))


def _name(matter: Matter) -> str:
    examiners = matter.case.assignment.examiners
    return examiners[0].name if examiners else said("[your name]")


def _sender(matter: Matter) -> str:
    """Name, firm, address and telephone of the first examiner, a line each."""
    lines = [_name(matter)]
    for each in matter.case.assignment.examiners[:1]:
        lines += [each.firm, each.address or said("[your address]"), each.telephone]
    return "\n".join(filter(None, lines))


def _items(matter: Matter) -> Iterator[str]:
    """What the papers of such a car state, by name; where the book has no paper, all its items."""
    marks = matter.book.marks_for(matter.opinion.context)
    stated = [f.says for m in marks if m.kind is MarkKind.PAPER for f in m.fields]
    asked = dict.fromkeys(stated or (each.id for each in matter.book.items))
    for item in map(matter.book.item, asked):
        if item is not None and not item.identification:
            yield matter.names.item(item.id)


def _again(matter: Matter, plan: VisitPlan) -> Iterator[str]:
    """The whole car where no picture shows it, then the places that were read from no metal, do
    not fit or were not seen, as far as a seller can photograph them."""
    if not whole_car(matter.case):
        yield photograph_wanted()
    kinds = (LookKind.AGAIN, LookKind.READING)
    sites = [look.site for look in matter.opinion.looks if look.kind in kinds]
    read = {d.mark: d.reading.seen for d in matter.opinion.decodings}
    marks = (mark for mark, seen in read.items() if seen is not Seen.IN_PERSON)
    sites += [each.site for each in map(matter.book.mark, marks) if each is not None]
    by_id = {each.row.id: each for each in plan.sites}
    asked = (by_id[each] for each in dict.fromkeys(sites) if each in by_id)
    spots = dict.fromkeys(spot for each in asked for spot, _ in pictures_at(each))
    for name, where in islice(spots, PLACES):
        yield said("{place}: {where}", place=capital(name), where=sentence(where))
