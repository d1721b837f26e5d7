"""Worked numbers of likelihood ratios and posteriors that others have published.

The ratio of a trait that a share P of all have is what the spread of numbers gives for a mark
that shows it for certain: 1 / P.
"""

from math import log10

import numpy as np
import pytest

from witnessmark.weighing import Asked, Conclusion, Pair, Weighed
from witnessmark.weighing.evidence.spread import of_places
from witnessmark.wording import Favours, verbal_equivalent


def ratio_of_match(chances: list[float]) -> float:
    """LR of a certain match in independent traits with these shares among all others."""
    spread = of_places(np.array([[share, 1.0 - share] for share in chances]))
    seen = np.tile([1.0, 0.0], (1, len(chances), 1))
    return 1.0 / float(spread.summed(seen)[0])


def weighed(ratio: float, prior_odds: float | None = None) -> Weighed:
    """An answer with this ratio, and the prior odds that somebody stated for it."""
    conclusion = Conclusion(
        question=Asked.IDENTITY,
        about="shell",
        pair=Pair("it is", "it is not"),
        log10_lr=log10(ratio),
        is_examined=True,
    )
    return Weighed(conclusion, prior_odds=prior_odds)


def posterior(prior_odds: float, ratio: float) -> float:
    """The posterior that follows from stated prior odds: odds over 1 + odds."""
    odds = weighed(ratio, prior_odds).posterior_odds
    assert odds is not None
    return odds / (1.0 + odds)


def test_the_city_of_ten_million():
    """One source, match chance one in a million: about 1 in 11 of ten million and one.

    https://tristancode.com/learn/bayes/0008-puzzle/ (the figure computed from it). What is
    printed is capped at ten thousand, so that a page claims less than that.
    """
    others, ratio = 9_999_999, ratio_of_match([0.1] * 6)
    assert ratio == pytest.approx(1e6, rel=1e-9)
    assert 1.0 / (1.0 + others / ratio) == pytest.approx(0.0909, abs=5e-5)
    assert weighed(ratio).is_capped
    assert posterior(1.0 / others, ratio) == pytest.approx(1.0 / (1.0 + others / 1e4), rel=1e-9)


def test_the_island_of_a_thousand():
    """A trait of share 0.004 among 1,000 others: a ratio of 250, a posterior of 0.2.

    D. Colquhoun, "Statistics and the law: the prosecutor's fallacy"; the 1,000 is
    in its abstract, the 0.004 from memory.
    """
    ratio = ratio_of_match([0.004])
    assert ratio == pytest.approx(250.0, rel=1e-9)
    assert posterior(1.0 / 1_000, ratio) == pytest.approx(0.2, rel=1e-9)


def test_the_blood_type_of_one_in_a_hundred():
    """Of a million 10,000 share it; that is no posterior of 0.99, and no worthless finding.

    http://sciref.net/o10520.html
    """
    ratio = ratio_of_match([0.01])
    assert ratio == pytest.approx(100.0, rel=1e-9)
    assert posterior(1.0 / 1_000_000, ratio) == pytest.approx(1.0 / 10_001, rel=1e-9)
    assert posterior(1.0, ratio) == pytest.approx(100 / 101)


def test_no_posterior_without_stated_odds():
    """The prior is the examiner's and none is shipped."""
    assert weighed(250.0).posterior_odds is None


@pytest.mark.parametrize(
    ("ratio", "said"), [(10, "moderate support"), (1_000_000, "extremely strong support")]
)
def test_support_grows_with_the_distance_from_one(ratio, said):
    """University of Dundee, Leverhulme Research Centre, LR book, section 5.2.

    https://lrcfs-ap2.dundee.ac.uk/lr_book/quantifying-probative-value.html
    """
    first, second = verbal_equivalent(log10(ratio)), verbal_equivalent(-log10(ratio))
    assert (first.words, second.words) == (said, said)
    assert (first.favours, second.favours) == (Favours.FIRST, Favours.SECOND)
