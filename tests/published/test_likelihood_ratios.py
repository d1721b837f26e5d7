"""Worked numbers of likelihood ratios and posteriors that others have published.

The ratio of a trait that a share P of all have is what the factor over the
numbers gives for a mark that shows it for certain: 1 / P.
"""

from math import log2, log10

import numpy as np
import pytest

from tests.weighing.cars import saloon, weighed
from witnessmark.weighing import Question
from witnessmark.weighing.next_looks import bits
from witnessmark.weighing.numbers import ALONE, CLAIMED, NumberItem, Showing, number_tensor
from witnessmark.weighing.spread import of_places
from witnessmark.wording import Favours, verbal_equivalent


def ratio_of_match(chances: list[float]) -> float:
    """LR of a certain match in independent traits with these shares among all others."""
    chance = np.array([[share, 1.0 - share] for share in chances])
    claimed = np.zeros(len(chances), dtype=np.intp)
    item = NumberItem("trait", (Showing(0, (CLAIMED, ALONE)),), of_places(chance), claimed)
    seen = np.tile([1.0, 0.0], (len(chances), 1))
    tensor = number_tensor(item, [np.maximum(seen, 1e-300)], [False])
    return float(tensor[0] / tensor[1])


def posterior(prior_odds: float, ratio: float) -> float:
    """Posterior odds are prior odds times the ratio; a probability is odds over 1 + odds."""
    odds = prior_odds * ratio
    return odds / (1.0 + odds)


def words(ratio: float) -> str:
    return verbal_equivalent(log10(ratio)).words


def test_the_city_of_ten_million():
    """One source, match chance one in a million: about 1 in 11.

    https://tristancode.com/learn/bayes/0008-puzzle/ (the figure computed from it).
    """
    others, chance = 9_999_999, 1e-6
    ratio = ratio_of_match([0.1] * 6)
    assert ratio == pytest.approx(1e6, rel=1e-9)
    assert others * chance == pytest.approx(10.0, rel=1e-6)
    assert posterior(1.0 / others, ratio) == pytest.approx(0.0909, abs=5e-5)
    assert posterior(1.0 / others, ratio) == pytest.approx(1.0 / (1.0 + others * chance))
    assert words(1e6) == "extremely strong support"


def test_the_island_of_a_thousand():
    """A trait of share 0.004 among 1,000 others: a ratio of 250, a posterior of 0.2.

    D. Colquhoun, "Statistics and the law: the prosecutor's fallacy"; the 1,000 is
    in its abstract, the 0.004 from memory.
    """
    ratio = ratio_of_match([0.004])
    assert ratio == pytest.approx(250.0, rel=1e-9)
    assert words(ratio) == "moderately strong support"
    assert posterior(1.0 / 1_000, ratio) == pytest.approx(0.2, rel=1e-9)


def test_the_blood_type_of_one_in_a_hundred():
    """Of a million 10,000 share it; that is no posterior of 0.99, and no worthless finding.

    http://sciref.net/o10520.html
    """
    ratio = ratio_of_match([0.01])
    assert ratio == pytest.approx(100.0, rel=1e-9)
    assert 1_000_000 * 0.01 == 10_000
    assert posterior(1.0 / 1_000_000, ratio) == pytest.approx(1.0 / 10_001, rel=1e-9)
    assert posterior(1.0, ratio) == pytest.approx(100 / 101)


@pytest.mark.parametrize(
    ("ratio", "said"), [(10, "moderate support"), (1_000_000, "extremely strong support")]
)
def test_support_grows_with_the_distance_from_one(ratio, said):
    """University of Dundee, Leverhulme Research Centre, LR book, section 5.2.

    https://lrcfs-ap2.dundee.ac.uk/lr_book/quantifying-probative-value.html
    """
    assert words(ratio) == said
    assert words(1.0 / ratio) == said
    assert verbal_equivalent(log10(ratio)).favours is Favours.FIRST
    assert verbal_equivalent(-log10(ratio)).favours is Favours.SECOND


@pytest.mark.parametrize(
    ("below", "edge", "lower", "upper"),
    [
        (9.99, 10, "weak support", "moderate support"),
        (99.9, 100, "moderate support", "moderately strong support"),
        (999, 1_000, "moderately strong support", "strong support"),
        (9_999, 10_000, "strong support", "very strong support"),
        (999_999, 1_000_000, "very strong support", "extremely strong support"),
    ],
)
def test_the_bands_are_those_of_the_published_table(below, edge, lower, upper):
    """University of Dundee, LR book, Table 5.3: "at least … but less than"."""
    assert (words(below), words(edge)) == (lower, upper)
    assert (words(1 / below), words(1 / edge)) == (lower, upper)


def test_stated_prior_odds_are_multiplied_by_the_ratio():
    """The odds form: the prior is the examiner's, the ratio the model's."""
    stated = {"question": "identity", "odds": 4.0, "reason": "Four of five offered are right."}
    plain, with_odds = (
        next(c for c in weighed(case).conclusions if c.question is Question.IDENTITY)
        for case in (saloon(), saloon(circumstances={"prior_odds": [stated]}))
    )
    assert plain.prior_odds is None
    assert plain.posterior_odds is None
    assert with_odds.lr.log10_lr == pytest.approx(plain.lr.log10_lr, abs=1e-9)
    assert with_odds.posterior_odds == pytest.approx(4.0 * 10.0**plain.lr.log10_lr, rel=1e-9)


@pytest.mark.parametrize("error", [0.0, 0.15, 0.5])
def test_a_look_that_errs_either_way_tells_what_such_a_channel_carries(error):
    """A yes or no that is wrong with chance f carries 1 - H(f) bits at even odds; 0.39 at 0.15.

    The binary symmetric channel, C. E. Shannon, "A Mathematical Theory of
    Communication", 1948; the value at 0.15 in D. MacKay, "Information Theory,
    Inference, and Learning Algorithms", chapter 9 (from memory, computed here too).
    """
    parts = [p * log2(p) for p in (error, 1.0 - error) if p]
    table = np.array([[1.0 - error, error], [error, 1.0 - error]])
    assert bits(table, 1.0) == pytest.approx(1.0 + sum(parts), abs=1e-9)
    if error == 0.15:
        assert bits(table, 1.0) == pytest.approx(0.39, abs=0.005)
