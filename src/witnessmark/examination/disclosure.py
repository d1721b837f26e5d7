"""What is said about the car against what was found, statement by statement.

A comparison, not a weight: a statement agrees, differs or stays open, or what it declared
beforehand was found so; and what was found but not said is named.
"""

from dataclasses import dataclass

from witnessmark.agreement.look_class import disturbed_places
from witnessmark.agreement.records import CarMarks
from witnessmark.casefile.records import (
    OriginSaid,
    SiteState,
    Statement,
    WorkBy,
    WorkSaid,
)
from witnessmark.casefile.site_entries import SiteEntries
from witnessmark.catalogue import as_said, in_a_row, marked, said
from witnessmark.codebook.pieces import PieceKind, Pieces, pieces_of
from witnessmark.examination.records import Disclosed, DisclosureOutcome
from witnessmark.weighing import (
    SAYING_LOG10,
    Answer,
    Asked,
    Misfit,
    MisfitKind,
    Weighed,
    names_of_question,
)

AGREEING_LOG10 = 1.0
"""A statement agrees where the LR is 10 or more, and nothing on that piece does not fit."""

FOUND_SO = (DisclosureOutcome.AGREES, DisclosureOutcome.AS_DECLARED)

BY_WORDS = {
    WorkBy.DEALER: marked("by a dealer"),
    WorkBy.WORKS: marked("by the works"),
    WorkBy.OFFICE: marked("by a licensing office"),
    WorkBy.RESTORER: marked("by a restorer"),
    WorkBy.OWNER: marked("by an owner"),
}
"""Who is said to have done work, as a page says it; nothing where nobody was named."""


@dataclass(frozen=True, slots=True)
class _Found:
    """What was found of a part, and whether it supports that it is the first one, or not.

    `is_of_stamp`: it is of what is struck on a core, and not of the core."""

    sentence: str
    supports: bool = False
    is_against: bool = False
    is_of_stamp: bool = False


@dataclass(frozen=True, slots=True)
class _CarFound:
    """The car with what was found on it, question by question."""

    car: CarMarks
    pieces: Pieces
    misfits: tuple[Misfit, ...]
    weighed: tuple[Weighed, ...]


def disclosures(
    car: CarMarks, answer: Answer, weighed: tuple[Weighed, ...]
) -> tuple[Disclosed, ...]:
    """Every statement of the claim, then what was found and nothing was said about."""
    quiet = (MisfitKind.DECLARED, MisfitKind.TOLD)
    telling = tuple(each for each in answer.misfits if each.kind not in quiet)
    known = _CarFound(car, pieces_of(car.book, car.context), telling, weighed)
    statements = car.casefile.claim.statements
    found = [_compared(known, each) for each in statements]
    spoken_of = {s.about for s in statements}
    against = [each for each in weighed if each.log10_lr < -SAYING_LOG10]
    cores = {each.about for each in against if each.question is Asked.CORE}
    for each in against:
        # A core that is not the first one is told once, not again for its stamp.
        is_told = each.question is Asked.STAMP and each.about in cores
        if each.about not in spoken_of and not is_told:
            found.append(Disclosed(each.about, "", _sentence(each, ()), DisclosureOutcome.NOT_SAID))
    return tuple(found)


def declared_marks(car: CarMarks, found: tuple[Disclosed, ...]) -> tuple[str, ...]:
    """The marks on parts that were declared not to be the first ones, and found so: that they
    differ from the rest of the car is as declared."""
    pieces = pieces_of(car.book, car.context)
    so = [each.about for each in _found_so(car, found) if _is_of_another(each)]
    on = {each.mark: each.piece for each in pieces.standings}
    return tuple(
        mark.id
        for mark in car.book.marks_for(car.context)
        if {mark.id, mark.assembly, on.get(mark.id, "")} & set(so)
    )


def declared_questions(
    car: CarMarks, found: tuple[Disclosed, ...], weighed: tuple[Weighed, ...]
) -> tuple[str, ...]:
    """The questions of which it was declared, and found, that the first proposition is not true:
    of a part and of what is struck on it, or of a stamp alone that was struck again openly."""
    known = _CarFound(car, pieces_of(car.book, car.context), (), weighed)
    told: dict[str, None] = {}
    for statement in _found_so(car, found):
        asked = _asked_of(known, statement.about)
        if asked is None:
            continue
        kinds: tuple[Asked, ...] = ()
        if _is_of_another(statement):
            kinds = (asked.question, Asked.STAMP)
        elif statement.work is WorkSaid.STRUCK_OPENLY:
            kinds = (Asked.STAMP,)
        named = (e for e in weighed if e.about == asked.about and e.question in kinds)
        told |= dict.fromkeys(names_of_question(e.question, e.about)[0] for e in named)
    return tuple(told)


def _found_so(car: CarMarks, found: tuple[Disclosed, ...]) -> list[Statement]:
    """The statements that agree with what was found, or were found as declared."""
    beside = zip(car.casefile.claim.statements, found, strict=False)
    return [statement for statement, each in beside if each.outcome in FOUND_SO]


def _is_of_another(statement: Statement) -> bool:
    """Does it say that the part is not the first one?"""
    return statement.origin not in (OriginSaid.FIRST, OriginSaid.NOT_SAID)


