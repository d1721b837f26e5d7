"""Measures of likelihood ratios whose truth is known: how good they are, how often they mislead.

Every measure takes a `Scored` set. Classes are kept apart: a share or a mean is taken over
the cases of one class, by their weights, so how many cases of each class were drawn does
not matter. Where a class has no case (or no weight), what would need it is nan.

Sources: N. Brümmer and J. du Preez, "Application-independent evaluation of speaker
detection", Computer Speech & Language 20 (2006); D. Meuwly, D. Ramos and R. Haraksim, "A
guideline for the validation of likelihood ratio methods used for forensic evidence
evaluation", Forensic Science International 276 (2017); R. Royall, "On the probability of
observing misleading statistical evidence", Journal of the American Statistical Association
95 (2000).
"""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Bools = NDArray[np.bool_]
Places = NDArray[np.intp]


@dataclass(frozen=True, slots=True, eq=False)
class Scored:
    """Cases with the ratio that each was given and with what is true of it.

    `log10_lr` (n,) are log10 likelihood ratios, true proposition over false one, infinite
    ones allowed; `is_true` (n,) says whether the first proposition is true; `weight` (n,)
    are importance weights, not negative, or one number for all; ones if left out.
    Raises ValueError where shapes differ, a ratio is nan, or a weight is none.
    """

    log10_lr: Array
    is_true: Bools
    weight: Array = field(default_factory=lambda: np.ones(()))

    def __post_init__(self) -> None:
        """Bring all three to arrays of one shape, and check them."""
        ratios = np.asarray(self.log10_lr, dtype=np.float64)
        truths = np.asarray(self.is_true, dtype=np.bool_)
        weights = np.asarray(self.weight, dtype=np.float64)
        if weights.ndim == 0:
            weights = np.full(ratios.shape, weights)
        if ratios.ndim != 1 or truths.shape != ratios.shape or weights.shape != ratios.shape:
            raise ValueError("ratios, truths and weights must be one row of the same length")
        if np.isnan(ratios).any():
            raise ValueError("a log10 LR is nan")
        if not np.isfinite(weights).all() or (weights < 0.0).any():
            raise ValueError("a weight is negative or not finite")
        object.__setattr__(self, "log10_lr", ratios)
        object.__setattr__(self, "is_true", truths)
        object.__setattr__(self, "weight", weights)

    def at(self, chosen: Places | Bools) -> "Scored":
        """The cases at some places (indices, repeated or not, or a mask (n,))."""
        return Scored(self.log10_lr[chosen], self.is_true[chosen], self.weight[chosen])


class ByClass(NamedTuple):
    """One number for the true cases and one for the false cases."""

    true: float
    false: float


Measure = Callable[[Scored], float]
"""What gives one number for a set, such as `cllr`."""


@dataclass(frozen=True, slots=True)
class Interval:
    """A value with its interval; an end is infinite where the cases set no bound to it."""

    low: float
    value: float
    high: float


@dataclass(frozen=True, slots=True)
class Bin:
    """The cases whose stated log10 LR lies from `low` (taken in) to `high` (left out).

    `stated` is the weighted mean of their log10 LR, each class counting by its own share
    (nan for none); `observed` the log10 of the share of true cases over the share of false
    cases that fell in here, with its interval; the counts are of cases drawn that have weight.
    """

    low: float
    high: float
    stated: float
    observed: Interval
    true_count: int
    false_count: int

    @property
    def is_open(self) -> bool:
        """Does its interval lack an end, for too few cases of one class or of both?"""
        return math.isinf(self.observed.low) or math.isinf(self.observed.high)


def class_weights(scored: Scored) -> tuple[Array, Array]:
    """Weights (n,) of the true cases and of the false cases, each adding up to 1.

    Cases of the other class have 0; a class without weight has nan for all its cases, and
    so its sums are nan.
    """
    found = []
    for of_class in (scored.is_true, ~scored.is_true):
        weights = np.where(of_class, scored.weight, 0.0)
        total = weights.sum()
        found.append(weights / total if total > 0.0 else np.full(weights.shape, np.nan))
    return found[0], found[1]


def cllr(scored: Scored) -> float:
    """The log-likelihood-ratio cost, in bits.

        ( mean over true of log2(1 + 1/LR)  +  mean over false of log2(1 + LR) ) / 2

    0 for ratios that are always right and without bound, 1 for a tool that always says
    LR = 1, more than 1 for one that misleads on the whole. Brümmer & du Preez 2006.
    """
    if not _has_both(scored):
        return math.nan
    bits = scored.log10_lr * math.log2(10.0)
    costs = np.logaddexp2(0.0, np.where(scored.is_true, -bits, bits))
    return float(sum(_mean(costs, weights) for weights in class_weights(scored)) / 2.0)


