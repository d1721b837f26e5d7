"""How strongly it speaks: what does not fit, and findings to likelihood ratios, summed exactly.

`answer` gives what was found and how strongly it speaks; `steadiness`, on demand, how far that
rests on assumed rates; `weighed` the two together (see docs/weighing.md).
"""

from witnessmark.weighing.conclusions.answer import answer
from witnessmark.weighing.conclusions.awaited import ANSWER_AWAITED, DIFFERS, NO_RECORD
from witnessmark.weighing.conclusions.steady import steadiness
from witnessmark.weighing.conclusions.weighed import (
    CAP_LOG10,
    FEWEST_TURNED,
    SAYING_LOG10,
    Standing,
    Weighed,
    capped,
    names_of_question,
    weighed,
)
from witnessmark.weighing.evidence.numbers import MOST_MARKS, TooManyMarksError
from witnessmark.weighing.network.build import NoBearerError
from witnessmark.weighing.network.network import forget
from witnessmark.weighing.rates import (
    Assumed,
    RateRow,
    RateValues,
    assumed_rows,
    rate_rows,
    rate_values,
)
from witnessmark.weighing.records import (
    Answer,
    Asked,
    Conclusion,
    Contribution,
    CurvePoint,
    LeadingRow,
    Misfit,
    MisfitKind,
    NextLook,
    Pair,
    Steadiness,
    Steady,
    Stop,
    Way,
)

__all__ = [
    "ANSWER_AWAITED",
    "CAP_LOG10",
    "DIFFERS",
    "FEWEST_TURNED",
    "MOST_MARKS",
    "NO_RECORD",
    "SAYING_LOG10",
    "Answer",
    "Asked",
    "Assumed",
    "Conclusion",
    "Contribution",
    "CurvePoint",
    "LeadingRow",
    "Misfit",
    "MisfitKind",
    "NextLook",
    "NoBearerError",
    "Pair",
    "RateRow",
    "RateValues",
    "Standing",
    "Steadiness",
    "Steady",
    "Stop",
    "TooManyMarksError",
    "Way",
    "Weighed",
    "answer",
    "assumed_rows",
    "capped",
    "forget",
    "names_of_question",
    "rate_rows",
    "rate_values",
    "steadiness",
    "weighed",
]
