"""How strongly it speaks: what does not fit, and findings to likelihood ratios, summed exactly.

`answer` gives what was found and how strongly it speaks; `steadiness`, on demand, how far that
rests on assumed rates; `weighed` the two together (see docs/weighing.md).
"""

from witnessmark.weighing.assumed import Assumed, assumed_rows
from witnessmark.weighing.second.answer import answer
from witnessmark.weighing.second.build import NoBearerError
from witnessmark.weighing.second.numbers import MOST_MARKS, TooManyMarksError
from witnessmark.weighing.second.records import (
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
from witnessmark.weighing.second.steady import steadiness
from witnessmark.weighing.weighed import (
    CAP_LOG10,
    FEWEST_TURNED,
    SAYING_LOG10,
    Standing,
    Weighed,
    capped,
    names_of_question,
    weighed,
)

__all__ = [
    "CAP_LOG10",
    "FEWEST_TURNED",
    "MOST_MARKS",
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
    "names_of_question",
    "steadiness",
    "weighed",
]
