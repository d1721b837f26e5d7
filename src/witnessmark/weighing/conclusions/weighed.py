"""One conclusion with its steadiness: the figure, its band, and what a word may rest on.

Rooms above read an Answer and its Steadiness through this record alone, so that no page can say
the one without the other.
"""

import math
from dataclasses import dataclass, replace
from enum import StrEnum

from witnessmark.casefile.records import Circumstances
from witnessmark.weighing.records import (
    Answer,
    Asked,
    Conclusion,
    Contribution,
    LeadingRow,
    Pair,
    Steadiness,
    Steady,
    Way,
)

CAP_LOG10 = 4.0
"""No ratio beyond ten thousand is printed, either way: about one unforeseen thing in ten
thousand is allowed for."""
SAYING_LOG10 = math.log10(3.0)
"""A ratio within 3 either way answers nothing."""
FEWEST_TURNED = 5
"""Fewer draws than this are told as fewer than this, never as none."""


class Standing(StrEnum):
    """Where a question stands: answered where the weaker of ratio and band is beyond 3 either
    way, else open; not examined where nobody looked at the part; not to be established where
    nothing that was examined could have shown otherwise."""

    ANSWERED = "answered"
    OPEN = "open"
    NOT_EXAMINED = "not examined"
    CANNOT_BE_ESTABLISHED = "cannot be established"

    @property
    def has_figure(self) -> bool:
        """Has such a question a likelihood ratio? It stands among the conclusions if it has, among
        what cannot be established if not: with every page once, and in one of the two."""
        return self in (Standing.ANSWERED, Standing.OPEN)


@dataclass(frozen=True, slots=True)
class Weighed:
    """A conclusion, how far it rests on assumed rates where that was asked for, over how many
    draws, and the prior odds that the examiner stated, or None. All ratios are log10."""

    conclusion: Conclusion
    steady: Steady | None = None
    draws: int = 0
    prior_odds: float | None = None

    @property
    def question(self) -> Asked:
        """The kind of question."""
        return self.conclusion.question

    @property
    def about(self) -> str:
        """The assembly, piece, mark or item that it is about."""
        return self.conclusion.about

    @property
    def pair(self) -> Pair:
        """The two propositions."""
        return self.conclusion.pair

    @property
    def ways(self) -> tuple[Way, ...]:
        """The ways in which the second proposition may be true; another value is no way."""
        return () if self.question is Asked.ITEM else self.conclusion.ways

    @property
    def leading(self) -> tuple[LeadingRow, ...]:
        """The assumed rates that move the answer most, the curve of the first as it is printed."""
        if self.steady is None:
            return ()
        return tuple(
            replace(
                row,
                curve=tuple(replace(at, log10_lr=capped(at.log10_lr)) for at in row.curve),
            )
            for row in self.steady.leading
        )

    @property
    def contributions(self) -> tuple[Contribution, ...]:
        """What each thing noted does, at base rates and uncapped."""
        return self.conclusion.contributions

    @property
    def uncapped_log10_lr(self) -> float:
        """The LR integrated over the draws, at base rates where there are none."""
        return self.conclusion.log10_lr if self.steady is None else self.steady.log10_lr

    @property
    def log10_lr(self) -> float:
        """The LR as it is printed."""
        return capped(self.uncapped_log10_lr)

    @property
    def is_capped(self) -> bool:
        """Does it meet the cap?"""
        return abs(self.uncapped_log10_lr) > CAP_LOG10

    @property
    def log10_lr_low(self) -> float | None:
        """The lower end of the band."""
        return None if self.steady is None else capped(self.steady.log10_lr_low)

    @property
    def log10_lr_high(self) -> float | None:
        """The upper end of the band."""
        return None if self.steady is None else capped(self.steady.log10_lr_high)

    @property
    def turned(self) -> int | None:
        """In how many draws the answer pointed the other way."""
        return None if self.steady is None else self.steady.turned

    @property
    def word_log10_lr(self) -> float | None:
        """What the word may say: the LR or the band's end nearer 1, whichever is weaker; None
        without a band, since a figure alone bears no word."""
        return None if self.steady is None else capped(self.steady.log10_lr_nearer)

    @property
    def weaker_log10_lr(self) -> float:
        """The same, or the LR itself where there is no band."""
        word = self.word_log10_lr
        return self.log10_lr if word is None else word

    @property
    def standing(self) -> Standing:
        """Is it answered, open, not examined or not to be established?"""
        if not self.conclusion.can_be_told:
            return Standing.CANNOT_BE_ESTABLISHED
        if not self.conclusion.is_examined:
            return Standing.NOT_EXAMINED
        return Standing.ANSWERED if abs(self.weaker_log10_lr) > SAYING_LOG10 else Standing.OPEN

    @property
    def posterior_odds(self) -> float | None:
        """What follows from prior odds that were stated; else None."""
        if self.prior_odds is None:
            return None
        return float(self.prior_odds * 10.0**self.log10_lr)


def capped(log10_lr: float) -> float:
    """A ratio held within the cap.

    >>> capped(6.2), capped(-0.5)
    (4.0, -0.5)
    """
    return max(-CAP_LOG10, min(CAP_LOG10, log10_lr))


def weighed(
    answer: Answer, steadiness: Steadiness | None, circumstances: Circumstances
) -> tuple[Weighed, ...]:
    """Every conclusion with its steadiness and the prior odds stated for it."""
    steady = {} if steadiness is None else {(s.question, s.about): s for s in steadiness.answers}
    draws = 0 if steadiness is None else steadiness.draws
    stated = {each.question: each.odds for each in reversed(circumstances.prior_odds)}
    found = []
    for each in answer.conclusions:
        names = names_of_question(each.question, each.about)
        odds = next((stated[name] for name in names if name in stated), None)
        found.append(Weighed(each, steady.get((each.question, each.about)), draws, odds))
    return tuple(found)


def names_of_question(question: Asked, about: str) -> tuple[str, ...]:
    """The names by which prior odds are stated for a question. What it is about alone names the
    part or paper itself, not what is struck on it.

    >>> names_of_question(Asked.CORE, "engine")
    ('core engine', 'engine', 'core')
    """
    kind = question.value
    alone = () if question is Asked.STAMP else (about,)
    return (f"{kind} {about}", *alone, kind)
