"""What the weighing gives: an Answer, and on demand its Steadiness.

All likelihood ratios are base-10 logarithms, integrated at base rates and uncapped. Nothing
here is a probability of a proposition.
"""

from dataclasses import dataclass
from enum import StrEnum

from witnessmark.codebook.records import Basis


class Asked(StrEnum):
    """The kinds of question that have a likelihood ratio."""

    IDENTITY = "identity"
    CORE = "core"
    STAMP = "stamp"
    PLATE = "plate"
    PAPER = "paper"
    ITEM = "item"


@dataclass(frozen=True, slots=True)
class Pair:
    """Two statements that exclude each other, chosen before looking."""

    first: str
    second: str


@dataclass(frozen=True, slots=True)
class Way:
    """One way in which the second proposition may be true: `log10_lr` is P(what was noted |
    first) over P(it | this way); `share` what it has of all that was noted under the second."""

    name: str
    log10_lr: float
    share: float


@dataclass(frozen=True, slots=True)
class Contribution:
    """What one thing noted does to one question: `log10_lr_change` is with it minus without.
    `about` is the surface, mark or date; `kind` number, look, code, date or absence."""

    about: str
    kind: str
    sentence: str
    log10_lr_change: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Conclusion:
    """The answer to one question about `about`, a piece or an item.

    `log10_lr` is exactly 0 where nothing was examined, and where `can_be_told` is False: nothing
    that was examined could have shown it otherwise, or nothing on such a car can. `ways` split
    the second proposition, the likeliest first.
    """

    question: Asked
    about: str
    pair: Pair
    log10_lr: float
    is_examined: bool
    can_be_told: bool = True
    ways: tuple[Way, ...] = ()
    contributions: tuple[Contribution, ...] = ()


class MisfitKind(StrEnum):
    """How firmly something does not fit, the firmest first; what follows from what was declared
    beforehand, and what rests on memory alone, argue with nobody."""

    IMPOSSIBLE = "impossible"
    AGAINST = "against"
    UNUSUAL = "unusual"
    DECLARED = "declared"
    TOLD = "told"


@dataclass(frozen=True, slots=True)
class Misfit:
    """A contradiction in one sentence. `about`: the pieces and marks of which it speaks."""

    kind: MisfitKind
    about: tuple[str, ...]
    sentence: str
    basis: Basis
    source: str

    @property
    def argues(self) -> bool:
        """Does it tell against anything? What was declared, and what rests on memory alone, does
        not."""
        return self.kind not in (MisfitKind.DECLARED, MisfitKind.TOLD)


@dataclass(frozen=True, slots=True)
class Stop:
    """What makes the car a matter for the authority before anything else."""

    about: str
    sentence: str


@dataclass(frozen=True, slots=True)
class LookOutcome:
    """One outcome of a next look and the log10 LR that it would leave."""

    outcome: str
    log10_lr: float


@dataclass(frozen=True, slots=True)
class NextLook:
    """Something to look at, again or for the first time, and what each outcome would do to one
    question."""

    about: str
    kind: str
    question: Asked
    of: str
    outcomes: tuple[LookOutcome, ...]


@dataclass(frozen=True, slots=True)
class Answer:
    """What was found and how strongly it speaks. `misfits` stand before any number."""

    misfits: tuple[Misfit, ...]
    stops: tuple[Stop, ...]
    conclusions: tuple[Conclusion, ...]
    next_looks: tuple[NextLook, ...] = ()

    def conclusion(self, question: Asked, about: str) -> Conclusion | None:
        """The answer to one question, or None where it was not asked."""
        return next(
            (c for c in self.conclusions if (c.question, c.about) == (question, about)), None
        )


@dataclass(frozen=True, slots=True)
class CurvePoint:
    """The log10 LR at one value of a rate."""

    value: float
    log10_lr: float


@dataclass(frozen=True, slots=True)
class LeadingRow:
    """A rate that moves an answer most: its rank correlation with it over the draws. `curve`
    and `turning_factor` (by which its odds would have to be wrong for the answer to turn) are
    those of the first row alone; None where no factor up to 100 turns it."""

    row: str
    correlation: float
    curve: tuple[CurvePoint, ...] = ()
    turning_factor: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Steady:
    """How far one answer rests on assumed rates: the central 90 % of its log10 LR over the
    draws, the LR integrated over them, and in how many it pointed the other way."""

    question: Asked
    about: str
    log10_lr: float
    log10_lr_low: float
    log10_lr_high: float
    turned: int
    leading: tuple[LeadingRow, ...]

    @property
    def log10_lr_nearer(self) -> float:
        """The weaker of the LR and the band's end nearer 1, which decides the word; 0 where
        the band holds 1."""
        ends = (self.log10_lr, self.log10_lr_low, self.log10_lr_high)
        if min(ends) > 0.0 or max(ends) < 0.0:
            return min(ends, key=abs)
        return 0.0


@dataclass(frozen=True, slots=True)
class Steadiness:
    """Every answer of a car with its band, over so many draws. What has next to no share of any
    answer was left out of their sums: `apart_log10` is the most by which that moved one, at the
    draws where a band ends."""

    draws: int
    answers: tuple[Steady, ...]
    apart_log10: float = 0.0