def cllr_min(scored: Scored) -> float:
    """The part of `cllr` that no recalibration can take away, in bits: discrimination.

    The cost after the best monotone recalibration, found by pool-adjacent-violators at
    equal class priors with the weights of the cases; cases of the same ratio stay together.
    With p the recalibrated probability of true, LR = p / (1 - p). Never above `cllr`, and
    the same after every strictly increasing change of the ratios. Brümmer & du Preez 2006.
    """
    if not _has_both(scored):
        return math.nan
    from sklearn.isotonic import isotonic_regression

    _, place = np.unique(scored.log10_lr, return_inverse=True)
    true, false = (np.bincount(place, weights) for weights in class_weights(scored))
    held = true + false > 0.0
    true, false = true[held], false[held]
    both = true + false
    fitted: Array = isotonic_regression(true / both, sample_weight=both)
    block = np.concatenate([[0], np.cumsum(np.diff(fitted) != 0.0)])
    true, false = np.bincount(block, true), np.bincount(block, false)
    both = true + false
    return max(0.0, (_surprise(true, both) + _surprise(false, both)) / 2.0)


def cllr_cal(scored: Scored) -> float:
    """What is lost by calibration alone, in bits: `cllr` less `cllr_min`. Meuwly et al. 2017."""
    return cllr(scored) - cllr_min(scored)


def misleading(scored: Scored, threshold: float) -> ByClass:
    """Shares of cases whose ratio points the wrong way by more than a threshold (at least 1).

    Of true cases those with LR < 1/threshold, of false cases those with LR > threshold.
    Where ratios are what they claim to be neither exceeds 1/threshold: P(LR >= k | false)
    <= 1/k (Royall 2000).
    """
    edge = math.log10(threshold)
    return _shares(scored, scored.log10_lr < -edge, scored.log10_lr > edge)


def overall_misleading(scored: Scored, threshold: float, true_share: float) -> float:
    """Share of all cases that mislead by more than a threshold, where `true_share` of cases
    are true: the shares of `misleading` weighted by it and by what it leaves."""
    shares = misleading(scored, threshold)
    return true_share * shares.true + (1.0 - true_share) * shares.false


def reaching(scored: Scored, threshold: float) -> ByClass:
    """Shares of cases whose ratio points the right way by more than a threshold (at least 1).

    Of true cases those with LR > threshold, of false cases those with LR < 1/threshold.
    """
    edge = math.log10(threshold)
    return _shares(scored, scored.log10_lr > edge, scored.log10_lr < -edge)


def tippett(scored: Scored, grid: Array) -> tuple[Array, Array]:
    """Shares of true and of false cases with log10 LR >= x, at every x of a grid.

    `grid` has any shape, in log10 LR; both shares have the same. Meuwly et al. 2017.
    """
    order = np.argsort(scored.log10_lr, kind="stable")
    place = np.searchsorted(scored.log10_lr[order], grid, side="left")
    found = []
    for weights in class_weights(scored):
        below = np.concatenate([[0.0], np.cumsum(weights[order])])
        found.append(np.clip(1.0 - below[place], 0.0, 1.0))
    return found[0], found[1]


def unseen_share(weight: Array, level: float = 0.95) -> float:
    """The largest share of a class that is consistent with none of its cases showing it.

    `weight` (n,) are the weights of the cases looked at, worth (sum w)^2 / (sum w^2) cases
    of equal weight; of so many, none shows what has this share with probability 1 - level:
    -ln(1 - level) / n, which is 3/n at 0.95 (J. Hanley and A. Lippman-Hand, "If nothing
    goes wrong, is everything all right?", JAMA 249, 1983). 1 where there is no case.
    """
    squares = float((weight**2).sum())
    if squares == 0.0:
        return 1.0
    return min(1.0, -math.log(1.0 - level) * squares / float(weight.sum()) ** 2)


def reliability(
    scored: Scored,
    bins: Sequence[float] | Array,
    draws: int,
    rng: np.random.Generator,
    level: float = 0.95,
    few: int = 5,
) -> list[Bin]:
    """Stated against observed log10 LR, bin by bin, with bootstrap intervals.

    `bins` (m + 1,) are rising edges in log10 LR; the first and the last bin take in what
    lies beyond them, so every case is in one of the m bins. Observed is

        log10( weighted share of true cases in the bin / weighted share of false cases )

    which equals what is stated where ratios are calibrated. A bin with fewer than `few`
    true cases has no lower end, one with fewer than `few` false cases no upper end. Where
    a class has none at all its share is taken to be at most `unseen_share`.
    """
    edges = np.asarray(bins, dtype=np.float64)
    place = np.searchsorted(edges[1:-1], scored.log10_lr, side="right")
    m = len(edges) - 1
    drawn = [_bin_ratios(place[at], scored.at(at), m) for at in resamples(scored, draws, rng)]
    ratios = np.array(drawn).reshape(draws, m)
    observed = _bin_ratios(place, scored, m)
    found = []
    for k in range(m):
        inside = scored.at((place == k) & (scored.weight > 0.0))
        n_true = int(inside.is_true.sum())
        n_false = len(inside.is_true) - n_true
        low, high = _quantiles(ratios[:, k], level)
        if n_true == 0 or n_false == 0:
            low, high = _one_sided(scored, place == k, level)
        low = -math.inf if n_true < few else min(low, float(observed[k]))
        high = math.inf if n_false < few else max(high, float(observed[k]))
        span = Interval(low, float(observed[k]), high)
        stated = _stated(scored, place == k)
        found.append(Bin(float(edges[k]), float(edges[k + 1]), stated, span, n_true, n_false))
    return found


