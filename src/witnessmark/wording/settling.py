"""What cannot be established, what would settle it, and what the next look is worth.

"This cannot be established" is an answer of its own. It is never said without
what could change it and what that would have to say.
"""

import math
from dataclasses import dataclass

from witnessmark.catalogue import as_said, marked, said
from witnessmark.weighing.records import BestSet, Conclusion, LookOutcome, NextLook, Standing
from witnessmark.wording.amounts import (
    bits_text,
    clause,
    lr_text,
    minutes_text,
    odds_text,
    per_minute_text,
    sentence,
    spelled,
)
from witnessmark.wording.names import Names, plain_name

SETTLING_LOG10_LR = math.log10(3)
"""A look settles nothing that leaves the ratio within 3 either way."""


@dataclass(frozen=True, slots=True)
class SettlingText:
    """One thing beyond reach that could settle a question, and what it would need to say.

    `needs` is empty where none of its outcomes would take the ratio beyond 3 either way.
    """

    name: str
    needs: str


@dataclass(frozen=True, slots=True)
class NextLookText:
    """One look not yet taken: what to look at, what it tells and what it costs."""

    prompt: str
    bits_per_minute: str
    bits: str
    minutes: str
    dismantling: str
    caution: str
    outcomes: str


STANDING_SENTENCES = {
    Standing.ANSWERED: "",
    Standing.OPEN: marked(
        "This is open: with what is on hand the likelihood ratio lies within 3 either way, and a "
        "look that can be had on this car could take it beyond."
    ),
    Standing.CANNOT_BE_ESTABLISHED: marked(
        "This cannot be established with what is on hand: no look that can be had on this car "
        "would take the likelihood ratio beyond 3 either way."
    ),
}


STANDING_IN_SHORT = {
    Standing.ANSWERED: "",
    Standing.OPEN: marked("Open: a look within reach could take this beyond 3 either way."),
    Standing.CANNOT_BE_ESTABLISHED: marked("This cannot be established with what is on hand."),
}


def standing_in_short(conclusion: Conclusion) -> str:
    """The same in a few words, for a summary."""
    return as_said(STANDING_IN_SHORT[conclusion.standing])


def standing_sentence(conclusion: Conclusion) -> str:
    """Says that a question is open or cannot be established; nothing where it is answered."""
    return as_said(STANDING_SENTENCES[conclusion.standing])


def settling_texts(conclusion: Conclusion, names: Names) -> tuple[SettlingText, ...]:
    """What could settle the question, in the order in which the weighing gives it."""
    return tuple(
        SettlingText(sentence(look.prompt or names.any(look.target)), needs_sentence(look))
        for look in conclusion.settled_by
    )


def needs_sentence(look: NextLook) -> str:
    """What a look would need to show for the one proposition and for the other; or nothing."""
    strongest_first = max(look.outcomes, key=lambda each: each.log10_lr, default=None)
    strongest_second = min(look.outcomes, key=lambda each: each.log10_lr, default=None)
    parts = []
    if strongest_first is not None and strongest_first.log10_lr > SETTLING_LOG10_LR:
        parts.append(
            said(
                "This would support the first proposition if {outcome}. The ratio would then be "
                "about {lr}.",
                outcome=clause(strongest_first.outcome),
                lr=lr_text(strongest_first.log10_lr),
            )
        )
        worked_on = (said("the place looks doubtful"), said("the place looks disturbed"))
        if strongest_first.outcome in worked_on:
            parts.append(
                said(
                    "A place that was worked on would speak for it only because that would "
                    "explain what now speaks against it."
                )
            )
    if strongest_second is not None and strongest_second.log10_lr < -SETTLING_LOG10_LR:
        parts.append(
            said(
                "This would support the second proposition if {outcome}. The ratio would then be "
                "about {lr}.",
                outcome=clause(strongest_second.outcome),
                lr=lr_text(strongest_second.log10_lr),
            )
        )
    return " ".join(parts)


def next_look_text(look: NextLook, names: Names) -> NextLookText:
    """One next look in words; a shared access is counted into its minutes and named."""
    minutes = look.minutes + look.access_minutes
    return NextLookText(
        prompt=sentence(look.prompt or names.any(look.target)),
        bits_per_minute=per_minute_text(look.bits / minutes if minutes else look.bits),
        bits=bits_text(look.bits),
        minutes=_minutes(look),
        dismantling=_dismantling(look.dismantling),
        caution=sentence(look.caution),
        outcomes=outcomes_sentence(look.outcomes),
    )


def _minutes(look: NextLook) -> str:
    """How long it takes, and how much of that for an access that others share."""
    minutes = minutes_text(look.minutes + look.access_minutes)
    if not (look.access_minutes and look.access_group):
        return minutes
    return said(
        "{minutes} (of these {access_minutes} for access: {access})",
        minutes=minutes,
        access_minutes=minutes_text(look.access_minutes),
        access=plain_name(look.access_group),
    )


def _dismantling(text: str) -> str:
    if clause(text).lower() in {"", "none"}:
        return said("nothing to dismantle")
    return clause(text)


def outcomes_sentence(outcomes: tuple[LookOutcome, ...]) -> str:
    """What the look could show, and where each outcome would take the ratio."""
    if not outcomes:
        return ""
    parts = (
        said("{lr} if {outcome}", lr=lr_text(each.log10_lr), outcome=clause(each.outcome))
        for each in outcomes
    )
    return sentence(said("LR afterwards: {outcomes}", outcomes=", ".join(parts)))


def odds_sentence(conclusion: Conclusion) -> str:
    """At which odds the bits were reckoned."""
    if conclusion.odds_are_stated:
        return said(
            "Information is reckoned at the prior odds that the examiner stated, {odds}.",
            odds=odds_text(conclusion.odds_used),
        )
    return said(
        "Information is reckoned at odds of {odds}, chosen only to compare one look with another.",
        odds=odds_text(conclusion.odds_used),
    )


def best_set_sentence(best: BestSet, prompts: tuple[str, ...]) -> str:
    """The looks that together tell most in the time given; `prompts` are their names."""
    if not best.targets:
        return said(
            "In {minutes} no look can be had that would tell anything.",
            minutes=minutes_text(best.minutes_given),
        )
    return spelled(
        "In {given} the best set is {count} look, together {bits} in {minutes} with shared access "
        "counted once: {looks}.",
        "In {given} the best set is {count} looks, together {bits} in {minutes} with shared access "
        "counted once: {looks}.",
        len(best.targets),
        given=minutes_text(best.minutes_given),
        bits=bits_text(best.bits),
        minutes=minutes_text(best.minutes),
        looks="; ".join(clause(prompt) for prompt in prompts),
    )