def _compared(known: _CarFound, statement: Statement) -> Disclosed:
    found, work = _found(known, statement), _work_seen(known.car, statement)
    outcome = _outcome(found, statement.origin)
    # Work that shows covers neither a part found not to be the first nor an origin left open; a
    # stamp found to be struck again is the work itself.
    is_restruck = found.is_of_stamp and statement.work is WorkSaid.STRUCK_OPENLY
    is_all = statement.origin is OriginSaid.NOT_SAID and (is_restruck or not found.is_against)
    if is_restruck and found.is_against and outcome is DisclosureOutcome.OPEN:
        outcome = DisclosureOutcome.AS_DECLARED
    if work and (outcome is DisclosureOutcome.AGREES or is_all):
        outcome = DisclosureOutcome.AS_DECLARED
    told = in_a_row(each for each in (found.sentence, work) if each)
    told = told or said("Nothing was found that bears on this.")
    return Disclosed(
        statement.about, statement.says, told, outcome, _declared(known.car, statement)
    )


def _outcome(found: _Found, origin: OriginSaid) -> DisclosureOutcome:
    if origin is OriginSaid.NOT_SAID or not (found.supports or found.is_against):
        return DisclosureOutcome.OPEN
    if found.supports != (origin is OriginSaid.FIRST):
        return DisclosureOutcome.DIFFERS
    is_first = origin is OriginSaid.FIRST
    return DisclosureOutcome.AGREES if is_first else DisclosureOutcome.AS_DECLARED


def _found(known: _CarFound, statement: Statement) -> _Found:
    """What was found of the part or mark; an empty sentence where nothing bears on it."""
    absent = _absent(known.car, statement.about)
    weighed = _asked_of(known, statement.about)
    if absent:
        # A number that was declared to be removed tells nothing of the part by being gone.
        return _Found(absent, is_against=statement.work is not WorkSaid.REMOVED)
    if weighed is None or not weighed.standing.has_figure:
        return _Found("")
    misfits = _misfits_on(known, weighed)
    supports = weighed.log10_lr >= AGREEING_LOG10 and not misfits
    is_against, is_of_stamp = weighed.log10_lr < -SAYING_LOG10, weighed.question is Asked.STAMP
    return _Found(_sentence(weighed, misfits), supports, is_against, is_of_stamp)


def _misfits_on(known: _CarFound, weighed: Weighed) -> tuple[Misfit, ...]:
    """What does not fit on the piece that a question is about."""
    marks = {each.mark for each in known.pieces.marks_on(weighed.about)}
    own = {weighed.about, *marks}
    return tuple(each for each in known.misfits if own.intersection(each.about))


def _work_seen(car: CarMarks, statement: Statement) -> str:
    """Where the work that was declared shows, in a sentence; empty where it does not, or none
    was declared. What was only told of the metal shows nothing."""
    if statement.work is WorkSaid.NOT_SAID:
        return ""
    marks = [m for m in car.book.marks_for(car.context) if statement.about in (m.id, m.assembly)]
    sites = {mark.site for mark in marks if mark.site}
    for site_id in disturbed_places(car):
        if site_id in sites:
            site = car.book.site(site_id, car.context) or car.book.site(site_id)
            place = site.name if site else site_id
            return said("The {place} looks worked on, as was declared.", place=place)
    if statement.work is WorkSaid.REMOVED and any(_absent(car, mark.id) for mark in marks):
        return said("That nothing stands there is as declared.")
    return ""


def _declared(car: CarMarks, statement: Statement) -> str:
    """The fixed words of a statement as a sentence; empty where it has none."""
    parts = [as_said(statement.origin.value)] if statement.origin else []
    work = as_said(statement.work.value) if statement.work else ""
    who = as_said(BY_WORDS[statement.work_by]) if statement.work_by else ""
    by = said("{work}, {by_whom}", work=work, by_whom=who) if work and who else work or who
    parts += [by] if by else []
    if statement.paper:
        paper = car.book.mark(statement.paper)
        name = paper.name if paper else statement.paper.rstrip(". ")
        parts.append(said("by the paper: {paper}", paper=name))
    return said("Declared: {words}.", words=in_a_row(parts, "; ")) if parts else ""


def _asked_of(known: _CarFound, about: str) -> Weighed | None:
    """The question that a statement about this part or mark bears on; None where there is none."""
    piece_id = next((each.piece for each in known.pieces.standings if each.mark == about), about)
    piece = next((each for each in known.pieces.pieces if each.id == piece_id), None)
    wanted: list[tuple[Asked | None, str]] = [(None, about), (None, piece_id)]
    if piece is not None and piece_id != about and piece.kind is PieceKind.CORE:
        wanted.insert(0, (Asked.STAMP, piece_id))
    if piece is not None and piece.kind is PieceKind.STRUCTURE:
        wanted.append((Asked.IDENTITY, piece.assembly))
    for kind, named in wanted:
        for each in known.weighed:
            if each.about == named and kind in (None, each.question):
                return each
    return None


def _sentence(weighed: Weighed, misfits: tuple[Misfit, ...]) -> str:
    pair = weighed.pair
    if misfits and weighed.log10_lr >= -SAYING_LOG10:
        return said("Something does not fit: {misfit}", misfit=misfits[0].sentence)
    if weighed.log10_lr >= AGREEING_LOG10:
        return said("The findings support that {proposition}.", proposition=pair.first)
    if weighed.log10_lr < -SAYING_LOG10:
        return said("The findings support that {proposition}.", proposition=pair.second)
    return said(
        "The findings speak too weakly to say whether {proposition}.", proposition=pair.first
    )


def _absent(car: CarMarks, about: str) -> str:
    """A sentence where the mark's site was found to bear none, else an empty text."""
    mark = car.book.mark(about)
    if mark is None:
        return ""
    visit = SiteEntries(car.casefile.sites).of(mark.site, mark.id)
    if visit is None or visit.state is not SiteState.ABSENT:
        return ""
    if not visit.reason:
        return said("The {mark} is absent.", mark=mark.name)
    return said("The {mark} is absent: {reason}", mark=mark.name, reason=visit.reason)
