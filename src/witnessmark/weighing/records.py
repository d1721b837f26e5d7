"""What the weighing gives: per question a likelihood ratio that never travels alone.

All likelihood ratios are base-10 logarithms and stand beside their bounds.
"""

from dataclasses import dataclass
from enum import StrEnum

from witnessmark.casefile.records import LookClass


class Question(StrEnum):
    """The kinds of conclusion that have a likelihood ratio."""

    IDENTITY = "identity"
    PLATE = "plate"
    PAPER = "paper"
    CONFIGURATION = "configuration"
    ASSEMBLY = "assembly"


class Standing(StrEnum):
    """Where a question stands: answered where the LR is beyond 3 either way, open
    where a reachable look could bring it there, else not to be established."""

    ANSWERED = "answered"
    OPEN = "open"
    CANNOT_BE_ESTABLISHED = "cannot be established"


@dataclass(frozen=True, slots=True)
class PropositionPair:
    """Two statements that exclude each other, chosen before looking."""

    first: str
    second: str


@dataclass(frozen=True, slots=True)
class LikelihoodRatio:
    """log10 LR of the first proposition over the second, with its bounds.

    `low` and `high` are the bounds when every assumed row is wrong by a factor
    of 3 in odds; `is_capped` where the cap of 10^4 either way was met.
    """

    log10_lr: float
    log10_lr_low: float
    log10_lr_high: float
    is_capped: bool = False


@dataclass(frozen=True, slots=True)
class EvidenceItem:
    """Findings weighed as one. `kind` is reading, look, codes, date, rule, absence or
    attachment; `look` is what a look counted as."""

    id: str
    kind: str
    about: str
    sentence: str
    look: LookClass | None = None


@dataclass(frozen=True, slots=True)
class Contribution:
    """What one evidence item does to one question.

    `log10_lr_without` is the LR with this item left out; `log10_lr_change` is
    with minus without. `log10_lr_in_order` is the step when items are entered
    in their order.
    """

    item: EvidenceItem
    log10_lr_without: float
    log10_lr_change: float
    log10_lr_in_order: float


@dataclass(frozen=True, slots=True)
class Assumption:
    """One row of the model's tables and what it does to one question.

    `log10_lr_at_low` and `…_at_high` are the LR with this row alone moved by a
    factor of 3 in odds down and up.
    """

    row: str
    value: float
    reason: str
    overridden: bool
    log10_lr_at_low: float
    log10_lr_at_high: float


@dataclass(frozen=True, slots=True)
class CurvePoint:
    """The LR of a question at one value of its leading assumption."""

    value: float
    log10_lr: float


@dataclass(frozen=True, slots=True)
class LookOutcome:
    """One outcome that a next look could have, its probability and the LR it would give."""

    outcome: str
    probability: float
    log10_lr: float


@dataclass(frozen=True, slots=True)
class NextLook:
    """Something not yet examined: what it would tell about one question and what it costs.

    `bits` is the expected information at `odds`; `is_reachable` False for what
    cannot be reached on this car or is not on the car (archive, laboratory).
    """

    target: str
    kind: str
    prompt: str
    bits: float
    minutes: int
    access_group: str
    access_minutes: int
    dismantling: str
    is_reachable: bool
    outcomes: tuple[LookOutcome, ...]
    site: str = ""
    caution: str = ""


@dataclass(frozen=True, slots=True)
class BestSet:
    """The looks that together tell most in a given time.

    `bits` is their joint expected information; `minutes` counts a shared access once.
    """

    minutes_given: int
    minutes: int
    bits: float
    targets: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Conclusion:
    """The answer to one question.

    `curve_row` and `curve_value` are the assumed row whose curve it is and the value used.
    `about` is the mark or assembly asked about (the bearer for identity, "car"
    for configuration). `replaced` and `struck_later` split an assembly's second
    proposition. `stated_odds` and `posterior_odds` are None unless the examiner
    stated prior odds. `next_looks` are in order of bits per minute. `settled_by`
    are looks beyond reach (paper, archive, laboratory) that could settle it.
    """

    question: Question
    about: str
    pair: PropositionPair
    lr: LikelihoodRatio
    contributions: tuple[Contribution, ...]
    assumptions: tuple[Assumption, ...]
    curve: tuple[CurvePoint, ...]
    next_looks: tuple[NextLook, ...]
    settled_by: tuple[NextLook, ...]
    best_set: BestSet | None
    odds_used: float
    odds_are_stated: bool
    standing: Standing
    prior_odds: float | None = None
    posterior_odds: float | None = None
    replaced: LikelihoodRatio | None = None
    struck_later: LikelihoodRatio | None = None
    rests_on_bearer_odds: bool = False
    curve_row: str = ""
    curve_value: float = 0.0

    @property
    def is_established(self) -> bool:
        """Can the question be answered, now or by a look within reach?"""
        return self.standing is not Standing.CANNOT_BE_ESTABLISHED


@dataclass(frozen=True, slots=True)
class MarkState:
    """Where a mark's characters most probably come from, at the odds used.

    `sources` and `attachments` hold (name, probability) in descending order.
    """

    mark: str
    sources: tuple["StateShare", ...]
    attachments: tuple["StateShare", ...]


@dataclass(frozen=True, slots=True)
class StateShare:
    """A state and its probability at the odds used."""

    state: str
    probability: float


@dataclass(frozen=True, slots=True)
class MarkGroup:
    """Marks that speak of one car: `car` is "claimed car", "donor of the body", …"""

    car: str
    marks: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Weighing:
    """All conclusions that have a likelihood ratio, and the grouping of the marks."""

    conclusions: tuple[Conclusion, ...]
    evidence: tuple[EvidenceItem, ...]
    mark_states: tuple[MarkState, ...]
    groups: tuple[MarkGroup, ...]
    bearer_odds: float
    bearer_odds_are_stated: bool
    left_out: tuple[str, ...]
