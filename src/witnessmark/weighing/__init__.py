"""How strongly it speaks: findings to likelihood ratios, exactly, with their bounds.

`weigh` builds a small Bayesian network of one car (see docs/weighing.md) and
sums it exactly. Every assumed number is a row of tables/assumed.csv.
"""

from witnessmark.weighing.nodes import marks_bearing
from witnessmark.weighing.numbers import MARKS_PER_ITEM
from witnessmark.weighing.records import (
    Assumption,
    BestSet,
    Conclusion,
    Contribution,
    CurvePoint,
    EvidenceItem,
    LikelihoodRatio,
    LookOutcome,
    MarkGroup,
    MarkState,
    NextLook,
    PropositionPair,
    Question,
    Standing,
    StateShare,
    Weighing,
)
from witnessmark.weighing.rows import Row, model_rows, shipped_rows
from witnessmark.weighing.weigh import NoBearerError, best_looks, weigh

__all__ = [
    "MARKS_PER_ITEM",
    "Assumption",
    "BestSet",
    "Conclusion",
    "Contribution",
    "CurvePoint",
    "EvidenceItem",
    "LikelihoodRatio",
    "LookOutcome",
    "MarkGroup",
    "MarkState",
    "NextLook",
    "NoBearerError",
    "PropositionPair",
    "Question",
    "Row",
    "Standing",
    "StateShare",
    "Weighing",
    "best_looks",
    "marks_bearing",
    "model_rows",
    "shipped_rows",
    "weigh",
]
