"""Where a question stands, and what is left to look at.

"This cannot be established" is an answer of its own, and so is "not examined".
What a look would do to an answer is not calculated, and nobody is told that it would settle it.
"""

from dataclasses import dataclass
from math import copysign

from witnessmark.catalogue import as_said, marked, said
from witnessmark.examination import Opinion
from witnessmark.examination.looks import LookKind, LookLeft, most_moved
from witnessmark.plan.records import needed
from witnessmark.weighing import Answer, Misfit, MisfitKind, Standing, Stop, Weighed, capped
from witnessmark.wording.amounts import clause, lr_text, minutes_text, sentence
from witnessmark.wording.conclusions import about_words
from witnessmark.wording.names import Names, plain_name
from witnessmark.wording.verbal_scale import Favours, verbal_equivalent


@dataclass(frozen=True, slots=True)
class LookText:
    """One look not yet taken: what to look at and what it costs."""

    prompt: str
    minutes: str
    dismantling: str
    caution: str


STANDING_SENTENCES = {
    Standing.ANSWERED: "",
    Standing.OPEN: marked(
        "This is open: the likelihood ratio, or the end of its band nearer 1, lies within 3 "
        "either way."
    ),
    Standing.NOT_EXAMINED: marked("Not examined: nobody looked at this part."),
    Standing.CANNOT_BE_ESTABLISHED: marked(
        "This cannot be established: nothing that was examined could have shown otherwise."
    ),
}

MISFIT_WORDS = {
    MisfitKind.IMPOSSIBLE: marked("Impossible if both are right: {misfit}"),
    MisfitKind.AGAINST: marked("{misfit}"),
    MisfitKind.UNUSUAL: marked("Unusual: {misfit}"),
    MisfitKind.DECLARED: marked("As declared beforehand: {misfit}"),
    MisfitKind.TOLD: marked("From memory, and carries no weight: {misfit}"),
}


def standing_sentence(weighed: Weighed) -> str:
    """Says that a question is open, not examined or not to be established; nothing where it is
    answered."""
    return as_said(STANDING_SENTENCES[weighed.standing])


def misfit_sentence(misfit: Misfit) -> str:
    """What does not fit, with how firmly."""
    told = clause(misfit.sentence) if misfit.kind is not MisfitKind.AGAINST else misfit.sentence
    return sentence(as_said(MISFIT_WORDS[misfit.kind], misfit=told))


def stop_sentence(stops: tuple[Stop, ...]) -> str:
    """That the car is a matter for the authority first; nothing where nothing makes it one."""
    if not stops:
        return ""
    return said(
        "Stop here: {reasons} This is a matter for the title or registration authority "
        "and, where the law says so, for the police, before anything else is done with the "
        "car.",
        reasons=" ".join(dict.fromkeys(sentence(each.sentence) for each in stops)),
    )


def misfits_beside(answer: Answer) -> tuple[Misfit, ...]:
    """What does not fit, but for what the stops say in the same words."""
    said_already = {each.sentence for each in answer.stops}
    return tuple(each for each in answer.misfits if each.sentence not in said_already)


def look_text(look: LookLeft) -> LookText:
    """One look in words; a shared access is counted into its minutes and named."""
    return LookText(
        prompt=sentence(look.prompt),
        minutes=_minutes(look),
        dismantling="" if look.kind >= LookKind.PAPER else _dismantling(look.dismantling),
        caution=sentence(look.caution),
    )


def look_name(look: LookLeft, names: Names) -> str:
    """One look in a few words, without how it is done."""
    if look.kind is LookKind.AGAIN:
        return said("{what} again", what=names.any(look.target))
    if look.kind is LookKind.SOURCE:
        return clause(look.prompt.partition(": ")[0])
    return names.any(look.target)


@dataclass(frozen=True, slots=True)
class Then:
    """What an answer would be: its log10 LR, as capped, and the words that it would bear."""

    log10_lr: float
    words: str

    def __str__(self) -> str:
        """The ratio and its words."""
        return said("{lr}, {words}", lr=lr_text(self.log10_lr), words=self.words)


def then_words(weighed: Weighed, shift: float) -> Then:
    """An answer moved by a shift of its log10 LR; the words are those of the end nearer 1 of a
    band as wide as it has now."""
    now, word = weighed.uncapped_log10_lr, weighed.word_log10_lr
    margin = 0.0 if word is None else max(0.0, abs(capped(now)) - abs(word))
    then = capped(now + shift)
    weaker = copysign(max(0.0, abs(then) - margin), then)
    verbal = verbal_equivalent(weaker)
    is_neither = verbal.favours is Favours.NEITHER
    return Then(then, said("neither way") if is_neither else as_said(verbal.words))


def again_sentence(look: LookLeft, opinion: Opinion, names: Names) -> str:
    """What moves most if a reading that does not fit stands; nothing for other looks."""
    if look.kind is not LookKind.AGAIN:
        return ""
    moved = most_moved(look.target, opinion.answer)
    if moved is None:
        return ""
    if not moved.is_told:
        return said("If it reads the same again, no ratio changes.")
    return said(
        "If it reads the same again, the ratio for “{about}” will be about {lr}; no other "
        "changes more.",
        about=about_words(moved.conclusion, names),
        lr=lr_text(capped(moved.log10_lr)),
    )


def looks_about(looks: tuple[LookLeft, ...], weighed: Weighed) -> tuple[LookLeft, ...]:
    """The looks that speak of what a question is about."""
    return tuple(look for look in looks if weighed.about in look.pieces)


def order_sentence(stops: tuple[Stop, ...] = ()) -> str:
    """In which order looks stand, and what is not calculated; where the car is a matter for the
    authority, what must not be done for a look."""
    order = said(
        "First what did not fit, to be read again, starting with what would move an answer "
        "most; then what nobody has looked at, quickest first, with no estimate of its "
        "effect."
    )
    if not stops:
        return order
    return f"{only_look_sentence()} {order}"


def only_look_sentence() -> str:
    """What must not be done for a look while the car is a matter for the authority."""
    return said("Until the authority has been asked, only look: loosen and clean nothing.")


def _minutes(look: LookLeft) -> str:
    """How long it takes, and how much of that for an access that others share."""
    if not look.cost:
        return ""
    minutes = minutes_text(look.cost)
    if not (look.access_minutes and look.access_group):
        return minutes
    return said(
        "{minutes} (of these {access_minutes} for access: {access})",
        minutes=minutes,
        access_minutes=minutes_text(look.access_minutes),
        access=plain_name(look.access_group),
    )


def _dismantling(text: str) -> str:
    return clause(text) if needed(text) else said("nothing to dismantle")
