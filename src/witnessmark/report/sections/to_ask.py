"""What to ask the seller, the most telling first: of the parts that do not fit, of what was
said, of what was not seen.

A question names a part and never what was found there or ought to stand there (decisions/0078):
an answer that was led is worth nothing, and no seller is accused.
"""

from collections.abc import Iterable, Iterator
from itertools import islice

from witnessmark.casefile.records import AttachmentSeen, PaperState
from witnessmark.catalogue import as_said, marked, said
from witnessmark.codebook.pieces import PieceKind
from witnessmark.examination.records import DisclosureOutcome
from witnessmark.outline.records import Block, Boxed, Bullets, Heading
from witnessmark.report.sections.matter import Matter
from witnessmark.report.sections.next_steps import declared_places
from witnessmark.report.sections.not_seen import detached, papers_not_held
from witnessmark.report.sections.page_one import does_not_fit
from witnessmark.weighing import Answer
from witnessmark.wording.amounts import few

QUESTIONS = 12
IN_THE_BOX = 3
MOST_NAMES = 150
"""Characters of a list of names: what is longer nobody answers."""

_METAL = marked(
    "About the {names}: was metal ever repaired, replaced or let in? When, by whom, and is there "
    "an invoice or a picture of it?"
)
OF_A_PIECE = {
    PieceKind.STRUCTURE: _METAL,
    PieceKind.PANEL: _METAL,
    PieceKind.CORE: marked(
        "About the {names}: was anything ever exchanged, overhauled or machined? When, by whom, "
        "where did new parts come from, and is there an invoice?"
    ),
    PieceKind.FITTED: marked(
        "About the {names}: was anything ever taken off, exchanged or fitted later? When, by whom, "
        "and is there an invoice?"
    ),
    PieceKind.PLATE: marked(
        "About the {names}: was it ever taken off, cleaned, put back or replaced? When, by whom, "
        "and why?"
    ),
    PieceKind.PAPER: marked(
        "About the {names}: from whom did you get it, who has the paper itself, and may we see it?"
    ),
    None: marked("What do you know of the {names}, and which paper or picture shows it?"),
}
"""What is asked of pieces of each kind; of what is no piece last."""

ALWAYS = (
    marked("How long have you had the car, from whom did you get it, and may we write to them?"),
    marked("Which parts that belong to the car lie elsewhere?"),
    marked("In whose name is the car registered, and does anybody else have a claim on it?"),
    marked("Is there anything else about the car that a buyer should know?"),
)


def may_seller_be_asked(answer: Answer) -> bool:
    """Not while the car is a matter for the authority, until that has answered: neither for
    pictures nor for anything else."""
    return not answer.stops


def seller_questions(matter: Matter) -> tuple[str, ...]:
    """At most twelve questions, those that matter most first; none while the car is a matter for
    the authority, since the seller is then not to be asked."""
    if not may_seller_be_asked(matter.opinion.answer):
        return ()
    return tuple(islice(dict.fromkeys(_questions(matter)), QUESTIONS))


def questions_box(matter: Matter) -> tuple[Block, ...]:
    """The first three in a box; nothing where nobody is to be asked."""
    asked = seller_questions(matter)[:IN_THE_BOX]
    if not asked:
        return ()
    return (Boxed((Heading(said("To ask the seller")), Bullets(asked, is_numbered=True))),)


def _questions(matter: Matter) -> Iterator[str]:
    opinion, names = matter.opinion, matter.names
    lacking = (s.told for s in opinion.sites if s.attachment is AttachmentSeen.NO_SUCH_PART)
    yield from _asked(marked("Where is the part that bears this: {names}?"), lacking)
    yield from _of_pieces(matter)
    open_places = set(opinion.disturbed) - declared_places(opinion)
    done = marked("Was any work ever done here: {names}? What, when, and by whom?")
    yield from _asked(done, (p.name for p in opinion.places if p.site in open_places))
    unproven = (DisclosureOutcome.DIFFERS, DisclosureOutcome.OPEN)
    unsure = [e.about for e in opinion.disclosure if e.says and e.outcome in unproven]
    told = (names.any(each) for each in unsure if each != "car")
    known = marked("How is known what was said of the {names}, and which papers show it?")
    yield from _asked(known, told)
    apart = marked("When and why did these come off the car: {names}?")
    yield from _asked(apart, (names.piece(_piece(each, matter)) for each in detached(matter)))
    papers = marked(
        "Which of these papers do you have, not as a copy, or know who has: {names}? Please send "
        "a picture of each page, front and back."
    )
    yield from _asked(papers, (n for n, _ in papers_not_held(matter, (PaperState.IN_HAND,))))
    unseen = (place.name for place in opinion.places if place.unseen)
    yield from _asked(marked("Can these places be made free to be seen: {names}?"), unseen)
    yield from map(as_said, ALWAYS)


def _asked(message: str, names: Iterable[str]) -> Iterator[str]:
    """One question about all of these; none where there is nothing."""
    shown = tuple(dict.fromkeys(names))
    if shown:
        yield as_said(message, names=few(shown, MOST_NAMES, "; "))


def _of_pieces(matter: Matter) -> Iterator[str]:
    """A question for each kind of piece with something that does not fit, the worst first."""
    kinds = {each.id: each.kind for each in matter.pieces.pieces}
    sites = {each.site for each in matter.opinion.sites}
    found: dict[str, list[str]] = {}
    for _, about in does_not_fit(matter):
        for each in (_piece(id_, matter) for id_ in about if id_ not in sites):
            if each not in ("claim", "title"):
                message = OF_A_PIECE[kinds.get(each)]
                found.setdefault(message, []).append(matter.names.piece(each))
    for message, names in found.items():
        yield from _asked(message, names)


def _piece(about: str, matter: Matter) -> str:
    """The piece on which a mark stands; whatever else is meant, itself."""
    return next((each.piece for each in matter.pieces.standings if each.mark == about), about)
