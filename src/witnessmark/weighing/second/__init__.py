"""The weighing, second edition: a network of one car's pieces, summed exactly.

`answer` gives what was found and how strongly it speaks; `steadiness` how far that rests on
assumed rates. docs/decisions/0034 says why it is as it is; every rate that is drawn is a row
of tables/rates.csv, and nothing here knows a maker.
"""

from witnessmark.weighing.second.answer import answer
from witnessmark.weighing.second.rates import RateRow, RateValues, rate_rows, rate_values
from witnessmark.weighing.second.records import (
    Answer,
    Asked,
    Conclusion,
    Contribution,
    Misfit,
    MisfitKind,
    NextLook,
    Steadiness,
    Stop,
    Way,
)
from witnessmark.weighing.second.steady import steadiness

__all__ = [
    "Answer",
    "Asked",
    "Conclusion",
    "Contribution",
    "Misfit",
    "MisfitKind",
    "NextLook",
    "RateRow",
    "RateValues",
    "Steadiness",
    "Stop",
    "Way",
    "answer",
    "rate_rows",
    "rate_values",
    "steadiness",
]
