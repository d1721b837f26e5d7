"""What is said about the car against what was found, statement by statement.

A comparison, not a weight: a statement agrees, differs or stays open, or what it declared
beforehand was found so; and what was found but not said is named.
"""

from dataclasses import dataclass

from witnessmark.agreement.records import CarMarks
from witnessmark.casefile.records import (
    LookClass,
    OriginSaid,
    Seen,
    SiteState,
    Statement,
    WorkBy,
    WorkSaid,
)
from witnessmark.casefile.site_entries import SiteEntries
from witnessmark.catalogue import as_said, marked, said
from witnessmark.examination.records import Disclosed
from witnessmark.weighing import Conclusion, MarkState, Question, Weighing

BEYOND_LOG10 = 0.4771212547196624
"""log10 of 3: where an LR begins to say something."""

AGREES, DIFFERS, OPEN, NOT_SAID = "agrees", "differs", "open", "not said"
AS_DECLARED = "as declared"

DECLARED = frozenset({OriginSaid.ANOTHER_CARS, OriginSaid.SUPPLIED_NEW})
"""Origins that say what stands there; “replaced” only says what does not, and can but agree."""

_SOURCE_SENTENCES = {
    "own": marked(
        "What was found is most consistent with characters struck at the factory for the claimed "
        "car."
    ),
    "donor": marked(
        "What was found is most consistent with characters struck at the factory for another car."
    ),
    "other": marked(
        "What was found is most consistent with characters struck at the factory for a third car."
    ),
    "blank": marked("What was found is most consistent with a part that was never numbered."),
    "made": marked("What was found is most consistent with characters made later."),
}


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
    """What was found of a part, and whether it supports that it is the first one, or not."""

    sentence: str
    supports: bool = False
    is_against: bool = False


def disclosures(car: CarMarks, weighing: Weighing) -> tuple[Disclosed, ...]:
    """Every statement of the claim, then what was found and nothing was said about."""
    statements = car.casefile.claim.statements
    found = [_compared(car, weighing, each) for each in statements]
    spoken_of = {s.about for s in statements}
    for conclusion in weighing.conclusions:
        unsaid = conclusion.about not in spoken_of
        if unsaid and conclusion.lr.log10_lr < -BEYOND_LOG10:
            found.append(Disclosed(conclusion.about, "", _sentence(conclusion), NOT_SAID))
    return tuple(found)


def _compared(car: CarMarks, weighing: Weighing, statement: Statement) -> Disclosed:
    found, work = _found(car, weighing, statement), _work_seen(car, weighing, statement)
    outcome = _outcome(found, statement.origin)
    # Work that shows covers neither a part found not to be the first nor an origin left open.
    is_all = statement.origin is OriginSaid.NOT_SAID and not found.is_against
    if work and (outcome is AGREES or is_all):
        outcome = AS_DECLARED
    told = " ".join(each for each in (found.sentence, work) if each)
    told = told or said("Nothing was found that bears on this.")
    return Disclosed(statement.about, statement.says, told, outcome, _declared(car, statement))


def _outcome(found: _Found, origin: OriginSaid) -> str:
    if origin is OriginSaid.NOT_SAID or not (found.supports or found.is_against):
        return OPEN
    if found.supports != (origin is OriginSaid.FIRST):
        return DIFFERS
    return AS_DECLARED if origin in DECLARED else AGREES


def _found(car: CarMarks, weighing: Weighing, statement: Statement) -> _Found:
    """What was found of the part or mark; an empty sentence where nothing bears on it."""
    about = statement.about
    conclusion = _conclusion(weighing, about)
    if conclusion is not None:
        log10_lr = conclusion.lr.log10_lr
        return _Found(_sentence(conclusion), log10_lr > BEYOND_LOG10, log10_lr < -BEYOND_LOG10)
    state = next((s for s in weighing.mark_states if about == s.mark), None)
    if state is not None:
        own = sum(s.probability for s in state.sources if s.state == "own")
        return _Found(_mark_sentence(state), own > 0.75, own < 0.25)
    absent = _absent(car, about)
    # A number that was declared to be removed tells nothing of the part by being gone.
    return _Found(absent, is_against=bool(absent) and statement.work is not WorkSaid.REMOVED)


def _work_seen(car: CarMarks, weighing: Weighing, statement: Statement) -> str:
    """Where the work that was declared shows, in a sentence; empty where it does not, or none
    was declared. What was only told of the metal shows nothing."""
    if statement.work is WorkSaid.NOT_SAID:
        return ""
    looks = car.casefile.looks
    in_sight = {each.site for each in looks if each.seen is not Seen.TOLD}
    only_told = {each.site for each in looks} - in_sight
    marks = [m for m in car.book.marks_for(car.context) if statement.about in (m.id, m.assembly)]
    sites = {mark.site for mark in marks if mark.site} - only_told
    for each in weighing.evidence:
        if each.look is LookClass.DISTURBED and each.about in sites:
            site = car.book.site(each.about, car.context) or car.book.site(each.about)
            place = site.name if site else each.about
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
        parts.append(said("by the paper: {paper}", paper=paper.name if paper else statement.paper))
    return said("Declared: {words}.", words="; ".join(parts)) if parts else ""


def _conclusion(weighing: Weighing, about: str) -> Conclusion | None:
    for conclusion in weighing.conclusions:
        same = conclusion.about == about
        # "car" asks for the configuration, the bearer's name for identity.
        if same and (about != "car" or conclusion.question is Question.CONFIGURATION):
            return conclusion
    return None


def _sentence(conclusion: Conclusion) -> str:
    log10_lr = conclusion.lr.log10_lr
    if log10_lr > BEYOND_LOG10:
        return said("The findings support that {proposition}.", proposition=conclusion.pair.first)
    if log10_lr < -BEYOND_LOG10:
        return said("The findings support that {proposition}.", proposition=conclusion.pair.second)
    return said(
        "The findings speak too weakly to say whether {proposition}.",
        proposition=conclusion.pair.first,
    )


def _mark_sentence(state: MarkState) -> str:
    top = state.sources[0]
    if top.probability <= 0.75:
        return said("The findings do not tell where its characters come from.")
    return as_said(_SOURCE_SENTENCES[top.state])


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
