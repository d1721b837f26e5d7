"""What is said about the car against what was found, statement by statement.

A comparison, not a weight: a statement agrees, differs or stays open, and what
was found but not said is named.
"""

from witnessmark.agreement.records import CarMarks
from witnessmark.catalogue import as_said, marked, said
from witnessmark.examination.records import Disclosed
from witnessmark.weighing import Conclusion, MarkState, Question, Weighing

BEYOND_LOG10 = 0.4771212547196624
"""log10 of 3: where an LR begins to say something."""

AGREES, DIFFERS, OPEN, NOT_SAID = "agrees", "differs", "open", "not said"

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


def disclosures(car: CarMarks, weighing: Weighing) -> tuple[Disclosed, ...]:
    """Every statement of the claim, then what was found and nothing was said about."""
    statements = car.casefile.claim.statements
    found = [_compared(car, weighing, s.about, s.says, s.original) for s in statements]
    spoken_of = {s.about for s in statements}
    for conclusion in weighing.conclusions:
        unsaid = conclusion.about not in spoken_of
        if unsaid and conclusion.lr.log10_lr < -BEYOND_LOG10:
            found.append(Disclosed(conclusion.about, "", _sentence(conclusion), NOT_SAID))
    return tuple(found)


def _compared(
    car: CarMarks, weighing: Weighing, about: str, says: str, original: bool | None
) -> Disclosed:
    conclusion = _conclusion(weighing, about)
    if conclusion is not None:
        log10_lr = conclusion.lr.log10_lr
        outcome = _outcome(log10_lr > BEYOND_LOG10, log10_lr < -BEYOND_LOG10, original)
        return Disclosed(about, says, _sentence(conclusion), outcome)
    state = next((s for s in weighing.mark_states if about == s.mark), None)
    if state is not None:
        own = sum(s.probability for s in state.sources if s.state == "own")
        return Disclosed(
            about, says, _mark_sentence(state), _outcome(own > 0.75, own < 0.25, original)
        )
    absent = _absent(car, about)
    if absent:
        return Disclosed(
            about, says, absent, OPEN if original is None else _outcome(False, True, original)
        )
    return Disclosed(about, says, said("Nothing was found that bears on this."), OPEN)


def _outcome(supports: bool, speaks_against: bool, original: bool | None) -> str:
    if original is None or not (supports or speaks_against):
        return OPEN
    return AGREES if supports == original else DIFFERS


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
    for visit in car.casefile.sites:
        if mark is not None and visit.site == mark.site and visit.state.value == "absent":
            if not visit.reason:
                return said("The {mark} is absent.", mark=mark.name)
            return said("The {mark} is absent: {reason}", mark=mark.name, reason=visit.reason)
    return ""