def resamples(scored: Scored, draws: int, rng: np.random.Generator) -> Iterator[Places]:
    """Places (n,) of resampled cases, draw by draw: as many of each class as there are."""
    classes = [np.flatnonzero(scored.is_true), np.flatnonzero(~scored.is_true)]
    for _ in range(draws):
        yield np.concatenate([c[rng.integers(0, max(1, len(c)), len(c))] for c in classes])


def bootstrap(
    scored: Scored, measure: Measure, draws: int, rng: np.random.Generator, level: float = 0.95
) -> Interval:
    """A measure with its percentile bootstrap interval, classes resampled apart.

    The interval is widened to hold the value where all draws lie to one side, as those of
    `cllr_min` may: a set with repeated cases is easier to sort. It is nan where a draw has
    none. A share that no case shows has an interval of 0 to 0: see `unseen_share`.
    """
    drawn = [measure(scored.at(at)) for at in resamples(scored, draws, rng)]
    return _interval(measure(scored), np.array(drawn), level)


def bootstrap_difference(
    first: Scored,
    second: Scored,
    measure: Measure,
    draws: int,
    rng: np.random.Generator,
    level: float = 0.95,
) -> Interval:
    """measure(first) - measure(second) with its interval, for two scorings of the same cases.

    Both are resampled at the same places, so what the cases have in common drops out.
    Raises ValueError where truths or weights differ.
    """
    if not (
        np.array_equal(first.is_true, second.is_true)
        and np.array_equal(first.weight, second.weight)
    ):
        raise ValueError("the two scorings are not of the same cases")
    drawn = [measure(first.at(at)) - measure(second.at(at)) for at in resamples(first, draws, rng)]
    return _interval(measure(first) - measure(second), np.array(drawn), level)


def _interval(value: float, drawn: Array, level: float) -> Interval:
    if math.isnan(value) or np.isnan(drawn).any():
        return Interval(math.nan, value, math.nan)
    low, high = _quantiles(drawn, level)
    return Interval(min(low, value), value, max(high, value))


def _quantiles(drawn: Array, level: float) -> tuple[float, float]:
    """Both ends of the middle `level` of draws: of the two draws nearest, the outer; no nan."""
    known = np.sort(drawn[~np.isnan(drawn)])
    if known.size == 0:
        return math.nan, math.nan
    tail = (1.0 - level) / 2.0 * (known.size - 1)
    return float(known[math.floor(tail)]), float(known[known.size - 1 - math.floor(tail)])


def _bin_ratios(place: Places, scored: Scored, m: int) -> Array:
    """log10 of the share of true over the share of false cases in each of m bins, (m,)."""
    true, false = (np.bincount(place, w, minlength=m) for w in class_weights(scored))
    with np.errstate(divide="ignore", invalid="ignore"):
        ratios: Array = np.log10(true) - np.log10(false)
    return ratios


def _stated(scored: Scored, inside: Bools) -> float:
    """Mean log10 LR of a bin, true and false cases counting by their shares of their class."""
    both = sum(np.nan_to_num(weights) for weights in class_weights(scored)) * inside
    return _mean(scored.log10_lr, both / both.sum()) if both.sum() > 0.0 else math.nan


def _one_sided(scored: Scored, inside: Bools, level: float) -> tuple[float, float]:
    """Ends for a bin in which a class has no case: its share is at most `unseen_share`."""
    ends = [-math.inf, math.inf]
    shares = [_share(weights, inside) for weights in class_weights(scored)]
    if shares[0] == 0.0 and shares[1] > 0.0:
        ends[1] = math.log10(unseen_share(scored.weight[scored.is_true], level) / shares[1])
    if shares[1] == 0.0 and shares[0] > 0.0:
        ends[0] = math.log10(shares[0] / unseen_share(scored.weight[~scored.is_true], level))
    return ends[0], ends[1]


def _has_both(scored: Scored) -> bool:
    return all(
        (scored.weight[of_class] > 0.0).any() for of_class in (scored.is_true, ~scored.is_true)
    )


def _mean(values: Array, weights: Array) -> float:
    """Weighted mean; values without weight do not count, even infinite ones."""
    return float((values[weights > 0.0] * weights[weights > 0.0]).sum())


def _surprise(weights: Array, both: Array) -> float:
    """Weighted mean of log2 of how many times a block outweighs its cases of one class."""
    held = weights > 0.0
    return float((weights[held] * np.log2(both[held] / weights[held])).sum())


def _shares(scored: Scored, if_true: Bools, if_false: Bools) -> ByClass:
    true, false = class_weights(scored)
    return ByClass(_share(true, if_true), _share(false, if_false))


def _share(weights: Array, chosen: Bools) -> float:
    """Share of a class that is chosen, never beyond 1 by rounding; nan for an empty class."""
    if weights.size == 0 or np.isnan(weights).any():
        return math.nan
    return min(1.0, float(weights[chosen].sum()))
