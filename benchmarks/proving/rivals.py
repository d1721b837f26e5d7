"""What the tool is set against: rules that people use, and a machine that learns from cases.

All three learn on cases of the plain world, of their own, which nobody is scored on.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from sklearn.linear_model import LogisticRegressionCV
from sklearn.pipeline import Pipeline, make_pipeline
from sklearn.preprocessing import StandardScaler

from benchmarks.proving.run import Answered, pairs

Array = NDArray[np.float64]

AGREE, FLAGS, LEARNED = "all numbers agree", "count of red flags", "logistic regression"
FEWEST = 8
"""Cases of either side from which something can be learned."""
RIVALS = (AGREE, FLAGS, LEARNED)


@dataclass(frozen=True)
class Rivals:
    """What the three learned for one question: log10 LR of agreeing and of not, and two
    fitted regressions whose log-odds are ln LR, since both classes weigh alike."""

    agree: tuple[float, float]
    flags: Pipeline
    learned: Pipeline

    def log10_ratios(self, question: str, answers: list[Answered]) -> dict[str, Array]:
        """The answers of all three to every case, each (cases,)."""
        agree = np.array([a.tool.all_agree[question] for a in answers])
        flags = np.array([[float(a.tool.flags)] for a in answers])
        features = np.array([a.tool.features for a in answers])
        return {
            AGREE: np.where(agree, self.agree[0], self.agree[1]),
            FLAGS: self.flags.decision_function(flags) / np.log(10.0),
            LEARNED: self.learned.decision_function(features) / np.log(10.0),
        }


def learn(question: str, answers: list[Answered]) -> Rivals | None:
    """Fit the three on cases with known truth; None where either side has too few."""
    asked = list(pairs(answers, question))
    true = np.array([bool(a.truth[question]) for a in asked], dtype=bool)
    if min(true.sum(), (~true).sum()) < FEWEST:
        return None
    weight = np.array([a.weight for a in asked])
    balanced = weight / np.where(true, weight[true].sum(), weight[~true].sum())
    agree = np.array([a.tool.all_agree[question] for a in asked])
    shares = [
        [
            (balanced[true & (agree == yes)].sum() + 0.002),
            balanced[~true & (agree == yes)].sum() + 0.002,
        ]
        for yes in (True, False)
    ]
    flags = np.array([[float(a.tool.flags)] for a in asked])
    features = np.array([a.tool.features for a in asked])
    scaled = balanced * len(asked)
    return Rivals(
        (
            float(np.log10(shares[0][0] / shares[0][1])),
            float(np.log10(shares[1][0] / shares[1][1])),
        ),
        _fitted(flags, true, scaled),
        _fitted(features, true, scaled),
    )


def _fitted(features: Array, true: NDArray[np.bool_], weight: Array) -> Pipeline:
    """A regression whose strength of regularisation is chosen by folds."""
    found = make_pipeline(
        StandardScaler(),
        LogisticRegressionCV(
            Cs=np.logspace(-4, 1, 8),
            cv=4,
            l1_ratios=(0.0,),
            scoring="neg_log_loss",
            max_iter=2000,
            use_legacy_attributes=False,
        ),
    )
    return found.fit(features, true, logisticregressioncv__sample_weight=weight)
