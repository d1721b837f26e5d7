"""Dates as evidence: how well a part's date precedes the car's.

The lag of an own part has a triangular density on log(1 + days) between the
book's least and most with its mode at the usual; a share of outliers is spread
evenly over ten years either side. A part that is not own came most often from a like
car: half of them from the years about the claimed one, half from all its years of
production.
"""

import numpy as np
from numpy.typing import NDArray

from witnessmark.agreement.records import CarMarks
from witnessmark.codebook.records import Lag
from witnessmark.dates import DateSpan, PartialDate
from witnessmark.weighing.date_readings import DaysRead
from witnessmark.weighing.nodes import CharacterSource, Node, NodeKind
from witnessmark.weighing.priors import DECEIT, TableMaker
from witnessmark.weighing.rows import Table, fixed

Array = NDArray[np.float64]

OUTLIER_DAYS = 3652
"""Ten years: how far an outlier may lie either side."""
TINY = 1e-30
LIKE_SHARE = fixed("like_date_share")
"""Share of parts of other cars that were made in the years about the claimed car's."""
LIKE_DAYS = int(fixed("like_days"))
"""How far a like car's parts may lie either side of the car."""


def lag_density(days: Array, lag: Lag) -> Array:
    """Density per day of a lag, 0 outside the book's least and most."""
    shift = 1.0 - min(lag.least_days, 0)
    low, mode, high = (
        np.log(d + shift) for d in (lag.least_days - 0.5, lag.usual_days, lag.most_days + 0.5)
    )
    inside = (days >= lag.least_days) & (days <= lag.most_days)
    x = np.log(np.where(inside, days, lag.usual_days) + shift)
    rising = (x - low) / max(mode - low, 1e-9)
    falling = (high - x) / max(high - mode, 1e-9)
    peak = 2.0 / (high - low)
    density = peak * np.where(x <= mode, rising, falling) / np.exp(x)
    found: Array = np.where(inside, np.maximum(density, 0.0), 0.0)
    return found


def built_span(car: CarMarks) -> DateSpan | None:
    """The days on which the claimed car was built, as far as the claim or its year says."""
    if car.casefile.claim.built:
        return PartialDate.parse(car.casefile.claim.built).span()
    year = car.context.model_year
    return car.book.days_built(car.context, year, year) if year else None


def date_fit(read: DaysRead, built: DateSpan, lag: Lag) -> Array:
    """Probability of the date under (fits the lag, outlier, another car's), over the last:
    shape (3,)."""
    step = max(1, built.days() // 60)
    built_days = np.arange(built.first.toordinal(), built.last.toordinal() + 1, step, dtype=np.intp)
    lags = np.arange(lag.least_days, lag.most_days + 1)
    density = lag_density(lags.astype(np.float64), lag)
    density /= density.sum()
    places = built_days[:, None] - lags[None, :] - read.first
    inside = (places >= 0) & (places < read.likelihood.size)
    likely = np.where(inside, read.likelihood[np.clip(places, 0, read.likelihood.size - 1)], 0.0)
    # Days outside the form's years cannot have been written: the others share their density.
    fits = float(((likely @ density) / np.maximum(inside @ density, TINY)).mean())
    outlies = float(read.mean_between(built_days - OUTLIER_DAYS, built_days + OUTLIER_DAYS).mean())
    like = float(read.mean_between(built_days - LIKE_DAYS, built_days + LIKE_DAYS).mean())
    other = (1.0 - LIKE_SHARE) * float(read.likelihood.mean()) + LIKE_SHARE * like
    return np.array([fits, outlies, other]) / max(other, TINY)


def date_table(maker: TableMaker, node: Node) -> Table:
    """P(fits, outlier, even | D, S), shape (3, states, 3).

    A careful hand dates a part rightly; on a paper made later anybody writes the
    date that the claim states.
    """
    table = Table((len(DECEIT), len(node.states), 3))
    for d, deceit in enumerate(DECEIT):
        for state, node_state in enumerate(node.states):
            if node_state.source is CharacterSource.OWN:
                maker.put(table, (d, state), {1: "date.outlier"}, 0)
            elif node_state.source is CharacterSource.MADE and (
                deceit == "skilled" or node.kind is NodeKind.PAPER
            ):
                maker.put(table, (d, state), {0: "date.made_right"}, 2)
            else:
                table.put_certain((d, state), 2)
    return table


def stated_day(read: DaysRead, built: DateSpan) -> tuple[Array, float]:
    """A paper's own day of building against the claimed one: (agrees, differs) over chance.

    Also the chance that another car's day would agree.
    """
    days = read.first + np.arange(read.likelihood.size)
    within = (days >= built.first.toordinal()) & (days <= built.last.toordinal())
    share = min(0.99, max(1, int(within.sum())) / read.likelihood.size)
    agrees = float(read.likelihood[within].mean()) if within.any() else 0.0
    differs = float(read.likelihood[~within].mean()) if not within.all() else 0.0
    likelihood = np.maximum(np.array([agrees, differs]), TINY)
    chance = share * likelihood[0] + (1.0 - share) * likelihood[1]
    return likelihood / chance, share


def stated_day_table(maker: TableMaker, node: Node, share: float) -> Table:
    """P(agrees, differs | S), shape (states, 2): a factory paper but for slips, one made
    later as the claim states it, another car's by chance."""
    table = Table((len(node.states), 2))
    for state, node_state in enumerate(node.states):
        if node_state.source is CharacterSource.OWN:
            maker.put(table, (state,), {1: "codes.slip"}, 0)
        elif node_state.source is CharacterSource.MADE:
            maker.put(table, (state,), {0: "codes.made"}, 1)
        else:
            table.base[state] = (share, 1.0 - share)
    return table
